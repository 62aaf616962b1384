package craft

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func unitNamed(t interface {
	Helper()
	Fatalf(string, ...any)
}, name string) Unit {
	t.Helper()
	u, ok := UnitNamed(name)
	if !ok {
		t.Fatalf("no unit %q", name)
	}
	return u
}

func measures(t interface {
	Helper()
	Fatalf(string, ...any)
}, names ...string) []Measure {
	t.Helper()
	var owned []Measure
	for _, name := range names {
		m, err := MeasureOf(unitNamed(t, name))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		owned = append(owned, m)
	}
	return owned
}

// Source: NIST HB 44 ratios, 16 tablespoons to the cup and 3 teaspoons to the
// tablespoon; the counts by hand from them.
func TestInMeasures(t *testing.T) {
	for _, c := range []struct {
		ml    float64
		owned []string
		want  []string
		off   float64
	}{
		{2*usCup + 3*usTablespoon, []string{"tsp", "tbsp", "cup"}, []string{"2 cups", "3 tablespoons"}, 0},
		{usCup / 4, []string{"cup"}, []string{"1/4 cup"}, 0},
		{2.5 * usCup, []string{"tbsp", "cup"}, []string{"2 1/2 cups"}, 0},
		{1.5 * usTeaspoon, []string{"tsp", "tbsp", "cup"}, []string{"1/2 tablespoon"}, 0},
		{usTablespoon + usTeaspoon, []string{"tbsp", "tsp"}, []string{"1 tablespoon", "1 teaspoon"}, 0},
		{5 * usTablespoon, []string{"tbsp"}, []string{"5 tablespoons"}, 0},
		{1000, []string{"metric cup"}, []string{"4 metric cups"}, 0},
		{30 * usCup, []string{"cup", "tbsp"}, []string{"30 cups"}, 0},
		{240, []string{"tsp", "cup"}, []string{"1 cup"}, -1.42}, // not 48 1/2 teaspoons, though nearer
	} {
		got, err := InMeasures(c.ml, measures(t, c.owned...))
		if err != nil {
			t.Errorf("%v ml: %v", c.ml, err)
			continue
		}
		if len(got.Counts) != len(c.want) {
			t.Errorf("%v ml: got %v, want %v", c.ml, got.Counts, c.want)
			continue
		}
		for i := range c.want {
			if got.Counts[i].String() != c.want[i] {
				t.Errorf("%v ml: got %v, want %v", c.ml, got.Counts, c.want)
			}
		}
		near(t, "off", got.OffPercent, c.off, 0.01)
	}
}

func TestCapsAsMeasures(t *testing.T) {
	bottleCap, err := Calibrate(2.5, unitNamed(t, "tablespoon"))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "cap", bottleCap.Millilitres, usTablespoon/2.5, 1e-12)
	got, err := InMeasures(20, []Measure{bottleCap})
	if err != nil || len(got.Counts) != 1 {
		t.Fatal(got, err)
	}
	if text := got.Counts[0].String(); text != "3 caps" { // 17.7 ml; four would be 23.7
		t.Errorf("20 ml is %q", text)
	}
	near(t, "off", got.OffPercent, -11.28, 0.01)
	for _, count := range []float64{0, -1, math.NaN(), math.Inf(1), 1e9} {
		if _, err := Calibrate(count, unitNamed(t, "tablespoon")); err == nil {
			t.Errorf("%v caps pass", count)
		}
	}
	if m, err := Calibrate(1000, unitNamed(t, "teaspoon")); err == nil {
		t.Errorf("a cap of %v ml passes", m.Millilitres)
	}
	if _, err := Calibrate(2, unitNamed(t, "gram")); err == nil {
		t.Error("caps pass as grams")
	}
}

// Source: GNU units, run here, for what the vessels hold; the counts by hand.
func TestOwnMeasure(t *testing.T) {
	for i, ml := range askUnits(t, [][2]string{{"brpint/2", "ml"}, {"brfloz", "ml"}}) {
		m, err := OwnMeasure("  blue   beaker ", ml)
		if err != nil {
			t.Fatal(err)
		}
		if want := []float64{0.25, 0.5}[i]; m.Step != want {
			t.Errorf("%v ml is read to %v, want %v", ml, m.Step, want)
		}
		got, err := InMeasures(2.5*ml, []Measure{m})
		if err != nil || len(got.Counts) != 1 {
			t.Fatal(got, err)
		}
		near(t, "held", got.Millilitres, 2.5*ml, 1e-9*ml)
		if text := got.Counts[0].String(); text != "2 1/2 times the blue beaker" {
			t.Errorf("got %q", text)
		}
	}
	for _, c := range []struct {
		name string
		ml   float64
	}{{"", 250}, {"  ", 250}, {strings.Repeat("b", 61), 250}, {"beaker", 0}, {"beaker", -1}, {"beaker", math.NaN()},
		{"beaker", math.Inf(1)}, {"beaker", 1e9}} {
		if m, err := OwnMeasure(c.name, c.ml); err == nil || m != (Measure{}) {
			t.Errorf("%+v passes: %v", c, m)
		} else {
			tellsMaker(t, err)
		}
	}
}

func TestInMeasuresRefuses(t *testing.T) {
	cup := measures(t, "cup")
	for name, c := range map[string]struct {
		ml    float64
		owned []Measure
	}{
		"too little for a quarter cup": {10, cup},
		"past counting":                {1e6, cup},
		"past counting, two measures":  {30000, measures(t, "cup", "tbsp")},
		"past counting, what is left":  {14000, append(measures(t, "tsp"), Measure{Name: "bucket", Millilitres: 10000})},
		"third over the least":         {1.8, measures(t, "tsp")}, // half a teaspoon is 2.46
		"nothing":                      {0, cup},
		"negative":                     {-3, cup},
		"no number":                    {math.NaN(), cup},
		"no measures":                  {100, nil},
		"cup of no size":               {100, []Measure{{Name: "cup", Step: 1}}},
		"cup read to a tenth":          {100, []Measure{{Name: "cup", Millilitres: 200, Step: 0.1}}},
	} {
		got, err := InMeasures(c.ml, c.owned)
		if err == nil || got.Counts != nil {
			t.Errorf("%s passes: %v", name, got)
			continue
		}
		tellsMaker(t, err)
	}
}

// Against trying every single measure: the answer is close, or as near as the
// best of them; and it says no part that cannot be measured.
func TestInMeasuresHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ml := rapid.Float64Range(0.5, 3000).Draw(t, "ml")
		owned := measures(t, "tsp", "tbsp", "cup", "fl oz")
		for i := range owned {
			owned[i].Step = rapid.SampledFrom([]float64{0.25, 0.5, 1}).Draw(t, "step")
		}
		owned = owned[:rapid.IntRange(1, 4).Draw(t, "how many")]
		single := math.Inf(1)
		for _, m := range owned {
			if ml > mostCounted*m.Millilitres {
				continue
			}
			for n := m.Step; n <= mostCounted+1; n += m.Step {
				single = math.Min(single, math.Abs(100*(n*m.Millilitres-ml)/ml))
			}
		}
		got, err := InMeasures(ml, owned)
		if err != nil {
			if single <= tooFarOff {
				t.Fatalf("%v ml: %v, though one measure is %v percent off", ml, err, single)
			}
			return
		}
		if len(got.Counts) < 1 || len(got.Counts) > 2 {
			t.Fatalf("%v ml in %v", ml, got.Counts)
		}
		held := 0.0
		for i, c := range got.Counts {
			held += c.Count * c.Measure.Millilitres
			if steps := c.Count / c.Measure.Step; steps != math.Round(steps) || steps < 1 {
				t.Errorf("%v ml: %s is not in steps of %v", ml, c, c.Measure.Step)
			}
			if i == 1 && c.Measure.Millilitres >= got.Counts[0].Measure.Millilitres {
				t.Errorf("%v ml: smaller measure first in %v", ml, got.Counts)
			}
		}
		near(t, "held", got.Millilitres, held, 1e-9*held)
		near(t, "off", got.OffPercent, 100*(held-ml)/ml, 1e-6)
		if math.Abs(got.OffPercent) > math.Max(closeEnough, single)+1e-6 {
			t.Errorf("%v ml: %v is %v percent off, one measure %v", ml, got.Counts, got.OffPercent, single)
		}
	})
}

func TestFormatCount(t *testing.T) {
	for x, want := range map[float64]string{
		2.5: "2 1/2", 0.25: "1/4", 3: "3", 0.75: "3/4", 10.25: "10 1/4", 0: "0", 2.9: "3",
		-1: "", math.Inf(1): "", 1e300: "",
	} {
		if got := FormatCount(x); got != want {
			t.Errorf("%v: got %q, want %q", x, got, want)
		}
	}
	if got := FormatCount(math.NaN()); got != "" {
		t.Errorf("no number: got %q", got)
	}
}

func TestSensible(t *testing.T) {
	for x, want := range map[float64]float64{
		0: 0, 0.004: 0, 0.234: 0.23, 4.34: 4.3, 9.97: 10, 10.4: 10, 123.4: 123, 999.6: 1000,
		1234: 1230, 56789: 56800, -4.34: -4.3, math.Inf(1): 0, math.MaxFloat64: math.MaxFloat64,
	} {
		near(t, "sensible", Sensible(x), want, 1e-9)
	}
	if got := Sensible(math.NaN()); got != 0 {
		t.Errorf("no number: got %v", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0, 1e8).Draw(t, "x")
		once := Sensible(x)
		near(t, "twice", Sensible(once), once, 1e-9*once)
		near(t, "near x", once, x, math.Max(0.05, 0.05*x))
		if y := rapid.Float64Range(x, 1e8).Draw(t, "y"); Sensible(y) < once {
			t.Errorf("%v gives %v but the larger %v gives %v", x, once, y, Sensible(y))
		}
	})
}

// Source: counted by hand.
func TestMeaningful(t *testing.T) {
	for _, c := range []struct{ x, doubt, want float64 }{
		{412.7, 30, 410}, {412.7, 3, 413}, {412.7, 0.2, 412.7}, {-412.7, 30, -410}, {4, 16, 4}, {44, 160, 40},
		{0, 5, 0}, {412.7, 0, 412.7}, {412.7, math.NaN(), 412.7}, {math.Inf(1), 3, 0}, {math.NaN(), 3, 0}, {1e300, 3, 1e300},
	} {
		near(t, "rounded", Meaningful(c.x, c.doubt), c.want, 1e-9)
	}
}

// Source: counted by hand.
func TestSensibleSpan(t *testing.T) {
	for _, c := range []struct{ in, want Span }{
		{Span{32.4, 41.2, 50.1}, Span{32, 41, 51}}, {Span{8.31, 24.6, 82.3}, Span{8.3, 20, 83}},
		{Span{1234, 1300, 1410}, Span{1200, 1300, 1500}}, {Span{0, 0, 0}, Span{}}, {Span{0.1, 0.2, 0.3}, Span{0.1, 0.2, 0.3}},
		{Span{0, 3, 20}, Span{0, 3, 20}}, {Span{41.2, 41.2, 41.2}, Span{41, 41.2, 42}}, {Span{3, 2, 1}, Span{}}, {Span{1, math.NaN(), 2}, Span{}},
	} {
		got := SensibleSpan(c.in)
		near(t, "low", got.Low, c.want.Low, 1e-9)
		near(t, "mid", got.Mid, c.want.Mid, 1e-9)
		near(t, "high", got.High, c.want.High, 1e-9)
	}
}

// Rounded for showing, a span still holds all it held, in order, and is no
// more than a tenth wider at either end.
func TestSensibleSpanHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(0, 1e6).Draw(t, "low")
		mid := low + rapid.Float64Range(0, 1e6).Draw(t, "more")
		in := Span{low, mid, mid + rapid.Float64Range(0, 1e6).Draw(t, "most")}
		got := SensibleSpan(in)
		if got.Low > in.Low*(1+1e-9) || got.High < in.High*(1-1e-9)-nothing || got.Low < 0.9*in.Low-1e-9 || got.High > 1.1*in.High+1e-9 {
			t.Errorf("%v becomes %v", in, got)
		}
		if !(got.Low <= got.Mid && got.Mid <= got.High) {
			t.Errorf("out of order: %v", got)
		}
	})
}
