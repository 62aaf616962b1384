package craft

import (
	"math"
	"strings"
	"testing"
)

// A worked call is one sum for rule expressions with its figure.
type workedCall struct {
	call, params, units string
	args                []float64
	want, tol           float64
}

// checkCalls holds sums to their names, the order of their arguments, their
// units and their figures.
func checkCalls(t *testing.T, calls []workedCall) {
	t.Helper()
	for _, c := range calls {
		f := funcNamed(t, c.call)
		if got := strings.Join(f.Params, " "); got != c.params || f.Units != c.units {
			t.Errorf("%s takes %q in %q, want %q in %q", c.call, got, f.Units, c.params, c.units)
		}
		got, err := f.Fn(c.args...)
		if err != nil {
			t.Errorf("%s: %v", c.call, err)
		}
		near(t, c.call, got, c.want, c.tol)
	}
}

// Source: solid geometry by hand. The piece as in TestPiece, the walls as in
// TestWallByHand, the clay of 1531 g in TestClayDensities.
func TestShapeFuncs(t *testing.T) {
	checkCalls(t, []workedCall{
		{"piece_ml", "length width height skirt_width skirt_thickness", "ml", []float64{120, 90, 20, 10, 1}, 56.428, 0.005},
		{"slab_ml", "length width height", "ml", []float64{80, 60, 20}, 96, 1e-9},
		{"tub_ml", "across height", "ml", []float64{100, 100}, 250 * math.Pi, 1e-9},
		{"squares_cm2", "squares square_mm", "cm2", []float64{52, 5}, 13, 1e-9},
		{"outlined_ml", "area_cm2 height", "ml", []float64{12 * math.Pi, 20}, 37.699, 0.001},
		{"by_weight_ml", "grams density", "ml", []float64{1531, 1.95}, 785.1, 0.1},
		{"displaced_ml", "before_ml after_ml", "ml", []float64{400, 437.5}, 37.5, 1e-9},
		{"round_wall_ml", "across height margin cover", "ml", []float64{60, 20, 20, 20}, 100 * math.Pi, 1e-9},
		{"wall_height_mm", "height cover freeboard", "mm", []float64{20, 15, 10}, 45, 1e-9},
		{"wall_clay_ml", "length width margin wall_height wall_thickness", "ml", []float64{80, 60, 20, 50, 10}, 240, 1e-9},
		{"round_wall_clay_ml", "across margin wall_height wall_thickness", "ml", []float64{60, 20, 50, 10}, 55 * math.Pi, 1e-9},
	})
}
