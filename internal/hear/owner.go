package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// volunteerAmounts attaches the numbers of the line to facts: sizes to the
// piece or the tray, counts of things to the copies, others by a name that
// stands near, else by a unit that only one fact talked about has.
func (h *Hearing) volunteerAmounts(c Context, l *line, found []match, m *Meaning) {
	list := l.amounts()
	h.tellByPlace(c, l, list, m)
	h.tellEach(c, l, list, m)
	h.tellSizes(c, l, found, list, m)
	h.tellCopies(c, l, found, list, m)
	h.tellWeights(c, l, found, list, m)
	for i, a := range list {
		if l.claimed[a.from] {
			continue
		}
		if named := h.namesOf(c, l, found, a); len(named) > 0 && !h.ofOtherThing(l, named, list, i) {
			h.tellNamed(c, l, named, a, m)
		}
	}
	for i, a := range list {
		switch {
		case l.claimed[a.from] || a.article || h.ofSomethingElse(c, l, found, a) || lengthFits(a) && h.saidOfOther(l, list, i):
		case a.pack != "":
			h.tellPacks(c, l, found, a, m)
		case len(a.units) > 0:
			h.tellAmong(c, h.byUnit(c, a, m), l, a, m)
		case wordAt(l.tokens, a.from-1) == "at":
			h.tellAmong(c, h.reading(c, m), l, a, m)
		}
	}
	h.placeTemperatures(c, l, list, m)
	h.claimSizeWords(l, m)
}

// tellByPlace tells the amounts whose fact is known by where they stand: two
// readings of one thing, and what is said of a place.
func (h *Hearing) tellByPlace(c Context, l *line, list []amount, m *Meaning) {
	h.tellPair(c, l, list, m)
	h.tellVessel(l, list, m)
	h.tellStrength(c, l, list, m)
	h.tellHumidities(c, l, list, m)
	h.tellTemperatures(c, l, list, m)
}

// ofOtherThing reports whether a size is said of another thing than the piece
// or the tray: "the wall is 5 cm high".
func (h *Hearing) ofOtherThing(l *line, named []match, list []amount, i int) bool {
	return h.isSize(&h.book.Facts[named[0].phrase.fact]) && h.saidOfOther(l, list, i)
}

// amounts gives what is said of amounts; "not 30" says nothing.
func (l *line) amounts() []amount {
	return slices.DeleteFunc(readAmounts(l), func(a amount) bool { return wordAt(l.tokens, a.from-1) == "not" })
}

// reading gives the one temperature or percentage that is talked about, for
// "at 42"; none where there are two.
func (h *Hearing) reading(c Context, m *Meaning) []*book.Fact {
	var list []*book.Fact
	for _, unit := range []string{"celsius", "percent"} {
		u, _ := craft.UnitNamed(unit)
		list = append(list, h.byDimension(c, amount{units: []craft.Unit{u}}, m)...)
	}
	if len(list) != 1 {
		return nil
	}
	return list
}

// tellNamed tells an amount to the facts that its name can mean: several
// where a powder is weighed or measured out, and the unit does not say.
func (h *Hearing) tellNamed(c Context, l *line, named []match, a amount, m *Meaning) {
	from, to := l.span(&named[0])
	var facts []*book.Fact
	for i := range named {
		f := &h.book.Facts[named[i].phrase.fact]
		if f.Name == copiesFact && a.value != float64(int(a.value)) {
			continue // "half the cast"
		}
		if !m.has(f.ID) {
			facts = append(facts, f)
		}
	}
	if sameDimension(facts) && len(facts) > 1 {
		return
	}
	if from == a.bare && len(facts) == 1 && facts[0].Unit == "" {
		a.units = nil // "70 grams of water to a hundred" is a count
	}
	if h.tellAmong(c, facts, l, a, m) {
		l.claim(from, to)
	}
}

func sameDimension(facts []*book.Fact) bool {
	for _, f := range facts[min(1, len(facts)):] {
		if f.Unit == facts[0].Unit {
			return true
		}
	}
	return false
}

// byUnit gives the facts that an amount can be for its unit alone.
func (h *Hearing) byUnit(c Context, a amount, m *Meaning) []*book.Fact {
	if list := h.byDimension(c, a, m); len(list) > 0 || c.Problem == nil {
		if f := h.theOnly(a); len(list) == 0 && f != nil && !m.has(f.ID) {
			list = []*book.Fact{f}
		}
		return list
	}
	var list []*book.Fact
	for _, facts := range []map[factID]bool{h.factsOf[c.Problem.ID], h.summedBy[c.Problem.ID]} {
		for i := range h.book.Facts {
			f := &h.book.Facts[i]
			if f.Kind == logic.Number && facts[f.ID] && f.Usual == nil && dimensionFits(f, a) {
				list = append(list, f)
			}
		}
		if len(list) == 1 && !m.has(list[0].ID) {
			return list
		}
		if len(list) > 0 {
			return nil
		}
	}
	return nil
}

// theOnly gives the one fact of the book in an amount's unit: watts can only
// be of the microwave. nil where there are more.
func (h *Hearing) theOnly(a amount) *book.Fact {
	if len(a.units) != 1 || a.units[0].Dimension != craft.Power {
		return nil
	}
	var only *book.Fact
	for i := range h.book.Facts {
		f := &h.book.Facts[i]
		if f.Kind != logic.Number || !dimensionFits(f, a) {
			continue
		}
		if _, measured := dimensionOf(f.Unit); !measured {
			continue
		}
		if only != nil {
			return nil
		}
		only = f
	}
	return only
}

// mostOffered is how many facts one amount may be offered to, and how many
// troubles one question offers.
const mostOffered = 3

// tellAmong tells an amount to the one fact of the list that it can be, or
// offers the few that it can be. It reports whether it did.
func (h *Hearing) tellAmong(c Context, facts []*book.Fact, l *line, a amount, m *Meaning) bool {
	if len(facts) == 0 || len(facts) > mostOffered {
		return false
	}
	var list []Choice
	complaint := ""
	words := l.said(a.from, a.to)
	for _, f := range facts {
		readings, no := h.readingsIn(c, f, a)
		complaint = first(complaint, no)
		for _, r := range readings {
			label := r.label
			if sameDimension(facts) {
				label = name(f) + ": " + label
			}
			list = append(list, Choice{label, []Heard{{f.ID, logic.Num(within(f, r.value)), words}}, f.ID})
		}
	}
	switch {
	case len(list) == 1:
		m.tell(list[0].Fact, list[0].Facts[0].Value, words)
		h.tellOwnMeasure(&h.book.Facts[list[0].Fact], words, m)
	case len(list) > 1:
		m.offer(list)
	case complaint != "":
		m.Complaint = first(m.Complaint, complaint)
	}
	l.claim(a.from, a.to)
	return true
}

// offer asks which reading was meant; one thing at a time.
func (m *Meaning) offer(list []Choice) {
	if len(m.Readings) == 0 {
		m.Readings = list[:min(mostOffered, len(list))]
	}
}

func (m *Meaning) has(id factID) bool {
	return slices.ContainsFunc(m.Facts, func(f Heard) bool { return f.Fact == id })
}

// anything is what makers call what they mix.
var anything = wordSet("stuff recipe mixture mix goo gunk liquid jelly gel melt")

// ofSomethingElse reports whether the amount is said to be of something that
// neither a fact nor a sum talked about is named with: two cups of coffee are
// no water.
func (h *Hearing) ofSomethingElse(c Context, l *line, found []match, a amount) bool {
	if wordAt(l.tokens, a.to) != "of" || l.tokens[a.to-1].ends {
		return false
	}
	for i := a.to + 1; i < len(l.tokens) && i <= a.to+3; i++ {
		if light[l.tokens[i].word] {
			continue
		}
		return !l.inOption(found, i) && !anything[l.tokens[i].word] && !c.scope.isOf(h, l.tokens[i].stem)
	}
	return false
}

// inOption reports whether a token is part of an answer of several words.
func (l *line) inOption(found []match, token int) bool {
	return slices.ContainsFunc(found, func(v match) bool {
		if v.phrase.option == quantity || len(v.phrase.words) < 2 {
			return false
		}
		from, to := l.span(&v)
		return token >= from && token < to
	})
}
