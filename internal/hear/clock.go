package hear

import (
	"slices"
	"strconv"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// LeftFact is the number fact for the minutes until the call.
const LeftFact = "minutes_left"

// Clock is a time of day as said: when the piece has to be ready, or a timer
// to ring.
type Clock struct {
	Minute   int  // since midnight
	Half     bool // said without morning or evening: twelve hours later is meant as well
	Tomorrow bool
}

// How many tokens may stand between a clock time and what names the call.
const (
	callBefore = 6
	callAfter  = 3
)

// tellCall notes when the call is: as a clock time, "we go on at half seven",
// or as what is left, "I've only got ten minutes". A length of time beside the
// name of the fact is heard as any number is.
//
// What is left of the line is returned, so that nothing of it is heard twice.
func (h *Hearing) tellCall(c Context, l *line, m *Meaning) *line {
	f := h.factNamed(LeftFact)
	if f == nil || c.Asked != nil && c.Asked.Fact != nil && h.wordForWord(c.Asked.Fact, l) >= 0 {
		return l // "a twelve hour shoot" may be the answer
	}
	h.findCall(c, l, f, m)
	if m.Call == nil && !m.has(f.ID) {
		return l
	}
	return l.besides(l.claimed)
}

func (h *Hearing) findCall(c Context, l *line, f *book.Fact, m *Meaning) {
	found := h.matches(l)
	for i := range l.tokens {
		at, to, ok := readClock(l.tokens, i)
		if ok && h.namesCall(l, found, f.ID, i, to) {
			at.Tomorrow = slices.ContainsFunc(l.tokens, func(t token) bool { return t.word == "tomorrow" })
			m.Call = &at
			l.claim(i, to)
			l.claimCall(found, f.ID)
			return
		}
	}
	if asksNumber(c) && c.Asked.Fact.Unit == "min" {
		return // "I have forty minutes" may be the answer
	}
	for _, a := range readAmounts(l) {
		minutes, timed := inMinutes(a)
		if timed && h.namesCall(l, found, f.ID, a.from, a.to) && !l.saysAny(max(0, a.from-3), a.from, "runs", "run", "lasts", "last", "takes", "long", "for") {
			if next := wordAt(l.tokens, a.to); next == "ago" {
				minutes = 0
			}
			m.tell(f.ID, logic.Num(minutes), l.said(a.from, a.to))
			l.claim(a.from, a.to)
			l.claimCall(found, f.ID)
			return
		}
		if len(a.units) == 0 && a.value >= 1 && a.value < 180 && wordAt(l.tokens, a.from-1) == "in" && l.onAt(a.from) {
			m.tell(f.ID, logic.Num(a.value), l.said(a.from, a.to))
			l.claim(a.from, a.to)
			return
		}
		if timed && l.isLeft(c, a) {
			m.tell(f.ID, logic.Num(minutes), l.said(a.from, a.to))
			l.claim(a.from, a.to)
			return
		}
	}
}

// claimCall takes the words that name the call as understood.
func (l *line) claimCall(found []match, call factID) {
	for i := range found {
		if found[i].phrase.fact == call {
			l.claim(l.span(&found[i]))
		}
	}
}

// namesCall reports whether words that name the call stand beside tokens from
// to to-1.
func (h *Hearing) namesCall(l *line, found []match, call factID, from, to int) bool {
	return slices.ContainsFunc(found, func(v match) bool {
		if v.phrase.fact != call {
			return false
		}
		first, last := l.span(&v)
		return last <= from && from-last <= callBefore && !l.saysAny(max(0, first-2), from, "was", "were", "put", "did", "ago") ||
			first >= to && first-to <= callAfter
	}) || l.onAt(from)
}

// onAt reports whether the tokens before from say that somebody is on then:
// "I'm on at seven", "he's on in".
func (l *line) onAt(from int) bool {
	if isNumberWord(wordAt(l.tokens, from-2)) || from >= 2 && l.tokens[from-2].digits {
		return false // "I need 100 by 20"
	}
	if isOneOf(wordAt(l.tokens, from-1), "at", "by", "till", "until") && l.saysAny(max(0, from-9), from, "need", "needs", "needed", "want", "wants", "chair", "got", "ready", "leave", "leaves") {
		return true // "they want me in the chair at seven"
	}
	if isOneOf(wordAt(l.tokens, from-1), "to", "till", "until", "at") && l.saysAny(max(0, from-6), from, "moved", "back", "forward", "push", "pushed") {
		return true // "they've moved it to nine"
	}
	return isOneOf(wordAt(l.tokens, from-1), "at", "in") && wordAt(l.tokens, from-2) == "on" &&
		isOneOf(wordAt(l.tokens, from-3), "am", "is", "are", "be", "im", "hes", "shes")
}

func inMinutes(a amount) (float64, bool) {
	for _, u := range a.units {
		if u.Dimension != craft.Time || u.Name == "second" {
			continue
		}
		if x, err := u.Base(a.value); err == nil {
			return x, true
		}
	}
	return 0, false
}

// isLeft reports whether a length of time is what somebody has: "we've got an
// hour", "only twenty minutes left". Two hours ago, or forty minutes of
// setting, are not.
func (l *line) isLeft(c Context, a amount) bool {
	next := wordAt(l.tokens, a.to)
	over := a.to == len(l.tokens) || l.tokens[a.to-1].ends
	if isOneOf(next, "left", "remaining") || l.onAt(a.from) {
		return true
	}
	if !over && !isOneOf(next, "before", "until", "till", "to", "and", "so", "but", "then", "now", "tops", "max") {
		return false
	}
	for i := a.from - 1; i >= max(0, a.from-5); i-- {
		switch w := l.tokens[i].word; {
		case w == "it" && i == a.from-1 && isOneOf(wordAt(l.tokens, i-1), "make", "call"):
			return c.Asked == nil || c.Asked.Kind != logic.Number // "make it two hours"
		case isOneOf(w, "have", "has", "got"):
			if l.saysAny(max(0, i-2), a.from, "not", "no") {
				return false // "I haven't got 45 minutes"
			}
			return !isOneOf(wordAt(l.tokens, i-1), "it", "that", "plaster", "gelatin", "mould") && !isOneOf(next, "to")
		case !isOneOf(w, "only", "just", "about", "still", "maybe", "like", "roughly", "barely", "under", "less", "than", "another", "i", "we", "around"):
			return false
		}
	}
	return false
}

// readClock reads a time of day that begins at token i: "half past seven",
// "7 pm", "19:30", "noon", and after "at", "by" or "is" a bare hour.
func readClock(tokens []token, i int) (c Clock, to int, ok bool) {
	switch wordAt(tokens, i) {
	case "noon", "midday":
		return Clock{Minute: 12 * 60}, i + 1, true
	case "midnight":
		return Clock{}, i + 1, true
	}
	if c, to, ok = pastOrTo(tokens, i); !ok {
		if c, to, ok = hourAndMinutes(tokens, i); !ok {
			return c, to, false
		}
	}
	return withHalf(tokens, c, to)
}

// withHalf takes what says which half of the day is meant.
func withHalf(tokens []token, c Clock, to int) (Clock, int, bool) {
	hour := c.Minute / 60
	if hour > 12 || hour == 0 {
		return c, to, true
	}
	c.Half = true
	if wordAt(tokens, to) == "clock" {
		to++
	}
	word := wordAt(tokens, to)
	if word == "in" && wordAt(tokens, to+1) == "the" || word == "this" || word == "tomorrow" {
		for to++; to < len(tokens) && isOneOf(tokens[to].word, "the", "in", "tomorrow"); to++ {
		}
		word = wordAt(tokens, to)
	}
	switch word {
	case "am", "morning":
		return Clock{Minute: c.Minute % (12 * 60)}, to + 1, true
	case "pm", "evening", "tonight", "afternoon", "night":
		return Clock{Minute: c.Minute%(12*60) + 12*60}, to + 1, true
	}
	return c, to, true
}

// pastOrTo reads "half past seven", "ten to eight" and the British "half seven".
func pastOrTo(tokens []token, i int) (Clock, int, bool) {
	start := i
	if isOneOf(wordAt(tokens, i), "a") {
		i++
	}
	minutes, ok := map[string]int{"half": 30, "quarter": 15, "five": 5, "ten": 10, "twenty": 20, "5": 5, "10": 10, "20": 20}[wordAt(tokens, i)]
	if !ok {
		return Clock{}, start, false
	}
	i++
	side := wordAt(tokens, i)
	switch {
	case side == "past" || side == "to" && minutes != 30:
		i++
	case minutes == 30:
		side = "past"
	default:
		return Clock{}, start, false
	}
	hour, to, ok := hourAt(tokens, i)
	if !ok {
		return Clock{}, start, false
	}
	if side == "to" {
		minutes = -minutes
	}
	return Clock{Minute: (hour*60 + minutes + 24*60) % (24 * 60)}, to, true
}

// hourAndMinutes reads "19:30", "7.30", "seven thirty", "7 pm", and a bare hour
// where the word before or after makes it one.
func hourAndMinutes(tokens []token, i int) (Clock, int, bool) {
	if word := wordAt(tokens, i); len(word) == 4 && tokens[i].digits && (atTime(tokens, i) || isOneOf(wordAt(tokens, i-1), "call", "time")) {
		if n, err := strconv.Atoi(word); err == nil && n < 2400 && n%100 < 60 {
			return Clock{Minute: n/100*60 + n%100}, i + 1, true
		}
	}
	hour, to, ok := hourAt(tokens, i)
	if !ok {
		if whole, part, cut := strings.Cut(wordAt(tokens, i), "."); cut && len(part) == 2 {
			h, err1 := strconv.Atoi(whole)
			m, err2 := strconv.Atoi(part)
			if err1 == nil && err2 == nil && h < 24 && m < 60 && atTime(tokens, i) {
				return Clock{Minute: h*60 + m}, i + 1, true
			}
		}
		return Clock{}, i, false
	}
	minutes, end := 0, to
	if n, ok := readWhole(tokens, to); ok && n.value >= 5 && n.value < 60 && n.value == float64(int(n.value)) && !isCountOf(tokens, n.end) {
		minutes, end = int(n.value), n.end
	}
	colon := end > to && tokens[i].digits && len(wordAt(tokens, to)) == 2
	switch {
	case isOneOf(wordAt(tokens, end), "am", "pm", "clock"), colon, atTime(tokens, i) && !isCountOf(tokens, end):
		return Clock{Minute: hour*60 + minutes}, end, true
	}
	return Clock{}, i, false
}

// isCountOf reports whether a unit of anything follows, which makes a number
// no hour: "at 7 minutes".
func isCountOf(tokens []token, i int) bool {
	if i >= len(tokens) || isOneOf(tokens[i].word, "in", "am", "pm") {
		return false
	}
	var a amount
	a.takeUnit(tokens, i)
	return len(a.units) > 0
}

// atTime reports whether the word before token i tells a time.
func atTime(tokens []token, i int) bool {
	before := wordAt(tokens, i-1)
	return isOneOf(before, "at", "by", "is", "for", "around", "about") || isOneOf(before, "to", "till", "until") && !isNumberWord(wordAt(tokens, i-2))
}

func hourAt(tokens []token, i int) (hour, to int, ok bool) {
	if i >= len(tokens) {
		return 0, i, false
	}
	n, ok := readWhole(tokens, i)
	if !ok || n.end != i+1 || n.value != float64(int(n.value)) || n.value < 0 || n.value > 23 {
		return 0, i, false
	}
	return int(n.value), i + 1, true
}
