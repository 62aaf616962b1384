package craft

import "testing"

// Source: GMIA Gelatin Handbook for the grades (from memory), mass balance and
// arithmetic for the rest.
func TestMixFuncs(t *testing.T) {
	checkCalls(t, []workedCall{
		{"bloom_factor", "recipe_bloom own_bloom", "times", []float64{250, 200}, 1.118, 0.001},
		{"bloom_factor_linear", "recipe_bloom own_bloom", "times", []float64{250, 200}, 1.25, 1e-9},
		{"syrup_needed_g", "syrup_g strength_percent", "g", []float64{200, 56}, 250, 1e-9},
		{"syrup_water_g", "syrup_g strength_percent", "g", []float64{200, 56}, -50, 1e-9},
		{"syrup_water_g", "syrup_g strength_percent", "g", []float64{200, 100}, 60, 1e-9},
		{"powder_for_syrup_g", "syrup_g strength_percent", "g", []float64{200, 70}, 140, 1e-9},
		{"water_for_syrup_g", "syrup_g strength_percent", "g", []float64{200, 70}, 60, 1e-9},
		{"glycerin_for_syrup_g", "syrup_g", "g", []float64{199}, 140, 1e-9},
		{"water_lost_g", "before_g after_g", "g", []float64{412, 389}, 23, 1e-9},
		{"dose_g", "mix_g percent", "g", []float64{250, 0.4}, 1, 1e-9},
	})
}
