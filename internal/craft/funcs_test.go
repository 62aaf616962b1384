package craft

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
)

func funcNamed(t *testing.T, name string) Func {
	t.Helper()
	for _, f := range Funcs() {
		if f.Name == name {
			return f
		}
	}
	t.Fatalf("no sum called %s", name)
	return Func{}
}

// The names and the order of the arguments are what rule files are written
// to. Sources of the figures: the tests of shapes and plaster.
func TestFuncs(t *testing.T) {
	for _, c := range []struct {
		call, params string
		args         []float64
		want, tol    float64
	}{
		{"mound_ml", "length width height", []float64{80, 60, 20}, 37.699, 0.001},
		{"skirt_ml", "length width skirt_width skirt_thickness", []float64{80, 60, 10, 3}, 3.630, 0.001},
		{"footprint_cm2", "length width skirt_width", []float64{60, 60, 10}, 50.265, 0.001},
		{"wall_box_ml", "length width height margin cover", []float64{80, 60, 20, 20, 25}, 540, 1e-9},
		{"slurry_ml", "box_ml sculpt_ml", []float64{540, 50.265}, 489.735, 1e-9},
		{"dry_plaster_g", "slurry_ml consistency", []float64{1000, 70}, 925, 1},
		{"plaster_water_g", "slurry_ml consistency", []float64{1000, 70}, 647, 1},
		{"with_spare", "x percent", []float64{400, 15}, 460, 1e-9},
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

func TestFuncsAreDocumented(t *testing.T) {
	word := regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
	seen := map[string]bool{}
	for _, f := range Funcs() {
		if !word.MatchString(f.Name) || seen[f.Name] || f.Doc == "" || len(f.Params) == 0 {
			t.Errorf("%q is doubled, undocumented or badly named", f.Name)
		}
		seen[f.Name] = true
		for _, p := range f.Params {
			if !word.MatchString(p) {
				t.Errorf("%s: bad parameter %q", f.Name, p)
			}
		}
	}
}

func TestFuncsRefuse(t *testing.T) {
	for _, f := range Funcs() {
		n := len(f.Params)
		for _, args := range [][]float64{nil, make([]float64, n+1), slices.Repeat([]float64{-1}, n),
			slices.Repeat([]float64{math.NaN()}, n), slices.Repeat([]float64{math.Inf(1)}, n),
			slices.Repeat([]float64{math.Inf(-1)}, n), slices.Repeat([]float64{math.MaxFloat64}, n)} {
			y, err := f.Fn(args...)
			if err == nil || y != 0 {
				t.Errorf("%s%v gives %v", f.Name, args, y)
				continue
			}
			tellsMaker(t, err)
		}
	}
}

func FuzzFuncs(f *testing.F) {
	for i, x := range []float64{0, 1, -1, 5e-324, 1e-9, 70, 1e4, 1e9, math.MaxFloat64, math.NaN(), math.Inf(1)} {
		f.Add(uint8(i), uint8(3), x, x, x, x, x, x)
		f.Add(uint8(5), uint8(2), 500.0, x, x, 1.0, x, x)
	}
	funcs := Funcs()
	f.Fuzz(func(t *testing.T, which, count uint8, a, b, c, d, e, g float64) {
		sum := funcs[int(which)%len(funcs)]
		all := []float64{a, b, c, d, e, g}
		for _, args := range [][]float64{all[:len(sum.Params)], all[:int(count)%7]} {
			y, err := sum.Fn(args...)
			if err != nil {
				tellsMaker(t, err)
			}
			if !finite(y) || y < 0 && !sum.Signed {
				t.Errorf("%s%v gives %v, %v", sum.Name, args, y, err)
			}
		}
	})
}

// FuzzSums holds the rest of the package to the same promise.
func FuzzSums(f *testing.F) {
	for _, name := range []string{"oz", "cup", "°F", `"`, "", "mil", "T", "degrees c"} {
		f.Add(name, 1.0, 2.0, uint8(1))
	}
	for _, x := range []float64{0, -1, 5e-324, 1e9, math.MaxFloat64, math.NaN(), math.Inf(-1)} {
		f.Add("cup", x, x, uint8(2))
		f.Add("degrees", 60.0, x, uint8(0))
	}
	f.Fuzz(func(t *testing.T, name string, x, y float64, kind uint8) {
		held := func(what string, err error, results ...float64) {
			if err != nil {
				return
			}
			for _, r := range results {
				if !finite(r) {
					t.Errorf("%s of %q, %v, %v, %d gives %v", what, name, x, y, kind, r)
				}
			}
		}
		for _, u := range append(Readings(name), Unit{name, name, Dimension(kind), x, y}) {
			for _, e := range unitTable {
				z, err := Convert(x, u, e.Unit)
				held("convert", err, z)
			}
			m, err := Calibrate(y, u)
			held("calibrate", err, m.Millilitres)
			got, err := InMeasures(x, []Measure{m, {name, name, y, float64(kind) / 4}, {"cup", "cups", 250, 0.25}})
			held("measures", err, got.OffPercent, got.Millilitres)
		}
		held("sensible", nil, Sensible(x))
		FormatCount(x)
		burns, err := BurnTimes(x)
		held("burns", err, burns.Reversible, burns.Irreversible)
		if _, err := Contact(x, y); err != nil {
			tellsMaker(t, err)
		}
		portions, err := Mix(x, []Ingredient{{name, y, x, y, x}, water(y)}, y)
		for _, p := range portions {
			held("mix", err, p.Grams, p.Millilitres)
		}
		mix, err := PlasterKind{name, x, y, x}.Mix(y, x)
		held("plaster", err, mix.Plaster, mix.Water, mix.WetDensity, mix.DryDensity, mix.DryMass, mix.Rise)
		mound, err := Mound(x, y, x, Form(kind))
		held("mound", err, mound)
	})
}
