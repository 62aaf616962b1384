package craft

import "testing"

// Source: the table in TestAmountsPerLitre (925 g and 647 g to the litre at
// 70), IUPAC weights (118.62 and 18.62 to 100), the rise in TestRise, and
// arithmetic; loose powder of 0.70 to 0.80 g/ml from memory, a weak source;
// strength against 60 parts exp(0.42).
func TestPlasterFuncs(t *testing.T) {
	const mix = "slurry_ml consistency"
	checkCalls(t, []workedCall{
		{"dry_plaster_g", mix, "g", []float64{1000, 70}, 925, 1},
		{"plaster_water_g", mix, "g", []float64{1000, 70}, 647, 1},
		{"with_spare", "x percent", "", []float64{400, 15}, 460, 1e-9},
		{"water_for_plaster_g", "plaster_g consistency", "g", []float64{500, 70}, 350, 1e-9},
		{"plaster_for_water_g", "water_g consistency", "g", []float64{350, 70}, 500, 1e-9},
		{"slurry_from_plaster_ml", "plaster_g consistency", "ml", []float64{925, 70}, 1000, 1},
		{"scooped_plaster_ml", "plaster_g", "ml", []float64{750}, 1000, 1e-9},
		{"scooped_plaster_from_ml", "plaster_g", "ml", []float64{800}, 1000, 1e-9},
		{"scooped_plaster_to_ml", "plaster_g", "ml", []float64{700}, 1000, 1e-9},
		{"plaster_scooped_g", "plaster_ml", "g", []float64{1000}, 750, 1e-9},
		{"wet_block_g", mix, "g", []float64{1000, 70}, 1572, 1},
		{"dry_block_g", mix, "g", []float64{1000, 70}, 925 * 1.1862, 1.2},
		{"water_to_dry_g", mix, "g", []float64{1000, 70}, 925 * 0.5138, 0.6},
		{"plaster_peak_c", "start_c consistency", "C", []float64{20, 70}, 58.6, 0.1},
		{"plaster_strength_percent", "consistency", "percent", []float64{60}, 152.2, 0.1},
		{"bowl_mixes", "slurry_ml bowl_ml", "mixes", []float64{1400, 2000}, 2, 0},
	})
}
