package hear

import (
	"fmt"
	"strings"

	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// tellBare tells sizes without a unit, all in the one unit that makes them
// believable, or offers the few. A lone one in idle talk is no size.
func (h *Hearing) tellBare(c Context, l *line, bare []size, m *Meaning) bool {
	idle := len(c.scope.groups) == 0 && c.Problem == nil && c.Asked == nil
	if len(bare) == 0 || len(bare) == 1 && bare[0].chain == 0 && idle && len(m.Facts) == 0 {
		return false
	}
	words := l.said(bare[0].from, bare[len(bare)-1].to)
	for _, s := range bare {
		l.claim(s.from, s.to)
	}
	switch sets := sizeReadings(bare, words); len(sets) {
	case 0:
		m.Complaint = first(m.Complaint, sizeComplaint(bare))
	case 1:
		for _, told := range sets[0].Facts {
			m.tell(told.Fact, told.Value, told.Words)
		}
	default:
		m.offer(sets)
	}
	return true
}

func sizeComplaint(bare []size) string {
	for _, s := range bare {
		if _, complaint := readingsFor(s.fact, s.amount); complaint != "" {
			return complaint
		}
	}
	return "I wanted sizes: give me length by width by height in inches, centimetres or millimetres."
}

// sizeReadings gives the sizes in each unit that makes all of them believable.
func sizeReadings(bare []size, words string) []Choice {
	var sets []Choice
	for _, unit := range []string{"inch", "centimetre", "millimetre"} {
		u, _ := craft.UnitNamed(unit)
		if set, ok := sizesIn(bare, u, words); ok {
			sets = append(sets, set)
		}
	}
	return sets
}

func sizesIn(bare []size, u craft.Unit, words string) (Choice, bool) {
	set := Choice{Fact: bare[0].fact.ID}
	var shown []string
	for _, s := range bare {
		base, err := u.Base(s.value)
		if err != nil || !believable(s.fact, base) || !natural(s.value, u) {
			return Choice{}, false
		}
		set.Facts = append(set.Facts, Heard{s.fact.ID, logic.Num(within(s.fact, base)), words})
		shown = append(shown, show(s.value))
	}
	set.Label = fmt.Sprintf("%s %s", strings.Join(shown, " by "), u.Plural)
	if len(bare) == 1 {
		set.Label = withUnit(bare[0].value, u)
	}
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
