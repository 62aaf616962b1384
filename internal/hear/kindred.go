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
	if h.onPlaster(c, l) {
		return h.plasterInstead(c, l, list, s)
	}
	if s == nil || !h.ofPlaster(s.amounts) {
		return s
	}
	if slices.ContainsFunc(l.tokens, func(t token) bool { return t.word == plaster }) {
		return s.only(h.plasterOf(s.amounts))
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
				return s.only(o.amounts[at : at+1])
			}
		}
	}
	return s
}

// ofTheCast are words by which a question turns from the plaster to the cast.
var ofTheCast = wordSet("cast casts demould piece pieces gelatin glycerin sorbitol syrup copies copy fridge")

// onPlaster reports whether "it" is the plaster: its sums alone are under way,
// and the line speaks of nothing else.
func (h *Hearing) onPlaster(c Context, l *line) bool {
	mixes := slices.ContainsFunc(c.Sums, func(a *book.Amount) bool { return a.Mix != nil })
	return h.ofPlaster(c.Sums) && !mixes && !slices.ContainsFunc(l.tokens, func(t token) bool {
		return t.word == plaster || ofTheMelt[t.word] || ofTheCast[t.word]
	})
}

// plasterInstead gives the sum of the plaster that a question without its name
// is about: "how long until it sets", "and how much water". It gives s where
// there is none.
func (h *Hearing) plasterInstead(c Context, l *line, list []amount, s *asking) *asking {
	for i, t := range l.tokens {
		if t.word != "it" {
			continue
		}
		named := slices.Clone(l.tokens)
		named[i].word, named[i].stem = plaster, h.stem(plaster)
		found := h.sumAsked(newLine(l.text, named), list)
		if found != nil && len(found.words) > 2 && !isOneOf(found.words[1], "much", "mani") && h.ofPlaster(found.amounts) && slices.Contains(found.tokens, i) {
			return found
		}
	}
	if s == nil {
		return s
	}
	if telling := h.tellingOf(c, l, s); len(list) == 0 && len(telling) > 0 {
		return s.only(telling)
	}
	return s.only(h.plasterOf(s.amounts))
}

// plasterOf gives the sums of a list that are of plaster.
func (h *Hearing) plasterOf(list []*book.Amount) []*book.Amount {
	return slices.DeleteFunc(slices.Clone(list), func(a *book.Amount) bool { return !h.ofPlaster([]*book.Amount{a}) })
}

// only gives a request as one for these sums alone; as it is where there are
// none.
func (s *asking) only(list []*book.Amount) *asking {
	if len(list) == 0 {
		return s
	}
	alike := *s.sum
	alike.amounts = list
	return &asking{&alike, s.tokens, s.loose}
}

// tellingOf gives the sums under way of which one part is what is asked for:
// the plaster's for its water.
func (h *Hearing) tellingOf(c Context, l *line, s *asking) []*book.Amount {
	var list []*book.Amount
	for _, at := range s.tokens {
		id := h.materialAt(l, at)
		for _, a := range c.Sums {
			if id != "" && slices.ContainsFunc(a.Parts, func(p book.Part) bool { return p.Material != nil && p.Material.ID == id }) {
				list = append(list, a)
			}
		}
	}
	return list
}
