package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// benchStage holds the facts of the room, the sizes and the measures, which
// matter whatever the problem.
const benchStage = "bench"

// standing says how near a fact is to what is talked about.
type standing uint8

const (
	foreign standing = iota
	sharedFact
	problemFact
	askedFact
)

func (h *Hearing) standing(c Context, id logic.FactID) standing {
	switch {
	case c.Asked != nil && c.Asked.Fact != nil && c.Asked.Fact.ID == id:
		return askedFact
	case c.Problem != nil && h.factsOf[c.Problem.ID][id]:
		return problemFact
	case h.book.Facts[id].Stage == benchStage, c.Problem == nil && h.shared[id]:
		return sharedFact
	}
	return foreign
}

// volunteer adds the facts that the words tell in passing. The longest phrase
// wins; among facts that share it, the one nearest to what is talked about;
// where that is not one fact, none is taken.
func (h *Hearing) volunteer(c Context, l *line, found []match, answered bool, m *Meaning) {
	aside := answered && c.Asked.Kind != logic.YesNo
	list := h.worthwhile(c, found, aside)
	slices.SortStableFunc(list, func(a, b match) int {
		if n := (b.to - b.from) - (a.to - a.from); n != 0 {
			return n
		}
		return int(h.standing(c, b.phrase.fact)) - int(h.standing(c, a.phrase.fact))
	})
	for i := range list {
		v := &list[i]
		if l.taken(v) || h.contested(c, list, i) {
			continue
		}
		h.tellMatch(l, v, m)
	}
}

// worthwhile keeps the matches that may be taken without being asked for. A
// single word aside of a choice or number belongs to that answer.
func (h *Hearing) worthwhile(c Context, found []match, aside bool) []match {
	var list []match
	for _, v := range found {
		p := v.phrase
		if p.option == quantity || p.part || aside && len(p.words) < 2 {
			continue
		}
		enough := false
		switch h.standing(c, p.fact) {
		case askedFact:
			enough = true
		case problemFact:
			enough = len(p.words) > 1 || p.length >= 4 && !p.common
		case sharedFact:
			enough = (len(p.words) > 1 || p.length >= 5) && !p.common
		case foreign:
			enough = c.Problem == nil && len(p.words) > 2 && !p.common
		}
		if enough {
			list = append(list, v)
		}
	}
	return list
}

// taken reports whether tokens of the match are understood already.
func (l *line) taken(v *match) bool {
	for i := v.from; i < v.to; i++ {
		if l.claimed[l.words[i].at] {
			return true
		}
	}
	return false
}

// contested reports whether another match of the same words, of another
// meaning and no farther fact, makes list[i] unsafe to take; or another
// option of the same fact is said elsewhere in the line.
func (h *Hearing) contested(c Context, list []match, i int) bool {
	v := list[i]
	for j, o := range list {
		if j == i {
			continue
		}
		same := o.from == v.from && o.to == v.to
		if same && o.phrase.fact != v.phrase.fact && h.standing(c, o.phrase.fact) >= h.standing(c, v.phrase.fact) {
			return true
		}
		if o.phrase.fact == v.phrase.fact && o.phrase.option != v.phrase.option && o.denied == v.denied && o.to-o.from >= v.to-v.from {
			return true
		}
	}
	return false
}

func (h *Hearing) tellMatch(l *line, v *match, m *Meaning) {
	from, to := l.span(v)
	l.claim(from, to)
	f := &h.book.Facts[v.phrase.fact]
	if f.Kind == logic.YesNo {
		m.tell(f.ID, logic.Yes((v.phrase.option == 0) != v.denied), l.said(from, to))
		return
	}
	value := logic.Option(v.phrase.option)
	if v.denied {
		if d := (Denied{f.ID, value}); !slices.Contains(m.Denied, d) {
			m.Denied = append(m.Denied, d)
		}
		return
	}
	m.tell(f.ID, value, l.said(from, to))
}

// volunteerAmounts attaches the numbers of the line to facts: a chain to the
// sizes of the piece, others by a name that stands near, else by a unit that
// only one fact of the problem has.
func (h *Hearing) volunteerAmounts(c Context, l *line, found []match, m *Meaning) {
	list := readAmounts(l)
	if slices.ContainsFunc(list, func(a amount) bool { return a.chain > 0 && !l.claimed[a.from] }) {
		h.tellSizes(l, m)
	}
	for _, a := range list {
		if l.claimed[a.from] {
			continue
		}
		f := h.ownerOf(c, l, found, a)
		if f == nil || m.has(f.ID) {
			continue
		}
		readings, complaint := readingsFor(f, a)
		if complaint != "" {
			m.Complaint = first(m.Complaint, complaint)
			continue
		}
		h.tellReadings(f, l, a, readings, m)
	}
}

func (m *Meaning) has(id logic.FactID) bool {
	return slices.ContainsFunc(m.Facts, func(f Heard) bool { return f.Fact == id })
}

func (h *Hearing) ownerOf(c Context, l *line, found []match, a amount) *book.Fact {
	if named := h.nameOf(c, l, found, a); named != nil {
		from, to := l.span(named)
		l.claim(from, to)
		return &h.book.Facts[named.phrase.fact]
	}
	if c.Problem == nil || len(a.units) == 0 || a.article {
		return nil
	}
	var only *book.Fact
	for i := range h.book.Facts {
		f := &h.book.Facts[i]
		if f.Kind != logic.Number || !h.factsOf[c.Problem.ID][f.ID] || !dimensionFits(f, a) {
			continue
		}
		if only != nil {
			return nil
		}
		only = f
	}
	return only
}

// How many tokens may stand between a number and the name of its fact: after
// the number ("15 mm thick") and before it ("humidity is now about 30").
const (
	nameAfter  = 1
	nameBefore = 3
)

// nameOf gives the match of a number fact's name that stands nearest to the
// amount and fits its unit, or nil where two facts are as near.
func (h *Hearing) nameOf(c Context, l *line, found []match, a amount) *match {
	var best *match
	bestCost, tie := 1<<20, false
	for i := range found {
		v := &found[i]
		if v.phrase.option != quantity || !dimensionFits(&h.book.Facts[v.phrase.fact], a) {
			continue
		}
		rank := h.standing(c, v.phrase.fact)
		gap, ok := l.gap(v, a)
		if !ok || rank == foreign && (c.Problem != nil || len(v.phrase.words) < 2) {
			continue
		}
		cost := 100*gap - 20*len(v.phrase.words) - int(rank)
		switch {
		case cost < bestCost:
			best, bestCost, tie = v, cost, false
		case cost == bestCost && v.phrase.fact != best.phrase.fact:
			tie = true
		}
	}
	if tie {
		return nil
	}
	return best
}

// gap counts the tokens between an amount and a name, if they are near enough
// and no other number stands between.
func (l *line) gap(v *match, a amount) (int, bool) {
	from, to := l.span(v)
	lo, hi, most := a.to, from, nameAfter
	switch {
	case to <= a.from:
		lo, hi, most = to, a.from, nameBefore
	case from >= a.bare && from < a.to && to >= a.to:
		return 0, true // the name begins with the unit: "85 degrees in here"
	case from < a.to:
		return 0, false
	}
	for i := lo; i < hi; i++ {
		if l.tokens[i].digits || isNumberWord(l.tokens[i].word) || i > 0 && l.tokens[i-1].ends && hi == from {
			return 0, false
		}
	}
	return hi - lo, hi-lo <= most
}
