package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// place is where it is as damp or warm as a maker says.
type place uint8

const (
	nowhere place = iota
	workplace
	playplace
	onTheWay
	coldplace
	places
)

var placeNames = map[string]place{
	"kitchen": workplace, "home": workplace, "workshop": workplace, "here": workplace, "room": workplace, "house": workplace,
	"studio": workplace, "shed": workplace, "garage": workplace, "workroom": workplace, "indoors": workplace, "bedroom": workplace,
	"stage": playplace, "set": playplace, "theatre": playplace, "theater": playplace, "hall": playplace, "lights": playplace,
	"outdoors": playplace, "outside": playplace, "auditorium": playplace, "worn": playplace, "backstage": playplace,
	"car": onTheWay, "bag": onTheWay, "box": onTheWay, "way": onTheWay, "van": onTheWay, "carried": onTheWay, "travelling": onTheWay,
	"fridge": coldplace, "refrigerator": coldplace,
}

// The facts of the air, by place.
var humidityFacts = [places]string{workplace: "room_humidity", playplace: "worn_humidity", onTheWay: "carry_humidity"}

const (
	roomFact    = "room_temperature"
	startFact   = "heat_from_c"
	endFact     = "heat_to_c"
	jugFact     = "jug_now_c"
	fridgeC     = 4 // a refrigerator is kept at or below 40 F, 4 C: US FDA, Are You Storing Food Safely?
	placeBefore = 6 // tokens between a place and what is said of it
	placeAfter  = 4
	anotherSide = 5 // what an "and" or a comma between them counts for
)

// placeAt gives the place that token i names.
func (l *line) placeAt(i int) place {
	p := placeNames[l.tokens[i].word]
	if l.tokens[i].word == "set" && !isOneOf(wordAt(l.tokens, i-1), "on", "the", "at") {
		return nowhere
	}
	return p
}

// placed is an amount with the place it is said of.
type placed struct {
	place
	at int // the token of the place
	amount
	gap int
}

// placesOf gives each amount to the place that stands nearest to it, the
// nearest first; no place has two amounts.
func (l *line) placesOf(list []amount) []placed {
	var all, taken []placed
	for _, a := range list {
		for i := range l.tokens {
			if p := l.placeAt(i); p != nowhere {
				if gap, ok := l.placeGap(i, a); ok {
					all = append(all, placed{p, i, a, gap})
				}
			}
		}
	}
	slices.SortStableFunc(all, func(a, b placed) int { return a.gap - b.gap })
	for _, p := range all {
		if !slices.ContainsFunc(taken, func(o placed) bool { return o.at == p.at || o.from == p.from }) {
			taken = append(taken, p)
		}
	}
	return taken
}

func (l *line) placeGap(i int, a amount) (gap int, ok bool) {
	lo, hi, most := i+1, a.from, placeBefore
	if i >= a.to {
		lo, hi, most = a.to, i, placeAfter
	} else if i >= a.from {
		return 0, false
	}
	if hi-lo > most {
		return 0, false
	}
	gap = hi - lo
	for j := lo; j < hi; j++ {
		if isCount(l.tokens[j]) {
			return 0, false
		}
		if isOneOf(l.tokens[j].word, "and", "but") {
			gap += anotherSide
		}
	}
	if l.endsBetween(max(0, lo-1), hi) {
		gap += anotherSide
	}
	return gap, true
}

// notAir are words beside a percentage that is none of the air.
var notAir = wordSet("syrup sorbitol solution spare extra more less colour pigment flocking water glycerin bigger smaller sugar")

// tellHumidities hears how damp it is where: "the stage is 30 percent and the
// kitchen is 70". A place with a percentage tells of its air; a bare number
// does where humidity is talked about.
func (h *Hearing) tellHumidities(c Context, l *line, list []amount, m *Meaning) {
	isRatio := func(u craft.Unit) bool { return u.Dimension == craft.Ratio }
	told := func(p place) *book.Fact { return h.factNamed(humidityFacts[p]) }
	spoken := slices.ContainsFunc(l.tokens, func(t token) bool { return t.word == "humidity" }) ||
		slices.ContainsFunc(list, func(a amount) bool { return slices.ContainsFunc(a.units, isRatio) })
	asked := c.Asked != nil && c.Asked.Fact != nil && slices.Contains(humidityFacts[:], c.Asked.Fact.Name)
	for p := workplace; p < places; p++ {
		spoken = spoken || told(p) != nil && c.scope.has(told(p).ID)
	}
	var airs []amount
	for _, a := range list {
		isAir := slices.ContainsFunc(a.units, isRatio) || len(a.units) == 0 && a.chain == 0 && a.value >= 1 && (spoken || asked)
		if isAir && !l.claimed[a.from] && !l.besideAny(a, notAir) {
			airs = append(airs, a)
		}
	}
	for _, p := range l.placesOf(airs) {
		if f := told(p.place); f != nil && !m.has(f.ID) {
			h.tellAmong(c, []*book.Fact{f}, l, p.amount, m)
			l.claim(p.at, p.at+1)
		}
	}
}

// ofSyrup are words beside the strength of a syrup.
var ofSyrup = wordSet("syrup sorbitol solution")

// tellStrength hears how strong the syrup is, where it is named.
func (h *Hearing) tellStrength(c Context, l *line, list []amount, m *Meaning) {
	f := h.factNamed(strengthFact)
	for _, a := range list {
		if f == nil || m.has(f.ID) || l.claimed[a.from] || a.units == nil || !dimensionFits(f, a) || !l.besideAny(a, ofSyrup) || l.besideAny(a, changes) {
			continue
		}
		h.tellAmong(c, []*book.Fact{f}, l, a, m)
	}
}

// changes are words beside a percentage by which something is changed.
var changes = wordSet("more less spare extra bigger smaller")

// besideAny reports whether one of the words stands right beside an amount.
func (l *line) besideAny(a amount, words map[string]bool) bool {
	for i := max(0, a.from-3); i < a.to+2 && i < len(l.tokens); i++ {
		if words[l.tokens[i].word] && !(i >= a.to && l.tokens[a.to-1].ends) {
			return true
		}
	}
	return false
}

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
	warmth := slices.ContainsFunc(l.tokens, func(t token) bool { return aboutWarmth[t.word] })
	for i, a := range list {
		if len(a.units) < 2 || l.tokens[a.to-1].word != "c" || !isTemperature(a) {
			continue
		}
		if warmth && wordAt(l.tokens, a.to) != "of" || a.value > mostCups {
			list[i].units = slices.DeleteFunc(slices.Clone(a.units), func(u craft.Unit) bool { return u.Dimension != craft.Temperature })
		}
	}
	return list
}
