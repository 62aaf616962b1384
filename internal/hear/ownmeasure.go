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
