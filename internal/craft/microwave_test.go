package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: Perry's Chemical Engineers' Handbook, glycerol solutions at 15
// degrees C in cal/(g K) by mole percent, and Table 2-206 for glycerol alone.
func TestHeatCapacityAgainstGlycerolSolutions(t *testing.T) {
	ok := must(t)
	for mole, calories := range map[float64]float64{4.66: 0.929, 11.5: 0.851, 22.7: 0.765, 43.9: 0.67} {
		want := 4.184 * calories
		solution := Dry{Glycerol: mole * 92.094, Water: (100 - mole) * 18.0153}
		near(t, "solution", ok(solution.HeatCapacity(15)), want, 0.04*want)
	}
	near(t, "glycerol at 15", ok(Dry{Glycerol: 1}.HeatCapacity(15)), 2.32, 0.005)
	near(t, "glycerol at 32", ok(Dry{Glycerol: 1}.HeatCapacity(32)), 2.41, 0.005)
}

// Source: Choi and Okos (1986), protein 2.03 and carbohydrate 1.59 kJ/(kg K)
// at 20 degrees C (from memory); the two mixes reckoned from them by mass
// alone, without what glycerol and water gain together, so to 2 %.
func TestHeatCapacityOfMixes(t *testing.T) {
	ok := must(t)
	near(t, "protein", ok(Dry{Gelatin: 1}.HeatCapacity(20)), 2.03, 0.01)
	near(t, "carbohydrate", ok(Dry{Sorbitol: 1}.HeatCapacity(20)), 1.59, 0.01)
	near(t, "one to two and two", ok(cast(t, 1, 2, 2, 0, 0).HeatCapacity(20)), 2.36, 0.02*2.36)
	near(t, "three to four", ok(cast(t, 3, 0, 0, 4, 0).HeatCapacity(20)), 3.36, 0.02*3.36)
	for _, c := range []struct {
		d       Dry
		celsius float64
	}{{Dry{}, 20}, {Dry{Gelatin: 1, Water: -1}, 20}, {Dry{Gelatin: 1, Water: math.NaN()}, 20}, {Dry{Gelatin: math.Inf(1)}, 20},
		{Dry{Gelatin: 1}, -5}, {Dry{Gelatin: 1}, 200}, {Dry{Gelatin: 1}, math.NaN()}} {
		if got, err := c.d.HeatCapacity(c.celsius); err == nil || got != 0 {
			t.Errorf("%+v passes: %v", c, got)
		} else {
			tellsMaker(t, err)
		}
	}
}

// Source: an oven's service manual, times for a litre of water to rise by 10
// degrees C as IEC 60705 has it.
func TestOvenWattsAgainstServiceTable(t *testing.T) {
	for watts, seconds := range map[float64]float64{600: 70, 700: 60, 800: 52, 900: 47, 1000: 42} {
		near(t, "rating", must(t)(OvenWatts(1000, 10, seconds)), watts, 0.02*watts)
	}
	for _, c := range [][3]float64{{50, 10, 60}, {1000, 0, 60}, {1000, 10, 0}, {math.NaN(), 10, 60}, {1000, 95, 60}, {1e9, 10, 60}} {
		if got, err := OvenWatts(c[0], c[1], c[2]); err == nil || got != 0 {
			t.Errorf("%v passes: %v", c, got)
		} else {
			tellsMaker(t, err)
		}
	}
}

func jugful() Warming { return Warming{Grams: 250, HeatCapacity: 2.36, From: 20, To: 65, Watts: 800} }

// Source: the worked example of 250 g from 20 to 65 degrees C in 800 W at a
// share of 0.8, the low end for that mass: 42 s.
func TestWarmingExample(t *testing.T) {
	heat := must(t)(jugful().Heat())
	near(t, "heat", heat, 250*2.36*45/1000, 1e-9)
	near(t, "seconds", 1000*heat/(uptake(250).Low*800), 42, 1)
	span, err := jugful().Seconds()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "middle", span.Mid, 42, 2)
	if span.Low > 42*0.9 || span.High < 42*1.1 {
		t.Errorf("too narrow for ovens that differ by 30 percent: %v", span)
	}
	gel := jugful()
	gel.Gelatin = 50
	near(t, "melting 50 g", must(t)(gel.Heat())-heat, 50*6.7*4.184/1000, 0.01) // calorimetry, 6.7 cal to the gram
}

// Source: Buffler, Microwave Cooking and Processing (1993), from memory: 0.6
// to 0.7 at 100 g, 0.8 to 0.85 at 250 g, 0.9 to 1.0 from 500 g.
func TestUptake(t *testing.T) {
	for grams, want := range map[float64]Span{100: {0.6, 0.65, 0.7}, 250: {0.8, 0.825, 0.85}, 500: {0.9, 0.95, 1},
		5000: {0.9, 0.95, 1}, 175: {0.7, 0.7375, 0.775}} {
		got := uptake(grams)
		near(t, "low", got.Low, want.Low, 1e-9)
		near(t, "mid", got.Mid, want.Mid, 1e-9)
		near(t, "high", got.High, want.High, 1e-9)
	}
}

func TestWarmingRefuses(t *testing.T) {
	for name, change := range map[string]func(*Warming){
		"a thimbleful": func(w *Warming) { w.Grams = 5 },
		"no number":    func(w *Warming) { w.Grams = math.NaN() },
		"like lead":    func(w *Warming) { w.HeatCapacity = 0.1 },
		"boiling":      func(w *Warming) { w.To = 100 },
		"cooling":      func(w *Warming) { w.To = 10 },
		"no change":    func(w *Warming) { w.To = 20 },
		"frozen":       func(w *Warming) { w.From = -18 },
		"no power":     func(w *Warming) { w.Watts = 0 },
		"furnace":      func(w *Warming) { w.Watts = math.Inf(1) },
		"all gelatin":  func(w *Warming) { w.Gelatin = 251 },
		"less than no": func(w *Warming) { w.Gelatin = -1 },
	} {
		w := jugful()
		change(&w)
		if got, err := w.Seconds(); err == nil || got != (Span{}) {
			t.Errorf("%s passes: %v", name, got)
		} else {
			tellsMaker(t, err)
		}
		if got, err := w.Heat(); err == nil || got != 0 {
			t.Errorf("%s has a heat: %v", name, got)
		}
	}
}

// More to warm, further to go or a weaker oven never takes less time.
func TestWarmingGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := Warming{
			Grams:        rapid.Float64Range(20, 2000).Draw(t, "grams"),
			HeatCapacity: rapid.Float64Range(1.5, 4.2).Draw(t, "heat"),
			From:         rapid.Float64Range(5, 40).Draw(t, "from"),
			To:           rapid.Float64Range(45, 75).Draw(t, "to"),
			Watts:        rapid.Float64Range(500, 1200).Draw(t, "watts"),
		}
		more := w
		more.Grams *= rapid.Float64Range(1, 2).Draw(t, "more")
		more.To += rapid.Float64Range(0, 15).Draw(t, "hotter")
		more.Watts *= rapid.Float64Range(0.5, 1).Draw(t, "weaker")
		a, err := w.Seconds()
		if err != nil {
			t.Fatal(err)
		}
		b, err := more.Seconds()
		if err != nil {
			t.Fatal(err)
		}
		if !(0 < a.Low && a.Low < a.Mid && a.Mid < a.High) {
			t.Errorf("out of order: %v", a)
		}
		if b.Low < a.Low*(1-1e-9) || b.Mid < a.Mid*(1-1e-9) || b.High < a.High*(1-1e-9) {
			t.Errorf("%+v takes %v, %+v only %v", w, a, more, b)
		}
	})
}

// Source: counted by hand.
func TestBursts(t *testing.T) {
	for _, c := range []struct {
		total        Span
		each         float64
		fewest, most int
	}{
		{Span{32, 40, 51}, 15, 3, 4}, {Span{30, 30, 30}, 15, 2, 2}, {Span{0.5, 1, 2}, 15, 1, 1}, {Span{}, 10, 1, 1},
	} {
		fewest, most, err := Bursts(c.total, c.each)
		if err != nil || fewest != c.fewest || most != c.most {
			t.Errorf("%v by %v: got %d to %d, %v", c.total, c.each, fewest, most, err)
		}
	}
	for _, c := range []struct {
		total Span
		each  float64
	}{{Span{3, 2, 1}, 10}, {Span{1, 2, 3}, 0}, {Span{1, 2, 3}, math.NaN()}, {Span{1, 2, 1e9}, 10}, {Span{-1, 2, 3}, 10}} {
		if fewest, most, err := Bursts(c.total, c.each); err == nil || fewest != 0 || most != 0 {
			t.Errorf("%+v passes: %d, %d", c, fewest, most)
		} else {
			tellsMaker(t, err)
		}
	}
}
