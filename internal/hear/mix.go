package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// withMix hears the mix that is asked for by what is in it and in no other:
// "with sorbitol", "the sorbitol one".
func (h *Hearing) withMix(c Context, l *line, s *asking, m *Meaning) {
	for _, f := range h.mixes {
		if s == nil && len(c.Sums) == 0 || m.has(f.ID) || !c.scope.has(f.ID) {
			continue
		}
		for _, w := range l.words {
			if l.claimed[w.at] || w.negate || l.asking[w.at] || !l.choosesMix(w.at) {
				continue
			}
			o, end := h.owner(f.ID, l, w, sameWord)
			if o < 0 && wordAt(l.tokens, w.at+1) == "one" {
				o, end = h.calledRecipe(f, w), w.at+1
			}
			if o >= 0 {
				m.tell(f.ID, logic.Option(o), l.said(w.at, end))
				if isOneOf(wordAt(l.tokens, end), "one", "mix", "recipe", "version") {
					end++
				}
				l.claim(w.at, end)
				break
			}
		}
	}
}

// calledRecipe gives the option that a word names with "recipe" behind it, as
// in "the glycerin one", or -1.
func (h *Hearing) calledRecipe(f *book.Fact, w word) int {
	called := []string{w.stem, h.stem("recipe")}
	return slices.IndexFunc(f.Options, func(o book.Option) bool {
		return slices.ContainsFunc(o.Says, func(say string) bool { return slices.Equal(h.phraseOf(say), called) })
	})
}

// choosesMix reports whether token i is said to be in the mix, or to tell it
// from the others.
func (l *line) choosesMix(i int) bool {
	for j := i - 1; j >= 0 && j >= i-3 && light[l.tokens[j].word] || j >= 0 && l.tokens[j].word == "using"; j-- {
		if isOneOf(l.tokens[j].word, "with", "using") {
			return true
		}
	}
	return wordAt(l.tokens, i-1) == "the" && isOneOf(wordAt(l.tokens, i+1), "one", "mix", "recipe", "version")
}
