package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
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
