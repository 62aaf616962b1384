package hear

import (
	"slices"
	"strings"

	"sparehand/internal/book"
)

// alarm is one emergency with its patterns made ready.
type alarm struct {
	id      string
	certain []pattern
	maybe   []pattern
	bodies  *pattern // the vocabulary of bodies, its lists as groups, its turns as unless; or nil
	vetoes  []int32  // the unless phrases of several words
}

// pattern is heard where each group has a hit and no phrase of unless. Both
// hold places in Hearing.alarmPhrases.
type pattern struct {
	groups [][]int32
	unless []int32
}

// alarmPhrases holds each phrase of the patterns once, by its first word.
type alarmPhrases struct {
	phrases [][]string
	exact   []bool // no words may stand between: the phrases that veto
	ids     map[string]int32
	first   map[string][]int32
}

func (h *Hearing) buildAlarms(b *book.Book) {
	h.heard = alarmPhrases{ids: make(map[string]int32), first: make(map[string][]int32)}
	for _, e := range b.Emergencies {
		a := alarm{id: e.ID, certain: h.patterns(e.Certain), maybe: h.patterns(e.Maybe)}
		for _, p := range append(slices.Clip(a.certain), a.maybe...) {
			for _, id := range p.unless {
				if len(h.heard.phrases[id]) > 1 && !slices.Contains(a.vetoes, id) {
					a.vetoes = append(a.vetoes, id)
				}
			}
		}
		h.alarms = append(h.alarms, a)
	}
	h.harms = make(map[string][]map[string]bool, len(b.Emergencies))
	for _, e := range b.Emergencies {
		for _, group := range e.Harms {
			stems := map[string]bool{}
			for _, text := range group {
				for _, t := range h.read(text) {
					stems[t.stem] = true
				}
			}
			h.harms[e.ID] = append(h.harms[e.ID], stems)
		}
	}
	for _, e := range b.Elsewhere {
		if len(e.Certain) > 0 || e.Bodies != nil {
			h.nevers = append(h.nevers, alarm{id: e.ID, certain: h.patterns(e.Certain), bodies: h.bodyWords(e.Bodies)})
		}
	}
}

// bodyWords makes the vocabulary of bodies ready, in the order of the roles.
func (h *Hearing) bodyWords(b *book.Bodies) *pattern {
	if b == nil {
		return nil
	}
	all := [][]string{b.Sets, b.Scalds, b.Parts, b.Features, b.Beings, b.Players, b.Whose, b.Acts, b.Made, b.Wares, b.States, b.Mishaps, b.Worn}
	return &h.patterns([]book.Pattern{{All: all, Unless: b.Turns}})[0]
}

func (h *Hearing) patterns(list []book.Pattern) []pattern {
	out := make([]pattern, 0, len(list))
	for _, p := range list {
		var ready pattern
		for _, group := range p.All {
			ready.groups = append(ready.groups, h.phraseIDs(group, false))
		}
		ready.unless = h.phraseIDs(p.Unless, true)
		if len(ready.groups) > 0 {
			out = append(out, ready)
		}
	}
	return out
}

func (h *Hearing) phraseIDs(list []string, exact bool) []int32 {
	var out []int32
	for _, text := range spelledOut(list) {
		var stems []string
		for _, t := range h.read(text) {
			stems = append(stems, t.stem)
		}
		if len(stems) == 0 {
			continue
		}
		key := strings.Join(stems, " ")
		if exact {
			key = "=" + key // no stem holds this sign
		}
		id, known := h.heard.ids[key]
		if !known {
			id = int32(len(h.heard.phrases))
			h.heard.ids[key] = id
			h.heard.phrases = append(h.heard.phrases, stems)
			h.heard.exact = append(h.heard.exact, exact)
			h.heard.first[stems[0]] = append(h.heard.first[stems[0]], id)
		}
		out = append(out, id)
	}
	return out
}

// spelledOut gives the phrases of a list with each choice of words made: both
// "my hand" and "his hand" for "my|his hand".
func spelledOut(list []string) []string {
	var out []string
	for _, text := range list {
		phrases := []string{""}
		for _, words := range strings.Fields(text) {
			var longer []string
			for _, p := range phrases {
				for _, word := range strings.Split(words, "|") {
					longer = append(longer, p+" "+word)
				}
			}
			phrases = longer
		}
		out = append(out, phrases...)
	}
	return out
}

// alarmHits gives for each phrase of the patterns where it is said, or -1.
func (h *Hearing) alarmHits(l *line) []int16 {
	hits := make([]int16, len(h.heard.phrases))
	for i := range hits {
		hits[i] = -1
	}
	for at, t := range l.tokens {
		for _, id := range h.heard.first[t.stem] {
			if hits[id] < 0 && stemsAt(l.tokens, at, h.heard.phrases[id], h.heard.exact[id]) {
				hits[id] = int16(at)
			}
		}
	}
	return hits
}

// emergency gives the emergency that the words tell of for certain, or the
// one to ask about. Words are judged as they were said and, where slips were
// mended, as they were meant.
func (h *Hearing) emergency(l *line, ranked []Candidate) (certain, maybe string) {
	said := l
	if l.asSaid != nil {
		said = l.asSaid
	}
	if c, known := h.said[stemKey(l.tokens)]; known && c.kind == isTalk {
		return "", "" // the book itself says that it is harmless
	}
	if c, known := h.said[stemKey(said.tokens)]; known && c.kind == isEmergency {
		if certain, _ = h.alarm(said); certain == "" {
			return "", c.id
		}
		return certain, ""
	}
	if l.asSaid != nil {
		if certain, maybe = h.alarm(l.asSaid); certain != "" {
			return h.believed(l, ranked, certain)
		}
	}
	certain, meant := h.alarm(l)
	if maybe = first(maybe, meant); certain != "" {
		return h.believed(l, ranked, certain)
	}
	return h.suspect(l, ranked, maybe)
}

// believed takes what a pattern is certain of, but asks first where the whole
// of the line is most unlike an emergency: "the plaster drank my release".
func (h *Hearing) believed(l *line, ranked []Candidate, id string) (certain, maybe string) {
	id = h.settle(h.clause(l, ranked, id))
	switch {
	case l.hurtful < never || l.hurtful < doubtful && h.harmed(l, id) == "":
		return "", ""
	case l.hurtful < doubtful:
		return "", id
	}
	return id, ""
}

// clause gives the emergency of the one clause of a line that raises an alarm,
// and the ranking of that clause, since the others may tell of a trouble: "burnt
// my fingers on the jug and the cast is stuck". Where no clause stands out those
// of the whole line stay.
func (h *Hearing) clause(l *line, ranked []Candidate, id string) ([]Candidate, string) {
	for _, i := range l.cuts() {
		left, right := newLine(l.text, l.tokens[:i]), newLine(l.text, l.tokens[i:])
		here, _ := h.alarm(left)
		there, _ := h.alarm(right)
		switch {
		case here != "" && there == "" && h.hurts(right) == 0:
			return h.rank(left), here
		case there != "" && here == "" && h.hurts(left) == 0:
			return h.rank(right), there
		}
	}
	return ranked, id
}

// settle gives another emergency than the one that a pattern was certain of,
// where the words are far more like it: "white stuff on her arm, it's getting
// hot" is plaster, though hot things on arms are mostly gelatin.
func (h *Hearing) settle(ranked []Candidate, id string) string {
	best, own := Candidate{}, 0.0
	for _, c := range ranked {
		if h.book.EmergencyByID(c.ID) == nil {
			continue
		}
		if best.ID == "" {
			best = c
		}
		if c.ID == id {
			own = c.Share
		}
	}
	if best.Share > farLikelier*own {
		return best.ID
	}
	return id
}

// alarm judges a line by the patterns alone.
func (h *Hearing) alarm(l *line) (certain, maybe string) {
	hits := h.alarmHits(l)
	for _, a := range h.alarms {
		for _, p := range a.certain {
			switch judge(l, hits, p) {
			case strikes:
				return a.id, ""
			case isDenied:
				maybe = first(maybe, a.id)
			}
		}
	}
	if h.calm(l) {
		return "", ""
	}
	for _, a := range h.alarms {
		for _, p := range a.maybe {
			if maybe == "" && judge(l, hits, p) == strikes {
				maybe = a.id
			}
		}
	}
	return "", maybe
}

// first gives the first of two values that says anything.
func first[T comparable](a, b T) T {
	var empty T
	if a != empty {
		return a
	}
	return b
}

// suspect adds what the sayings of emergencies suggest. Likeness to them is
// not enough: "hand me the plaster" is like "my hand is in the plaster". So
// something of the harm must be named that the book lists, and somebody be
// spoken of, but for a fire; and then it is asked about.
func (h *Hearing) suspect(l *line, ranked []Candidate, maybe string) (string, string) {
	best, share := h.likelyEmergency(ranked)
	switch {
	case best == "" || h.vetoed(l, best) && l.hurtful < clearlyHurt:
	case l.hurtful < never || l.hurtful < doubtful && (maybe == "" || h.harmed(l, maybe) == ""):
		return "", "" // a turn of speech that holds an alarming word
	case h.hurts(l) >= 2 && share >= surely:
		return best, ""
	case l.hurtful < allButSurely && len(ranked) > 0 && h.book.ProblemByID(ranked[0].ID) != nil && ranked[0].Share >= clearly:
		// more like a trouble that the book has a page for
	case l.answering && l.hurtful < surely && (l.hurtful < allButSurely || h.harmed(l, best) == ""):
		// "on my skin" tells where the glue is
	case maybe == "" && l.hurtful >= perhaps && !h.calm(l):
		if id := h.harmed(l, best); id != "" {
			return "", id
		}
		if l.hurtful >= allButSurely && (l.ofSomebody() || l.ofFlesh() || h.book.EmergencyByID(best).Spreads) {
			return "", best // "she has gone all floppy"
		}
	}
	return "", maybe
}

// harmed gives the emergency of which the line names a harm: the likeliest, or
// else the first. A harm that befalls somebody needs somebody, but for a line
// that is all but surely of danger: "burning under the plaster bandage".
func (h *Hearing) harmed(l *line, likeliest string) string {
	id := ""
	for i := range h.book.Emergencies {
		e := &h.book.Emergencies[i]
		befalls := l.ofSomebody() || l.ofFlesh() || e.Spreads || l.hurtful >= allButSurely
		if !h.namesHarm(l, e.ID) || h.vetoed(l, e.ID) && l.hurtful < clearlyHurt || !befalls {
			continue
		}
		if e.ID == likeliest {
			return e.ID
		}
		id = first(id, e.ID)
	}
	return id
}

// namesHarm reports whether a word of each group of an emergency's harms is
// said and not denied.
func (h *Hearing) namesHarm(l *line, id string) bool {
	for _, group := range h.harms[id] {
		said := false
		for i, w := range l.words {
			said = said || group[w.stem] && !l.deniedHurt(i)
		}
		if !said {
			return false
		}
	}
	return len(h.harms[id]) > 0
}

// vetoed reports whether the line holds one of the harmless turns that the
// patterns of an emergency name. Single words there only qualify a pattern.
func (h *Hearing) vetoed(l *line, id string) bool {
	hits := h.alarmHits(l)
	for _, a := range h.alarms {
		if a.id != id {
			continue
		}
		for _, phrase := range a.vetoes {
			if hits[phrase] >= 0 {
				return true
			}
		}
	}
	return false
}

// ofSomebody reports whether the line speaks of a person other than as the
// one to hand something to.
func (l *line) ofSomebody() bool {
	for _, t := range l.tokens {
		if somebody[t.word] {
			return true
		}
	}
	return false
}

// ofFlesh reports whether the line names a part of the body.
func (l *line) ofFlesh() bool {
	for _, t := range l.tokens {
		if flesh[t.word] {
			return true
		}
	}
	return false
}

var flesh = wordSet(`skin face head neck throat mouth lips lip tongue nose nostril nostrils eye eyes eyelid eyelids eyeball cheek
cheeks chin forehead brow ear ears scalp hair shoulder arm arms forearm elbow wrist hand hands palm palms finger fingers fingertip
thumb thumbs chest belly tummy stomach back lap leg legs thigh thighs knee knees shin calf ankle foot feet toe toes body`)

var somebody = wordSet(`my his her he she i they him someone somebody kid kids child student actor myself himself herself son
daughter girl boy us we them their help herself themselves friend mate lad lass toddler baby granny grandma grandad mum mom dad
mother father brother sister wife husband partner man woman lady guy actress ferryman captain sailor singer dancer model teacher
pupil pupils class everyone everybody customer client`)

// likelyEmergency gives the best emergency and the share of all of them
// together: which of them it is can be settled after the alarm.
func (h *Hearing) likelyEmergency(ranked []Candidate) (id string, share float64) {
	for _, c := range ranked {
		if h.book.EmergencyByID(c.ID) == nil {
			continue
		}
		if id == "" {
			id = c.ID
		}
		share += c.Share
	}
	return id, share
}

// hurts counts the different words of hurt that are said and not denied.
// Mended words do not count.
func (h *Hearing) hurts(l *line) int {
	seen := make(map[string]bool)
	for i, w := range l.words {
		if h.alarmed[w.stem] && !l.tokens[w.at].slip && !l.deniedHurt(i) {
			seen[w.stem] = true
		}
	}
	return len(seen)
}

// calm reports whether the words say that nobody is hurt: a word of hurt is
// denied, and none is said otherwise.
func (h *Hearing) calm(l *line) bool {
	calm := false
	for i, w := range l.words {
		if h.alarmed[w.stem] {
			if !l.deniedHurt(i) {
				return false
			}
			calm = true
		}
	}
	return calm
}

type verdict uint8

const (
	misses verdict = iota
	isDenied
	strikes
)

// judge reports whether every group of a pattern is hit and nothing speaks
// against it; isDenied when the first group is hit under a "not".
func judge(l *line, hits []int16, p pattern) verdict {
	result := strikes
	for g, group := range p.groups {
		at := firstHit(hits, group)
		if at < 0 {
			return misses
		}
		if g == 0 && l.deniedToken(at) {
			result = isDenied
		}
	}
	if firstHit(hits, p.unless) >= 0 {
		return misses
	}
	return result
}

func firstHit(hits []int16, group []int32) int {
	for _, id := range group {
		if hits[id] >= 0 {
			return int(hits[id])
		}
	}
	return -1
}

// stemsAt reports whether the stems stand in order from token at on, with
// nothing but light words between them, and not even those where it has to be
// exact: "clay eye" is harmless, "clay in his eye" is not.
func stemsAt(tokens []token, at int, stems []string, exact bool) bool {
	k := 0
	for j := at; j < len(tokens) && k < len(stems); j++ {
		if alarmFits(tokens[j], stems[k]) {
			k++
		} else if k == 0 || exact || !light[tokens[j].word] {
			return false
		}
	}
	return k == len(stems)
}

// alarmFits compares a token with a word of a pattern. A mended misspelling
// counts only where it began with the same letter, so that harmless words do
// not turn alarming.
func alarmFits(t token, stem string) bool {
	return t.stem == stem && (!t.slip || t.first == stem[0])
}

// deniedToken is denied for a place among the tokens. A "not" inside a
// pattern's own phrase ("not breathing") stands at the place or after it, and
// so does not count.
func (l *line) deniedToken(at int) bool {
	for i, w := range l.words {
		if w.at >= at {
			return l.deniedHurt(i)
		}
	}
	return false
}

// deniedHurt is denied, but for what somebody cannot do: "can't get my hand
// out" denies no hurt.
func (l *line) deniedHurt(at int) bool {
	for i := at - 1; i >= 0 && at-i <= reach; i-- {
		if l.words[i].negate && isOneOf(wordAt(l.tokens, l.words[i].at-1), "can", "could", "will", "would") {
			return false
		}
	}
	return l.denied(at)
}
