package sums

import (
	"math"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/phrase"
)

// The facts that say what the maker measures with.
const (
	MeasureFact     = "measure"
	OwnMeasureFact  = "own_measure_ml"
	ownPerSpoonFact = "own_measure_per_tablespoon"
	ownMeasure      = "own"
)

// measure puts the lines into the maker's own measures, and says how coarse
// these are.
func (w *work) measure() {
	owned := w.Owned()
	coarse := false
	for i := range w.out.Lines {
		line := &w.out.Lines[i]
		if len(owned) == 0 || line.Millilitres <= 0 || math.IsInf(line.Millilitres, 0) {
			continue
		}
		measured, err := craft.InMeasures(line.Millilitres, owned)
		if err != nil {
			w.out.Notes = append(w.out.Notes, phrase.Sentence(line.Name+": "+err.Error()))
			continue
		}
		line.Measured = measured
		coarse = coarse || line.Doubt > 0
	}
	if coarse {
		w.out.Notes = append(w.out.Notes, "Powder by spoon or cup comes out up to a quarter more or less: level it off, and weigh it where you can.")
	}
}

// LacksMeasure is the fact to ask for where the maker measures with a cap of
// unknown size, or nil.
func (b Bench) LacksMeasure() *book.Fact {
	if b.measureWord() != ownMeasure || len(b.ownMeasure()) > 0 {
		return nil
	}
	return b.Book.FactByName(ownPerSpoonFact)
}

func (b Bench) measureWord() string {
	f := b.Book.FactByName(MeasureFact)
	if f == nil {
		return ""
	}
	v, told := b.Known.Value(f.ID)
	if !told {
		return ""
	}
	return f.Options[v.Index()].Value
}

// Owned lists the measures that the maker has; none for scales.
func (b Bench) Owned() []craft.Measure {
	switch b.measureWord() {
	case "us_cup":
		return measuresNamed("cup", "tablespoon", "teaspoon")
	case "metric_cup":
		return measuresNamed("metric cup", "metric tablespoon", "metric teaspoon")
	case "spoons":
		return measuresNamed("tablespoon", "teaspoon")
	case ownMeasure:
		return b.ownMeasure()
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

// ownMeasure is the maker's cap, by what it holds or by how many fill a
// tablespoon; what was told last decides.
func (b Bench) ownMeasure() []craft.Measure {
	holds, perSpoon := b.told(b.Book.FactByName(OwnMeasureFact)), b.told(b.Book.FactByName(ownPerSpoonFact))
	var m craft.Measure
	var err error
	switch {
	case holds.since > 0 && holds.since >= perSpoon.since:
		m, err = craft.OwnMeasure("cap", holds.value)
	case perSpoon.since > 0:
		spoon, _ := craft.UnitNamed("tablespoon")
		m, err = craft.Calibrate(perSpoon.value, spoon)
	default:
		return nil
	}
	if err != nil {
		return nil
	}
	return []craft.Measure{m}
}

type told struct {
	value float64
	since int
}

// told gives the number told of a fact; nothing for a fact that is nil.
func (b Bench) told(f *book.Fact) told {
	if f == nil {
		return told{}
	}
	v, ok := b.Known.Value(f.ID)
	if !ok {
		return told{}
	}
	return told{v.Number(), b.Known.Since(f.ID)}
}
