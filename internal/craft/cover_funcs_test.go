package craft

import "testing"

// Source: as in TestCoat, arithmetic of common practice.
func TestCoverFuncs(t *testing.T) {
	checkCalls(t, []workedCall{
		{"coat_ml", "area_cm2 coat_mm coats", "ml", []float64{60, 0.05, 2}, 0.6, 1e-9},
		{"coat_g", "area_cm2 mg_per_cm2", "g", []float64{60, 1}, 0.06, 1e-12},
	})
}
