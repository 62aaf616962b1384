package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: arithmetic; water is all that leaves (common practice, no source).
func TestWaterLost(t *testing.T) {
	ok := must(t)
	near(t, "once", ok(Weighing{412, 389}.WaterLost()), 23, 1e-9)
	near(t, "none", ok(Weighing{400, 400}.WaterLost()), 0, 0)
	near(t, "three times", ok(WaterLost(Weighing{412, 389}, Weighing{412, 400}, Weighing{300, 295})), 40, 1e-9)
	near(t, "never melted", ok(WaterLost()), 0, 0)
	for _, w := range []Weighing{{400, 401}, {0, 0}, {400, 0}, {400, 100}, {-5, -6}, {math.NaN(), 1}, {1, math.NaN()},
		{math.Inf(1), 1}, {5e-324, 5e-324}} {
		if got, err := WaterLost(Weighing{100, 90}, w); err == nil || got != 0 {
			t.Errorf("%v passes: %v", w, got)
		} else {
			tellsMaker(t, err)
		}
	}
	if got, err := WaterLost(Weighing{1e9, 4e8}, Weighing{1e9, 4e8}); err == nil || got != 0 {
		t.Errorf("a lake passes: %v", got)
	}
}

// With the loss stirred in again the mix weighs what it did.
func TestWaterLostConserves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.Float64Range(1, 1e6).Draw(t, "before")
		after := before * rapid.Float64Range(0.31, 1).Draw(t, "kept")
		lost := must(t)(Weighing{before, after}.WaterLost())
		near(t, "topped up", after+lost, before, 1e-9*before)
	})
}

// Source: arithmetic.
func TestDose(t *testing.T) {
	ok := must(t)
	near(t, "colour", ok(Dose(250, 0.4)), 1, 1e-12)
	near(t, "none", ok(Dose(250, 0)), 0, 0)
	for _, c := range [][2]float64{{0, 1}, {-1, 1}, {250, -1}, {250, 101}, {math.NaN(), 1}, {250, math.NaN()}, {math.Inf(1), 1}} {
		if got, err := Dose(c[0], c[1]); err == nil || got != 0 {
			t.Errorf("%v passes: %v", c, got)
		} else {
			tellsMaker(t, err)
		}
	}
}
