package craft

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"
)

// pour is the castings of the table: poured at 60 on a plate at 20, to 30.
func pour(thickness float64, faces int) Casting {
	return Casting{Thickness: thickness, Start: 60, Plate: 20, End: 30, Faces: faces}
}

// Source: Carslaw and Jaeger, Conduction of Heat in Solids, 3.4, first term:
// 4 L^2 / (pi^2 a) ln(4 / (pi theta)), reckoned for 0.4 W/(m K), 1.285 g/ml and 2.36 kJ/(kg K); the air
// alone as a body of one temperature in 9.5 W/(m2 K).
func TestCastingAgainstTable(t *testing.T) {
	for _, row := range []struct{ thickness, one, both, air float64 }{{5, 2.1, 0.5, 37}, {10, 8.3, 2.1, 74}, {25, 52, 13, math.NaN()}} {
		one, err := pour(row.thickness, 1).Minutes()
		if err != nil {
			t.Fatal(err)
		}
		both, err := pour(row.thickness, 2).Minutes()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "one face", one.Low, row.one, 0.02*row.one+0.05)
		near(t, "both faces", both.Low, row.both, 0.02*row.both+0.05)
		near(t, "a quarter", both.Low, one.Low/4, 1e-9*one.Low)
		if !math.IsNaN(row.air) {
			near(t, "air", pour(row.thickness, 1).inAir(0.25), row.air, 0.5)
		}
	}
}

// Source: Carslaw and Jaeger 3.4, the whole series by exponentials, against
// the other form used here, by error functions.
func TestWarmthLeftAgainstSeries(t *testing.T) {
	for _, fourier := range []float64{0.05, 0.1, 0.3, 0.5, 1, 2} {
		want := 0.0
		for n := range 200 {
			odd := float64(2*n + 1)
			sign := 1 - 2*float64(n%2)
			want += 4 / math.Pi * sign / odd * math.Exp(-odd*odd*math.Pi*math.Pi*fourier/4)
		}
		near(t, "theta", warmthLeft(1/(2*math.Sqrt(fourier)), coldSurface), want, 1e-8)
	}
}

// The heat equation itself, stepped here through a slab of gel and a deep body
// under it that start 1 and 0 warm. Lengths are in slabs, times in L^2/a.
func TestWarmthLeftAgainstHeatEquation(t *testing.T) {
	const cells, deep = 20, 300 // to the slab, and in all
	for _, body := range []Surface{DryPlasterSurface, WetPlasterSurface, MetalSurface} {
		// With one diffusivity for both, conductivities and heat held go as
		// the effusivities.
		ratio := float64(body / GelSurface)
		hold := func(i int) float64 {
			if i < cells {
				return 1
			}
			return ratio
		}
		warmth := make([]float64, deep)
		for i := range cells {
			warmth[i] = 1
		}
		const step = 0.4 / (cells * cells)
		flux := make([]float64, deep+1)
		for n := 1; n <= int(2/step); n++ {
			for i := 1; i < deep; i++ {
				between := 2 * hold(i-1) * hold(i) / (hold(i-1) + hold(i))
				flux[i] = between * (warmth[i-1] - warmth[i])
			}
			for i := range warmth {
				warmth[i] += 0.4 * (flux[i] - flux[i+1]) / hold(i)
			}
			if n%200 == 0 {
				at := float64(n) * step
				near(t, "theta", warmthLeft(1/(2*math.Sqrt(at)), body), warmth[0], 0.01)
			}
		}
	}
}

// Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, table
// of one-term coefficients for a plane wall (from memory): zeta and C at a
// Biot number. It shows that the inside's time comes on top of the outside's.
func TestAirAgainstOneTermTable(t *testing.T) {
	for _, row := range []struct{ biot, zeta, c float64 }{{0.1, 0.3111, 1.0161}, {1, 0.8603, 1.1191}, {10, 1.4289, 1.2620}} {
		thickness := row.biot * gelConducts / stillAirTakes * 1000 // mm
		slab := pour(thickness, 1)
		for _, theta := range []float64{0.1, 0.25, 0.5} {
			want := math.Log(row.c/theta) / (row.zeta * row.zeta) * thickness * thickness / gelSpread / 60
			near(t, "minutes", slab.inAir(theta)+slab.onSurface(coldSurface, theta), want, 0.03*want)
		}
	}
}

// The halving finds the warmth it started from.
func TestOnSurfaceInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		theta := rapid.Float64Range(0.01, 0.99).Draw(t, "theta")
		e := rapid.SampledFrom([]Surface{coldSurface, MetalSurface, GlassSurface, DryPlasterSurface}).Draw(t, "on")
		seconds := 60 * pour(10, 1).onSurface(e, theta)
		near(t, "theta", warmthLeft(10/(2*math.Sqrt(gelSpread*seconds)), e), theta, 1e-6)
	})
}

// Thicker, hotter or on a warmer plate never sets sooner, and a closed mould
// never sets later on its faces than an open one.
func TestCastingGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Casting{
			Thickness: rapid.Float64Range(0.5, 80).Draw(t, "thickness"),
			Start:     rapid.Float64Range(50, 75).Draw(t, "start"),
			Plate:     rapid.Float64Range(0, 25).Draw(t, "plate"),
			End:       rapid.Float64Range(28, 48).Draw(t, "end"),
			Faces:     rapid.IntRange(1, 2).Draw(t, "faces"),
		}
		more := c
		more.Thickness *= rapid.Float64Range(1, 2).Draw(t, "thicker")
		more.Start += rapid.Float64Range(0, 20).Draw(t, "hotter")
		more.Plate += rapid.Float64Range(0, 2).Draw(t, "warmer")
		a, err := c.Minutes()
		if err != nil {
			t.Fatal(err)
		}
		b, err := more.Minutes()
		if err != nil {
			t.Fatal(err)
		}
		if !(0 < a.Low && a.Low <= a.Mid && a.Mid <= a.High) {
			t.Errorf("out of order: %v", a)
		}
		if b.Low < a.Low*(1-1e-6) || b.Mid < a.Mid*(1-1e-6) || b.High < a.High*(1-1e-6) {
			t.Errorf("%+v sets in %v, %+v in %v", c, a, more, b)
		}
	})
}

func TestCastingRefuses(t *testing.T) {
	for name, change := range map[string]func(*Casting){
		"no thickness":     func(c *Casting) { c.Thickness = 0 },
		"no number":        func(c *Casting) { c.Thickness = math.NaN() },
		"a wall":           func(c *Casting) { c.Thickness = 1e4 },
		"boiling":          func(c *Casting) { c.Start = 120 },
		"plate as hot":     func(c *Casting) { c.Plate = 60 },
		"plate of none":    func(c *Casting) { c.Plate = math.NaN() },
		"set at the plate": func(c *Casting) { c.End = 20 },
		"set as poured":    func(c *Casting) { c.End = 60 },
		"set above":        func(c *Casting) { c.End = 90 },
		"no face":          func(c *Casting) { c.Faces = 0 },
		"three faces":      func(c *Casting) { c.Faces = 3 },
	} {
		c := pour(10, 1)
		change(&c)
		if got, err := c.Minutes(); err == nil || got != (Span{}) {
			t.Errorf("%s passes: %v", name, got)
		} else {
			tellsMaker(t, err)
		}
	}
}

// Source: the interface of two half-spaces, Carslaw and Jaeger 2.14, reckoned
// for gel on skin at 33 degrees C: 41, 46 and 48 (from memory, no measurement).
func TestTouchTemperature(t *testing.T) {
	ok := must(t)
	for gel, want := range map[float64]float64{50: 41, 60: 46, 65: 48} {
		near(t, "on skin", ok(TouchTemperature(GelSurface, gel, SkinSurface, 33)), want, 0.5)
	}
	near(t, "either way round", ok(TouchTemperature(SkinSurface, 33, GelSurface, 60)), ok(TouchTemperature(GelSurface, 60, SkinSurface, 33)), 1e-12)
	for _, c := range []struct {
		s Surface
		x float64
	}{{0, 20}, {Surface(math.NaN()), 20}, {1e9, 20}, {GelSurface, math.NaN()}, {GelSurface, 1e4}} {
		if got, err := TouchTemperature(c.s, c.x, GlassSurface, 20); err == nil || got != 0 {
			t.Errorf("%v passes: %v", c, got)
		} else {
			tellsMaker(t, err)
		}
	}
}

// Source: Newton's law of cooling, integrated here by Gauss and Legendre, for
// 250 ml in a cylinder as wide as it is high.
func TestJugHoldAgainstTheIntegral(t *testing.T) {
	across := math.Cbrt(4*250/math.Pi) / 100 // m
	area := math.Pi*across*across + math.Pi*across*across/2
	want := quad.Fixed(func(celsius float64) float64 { return 250 * 1.285 * 2.36 / (9.5 * area * (celsius - 20)) }, 50, 65, 20, nil, 0) / 60
	got, err := JugHold(250, 65, 50, 20)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "middle", got.Mid, want, 1e-6*want)
	near(t, "low", got.Low, 13, 3)
	if !(got.Low < got.Mid && got.Mid < got.High) {
		t.Errorf("out of order: %v", got)
	}
}

// Two stretches of cooling are as long as both at once, and more keeps longer.
func TestJugHoldAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hold := func(ml, start, end float64) Span {
			s, err := JugHold(ml, start, end, 20)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		ml := rapid.Float64Range(10, 5000).Draw(t, "ml")
		middle := rapid.Float64Range(40, 60).Draw(t, "middle")
		all := hold(ml, 70, 35)
		near(t, "in two", hold(ml, 70, middle).Mid+hold(ml, middle, 35).Mid, all.Mid, 1e-9*all.Mid)
		near(t, "eight times as much", hold(8*ml/5, 70, 35).Mid, all.Mid*math.Cbrt(8.0/5), 1e-9*all.Mid)
	})
}

func TestJugHoldRefuses(t *testing.T) {
	for _, c := range [][4]float64{{0, 65, 50, 20}, {1e9, 65, 50, 20}, {250, 65, 20, 20}, {250, 50, 65, 20}, {250, 20, 20, 20},
		{math.NaN(), 65, 50, 20}, {250, math.NaN(), 50, 20}, {250, 65, math.NaN(), 20}, {250, 65, 50, math.NaN()}, {250, 200, 50, 20}} {
		if got, err := JugHold(c[0], c[1], c[2], c[3]); err == nil || got != (Span{}) {
			t.Errorf("%v passes: %v", c, got)
		} else {
			tellsMaker(t, err)
		}
	}
	if got, err := JugHold(250, 50, 50, 20); err != nil || got != (Span{}) {
		t.Errorf("at the limit already: %v, %v", got, err)
	}
}

// Source: a gelatin maker's data, 5 % lost after 2 hours at 60 degrees C.
func TestStrengthKept(t *testing.T) {
	ok := must(t)
	near(t, "two hours at 60", ok(StrengthKept(60, 120)), 95, 1e-9)
	near(t, "no time", ok(StrengthKept(90, 0)), 100, 0)
	for _, c := range [][2]float64{{101, 1}, {-1, 1}, {60, -1}, {math.NaN(), 1}, {60, math.NaN()}, {60, 1e6}, {math.Inf(1), 1}} {
		if got, err := StrengthKept(c[0], c[1]); err == nil || got != 0 {
			t.Errorf("%v passes: %v", c, got)
		} else {
			tellsMaker(t, err)
		}
	}
}

// Held twice is held for both times together; hotter never keeps more.
func TestStrengthKeptAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		celsius := rapid.Float64Range(20, 95).Draw(t, "celsius")
		a := rapid.Float64Range(0, 300).Draw(t, "a")
		b := rapid.Float64Range(0, 300).Draw(t, "b")
		kept := ok(StrengthKept(celsius, a+b))
		near(t, "twice", ok(StrengthKept(celsius, a))*ok(StrengthKept(celsius, b))/100, kept, 1e-9)
		if hotter := ok(StrengthKept(celsius+rapid.Float64Range(0, 5).Draw(t, "more"), a+b)); hotter > kept+1e-9 {
			t.Errorf("hotter keeps %v, cooler %v", hotter, kept)
		}
	})
}

// Source: gel point of water gels 30 to 35 degrees C, gelatin maker's data;
// low-water mixes 45 to 60 (from memory). All lie above skin, or the piece
// would melt on it.
func TestSettingTemperatures(t *testing.T) {
	for _, c := range []struct {
		got       Span
		low, high float64
	}{{PlainSets, 30, 35}, {PolyolSets, 45, 60}} {
		if c.got.Low != c.low || c.got.High != c.high || c.got.Mid <= c.low || c.got.Mid >= c.high {
			t.Errorf("got %v, want %v to %v", c.got, c.low, c.high)
		}
	}
}

// Glass and still air together cool faster than either, by no more than half
// the time of the quicker one.
func TestMiddleOfCasting(t *testing.T) {
	for _, thickness := range []float64{2, 10, 25, 60} {
		c := pour(thickness, 1)
		got, err := c.Minutes()
		if err != nil {
			t.Fatal(err)
		}
		quicker := min(c.onSurface(GlassSurface, 0.25), c.inAir(0.25)+c.onSurface(coldSurface, 0.25))
		if got.Mid >= quicker || got.Mid < quicker/2 {
			t.Errorf("%v mm: %v minutes, the quicker alone %v", thickness, got.Mid, quicker)
		}
		closed, err := pour(thickness, 2).Minutes()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "closed, glass alone", closed.Mid, c.onSurface(GlassSurface, 0.25)/4, 1e-9*closed.Mid)
		near(t, "closed, dry plaster alone", closed.High, c.onSurface(DryPlasterSurface, 0.25)/4, 1e-9*closed.High)
	}
}

func BenchmarkCasting(b *testing.B) {
	c := Casting{Thickness: 10, Start: 60, Plate: 20, End: 20.5, Faces: 1}
	for b.Loop() {
		if _, err := c.Minutes(); err != nil {
			b.Fatal(err)
		}
	}
}
