package craft

import (
	"fmt"
	"testing"
)

// Source: the worked examples of the tests beside each sum; a litre rising by
// 10 degrees C in 52 s, 800 W, from an oven's service manual; Moritz and
// Henriques (1947), 3 s and 5 s at 60 degrees C, 2 min at 51.
func TestHeatFuncs(t *testing.T) {
	const slab, jug = "thickness_mm start_c plate_c set_c faces", "ml start_c end_c room_c"
	checkCalls(t, []workedCall{
		{"microwave_s", microwaveParams, "s", []float64{250, 2.36, 20, 65, 800}, 42, 2},
		{"oven_w", "water_g rise_c time_s", "W", []float64{1000, 10, 52}, 800, 16},
		{"slab_set_from_min", slab, "min", []float64{10, 60, 20, 30, 1}, 8.3, 0.1},
		{"slab_set_from_min", slab, "min", []float64{10, 60, 20, 30, 2}, 2.1, 0.1},
		{"slab_set_to_min", slab, "min", []float64{10, 60, 20, 30, 1}, 74 + 8.3, 0.5},
		{"jug_hold_min", jug, "min", []float64{250, 65, 50, 20}, 25, 1},
		{"burn_s", "celsius", "s", []float64{60}, 3, 0.5},
		{"burn_s", "celsius", "s", []float64{51}, 120, 15},
		{"burn_lasting_s", "celsius", "s", []float64{61}, 5, 0.5},
		{"strength_kept_percent", "celsius minutes", "percent", []float64{60, 120}, 95, 1e-9},
	})
}

// The three sums of a range keep their order, and a casting cools through one
// face or two.
func TestRangesOfHeat(t *testing.T) {
	call := func(name, part string, args []float64) float64 {
		return must(t)(funcNamed(t, fmt.Sprintf(name, part)).Fn(args...))
	}
	for name, args := range map[string][]float64{
		"microwave%s_s":  {250, 2.4, 20, 65, 800},
		"slab_set%s_min": {10, 60, 20, 30, 1},
		"jug_hold%s_min": {250, 65, 50, 20},
	} {
		from, middle, to := call(name, "_from", args), call(name, "", args), call(name, "_to", args)
		if !(0 < from && from < middle && middle < to) {
			t.Errorf("%s: %v, %v, %v", fmt.Sprintf(name, ""), from, middle, to)
		}
	}
	for _, faces := range []float64{0, 1.5, 3} {
		if y, err := funcNamed(t, "slab_set_min").Fn(10, 60, 20, 30, faces); err == nil || y != 0 {
			t.Errorf("%v faces pass: %v", faces, y)
		} else {
			tellsMaker(t, err)
		}
	}
}
