package hear

import (
	"slices"

	"sparehand/internal/book"
)

// never gives what the book answers at once whatever else is said, or "".
// While a sum of plaster is under way "for my foot" is said of plaster.
func (h *Hearing) never(c Context, l *line) string {
	if len(h.nevers) == 0 {
		return ""
	}
	under := h.ofPlaster(c.Sums)
	tokens := withoutFeet(l)
	var hits []int16
	for _, n := range h.nevers {
		for _, p := range n.certain {
			switch {
			case len(p.groups) == vocabulary:
				if h.ontoBody(l, tokens, p, under) || h.ontoBodyAsSaid(l, p, under) {
					return n.id
				}
			case h.saysOne(tokens, p.groups[0]):
				if hits == nil {
					hits = h.alarmHits(l)
				}
				if judge(l, hits, p) != misses {
					return n.id
				}
			}
		}
	}
	return ""
}

// ontoBodyAsSaid is ontoBody of a line as it was before words were mended: no
// "buttocks" is lost for its likeness to a word of the book.
func (h *Hearing) ontoBodyAsSaid(l *line, p pattern, under bool) bool {
	if l.asSaid == nil {
		return false
	}
	return h.ontoBody(l.asSaid, withoutFeet(l.asSaid), p, under || h.saysOne(l.tokens, p.groups[setting]))
}

const plaster = "plaster"

func (h *Hearing) ofPlaster(list []*book.Amount) bool {
	return slices.ContainsFunc(list, func(a *book.Amount) bool {
		return slices.ContainsFunc(h.read(a.Title), func(t token) bool { return t.word == plaster })
	})
}

// withoutFeet gives the tokens of the line without the feet that are units:
// "a foot long", "2 feet by 1".
func withoutFeet(l *line) []token {
	if !slices.ContainsFunc(l.tokens, func(t token) bool { return isOneOf(t.word, "foot", "feet") }) {
		return l.tokens
	}
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
