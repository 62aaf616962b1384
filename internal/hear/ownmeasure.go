package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// The facts of a maker's own cap or scoop.
const (
	measureFact = "measure"
	ownMeasure  = "own"
)

var ownMeasureFacts = []string{"own_measure_per_tablespoon", "own_measure_ml"}

// tellOwnMeasure: who says what a cap holds measures with that cap.
func (h *Hearing) tellOwnMeasure(f *book.Fact, words string, m *Meaning) {
	measure := h.factNamed(measureFact)
	if measure == nil || !slices.Contains(ownMeasureFacts, f.Name) {
		return
	}
	for i, o := range measure.Options {
		if o.Value == ownMeasure {
			m.tell(measure.ID, logic.Option(i), words)
		}
	}
}

// tellMeasure hears what is measured with where the amount is asked for in it:
// "how many spoons of gelatin", "in cups".
func (h *Hearing) tellMeasure(l *line, m *Meaning) {
	f := h.factNamed(measureFact)
	if f == nil || m.has(f.ID) || m.Command != sayAmounts {
		return
	}
	for i, t := range l.tokens {
		if !isOneOf(wordAt(l.tokens, i-1), "many", "in") {
			continue
		}
		for o, option := range f.Options {
			called := slices.ContainsFunc(option.Says, func(say string) bool { return slices.Equal(h.phraseOf(say), []string{t.stem}) })
			if called {
				m.tell(f.ID, logic.Option(o), l.said(i, i+1))
				l.claim(i, i+1)
				return
			}
		}
	}
}
