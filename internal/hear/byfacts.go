package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

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
