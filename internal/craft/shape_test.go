package craft

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
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
		"slab":      func(d []float64) (float64, error) { return Block(d[0], d[1], d[2]) },
		"tub":       func(d []float64) (float64, error) { return Tub(d[0], d[1]) },
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
		check("slab", ok(Block(d[0], d[1], d[2])), ok(Block(k*d[0], k*d[1], k*d[2])), k3)
		check("tub", ok(Tub(d[0], d[1])), ok(Tub(k*d[0], k*d[1])), k3)
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
	if _, err := Piece(120, 90, 20, 10, -1); err == nil {
		t.Error("a negative thickness is taken")
	}
}

// over integrates f by Gauss-Legendre quadrature (gonum).
func over(from, to float64, f func(float64) float64) float64 {
	return quad.Fixed(f, from, to, 80, nil, 1)
}

// discBySlices is the area of a circle of radius r as strips side by side; the
// strip at r sin u is 2 r cos u long.
func discBySlices(r float64) float64 {
	return over(-math.Pi/2, math.Pi/2, func(u float64) float64 { return 2 * r * math.Cos(u) * r * math.Cos(u) })
}

// The quadrature itself, on solids whose volumes any mathematical handbook
// gives: a spherical cap of base radius 3 and height 1 (sphere of 5) is 14.661,
// a frustum of 3 and 2 by 1.5 is 29.845.
func TestQuadratureOnHandbookSolids(t *testing.T) {
	near(t, "cap", over(4, 5, func(z float64) float64 { return discBySlices(math.Sqrt(25 - z*z)) }), 14.661, 0.0005)
	near(t, "frustum", over(0, 1.5, func(z float64) float64 { return discBySlices(3 - z/1.5) }), 29.845, 0.0005)
}

// heightField gives the height of each form, as a share of the highest point,
// at a share r of the way from the middle to the edge.
var heightField = map[Form]func(r float64) float64{
	Pointed: func(r float64) float64 { return 1 - r },
	Rounded: func(r float64) float64 { return 1 - r*r },
	Full:    func(r float64) float64 { return math.Sqrt(1 - r*r) },
}

// moundByColumns sums the columns that stand on an ellipse of half axes a and
// b; r = sin u keeps the steep edge smooth.
func moundByColumns(a, b, height float64, form Form) float64 {
	ring := over(0, math.Pi/2, func(u float64) float64 {
		r, toEdge := math.Sincos(u)
		return heightField[form](r) * r * toEdge
	})
	return 2 * math.Pi * a * b * height * ring / 1000
}

// skirtByColumns sums the columns that stand on the strip outside the ellipse;
// the strip widens with the curvature a b / v^3 of the edge there.
func skirtByColumns(a, b, skirt, thickness float64) float64 {
	quarter := over(0, math.Pi/2, func(u float64) float64 {
		sin, cos := math.Sincos(u)
		v := math.Hypot(a*sin, b*cos)
		return over(0, skirt, func(s float64) float64 { return thickness * (1 - s/skirt) * v * (1 + s*a*b/(v*v*v)) })
	})
	return 4 * quarter / 1000
}

// edgePolygon is the area inside the footprint's edge as a polygon (shoelace).
func edgePolygon(a, b, skirt float64) float64 {
	const n = 20000
	point := func(i int) (x, y float64) {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		v := math.Hypot(a*sin, b*cos)
		return a*cos + skirt*b*cos/v, b*sin + skirt*a*sin/v
	}
	twice := 0.0
	for i := range n {
		x, y := point(i)
		x2, y2 := point(i + 1)
		twice += x*y2 - y*x2
	}
	return twice / 2 / 100
}

// Source: each solid described by its height field or its slices and summed
// by quadrature, apart from the formulas. The perimeter of the skirt is an
// approximation, good to 0.04 %.
func TestVolumesAgainstQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		size := rapid.Float64Range(20, 200)
		length, width := size.Draw(t, "length"), size.Draw(t, "width")
		a, b := length/2, width/2
		height := rapid.Float64Range(2, 80).Draw(t, "height")
		skirt := rapid.Float64Range(1, 30).Draw(t, "skirt")
		thick := rapid.Float64Range(0.2, 3).Draw(t, "thickness")
		for form := range heightField {
			want := moundByColumns(a, b, height, form)
			near(t, "mound", ok(Mound(length, width, height, form)), want, 1e-9*want)
		}
		edge := skirtByColumns(a, b, skirt, thick)
		near(t, "skirt", ok(Skirt(length, width, skirt, thick)), edge, 0.001*edge)
		whole := moundByColumns(a, b, height, Rounded) + edge
		if skirt <= min(a, b) { // a wider one is cut to a quarter of the whole
			near(t, "piece", ok(Piece(length+2*skirt, width+2*skirt, height, skirt, thick)), whole, 0.001*whole)
		}
		slab := over(0, height, func(float64) float64 { return over(0, length, func(float64) float64 { return width }) }) / 1000
		near(t, "slab", ok(Block(length, width, height)), slab, 1e-9*slab)
		tub := over(0, height, func(float64) float64 { return discBySlices(a) }) / 1000
		near(t, "tub", ok(Tub(length, height)), tub, 1e-9*tub)
	})
}

func TestFootprintAgainstAPolygon(t *testing.T) {
	ok := must(t)
	for _, d := range [][3]float64{{60, 60, 10}, {80, 60, 15}, {120, 40, 5}, {90, 30, 0}} {
		want := edgePolygon(d[0]/2, d[1]/2, d[2])
		near(t, "footprint", ok(Footprint(d[0], d[1], d[2])), want, 0.0005*want)
	}
}

// The cap of a sphere, up to its half, lies between the rounded and the full
// mound of its measures. Source: the cap's volume, pi h (3 r^2 + h^2)/6.
func TestRoundedAndFullBracketACap(t *testing.T) {
	ok := must(t)
	for _, share := range []float64{0.05, 0.3, 0.7, 1} {
		const r = 20.0
		h := share * r
		capped := math.Pi * h * (3*r*r + h*h) / 6 / 1000
		low, high := ok(Mound(2*r, 2*r, h, Rounded)), ok(Mound(2*r, 2*r, h, Full))
		if capped < low || capped > high*(1+1e-12) {
			t.Errorf("a cap of %v ml outside %v to %v", capped, low, high)
		}
	}
}

func TestShapesRefuse(t *testing.T) {
	for _, bad := range []float64{0, -1, 5e-324, 1e308, math.NaN(), math.Inf(1)} {
		for name, give := range map[string]func() (float64, error){
			"slab":     func() (float64, error) { return Block(bad, 60, 20) },
			"slab up":  func() (float64, error) { return Block(80, 60, bad) },
			"tub":      func() (float64, error) { return Tub(bad, 20) },
			"tub up":   func() (float64, error) { return Tub(80, bad) },
			"mound up": func() (float64, error) { return Mound(80, 60, bad, Full) },
		} {
			got, err := give()
			if err == nil || got != 0 {
				t.Errorf("%s of %v gives %v", name, bad, got)
				continue
			}
			tellsMaker(t, err)
		}
	}
}

// Source: the shares of pi a b h of solid geometry: a cone 1/3, a paraboloid
// 1/2, half an ellipsoid 2/3; without a skirt they are the mound alone.
func TestFilled(t *testing.T) {
	ok := must(t)
	for percent, form := range map[float64]Form{100.0 / 3: Pointed, 50: Rounded, 200.0 / 3: Full} {
		near(t, "no skirt", ok(Filled(80, 60, 20, 0, 0, percent)), ok(Mound(80, 60, 20, form)), 1e-6)
	}
	near(t, "with a skirt", ok(Filled(110, 80, 18, 10, 1, 50)), ok(Piece(110, 80, 18, 10, 1)), 1e-6)
	if _, err := Filled(80, 60, 20, 0, 0, 101); err == nil {
		t.Error("a form fuller than its block passes")
	}
}

// Source: an eighth of the shorter side, up to 10 mm (common practice).
func TestUsualSkirt(t *testing.T) {
	ok := must(t)
	near(t, "cheek", ok(UsualSkirt(110, 80)), 10, 1e-9)
	near(t, "barnacle", ok(UsualSkirt(25, 30)), 3.125, 1e-9)
}
