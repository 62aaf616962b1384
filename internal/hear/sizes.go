package hear

import (
	"fmt"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// The facts that the sums need by name.
var sizeFacts = []string{"piece_length_mm", "piece_width_mm", "piece_height_mm"}

const (
	ownMeasureFact = "own_measure_per_tablespoon"
	measureFact    = "measure"
	ownMeasure     = "own"
)

// tellSizes reads "6 by 4 inches and an inch high" into length, width and
// height. It reports whether there was such a chain.
func (h *Hearing) tellSizes(l *line, m *Meaning) bool {
	facts := h.sizes()
	if facts == nil {
		return false
	}
	var chain []amount
	for _, a := range readAmounts(l) {
		if a.chain == len(chain)+1 && len(chain) < 3 && lengthFits(a) {
			chain = append(chain, a)
		}
	}
	if len(chain) < 2 {
		return false
	}
	from, to := chain[0].from, chain[len(chain)-1].to
	words := l.said(from, to)
	l.claim(from, to)
	sets := sizeReadings(facts, chain, words)
	switch len(sets) {
	case 0:
		m.Complaint = "I wanted sizes of a piece: give me length by width in inches, centimetres or millimetres."
	case 1:
		for _, told := range sets[0].Facts {
			m.tell(told.Fact, told.Value, told.Words)
		}
	default:
		m.Readings = append(m.Readings, sets...)
	}
	return true
}

func (h *Hearing) sizes() []*book.Fact {
	var facts []*book.Fact
	for _, name := range sizeFacts {
		f := h.factNamed(name)
		if f == nil || f.Kind != logic.Number {
			return nil
		}
		facts = append(facts, f)
	}
	return facts
}

// factNamed is FactByName for a book that may have no facts at all.
func (h *Hearing) factNamed(name string) *book.Fact {
	if h.book.Base == nil {
		return nil
	}
	return h.book.FactByName(name)
}

func lengthFits(a amount) bool {
	if len(a.units) == 0 {
		return true
	}
	for _, u := range a.units {
		if u.Dimension == craft.Length {
			return true
		}
	}
	return false
}

// sizeReadings gives the chain in each unit that makes all of it believable.
func sizeReadings(facts []*book.Fact, chain []amount, words string) []Choice {
	var sets []Choice
	for _, unit := range []string{"inch", "centimetre", "millimetre"} {
		u, _ := craft.UnitNamed(unit)
		if chain[0].units != nil && unit != "millimetre" {
			continue // its own units are used, once
		}
		if set, ok := sizesIn(facts, chain, u, words); ok {
			sets = append(sets, set)
		}
	}
	return sets
}

func sizesIn(facts []*book.Fact, chain []amount, bare craft.Unit, words string) (Choice, bool) {
	var set Choice
	var shown []string
	for i, a := range chain {
		u := bare
		for _, own := range a.units {
			if own.Dimension == craft.Length {
				u = own
			}
		}
		base, err := u.Base(a.value)
		if err != nil || !believable(facts[i], base) || a.units == nil && !natural(a.value, u) {
			return Choice{}, false
		}
		set.Facts = append(set.Facts, Heard{facts[i].ID, logic.Num(round(base)), words})
		shown = append(shown, show(a.value))
	}
	set.Fact = facts[0].ID
	set.Label = fmt.Sprintf("%s %s", strings.Join(shown, " by "), bare.Plural)
	return set, true
}

// natural reports whether people say such a number in the unit.
func natural(x float64, u craft.Unit) bool {
	switch u.Name {
	case "inch":
		return x <= mostInches
	case "centimetre":
		return x <= mostCentimetres
	}
	return x >= leastMillimetre/2
}

// tellOwnMeasure: who counts caps to a tablespoon measures with that cap.
func (h *Hearing) tellOwnMeasure(f *book.Fact, words string, m *Meaning) {
	if f.Name != ownMeasureFact {
		return
	}
	measure := h.factNamed(measureFact)
	if measure == nil {
		return
	}
	for i, o := range measure.Options {
		if o.Value == ownMeasure {
			m.tell(measure.ID, logic.Option(i), words)
		}
	}
}
