package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// must takes a sum that should be fine.
func must(t interface {
	Helper()
	Fatalf(string, ...any)
}) func(float64, error) float64 {
	return func(x float64, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatalf("unexpected: %v", err)
		}
		return x
	}
}

// Source: solid geometry as in any mathematical handbook; half axes 40 and
// 30 mm, height 20 mm, so pi a b h = 75.398 ml.
func TestMound(t *testing.T) {
	ok := must(t)
	near(t, "cone", ok(Mound(80, 60, 20, Pointed)), 25.133, 0.001)
	near(t, "paraboloid", ok(Mound(80, 60, 20, Rounded)), 37.699, 0.001)
	near(t, "half ellipsoid", ok(Mound(80, 60, 20, Full)), 50.265, 0.001)
	if _, err := Mound(80, 60, 20, Form(9)); err == nil {
		t.Error("an unknown form passes")
	}
}

// Source: Pappus's theorem, skirt of a circle: pi t (r s + s^2/3); the ellipse
// by Steiner's formula with Ramanujan's perimeter.
func TestSkirt(t *testing.T) {
	ok := must(t)
	near(t, "round", ok(Skirt(60, 60, 10, 3)), math.Pi, 1e-9)
	near(t, "oval", ok(Skirt(80, 60, 10, 3)), 3.630, 0.001)
	near(t, "none", ok(Skirt(80, 60, 0, 3)), 0, 0)
}

// The wall round the half ellipsoid: (8+4)(6+4)(2+2.5) cm3 = 540, less 50.265.
// Source: the box is arithmetic; the dome as above.
func TestSlurryRoundADome(t *testing.T) {
	ok := must(t)
	box := ok(WallBox(80, 60, 20, 20, 25))
	near(t, "box", box, 540, 1e-9)
	near(t, "slurry", ok(SlurryVolume(box, ok(Mound(80, 60, 20, Full)))), 489.735, 0.001)
	if _, err := SlurryVolume(50, 50); err == nil {
		t.Error("a sculpt that fills the wall passes")
	}
}

// Source: circle of radius 30 with 10 mm all round is a circle of 40.
func TestFootprint(t *testing.T) {
	ok := must(t)
	near(t, "circle", ok(Footprint(60, 60, 10)), math.Pi*16, 1e-9)
	near(t, "oval alone", ok(Footprint(80, 60, 0)), math.Pi*12, 1e-9)
}

// Source: the arc length integral, summed here by the trapezium rule (which
// converges geometrically on a closed curve); 22.1035 for 4 and 3.
func TestPerimeterAgainstTheIntegral(t *testing.T) {
	near(t, "4 and 3", perimeter(4, 3), 22.1035, 0.0001)
	for _, a := range []float64{1, 1.5, 3, 10, 100} {
		sum, n := 0.0, 20000
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			sum += math.Hypot(a*sin, cos) * 2 * math.Pi / float64(n)
		}
		near(t, "perimeter", perimeter(a, 1), sum, 0.0005*sum)
	}
}

// The skirt is the footprint's growth, weighed by a thickness falling evenly
// to nothing: rings summed here.
func TestSkirtIsRingsOfFootprint(t *testing.T) {
	ok := must(t)
	const s, thick, n = 15.0, 1.0, 500
	sum := 0.0
	for i := range n {
		inner, outer := s*float64(i)/n, s*float64(i+1)/n
		ring := ok(Footprint(90, 50, outer)) - ok(Footprint(90, 50, inner)) // cm2
		sum += ring * thick * (1 - (inner+outer)/2/s) / 10
	}
	near(t, "skirt", ok(Skirt(90, 50, s, thick)), sum, 1e-4*sum)
}

// Making any one dimension larger never makes any volume or area smaller.
func TestShapesGrowWithEveryDimension(t *testing.T) {
	shapes := map[string]func([]float64) (float64, error){
		"mound":     func(d []float64) (float64, error) { return Mound(d[0], d[1], d[2], Rounded) },
		"pointed":   func(d []float64) (float64, error) { return Mound(d[0], d[1], d[2], Pointed) },
		"full":      func(d []float64) (float64, error) { return Mound(d[0], d[1], d[2], Full) },
		"skirt":     func(d []float64) (float64, error) { return Skirt(d[0], d[1], d[2], d[3]) },
		"footprint": func(d []float64) (float64, error) { return Footprint(d[0], d[1], d[2]) },
		"box":       func(d []float64) (float64, error) { return WallBox(d[0], d[1], d[2], d[3], d[4]) },
	}
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		d := rapid.SliceOfN(rapid.Float64Range(0.1, 500), 5, 5).Draw(t, "d")
		grown := append([]float64(nil), d...)
		grown[rapid.IntRange(0, 4).Draw(t, "which")] *= rapid.Float64Range(1, 3).Draw(t, "by")
		for name, shape := range shapes {
			small, large := ok(shape(d)), ok(shape(grown))
			if large < small*(1-1e-12) {
				t.Errorf("%s shrank from %v to %v", name, small, large)
			}
		}
	})
}

// Twice as long, wide and high is eight times the volume.
func TestVolumesScaleWithTheCube(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		d := rapid.SliceOfN(rapid.Float64Range(0.1, 500), 5, 5).Draw(t, "d")
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		k3 := k * k * k
		check := func(name string, small, large, scale float64) {
			near(t, name, large, scale*small, 1e-9*scale*small)
		}
		check("mound", ok(Mound(d[0], d[1], d[2], Rounded)), ok(Mound(k*d[0], k*d[1], k*d[2], Rounded)), k3)
		check("skirt", ok(Skirt(d[0], d[1], d[2], d[3])), ok(Skirt(k*d[0], k*d[1], k*d[2], k*d[3])), k3)
		check("box", ok(WallBox(d[0], d[1], d[2], d[3], d[4])), ok(WallBox(k*d[0], k*d[1], k*d[2], k*d[3], k*d[4])), k3)
		check("footprint", ok(Footprint(d[0], d[1], d[2])), ok(Footprint(k*d[0], k*d[1], k*d[2])), k*k)
	})
}

// TestPiece: 120 by 90 by 20 mm over a skirt of 10 by 1 mm is a mound of 100 by
// 70 by 20 mm, half of pi 50 35 20 = 54.978 ml, and the edge round it: perimeter
// 269.15 mm (Ramanujan) times 5 plus pi 100/3, by 1 mm = 1.450 ml.
func TestPiece(t *testing.T) {
	got, err := Piece(120, 90, 20, 10, 1)
	if want := 54.978 + 1.450; err != nil || math.Abs(got-want) > 0.005 {
		t.Errorf("%v ml, %v; by hand %v", got, err, want)
	}
	small, err := Piece(12, 12, 5, 10, 1) // the skirt would leave nothing
	if err != nil || small <= 0 {
		t.Errorf("small piece: %v, %v", small, err)
	}
	if _, err := Piece(-5, 10, 5, 10, 1); err == nil {
		t.Error("a negative length is taken")
	}
}
