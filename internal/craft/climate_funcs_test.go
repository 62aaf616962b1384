package craft

import (
	"strings"
	"testing"
)

// The names and the order of the arguments are what rule files are written
// to. Sources of the figures: the tests of the climate and of drying, which
// name them; glycerin of 50 % at 20 degrees C from Bosart and Snoddy (1928).
func TestClimateFuncs(t *testing.T) {
	const mix, edge = "gelatin syrup glycerin water", "thickness_mm faces celsius humidity"
	for _, c := range []struct {
		call, params string
		args         []float64
		want, tol    float64
	}{
		{"gelatin_water_gg", "humidity", []float64{50}, 0.155, 0.0006},
		{"glycerin_water_gg", "humidity", []float64{50}, 0.275, 0.0006},
		{"sorbitol_water_gg", "humidity", []float64{50}, 0.167, 0.0006},
		{"glycerin_density_gml", "percent celsius", []float64{50, 20}, 1.1263, 0.0007},
		{"mass_change_percent", mix + " humidity", []float64{100, 200, 200, 0, 35}, -2.8, 0.1},
		{"size_change_percent", mix + " humidity", []float64{100, 200, 200, 0, 65}, 6.1, 0.1},
		{"steady_humidity", mix, []float64{100, 200, 200, 100}, 69, 0.5},
		{"water_to_hold_g", mix + " humidity", []float64{100, 200, 200, 0, 65}, 76, 1},
		{"saturation_pa", "celsius", []float64{20}, 2337, 1},
		{"drying_g_m2h", "celsius humidity", []float64{22, 50}, 64.5, 0.5},
		{"edge_curl_min", edge, []float64{0.5, 1, 22, 50}, 41.9, 0.5},
		{"edge_curl_from_min", edge, []float64{0.5, 1, 22, 50}, 29.9, 0.5},
		{"edge_curl_to_min", edge, []float64{0.5, 1, 22, 50}, 69.8, 0.5},
	} {
		f := funcNamed(t, c.call)
		if got := strings.Join(f.Params, " "); got != c.params {
			t.Errorf("%s takes %q, want %q", c.call, got, c.params)
		}
		got, err := f.Fn(c.args...)
		if err != nil {
			t.Errorf("%s: %v", c.call, err)
		}
		near(t, c.call, got, c.want, c.tol)
	}
}
