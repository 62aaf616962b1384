package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// squaresOf counts the squares of squared paper inside an ellipse about the
// origin and those that its line cuts, with the paper laid askew by dx and dy.
func squaresOf(a, b, side, dx, dy float64) (whole, cut float64) {
	nearest := func(from float64) float64 { return math.Max(0, math.Max(from, -from-side)) }
	farthest := func(from float64) float64 { return math.Max(math.Abs(from), math.Abs(from+side)) }
	inside := func(x, y float64) bool { return math.Hypot(x/a, y/b) < 1 }
	n := math.Ceil(math.Max(a, b)/side) + 1
	for i := -n; i <= n; i++ {
		for j := -n; j <= n; j++ {
			x, y := i*side+dx, j*side+dy
			switch {
			case inside(farthest(x), farthest(y)):
				whole++
			case inside(nearest(x), nearest(y)):
				cut++
			}
		}
	}
	return whole, cut
}

// Source: the ellipse, pi a b; the squares are counted on drawn outlines. The
// half of the cut squares is a bound, not a guess: each is off by no more than
// half of itself.
func TestCountedArea(t *testing.T) {
	ok := must(t)
	near(t, "by hand", ok(CountedArea(40, 24, 5)), 13, 1e-12)
	whole, cut := squaresOf(40, 30, 5, 1.3, 2.1)
	near(t, "oval of 80 by 60 mm", ok(CountedArea(whole, cut, 5)), 12*math.Pi, 0.03*12*math.Pi)
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		half := rapid.Float64Range(10, 60)
		a, b := half.Draw(t, "a"), half.Draw(t, "b")
		side := rapid.Float64Range(2, 10).Draw(t, "side")
		whole, cut := squaresOf(a, b, side, side*rapid.Float64Range(0, 1).Draw(t, "dx"), side*rapid.Float64Range(0, 1).Draw(t, "dy"))
		near(t, "area", ok(CountedArea(whole, cut, side)), math.Pi*a*b/100, cut/2*side*side/100+1e-9)
	})
}

// Source: the sections of each form, summed by quadrature (gonum): the point's
// shrink with the square of the way down from the top, the paraboloid's evenly,
// the half ellipsoid's as 1 - z^2. On an oval outline it is the same Mound.
func TestOutlinedVolume(t *testing.T) {
	sections := map[Form]func(z float64) float64{
		Pointed: func(z float64) float64 { return (1 - z) * (1 - z) },
		Rounded: func(z float64) float64 { return 1 - z },
		Full:    func(z float64) float64 { return 1 - z*z },
	}
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		size := rapid.Float64Range(5, 300)
		length, width, height := size.Draw(t, "length"), size.Draw(t, "width"), size.Draw(t, "height")
		area := length * width / 100 // a square-cornered outline, in cm2
		for form, section := range sections {
			want := over(0, 1, func(z float64) float64 { return length * width * height * section(z) }) / 1000
			near(t, "outlined", ok(OutlinedVolume(area, height, form)), want, 1e-9*want)
			oval := ok(Mound(length, width, height, form))
			near(t, "oval", ok(OutlinedVolume(ok(Footprint(length, width, 0)), height, form)), oval, 1e-9*oval)
		}
	})
	if _, err := OutlinedVolume(10, 10, Form(9)); err == nil {
		t.Error("an unknown form passes")
	}
}

// A sculpt weighed and a sculpt put under water come to the same.
func TestDisplacedAndWeighedAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		ml := rapid.Float64Range(1, 5000).Draw(t, "ml")
		before := rapid.Float64Range(100, 5000).Draw(t, "before")
		density := rapid.Float64Range(0.5, 3).Draw(t, "density")
		weighed := ok(VolumeByWeight(ml*density, density))
		near(t, "displaced", ok(DisplacedVolume(before, before+ml)), weighed, 1e-8*before+1e-9*ml)
	})
}

// Source: a textbook exercise of soil mechanics, clay of 1531 g in a sampling
// tube 100 mm across and 100 mm long; a recipe for oil-based clay posted to a
// potters' list in 1999 (wax 10 lb, oil half a US gallon, grease 4 lb, clay
// powder 25 lb), its densities from memory. Grains of 2.6 g/ml with 20 to 25 %
// of water by mass, from memory, are clay as it is modelled.
func TestClayDensities(t *testing.T) {
	inside := func(what string, density float64, span Span) {
		if density < span.Low || density > span.High {
			t.Errorf("%s of %v g/ml outside %v", what, density, span)
		}
	}
	ok := must(t)
	inside("clay in a tube", 1531/ok(Tub(100, 100)), WaterClay)
	for _, water := range []float64{0.20, 0.25} {
		inside("clay of grains and water", 1/((1-water)/2.6+water), WaterClay)
	}
	oil := usGallon / 2 * 0.88
	mass := (10+4+25)*pound + oil
	inside("clay of the recipe", mass/(10*pound/0.92+4*pound/0.90+25*pound/2.6+usGallon/2), OilClay)
}

func TestOutlinesRefuse(t *testing.T) {
	for name, give := range map[string]func() (float64, error){
		"no squares":          func() (float64, error) { return CountedArea(0, 0, 5) },
		"less than none":      func() (float64, error) { return CountedArea(10, -1, 5) },
		"squares no number":   func() (float64, error) { return CountedArea(math.NaN(), 1, 5) },
		"squares of nothing":  func() (float64, error) { return CountedArea(10, 4, 0) },
		"squares of a field":  func() (float64, error) { return CountedArea(10, 4, 1e4) },
		"no area":             func() (float64, error) { return OutlinedVolume(0, 10, Rounded) },
		"endless area":        func() (float64, error) { return OutlinedVolume(math.Inf(1), 10, Rounded) },
		"flat":                func() (float64, error) { return OutlinedVolume(10, 0, Rounded) },
		"water fell":          func() (float64, error) { return DisplacedVolume(500, 450) },
		"water stood":         func() (float64, error) { return DisplacedVolume(500, 500) },
		"no water":            func() (float64, error) { return DisplacedVolume(0, 500) },
		"reading no number":   func() (float64, error) { return DisplacedVolume(500, math.NaN()) },
		"no weight":           func() (float64, error) { return VolumeByWeight(0, 1.9) },
		"density of nothing":  func() (float64, error) { return VolumeByWeight(100, 0) },
		"density in kg/m3":    func() (float64, error) { return VolumeByWeight(100, 1900) },
		"density less than 0": func() (float64, error) { return VolumeByWeight(100, -1.9) },
	} {
		got, err := give()
		if err == nil || got != 0 {
			t.Errorf("%s gives %v", name, got)
			continue
		}
		tellsMaker(t, err)
	}
}
