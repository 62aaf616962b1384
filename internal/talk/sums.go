package talk

import (
	"fmt"
	"math"
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// The facts that say which measures a maker owns.
const (
	measureFact = "measure"
	ownFact     = "own_measure_per_tablespoon"
)

// applies reports whether a sum makes sense with what is known.
func (s *state) applies(am *book.Amount) bool {
	return !am.HasOnlyIf || s.known.Truth(am.OnlyIf) != logic.False
}

// mayTurnOut reports whether a sum may still turn out not to apply, by a
// question that is to come.
func (s *state) mayTurnOut(am *book.Amount) bool {
	return am.HasOnlyIf && s.known.Truth(am.OnlyIf) == logic.Unknown && s.missing() != nil
}

// needs lists the facts that a sum needs told, and how the maker measures.
func (s *state) needs(am *book.Amount) []logic.FactID {
	need := slices.Clone(am.Needs)
	if am.HasOnlyIf {
		need = append(need, s.a.book.Base.Mentions(am.OnlyIf)...)
	}
	for _, name := range []string{measureFact, ownFact} {
		if f := s.a.book.FactByName(name); f != nil && s.applicable(f) {
			need = append(need, f.ID)
		}
	}
	return need
}

// applicable reports whether a fact's own condition holds for certain.
func (s *state) applicable(f *book.Fact) bool {
	return !f.HasOnlyIf || s.known.Truth(f.OnlyIf) == logic.True
}

// offeredAmounts are the sums of the remedy in force.
func (s *state) offeredAmounts() []*book.Amount {
	r := s.offered()
	if r == nil {
		return nil
	}
	var out []*book.Amount
	for _, am := range r.Amounts {
		if s.applies(am) {
			out = append(out, am)
		}
	}
	return out
}

// amounts works out every sum that is wanted or goes with the remedy in
// force, and says what is still missing for those that can't be done.
func (s *state) amounts() (shown []AmountShown, missing []string) {
	list := slices.Clone(s.sums)
	for _, am := range s.offeredAmounts() {
		if !slices.Contains(list, am) {
			list = append(list, am)
		}
	}
	shown = []AmountShown{}
	for _, am := range list {
		if !s.applies(am) || s.mayTurnOut(am) {
			continue
		}
		lines, lack := s.sum(am)
		shown = append(shown, lines...)
		for _, l := range lack {
			if !slices.Contains(missing, l) {
				missing = append(missing, l)
			}
		}
	}
	return shown, missing
}

func (s *state) sum(am *book.Amount) (lines []AmountShown, lack []string) {
	assumes := []string{}
	value := func(id logic.FactID) (float64, bool) {
		if v, ok := s.known.Value(id); ok {
			return v.Number(), true
		}
		for _, as := range am.Assumes {
			if as.Fact == id {
				return as.Value, true
			}
		}
		return 0, false
	}
	for _, id := range am.Needs {
		if _, ok := value(id); !ok {
			lack = append(lack, s.a.subject(&s.a.book.Facts[id]))
		}
	}
	if len(lack) > 0 {
		return nil, lack
	}
	for _, as := range am.Assumes {
		if _, told := s.known.Value(as.Fact); !told {
			assumes = append(assumes, as.Text)
		}
	}
	for _, part := range am.Parts {
		x, err := part.Of.Eval(value)
		if err != nil {
			return nil, []string{fmt.Sprintf("other sizes (%v)", err)}
		}
		lines = append(lines, s.line(am, part, x, assumes))
	}
	return lines, nil
}

func (s *state) line(am *book.Amount, part book.Part, x float64, assumes []string) AmountShown {
	grams, ml := x, x/part.Density
	if part.Unit == "ml" {
		grams, ml = x*part.Density, x
	}
	return AmountShown{
		Name: part.Name, For: am.Title, Assumes: assumes, Notes: append([]string{}, am.Notes...),
		Grams: craft.Sensible(grams), Millilitres: craft.Sensible(ml), Measures: s.inMeasures(ml),
	}
}

// inMeasures counts an amount in what the maker owns.
func (s *state) inMeasures(ml float64) []MeasureShown {
	out := []MeasureShown{}
	owned := s.owned()
	if len(owned) == 0 || ml <= 0 || math.IsInf(ml, 0) {
		return out
	}
	measured, err := craft.InMeasures(ml, owned)
	if err != nil {
		return out
	}
	for _, c := range measured.Counts {
		out = append(out, MeasureShown{c.Measure.Name, c.Count})
	}
	return out
}

func (s *state) owned() []craft.Measure {
	f := s.a.book.FactByName(measureFact)
	if f == nil {
		return nil
	}
	v, told := s.known.Value(f.ID)
	if !told {
		return nil
	}
	switch f.Options[v.Index()].Value {
	case "us_cup":
		return measuresNamed("cup", "tablespoon", "teaspoon")
	case "metric_cup":
		return measuresNamed("metric cup", "metric tablespoon", "metric teaspoon")
	case "spoons":
		return measuresNamed("tablespoon", "teaspoon")
	case "own":
		return s.ownMeasure()
	}
	return nil
}

func measuresNamed(names ...string) []craft.Measure {
	var out []craft.Measure
	for _, name := range names {
		if u, ok := craft.UnitNamed(name); ok {
			if m, err := craft.MeasureOf(u); err == nil {
				out = append(out, m)
			}
		}
	}
	return out
}

func (s *state) ownMeasure() []craft.Measure {
	f := s.a.book.FactByName(ownFact)
	if f == nil {
		return nil
	}
	v, told := s.known.Value(f.ID)
	spoon, ok := craft.UnitNamed("tablespoon")
	if !told || !ok {
		return nil
	}
	m, err := craft.Calibrate(v.Number(), spoon)
	if err != nil {
		return nil
	}
	return []craft.Measure{m}
}
