package hear

import (
	"slices"

	"sparehand/internal/book"
)

// ofTheMelt are words by which water is asked for that goes into gelatin.
var ofTheMelt = wordSet("mix mixture gel gelatin melt jug cooked cooking heated boiled steam steamed remelt remelting old microwave microwaved")

// kindred corrects which sum is asked for where two materials share its words:
// "how much water" is water for plaster, but after "I cooked 250 grams and now
// it is 235" it is what boiled off.
func (h *Hearing) kindred(c Context, l *line, list []amount, s *asking) *asking {
	if s == nil || !h.ofPlaster(s.amounts) || slices.ContainsFunc(l.tokens, func(t token) bool { return t.word == plaster }) {
		return s
	}
	_, paired := h.pairOf(l, list)
	melts := slices.ContainsFunc(l.tokens, func(t token) bool { return ofTheMelt[t.word] })
	if !paired && !melts && (len(c.Sums) == 0 || h.ofPlaster(c.Sums)) {
		return s
	}
	for _, names := range befores {
		f := h.factNamed(names[0])
		for i := range h.sums {
			o := &h.sums[i]
			longer := len(o.words) > len(s.words) && slices.Equal(o.words[:len(s.words)], s.words)
			at := slices.IndexFunc(o.amounts, func(a *book.Amount) bool { return f != nil && h.reached[a.ID][f.ID] })
			if longer && at >= 0 {
				alike := *s.sum
				alike.amounts = o.amounts[at : at+1]
				return &asking{&alike, s.tokens, s.loose}
			}
		}
	}
	return s
}
