package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// buildNouns finds what is asked for by its name alone: plaster in "how much
// plaster".
func (h *Hearing) buildNouns() {
	h.nouns = make(map[string]*sum)
	for i := range h.sums {
		s := &h.sums[i]
		if s.amounts != nil && s.manner == openHow && len(s.words) == 3 && s.words[1] == "much" {
			h.nouns[s.words[2]] = s
		}
	}
}

// impliedSum hears a request in another order of words than the book's: a name
// with "how much" behind it, "I need" before it, or "for" and sizes after it.
// It gives nil where there is none.
func (h *Hearing) impliedSum(c Context, l *line, list []amount) *asking {
	if l.asksHowMuch() {
		if at := h.nounApart(l, list); at >= 0 {
			return h.asksForNoun(l, at)
		}
	}
	if c.Asked != nil {
		return nil
	}
	for i, t := range l.tokens {
		needs := isOneOf(t.word, "need", "needs", "want") && wordAt(l.tokens, i+1) != "to" && !l.inverted(max(0, i-3), i)
		if at := h.nounAfter(l, list, i+1); needs && at >= 0 && (len(list) > 0 || wordAt(l.tokens, at+1) == "for") {
			return h.asksForNoun(l, at)
		}
	}
	if at := h.nounAfter(l, list, 0); at >= 0 && h.nounsFor(l, at, list) {
		return h.asksForNoun(l, at)
	}
	return nil
}

func (h *Hearing) asksForNoun(l *line, at int) *asking {
	return &asking{sum: h.nouns[l.tokens[at].stem], tokens: []int{at}}
}

// asksHowMuch reports whether the line asks "how much" or "how much of each" of
// what it names elsewhere.
func (l *line) asksHowMuch() bool {
	for i, t := range l.tokens {
		if t.word != "how" || !isOneOf(wordAt(l.tokens, i+1), "much", "many") {
			continue
		}
		last := i+2 >= len(l.tokens) || l.tokens[i+1].ends
		ofEach := wordAt(l.tokens, i+2) == "of" && isOneOf(wordAt(l.tokens, i+3), "each", "everything", "that", "it")
		needed := isOneOf(wordAt(l.tokens, i+2), "do", "would", "will", "should", "is") &&
			l.saysAny(i+3, i+6, "need", "needed", "use", "take", "weigh", "mix", "want", "buy")
		if last || ofEach || needed || wordAt(l.tokens, i+2) == "for" || l.tokens[i+2].digits {
			return true
		}
	}
	return false
}

// nounApart gives the token of the name in the line that no amount is told of,
// else of one that an amount is told of, or -1. Of names in a row the last is
// what is meant: mix in "gelatin glycerin mix".
func (h *Hearing) nounApart(l *line, list []amount) int {
	of := -1
	for i, t := range l.tokens {
		next := i + 1
		if h.nouns[t.stem] == nil || isOneOf(wordAt(l.tokens, i-1), "with", "without", "using") || next < len(l.tokens) && !t.ends && h.nouns[l.tokens[next].stem] != nil {
			continue
		}
		first := i
		for first > 0 && h.nouns[l.tokens[first-1].stem] != nil {
			first--
		}
		if slices.ContainsFunc(list, func(a amount) bool {
			return len(a.units) > 0 && weighed(a.units[0]) && (a.to == first || a.to == first-1 && wordAt(l.tokens, a.to) == "of")
		}) {
			of = i
			continue
		}
		return i
	}
	return of
}

// needed are words that may stand between "I need" and what is needed.
var needed = wordSet("liquid dry fresh new more some enough bit plain")

// nounAfter gives the token of the name that follows token i with nothing but
// small words and amounts between, or -1.
func (h *Hearing) nounAfter(l *line, list []amount, i int) int {
	for i < len(l.tokens) {
		if at := slices.IndexFunc(list, func(a amount) bool { return a.from == i }); at >= 0 {
			i = list[at].to
			continue
		}
		if h.nouns[l.tokens[i].stem] != nil {
			for i+1 < len(l.tokens) && !l.tokens[i].ends && h.nouns[l.tokens[i+1].stem] != nil {
				i++
			}
			return i
		}
		if !light[l.tokens[i].word] && !needed[l.tokens[i].word] && !courtesies[l.tokens[i].word] {
			return -1
		}
		i++
	}
	return -1
}

// nounsFor reports whether the names that begin with token at are "for"
// something of a size or a number: "plaster for a nose piece, 60 by 40 mm". The
// sizes may follow at once: "plaster 110 80 18".
func (h *Hearing) nounsFor(l *line, at int, list []amount) bool {
	for at < len(l.tokens) && (h.nouns[l.tokens[at].stem] != nil || isOneOf(l.tokens[at].word, "and", "the", "some")) {
		at++
	}
	counts := slices.ContainsFunc(list, func(a amount) bool {
		return a.chain > 0 || len(a.units) == 0 && a.value >= 1 && l.isPluralAt(a.to)
	})
	bareSizes := slices.ContainsFunc(list, func(a amount) bool { return a.from == at && a.chain == 1 })
	return wordAt(l.tokens, at) == "for" && counts || bareSizes
}

func (l *line) isPluralAt(i int) bool { return i < len(l.tokens) && l.isPlural(i) }

// othersAsked gives the further sums asked for in one breath: the names in a
// row with the one asked for, what else it is "for", and other questions.
func (h *Hearing) othersAsked(l *line, s *asking, list []amount) []*asking {
	var others []*asking
	others = append(others, h.alsoFor(l, s, list)...)
	others = append(others, h.otherQuestions(l, s)...)
	for _, o := range others {
		o.mark(l)
	}
	for _, at := range h.nounRow(l, s) { // not marked, for they may name the mix too
		others = append(others, h.asksForNoun(l, at))
	}
	return others
}

// alsoFor gives the sums of what else something is asked for: "how much clay for
// the sculpt and for the wall".
func (h *Hearing) alsoFor(l *line, s *asking, list []amount) []*asking {
	at := slices.IndexFunc(l.words, func(w word) bool { return w.at == s.tokens[0] })
	if at < 0 || len(s.words) < 4 || !l.saysAny(s.tokens[0], len(l.tokens), "and") {
		return nil
	}
	var others []*asking
	inside := insideAmounts(l, list)
	for i := range h.sums {
		o := &h.sums[i]
		if o.amounts == nil || len(o.words) < 4 || slices.Equal(o.words, s.words) || !slices.Equal(o.words[:3], s.words[:3]) {
			continue
		}
		found, ok := o.at(l, at, inside)
		if !ok {
			continue
		}
		last := found.tokens[len(found.tokens)-1]
		if last > s.tokens[2] && l.saysAny(max(0, last-2), last, "for", "and") && l.saysAny(s.tokens[2], last, "for") {
			others = append(others, found)
		}
	}
	return others
}

// nounRow gives the tokens of the names that stand in a row with the last word
// of a request: plaster, glue in "how much gelatin, plaster and glue". Water
// goes into any of them.
func (h *Hearing) nounRow(l *line, s *asking) []int {
	last := s.tokens[len(s.tokens)-1]
	if h.nouns[l.tokens[last].stem] == nil {
		return nil
	}
	var row []int
	parted := l.tokens[last].ends
	for i := last + 1; i < len(l.tokens); i++ {
		t := l.tokens[i]
		switch {
		case h.nouns[t.stem] != nil && parted:
			if t.word != "water" {
				row = append(row, i)
			}
			parted = t.ends
		case isOneOf(t.word, "and", "plus", "how", "much", "the", "some", "also"):
			parted = true
		default:
			return row
		}
	}
	return row
}

// otherQuestions gives the sums of the questions before and after the one that
// was found: "how much gelatin, and how long until it sets".
func (h *Hearing) otherQuestions(l *line, s *asking) []*asking {
	var others []*asking
	first, last := s.tokens[0], s.tokens[len(s.tokens)-1]
	from := 0
	for i := 1; i <= len(l.tokens); i++ {
		opens := i < len(l.tokens) && isOneOf(l.tokens[i].word, "how", "what", "when", "will") && (l.tokens[i-1].ends || l.tokens[i-1].word == "and")
		if !opens && i < len(l.tokens) {
			continue
		}
		if i <= first || from > last {
			if o := h.askedWithin(l, from, i); o != nil {
				others = append(others, o)
			}
		}
		from = i
	}
	return others
}

// askedWithin gives the sum that tokens from to to-1 ask for, or nil.
func (h *Hearing) askedWithin(l *line, from, to int) *asking {
	part := newLine(l.text, l.tokens[from:to])
	found := h.sumAsked(part, readAmounts(part))
	if found == nil || found.amounts == nil || len(found.words) < 3 {
		return nil
	}
	moved := &asking{sum: found.sum, loose: found.loose}
	for _, at := range found.tokens {
		moved.tokens = append(moved.tokens, at+from)
	}
	return moved
}

func insideAmounts(l *line, list []amount) []bool {
	inside := make([]bool, len(l.tokens))
	for _, a := range list {
		for i := a.from; i < a.to; i++ {
			inside[i] = true
		}
	}
	return inside
}

// sumOfFacts gives the one sum that a question must be about by the numbers
// told with it: watts are only asked after for the microwave. It gives nil
// where no number belongs to one sum alone.
func (h *Hearing) sumOfFacts(m *Meaning, ofAny func(*book.Amount) bool) *book.Amount {
	for _, told := range m.Facts {
		f := &h.book.Facts[told.Fact]
		if f.Kind != logic.Number || !h.forSums[f.ID] && f.Name != befores[0][0] || h.isSize(f) {
			continue
		}
		var only *book.Amount
		n := 0
		for _, a := range h.book.Amounts {
			if h.reached[a.ID][f.ID] && len(a.Buys) == 0 && a.Holds == nil {
				only = a
				n++
			}
		}
		if n == 1 && ofAny(only) {
			return only
		}
	}
	return nil
}

// asksByFacts gives the sum that a question without a name is about, or nil.
func (h *Hearing) asksByFacts(l *line, ranked []Candidate, m *Meaning) *book.Amount {
	if !l.asks() || h.clearTrouble(l, ranked) {
		return nil
	}
	if a := h.holdsAt(l, m); a != nil {
		return a
	}
	if !l.saysAny(0, len(l.tokens), "how", "add") {
		return nil
	}
	return h.sumOfFacts(m, func(*book.Amount) bool { return true })
}

// ofSize are words of a question how a piece fares in some air.
var ofSize = wordSet("hold holds shrink shrinks swell swells keep keeps fit fits last size which mix recipe")

// holdsAt gives the sum of how pieces keep their size, where it is asked about
// with how damp it is: "will it hold at 45 percent in the hall".
func (h *Hearing) holdsAt(l *line, m *Meaning) *book.Amount {
	damp := slices.ContainsFunc(m.Facts, func(t Heard) bool { return slices.Contains(humidityFacts[:], h.book.Facts[t.Fact].Name) })
	asks := slices.ContainsFunc(l.tokens, func(t token) bool { return ofSize[t.word] })
	at := slices.IndexFunc(h.book.Amounts, func(a *book.Amount) bool { return a.Holds != nil })
	if !damp || !asks || at < 0 {
		return nil
	}
	return h.book.Amounts[at]
}

// meansByFacts gives the sum that is meant in place of one that cannot use
// what was told with it: "how much syrup from 70 g sorbitol powder", "how long
// at 700 watts, straight from the fridge". It is asked for by the same name in
// other words of the line, or by the same question word.
func (h *Hearing) meansByFacts(l *line, s *asking, m *Meaning) *book.Amount {
	used := slices.ContainsFunc(m.Facts, func(t Heard) bool {
		return slices.ContainsFunc(s.amounts, func(a *book.Amount) bool { return h.reached[a.ID][t.Fact] })
	})
	thing := s.words[len(s.words)-1]
	alike := func(say string) bool {
		words := h.phraseOf(say)
		if h.nouns[thing] == nil {
			return !used && s.manner == openHow && len(words) > 1 && slices.Equal(words[:2], s.words[:2])
		}
		return slices.Contains(words, thing) && l.saysInOrder(words)
	}
	a := h.sumOfFacts(m, func(a *book.Amount) bool { return !slices.Contains(s.amounts, a) && slices.ContainsFunc(a.Says, alike) })
	if a == nil || slices.ContainsFunc(m.Facts, func(t Heard) bool { return h.forSums[t.Fact] && !h.reached[a.ID][t.Fact] }) {
		return nil
	}
	return a
}

// saysInOrder reports whether the line holds the words in this order, whatever
// stands between.
func (l *line) saysInOrder(stems []string) bool {
	k := 0
	for _, w := range l.words {
		if k < len(stems) && w.stem == stems[k] {
			k++
		}
	}
	return k == len(stems)
}
