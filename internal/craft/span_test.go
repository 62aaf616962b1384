package craft

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func give(name string, value, off float64) Guess {
	return Guess{Name: name, Value: value, Low: value - off, High: value + off}
}

func added(x []float64) (float64, error) {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum, nil
}

// Source: JCGM 100:2008, example H.1, the calibration of a gauge block (from
// memory): 25, 9.7, 2.9 and 16.6 nm combine to 32 nm.
func TestSpreadAgainstTheGauge(t *testing.T) {
	span, widest, err := Spread(added, []Guess{
		give("standard", 50_000_623, 25), give("difference", 215, 9.7),
		give("expansion", 0, 2.9), give("temperature", 0, 16.6)})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "length", span.Mid, 50_000_838, 1e-6)
	near(t, "above", span.High-span.Mid, 32, 0.5)
	near(t, "below", span.Mid-span.Low, 32, 0.5)
	if widest != 0 {
		t.Errorf("widest is %d, want the standard", widest)
	}
}

// Source: arithmetic. Ends that differ, a sum that turns round inside the
// guess, and one that falls as the guess rises.
func TestSpreadByHand(t *testing.T) {
	check := func(name string, f func([]float64) (float64, error), guesses []Guess, want Span, widest int) {
		t.Helper()
		got, at, err := Spread(f, guesses)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		near(t, name+" low", got.Low, want.Low, 1e-9)
		near(t, name+" mid", got.Mid, want.Mid, 1e-9)
		near(t, name+" high", got.High, want.High, 1e-9)
		if at != widest {
			t.Errorf("%s: widest is %d, want %d", name, at, widest)
		}
	}
	check("uneven", added, []Guess{{"a", 10, 7, 14}, {"b", 20, 16, 23}}, Span{25, 30, 35}, 0)
	check("square", func(x []float64) (float64, error) { return x[0] * x[0], nil }, []Guess{{"a", 1, -2, 3}}, Span{1, 1, 9}, 0)
	check("inverse", func(x []float64) (float64, error) { return 12 / x[0], nil }, []Guess{{"a", 3, 2, 4}}, Span{3, 4, 6}, 0)
	check("nothing known better", added, []Guess{{"a", 3, 3, 3}}, Span{3, 3, 3}, -1)
	check("no guess", added, nil, Span{}, -1)
	check("not below nothing", added, []Guess{{"a", 1, 0, 2}, {"b", 1, 0, 2}, {"c", 1, 0, 2}, {"d", 1, 0, 2}, {"e", 1, 0, 2},
		{"f", 1, 0, 2}, {"g", -5, -5, -5}}, Span{0, 1, 1 + math.Sqrt(6)}, 0)
	check("not below nothing, each alone", func(x []float64) (float64, error) { return x[0] * x[1], nil },
		[]Guess{{"a", 1, 0, 2}, {"b", 1, 0, 2}}, Span{0, 1, 1 + math.Sqrt2}, 0)
	picky := func(x []float64) (float64, error) {
		if x[0] > 5 {
			return 0, errors.New("too high")
		}
		return x[0] + x[1], nil
	}
	check("an end that fails", picky, []Guess{{"a", 5, 4, 9}, {"b", 1, 0, 3}}, Span{6 - math.Sqrt2, 6, 8}, 1)
}

func TestSpreadRefuses(t *testing.T) {
	sound := []Guess{{"a", 1, 0, 2}}
	for name, c := range map[string]struct {
		f       func([]float64) (float64, error)
		guesses []Guess
	}{
		"a sum that fails": {func([]float64) (float64, error) { return 0, errors.New("no such mix") }, sound},
		"no number":        {func([]float64) (float64, error) { return math.NaN(), nil }, sound},
		"endless":          {func([]float64) (float64, error) { return math.Inf(1), nil }, sound},
		"upside down":      {added, []Guess{{"height", 1, 2, 0}}},
		"guess of none":    {added, []Guess{{"height", math.NaN(), 0, 2}}},
		"endless guess":    {added, []Guess{{"height", 1, 0, math.Inf(1)}}},
		"too many":         {added, make([]Guess, maxGuesses+1)},
	} {
		got, widest, err := Spread(c.f, c.guesses)
		if err == nil || got != (Span{}) || widest != -1 {
			t.Errorf("%s passes: %v, %d", name, got, widest)
			continue
		}
		tellsMaker(t, err)
	}
}

// Whatever the guesses: the ends are in order, every guess alone stays within
// them, the widest moves most, and one guess more never narrows them.
func TestSpreadHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slopes := rapid.SliceOfN(rapid.Float64Range(-5, 5), 2, 6).Draw(t, "slopes")
		bent := func(x []float64) (float64, error) {
			sum := 0.0
			for i, v := range x {
				sum += slopes[i]*v + v*v/10
			}
			return sum, nil
		}
		guesses := make([]Guess, len(slopes))
		sharp := make([]Guess, len(slopes))
		for i := range guesses {
			v := rapid.Float64Range(-10, 10).Draw(t, "value")
			guesses[i] = Guess{"x", v, v - rapid.Float64Range(0, 5).Draw(t, "down"), v + rapid.Float64Range(0, 5).Draw(t, "up")}
			sharp[i] = guesses[i]
		}
		got, widest, err := Spread(bent, guesses)
		if err != nil {
			t.Fatal(err)
		}
		if !(got.Low <= got.Mid && got.Mid <= got.High) {
			t.Fatalf("out of order: %v", got)
		}
		most := 0.0
		for i, g := range guesses {
			x := make([]float64, len(guesses))
			for j := range x {
				x[j] = guesses[j].Value
			}
			low, high := got.Mid, got.Mid
			for _, end := range []float64{g.Low, g.High} {
				x[i] = end
				y, _ := bent(x)
				low, high = min(low, y), max(high, y)
			}
			if low < got.Low-1e-9 || high > got.High+1e-9 {
				t.Errorf("guess %d goes from %v to %v, outside %v", i, low, high, got)
			}
			if high-low > most {
				most = high - low
				if i > widest {
					t.Errorf("guess %d moves more than the widest, %d", i, widest)
				}
			}
		}
		i := rapid.IntRange(0, len(sharp)-1).Draw(t, "sharpened")
		sharp[i].Low, sharp[i].High = sharp[i].Value, sharp[i].Value
		closer, _, err := Spread(bent, sharp)
		if err != nil || closer.High > got.High+1e-9 || closer.Low < got.Low-1e-9 && got.Low > 0 {
			t.Errorf("knowing guess %d better widens %v to %v (%v)", i, got, closer, err)
		}
	})
}

func TestSpanSound(t *testing.T) {
	if err := (Span{1, 2, 3}).check("time", 10, "s"); err != nil {
		t.Error(err)
	}
	for _, s := range []Span{{3, 2, 1}, {math.NaN(), 1, 2}, {1, math.NaN(), 2}, {-1, 0, 1}, {1, 2, 11}, {1, 2, math.Inf(1)}} {
		if err := s.check("time", 10, "s"); err == nil {
			t.Errorf("%v passes", s)
		} else {
			tellsMaker(t, err)
		}
	}
}
