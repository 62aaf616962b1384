package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// tellTemperatures hears how warm it is where, and from what and to what
// something is heated.
func (h *Hearing) tellTemperatures(c Context, l *line, list []amount, m *Meaning) {
	room := h.factNamed(roomFact)
	var warm []amount
	for _, a := range list {
		bareOne := len(a.units) == 0 && a.chain == 0 && room != nil && c.scope.has(room.ID) && !c.scope.hasNamed(h, humidityFacts[workplace])
		if (isTemperature(a) || bareOne) && !l.claimed[a.from] {
			warm = append(warm, a)
		}
	}
	for _, a := range warm {
		name := ""
		switch before := wordAt(l.tokens, a.from-1); {
		case !isTemperature(a):
		case isOneOf(before, "to", "until", "till", "reaches"):
			name = endFact
		case before == "from":
			name = startFact
		}
		h.tellInScope(c, name, a, l, m)
	}
	for _, p := range l.placesOf(warm) {
		switch {
		case l.claimed[p.from]:
		case p.place == workplace:
			if f := room; f != nil && !m.has(f.ID) {
				h.tellAmong(c, []*book.Fact{f}, l, p.amount, m)
			}
		case p.place == coldplace:
			h.tellInScope(c, startFact, p.amount, l, m)
		}
	}
	h.tellFridge(c, l, m)
}

func (sc *scope) hasNamed(h *Hearing, name string) bool {
	f := h.factNamed(name)
	return f != nil && sc.has(f.ID)
}

func (h *Hearing) tellInScope(c Context, name string, a amount, l *line, m *Meaning) {
	if f := h.factNamed(name); f != nil && c.scope.has(f.ID) && !m.has(f.ID) && dimensionFits(f, a) {
		h.tellAmong(c, []*book.Fact{f}, l, a, m)
	}
}

// tellFridge: what comes from the fridge starts as cold as a fridge is.
func (h *Hearing) tellFridge(c Context, l *line, m *Meaning) {
	f := h.factNamed(startFact)
	if f == nil || !c.scope.has(f.ID) || m.has(f.ID) {
		return
	}
	for i, t := range l.tokens {
		if placeNames[t.word] == coldplace && !l.claimed[i] && l.saysAny(max(0, i-3), i, "from", "of", "in") {
			m.tell(f.ID, logic.Num(within(f, fridgeC)), l.said(i, i+1))
			l.claim(i, i+1)
			return
		}
	}
}

// placeTemperatures says of a temperature that found no owner in a line about
// sums what it may be, or asks.
func (h *Hearing) placeTemperatures(c Context, l *line, list []amount, m *Meaning) {
	if !c.scope.asks() && len(c.Sums) == 0 {
		return
	}
	for _, a := range list {
		if l.claimed[a.from] || a.article || !isTemperature(a) || slices.ContainsFunc(a.units, func(u craft.Unit) bool { return u.Dimension != craft.Temperature }) {
			continue
		}
		facts := c.scope.temperatures(h, m)
		if !h.tellAmong(c, facts, l, a, m) {
			m.Complaint = first(m.Complaint, "I could not place "+l.said(a.from, a.to)+": say whether the room, the mix or the plaster is so warm.")
			l.claim(a.from, a.to)
		}
	}
}

// temperatures gives the temperatures that the sums talked about can use.
func (sc *scope) temperatures(h *Hearing, m *Meaning) []*book.Fact {
	var list []*book.Fact
	for _, group := range sc.groups {
		for _, id := range group {
			f := &h.book.Facts[id]
			if f.Kind == logic.Number && f.Unit == "C" && !m.has(id) && !slices.Contains(list, f) {
				list = append(list, f)
			}
		}
	}
	return list[:min(len(list), mostOffered)]
}

// aboutWarmth are words by which a "c" after a number is Celsius, not cups.
var aboutWarmth = wordSet("room kitchen workshop shed garage studio here fridge warm cold hot temperature degrees degree heat heated celsius")

// mostCups is how many cups a "c" after a number can be. (Common practice, no
// source.)
const mostCups = 12

// celsiusOrCups settles what "16 c" is.
func celsiusOrCups(l *line, list []amount) []amount {
	for i, a := range list {
		if len(a.units) < 2 || l.tokens[a.to-1].word != "c" || !isTemperature(a) {
			continue
		}
		if wordAt(l.tokens, a.to) != "of" && l.besideWarmth(a) || a.value > mostCups {
			list[i].units = slices.DeleteFunc(slices.Clone(a.units), func(u craft.Unit) bool { return u.Dimension != craft.Temperature })
		}
	}
	return list
}

// besideWarmth reports whether an amount is said of how warm something is.
func (l *line) besideWarmth(a amount) bool {
	if isOneOf(wordAt(l.tokens, a.from-1), "from", "to") {
		return true
	}
	for i := a.from - 1; i >= 0 && i >= a.from-4 && !l.tokens[i].ends; i-- {
		if aboutWarmth[l.tokens[i].word] {
			return true
		}
	}
	for i := a.to; i < len(l.tokens) && i < a.to+4 && !l.tokens[i-1].ends; i++ {
		if aboutWarmth[l.tokens[i].word] {
			return true
		}
	}
	return false
}
