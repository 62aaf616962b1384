package hear

import (
	"slices"

	"sparehand/internal/book"
)

// never gives what the book answers at once whatever else is said, or "".
// While a sum of plaster is under way "for my foot" is said of plaster.
func (h *Hearing) never(c Context, l *line) string {
	tokens := withoutFeet(l)
	if !slices.ContainsFunc(tokens, func(t token) bool { return t.word == plaster }) && h.ofPlaster(c.Sums) {
		// said of the sum under way: its material and its asking go without saying
		tokens = slices.Insert(tokens, 0, token{word: plaster, stem: h.stem(plaster)}, token{word: amountWord, stem: h.stem(amountWord)})
	}
	l = newLine(l.text, tokens)
	hits := h.alarmHits(l)
	for _, n := range h.nevers {
		for _, p := range n.certain {
			if judge(l, hits, p) != misses {
				return n.id
			}
		}
	}
	return ""
}

const (
	plaster    = "plaster"
	amountWord = "amount"
)

func (h *Hearing) ofPlaster(list []*book.Amount) bool {
	return slices.ContainsFunc(list, func(a *book.Amount) bool {
		return slices.ContainsFunc(h.read(a.Title), func(t token) bool { return t.word == plaster })
	})
}

// withoutFeet gives the tokens of the line without the feet that are units:
// "a foot long", "2 feet by 1".
func withoutFeet(l *line) []token {
	tokens := slices.Clone(l.tokens)
	for _, a := range readAmounts(l) {
		if a.article && a.chain == 0 && !sizeWord(wordAt(l.tokens, a.to)) {
			continue // "plaster for a foot"
		}
		for i := a.from; i < a.to; i++ {
			if isOneOf(tokens[i].word, "foot", "feet") {
				tokens[i].word, tokens[i].stem = "", ""
			}
		}
	}
	return tokens
}
