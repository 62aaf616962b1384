package sums

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
	"sparehand/rules"
)

var loaded = func() *book.Book {
	b, err := book.Load(rules.Files)
	if err != nil {
		panic(err)
	}
	return b
}()

// told facts, in the order of telling.
type tellings struct {
	values map[logic.FactID]logic.Value
	since  map[logic.FactID]int
}

func (k tellings) Value(id logic.FactID) (logic.Value, bool) {
	v, ok := k.values[id]
	return v, ok
}

func (k tellings) Since(id logic.FactID) int { return k.since[id] }

// after makes a bench that was told "fact value" pairs in turn.
func after(t testing.TB, pairs ...string) Bench {
	t.Helper()
	k := tellings{map[logic.FactID]logic.Value{}, map[logic.FactID]int{}}
	for i := 0; i < len(pairs); i += 2 {
		f := loaded.FactByName(pairs[i])
		if f == nil {
			t.Fatalf("no fact %s", pairs[i])
		}
		v, fault := f.Parse(pairs[i+1])
		if fault != "" {
			t.Fatal(fault)
		}
		k.values[f.ID], k.since[f.ID] = v, i+1
	}
	return Bench{loaded, k}
}

func amountNamed(t testing.TB, id string) *book.Amount {
	t.Helper()
	for _, am := range loaded.Amounts {
		if am.ID == id {
			return am
		}
	}
	t.Fatalf("no amount %s", id)
	return nil
}

func grams(t testing.TB, w Worked, name string) float64 {
	t.Helper()
	for _, l := range w.Lines {
		if l.Name == name {
			return l.Grams
		}
	}
	t.Fatalf("no line %q in %+v", name, w)
	return 0
}

func near(t testing.TB, what string, got, want, off float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > off {
		t.Errorf("%s: %v, want %v within %v", what, got, want, off)
	}
}

var (
	barnacle    = []string{"piece_length_mm", "110", "piece_width_mm", "80", "piece_height_mm", "18"}
	sorbitolMix = []string{"recipe", "gelatin_sorbitol_glycerin"}
)

// The mound inside a skirt of 10 mm is 90 by 60 by 18: half of pi a b h is
// 38.17 ml; the skirt 1 mm thick adds P s/2 + pi s^2/3 of it, with Ramanujan's
// perimeter 238.0 mm, 1.295 ml (solid geometry, as in any handbook). Twenty
// percent more is 47.36 ml, and a melt of 1.285 g/ml (materials' densities)
// weighs 60.8 g: 12.2 g gelatin and 24.3 of each of the others.
func TestMixForAPiece(t *testing.T) {
	w := after(t, slices.Concat(barnacle, sorbitolMix)...).Work(amountNamed(t, "gel-mix"))
	near(t, "gelatin", grams(t, w, "gelatin powder"), 12.17, 0.1)
	near(t, "glycerin", grams(t, w, "glycerin"), 24.34, 0.2)
	near(t, "syrup", grams(t, w, "sorbitol syrup, 70 %"), 24.34, 0.2)
	if !slices.ContainsFunc(w.Assumes, func(s string) bool { return strings.Contains(s, "skirt") }) {
		t.Errorf("the skirt taken for granted is not said: %q", w.Assumes)
	}
	if w.Narrow == "" {
		t.Error("nothing says what narrows the range")
	}
}

// What was told last decides.
func TestLastToldDecides(t *testing.T) {
	gel := amountNamed(t, "gel-mix")
	byTotal := slices.Concat(barnacle, sorbitolMix, []string{"mix_g", "300"})
	near(t, "total after sizes", grams(t, after(t, byTotal...).Work(gel), "gelatin powder"), 60, 0.01)
	have := slices.Concat(byTotal, []string{"have_glycerin_g", "50"})
	near(t, "what there is after a total", grams(t, after(t, have...).Work(gel), "gelatin powder"), 25, 0.01)
	sizes := slices.Concat(sorbitolMix, []string{"mix_g", "300"}, barnacle)
	near(t, "sizes after a total", grams(t, after(t, sizes...).Work(gel), "gelatin powder"), 12.17, 0.1)
	weighed := slices.Concat(barnacle, sorbitolMix, []string{"clay_g", "180"}) // 100 ml, at 1.8 g/ml
	near(t, "clay after sizes", grams(t, after(t, weighed...).Work(gel), "gelatin powder"), 1.2*100*1.283/5, 0.2)
}

// A dimension that is not told is asked for, whatever else is told: no size
// of the piece, nor the recipe, is ever taken for granted.
func TestNothingDecisiveIsAssumed(t *testing.T) {
	gel := amountNamed(t, "gel-mix")
	all := slices.Concat(barnacle, sorbitolMix)
	rapid.Check(t, func(rt *rapid.T) {
		var told []string
		for i := 0; i < len(all); i += 2 {
			if rapid.Bool().Draw(rt, all[i]) {
				told = append(told, all[i], all[i+1])
			}
		}
		w := after(t, told...).Work(gel)
		if complete := len(told) == len(all); complete != (len(w.Lacks) == 0) || complete != (len(w.Lines) > 0) {
			rt.Errorf("told %v: lacks %d, lines %d", told, len(w.Lacks), len(w.Lines))
		}
		for _, f := range w.Lacks {
			if slices.Contains(told, f.Name) {
				rt.Errorf("%s is asked for though it is told", f.Name)
			}
		}
	})
}

// Twice the copies take twice the mix; the range holds the middle.
func TestCopiesAreLinear(t *testing.T) {
	gel := amountNamed(t, "gel-mix")
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 50).Draw(rt, "copies")
		one := after(t, slices.Concat(barnacle, sorbitolMix)...).Work(gel)
		many := after(t, slices.Concat(barnacle, sorbitolMix, []string{"copies", number1(float64(n))})...).Work(gel)
		for i := range one.Lines {
			near(t, "copies", many.Lines[i].Grams, float64(n)*one.Lines[i].Grams, 1e-6*float64(n))
			if s := many.Lines[i].Span; s.Low > s.Mid || s.Mid > s.High || s.Low == s.High {
				rt.Errorf("range %+v", s)
			}
		}
	})
}

// Another syrup carries the same sorbitol and, with the water added, the same
// water (mass balance).
func TestOwnSyrupKeepsTheSorbitol(t *testing.T) {
	gel := amountNamed(t, "gel-mix")
	w := after(t, slices.Concat(sorbitolMix, []string{"mix_g", "500", "syrup_strength_percent", "80"})...).Work(gel)
	syrup, water := grams(t, w, "sorbitol syrup, 80 %"), grams(t, w, "water for the syrup")
	near(t, "sorbitol", 0.8*syrup, 0.7*200, 1e-9)
	near(t, "water", 0.2*syrup+water, 0.3*200, 1e-9)
	refused := after(t, slices.Concat(sorbitolMix, []string{"mix_g", "500", "syrup_strength_percent", "18"})...).Work(gel)
	if refused.Refused == "" || len(refused.Lines) > 0 {
		t.Errorf("a syrup of 18 %% is not refused: %+v", refused)
	}
}

// C1 sqrt(B1) = C2 sqrt(B2): 200 Bloom for 250 takes 1.118 times as much
// (GMIA Gelatin Handbook 2012, from memory).
func TestOwnGelatin(t *testing.T) {
	gel := amountNamed(t, "gel-mix")
	w := after(t, slices.Concat(sorbitolMix, []string{"mix_g", "500", "gelatin_bloom", "200"})...).Work(gel)
	near(t, "gelatin to glycerin", grams(t, w, "gelatin powder")/grams(t, w, "glycerin"), 1.118/2, 0.001)
	near(t, "whole", grams(t, w, "gelatin powder")+grams(t, w, "glycerin")+grams(t, w, "sorbitol syrup, 70 %"), 500, 1e-9)
}

// NIST Handbook 44: 1 US tablespoon is 14.787 ml, 1 oz 28.35 g. The loose
// powder's 0.65 g/ml is common practice, no source.
func TestConvert(t *testing.T) {
	unit := func(name string) craft.Unit {
		for _, u := range craft.Readings(name) {
			if u.Name == name {
				return u
			}
		}
		t.Fatalf("no unit %s", name)
		return craft.Unit{}
	}
	var gelatin *book.Material
	for _, m := range loaded.Materials {
		if m.ID == "gelatin-powder" {
			gelatin = m
		}
	}
	for _, c := range []struct {
		c    Conversion
		want string
	}{
		{Conversion{3, unit("tablespoon"), unit("millilitre"), nil}, "44.4 millilitres"},
		{Conversion{4, unit("ounce"), unit("gram"), nil}, "113 grams"},
		{Conversion{1, unit("tablespoon"), unit("teaspoon"), nil}, "3 teaspoons"},
		{Conversion{2, unit("tablespoon"), unit("gram"), gelatin}, "19.2 grams"},
		{Conversion{140, unit("degree Fahrenheit"), unit("degree Celsius"), nil}, "60 degrees Celsius"},
	} {
		line, err := c.c.Convert()
		if err != nil || line.Text != c.want {
			t.Errorf("%v %s: %q, %v; want %q", c.c.Value, c.c.From.Name, line.Text, err, c.want)
		}
	}
	for _, c := range []Conversion{
		{3, unit("tablespoon"), unit("inch"), nil},
		{3, unit("tablespoon"), unit("gram"), nil},
		{-3, unit("tablespoon"), unit("millilitre"), nil},
	} {
		if line, err := c.Convert(); err == nil {
			t.Errorf("%+v gives %+v", c, line)
		}
	}
}

// Whatever is told, a sum lacks something, is refused in words, or gives
// finite lines.
func TestWorkIsTotal(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var told []string
		for i := range loaded.Facts {
			f := &loaded.Facts[i]
			if !rapid.Bool().Draw(rt, "tell") {
				continue
			}
			switch f.Kind {
			case logic.Number:
				x := rapid.OneOf(rapid.Float64Range(f.Low, max(f.High, f.Low+1)), rapid.SampledFrom([]float64{f.Low, f.High, 0, 1e9})).Draw(rt, f.Name)
				told = append(told, f.Name, f.Show(logic.Num(x)))
			case logic.Choice:
				told = append(told, f.Name, rapid.SampledFrom(f.Options).Draw(rt, f.Name).Value)
			}
		}
		b := after(t, told...)
		for _, am := range loaded.Amounts {
			w := b.Work(am)
			if len(w.Lacks) == 0 && w.Refused == "" && len(w.Lines) == 0 {
				rt.Errorf("%s comes to nothing", am.ID)
			}
			for _, l := range w.Lines {
				for _, x := range []float64{l.Span.Low, l.Span.Mid, l.Span.High, l.Grams, l.Millilitres} {
					if math.IsNaN(x) || math.IsInf(x, 0) {
						rt.Errorf("%s of %s is %v", l.Name, am.ID, x)
					}
				}
			}
			if strings.ContainsAny(w.Spoken, "{}") {
				rt.Errorf("%s says %q", am.ID, w.Spoken)
			}
		}
	})
}

// A tray that was told goes before the wall that is usual, whichever was told
// first: 200 x 150 x 40 mm less the piece.
func TestTrayGoesBeforeTheUsualWall(t *testing.T) {
	tray := []string{"tray_length_mm", "200", "tray_width_mm", "150", "tray_depth_mm", "40"}
	plaster := amountNamed(t, "mould-plaster")
	one := after(t, slices.Concat(tray, barnacle)...).Work(plaster)
	two := after(t, slices.Concat(barnacle, tray)...).Work(plaster)
	near(t, "order of telling", grams(t, one, "dry plaster"), grams(t, two, "dry plaster"), 1e-9)
	near(t, "plaster", grams(t, one, "dry plaster"), (1200-39.46)*1.15*0.925, 2)
}

// What there is too little of is said; enough is not.
func TestShort(t *testing.T) {
	plaster := amountNamed(t, "mould-plaster")
	w := after(t, slices.Concat(barnacle, []string{"have_plaster_g", "500"})...).Work(plaster)
	if want := "You have 500 g of dry plaster: 188 g short."; w.Short != want || !strings.HasSuffix(w.Say(), want) {
		t.Errorf("got %q in %q", w.Short, w.Say())
	}
	if w = after(t, slices.Concat(barnacle, []string{"have_plaster_g", "700"})...).Work(plaster); !strings.HasSuffix(w.Short, "that is enough.") {
		t.Errorf("enough is called %q", w.Short)
	}
	gel := amountNamed(t, "gel-mix")
	w = after(t, slices.Concat(barnacle, sorbitolMix, []string{"have_gelatin_g", "6"})...).Work(gel)
	near(t, "as much as there is", grams(t, w, "gelatin powder"), 6, 1e-9)
	if !strings.Contains(w.Short, "6.2 g short") {
		t.Errorf("the piece takes 12.2 g: %q", w.Short)
	}
}

// The usual skirt of a small piece leaves it its body.
func TestSmallPiecesKeepTheirBody(t *testing.T) {
	w := after(t, slices.Concat([]string{"piece_across_mm", "25", "piece_height_mm", "12"}, sorbitolMix)...).Work(amountNamed(t, "gel-mix"))
	total := grams(t, w, "gelatin powder") * 5
	// mound of 18.75 mm across: 1.657 ml, skirt 0.108: 1.765 ml, 20 % more, 1.283 g/ml
	near(t, "one barnacle", total, 1.765*1.2*1.2837, 0.03)
	if !slices.ContainsFunc(w.Notes, func(s string) bool { return strings.HasPrefix(s, "For 50 g: 10 g of gelatin powder") }) {
		t.Errorf("the least batch is not given: %q", w.Notes)
	}
}

// A note is given once, though the climate works out every recipe and draws
// it too.
func TestNotesAreGivenOnce(t *testing.T) {
	b := after(t, slices.Concat(barnacle, sorbitolMix, []string{"gelatin_bloom", "200", "worn_humidity", "68"})...)
	for _, id := range []string{"gel-mix", "keeps-size"} {
		notes := b.Work(amountNamed(t, id)).Notes
		for i, note := range notes {
			if slices.Contains(notes[:i], note) {
				t.Errorf("%s says twice: %s", id, note)
			}
		}
	}
}
