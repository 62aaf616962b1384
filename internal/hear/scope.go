package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

const strengthFact = "syrup_strength_percent"

type factID = logic.FactID

func setOf(list []factID) map[factID]bool {
	set := make(map[factID]bool, len(list))
	for _, id := range list {
		set[id] = true
	}
	return set
}

// scope is what the sums that are talked about can be worked out from.
type scope struct {
	groups [][]factID // facts of each sum in turn; one group where all count alike
	byName map[factID]bool
	asked  bool // the line asks for sums
	sums   []*book.Amount
}

// scopeOf gives the scope of the sums asked for, else of those under way, else
// of those that the fact asked about goes into.
func (h *Hearing) scopeOf(c Context, s *asking) *scope {
	sc := &scope{byName: map[factID]bool{}, asked: s != nil}
	switch {
	case s != nil && s.amounts != nil:
		for _, a := range s.amounts {
			sc.add(h, a, true)
		}
	case len(c.Sums) > 0:
		for _, a := range c.Sums {
			sc.add(h, a, false)
		}
	case c.Asked != nil && c.Asked.Fact != nil && c.Asked.Fact.Kind == logic.Number && h.forSums[c.Asked.Fact.ID]:
		for _, a := range h.book.Amounts {
			if h.reached[a.ID][c.Asked.Fact.ID] {
				sc.add(h, a, false)
			}
		}
	}
	return sc
}

// add puts the facts of a sum in: as a group of their own where sums are
// tried in turn.
func (sc *scope) add(h *Hearing, a *book.Amount, inTurn bool) {
	facts := h.book.Reach(a)
	sc.sums = append(sc.sums, a)
	if len(sc.groups) == 0 || inTurn {
		sc.groups = append(sc.groups, facts)
	} else {
		sc.groups[0] = append(sc.groups[0], facts...)
	}
	if a.Mix != nil {
		for _, have := range a.Mix.Have {
			sc.byName[have.Grams.ID] = true
			for id := range h.lower[have.Grams.ID] {
				sc.byName[id] = true
			}
		}
	}
	for _, name := range []string{clayFact, waterFact} {
		if f := h.factNamed(name); f != nil {
			sc.byName[f.ID] = true
		}
	}
	if a.Holds != nil {
		sc.byName[a.Holds.Carried.ID] = true
	}
	if f := h.factNamed(strengthFact); f != nil && (a.Holds != nil || a.Mix != nil || len(a.Buys) > 0) {
		sc.byName[f.ID] = true // 60 percent is of the syrup only if it is said
	}
}

// isOf reports whether a sum talked about is asked for by the name of a thing.
func (sc *scope) isOf(h *Hearing, stem string) bool {
	return slices.ContainsFunc(sc.sums, func(a *book.Amount) bool {
		return slices.ContainsFunc(a.Says, func(say string) bool { return slices.Contains(h.phraseOf(say), stem) })
	})
}

func (sc *scope) asks() bool { return sc != nil && sc.asked }

func (sc *scope) has(id factID) bool {
	return sc != nil && slices.ContainsFunc(sc.groups, func(g []factID) bool { return slices.Contains(g, id) })
}

// byDimension gives the facts of the scope that an amount can be for its unit
// alone: first those that have no usual value, and no fact that only serves
// to work out another of them.
func (h *Hearing) byDimension(c Context, a amount, m *Meaning) []*book.Fact {
	for _, group := range c.scope.groups {
		var plain, usual []*book.Fact
		for _, id := range group {
			f := &h.book.Facts[id]
			switch {
			case f.Kind != logic.Number || m.has(id) || c.scope.byName[id] || !dimensionFits(f, a):
			case slices.Contains(plain, f) || slices.Contains(usual, f):
			case f.Usual == nil:
				plain = append(plain, f)
			default:
				usual = append(usual, f)
			}
		}
		if top := h.uppermost(plain); len(top) > 0 {
			return top
		}
		if top := h.uppermost(usual); len(top) == 1 {
			return top
		}
	}
	return nil
}

// uppermost leaves out the facts from which others of the same dimension
// follow: a weight told is of the mix rather than of the clay it replaces.
func (h *Hearing) uppermost(list []*book.Fact) []*book.Fact {
	var top []*book.Fact
	for _, f := range list {
		serves := func(other *book.Fact) bool { return other.Unit == f.Unit && h.lower[other.ID][f.ID] }
		if !slices.ContainsFunc(list, serves) {
			top = append(top, f)
		}
	}
	return top
}

// insteadOf gives the facts that an answer in another dimension than was asked
// for may be about: one of the same name that the fact asked for follows from,
// else the nearest one that follows from the fact asked for, else what a weight
// is of, else the only one that the unit fits; or none.
func (h *Hearing) insteadOf(c Context, l *line, asked *book.Fact, a amount, m *Meaning) []*book.Fact {
	for id := range h.book.Facts {
		f := &h.book.Facts[id]
		if h.lower[asked.ID][f.ID] && dimensionFits(f, a) && shareName(f, asked) {
			return []*book.Fact{f} // spoons of a powder that is asked for in grams
		}
	}
	var nearest *book.Fact
	for _, group := range c.scope.groups {
		for _, id := range group {
			f := &h.book.Facts[id]
			if f.Kind != logic.Number || !dimensionFits(f, a) || !h.lower[id][asked.ID] {
				continue
			}
			if nearest == nil || h.lower[nearest.ID][id] {
				nearest = f
			}
		}
	}
	if nearest != nil {
		return []*book.Fact{nearest}
	}
	if slices.ContainsFunc(a.units, isMass) {
		if list := h.weightFacts(c, l, a, m); len(list) > 0 {
			return list
		}
	}
	if list := h.byDimension(c, a, m); len(list) == 1 {
		return list
	}
	return nil
}

func shareName(a, b *book.Fact) bool {
	return slices.ContainsFunc(a.Says, func(name string) bool { return slices.Contains(b.Says, name) })
}
