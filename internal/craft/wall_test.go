package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The wall round the half ellipsoid: (8+4)(6+4)(2+2.5) cm3 = 540, less 50.265.
// Source: the box is arithmetic; the dome as in TestMound.
func TestSlurryRoundADome(t *testing.T) {
	ok := must(t)
	box := ok(WallBox(80, 60, 20, 20, 25))
	near(t, "box", box, 540, 1e-9)
	near(t, "slurry", ok(SlurryVolume(box, ok(Mound(80, 60, 20, Full)))), 489.735, 0.001)
	if _, err := SlurryVolume(50, 50); err == nil {
		t.Error("a sculpt that fills the wall passes")
	}
}

// Source: arithmetic. A box 12 by 10 cm inside with a wall of 1 cm is 14 by 12
// outside: 168 less 120 is 48 cm2, 5 cm high. Round, 10 cm inside and 12
// outside: pi (36 - 25) cm2.
func TestWallByHand(t *testing.T) {
	ok := must(t)
	near(t, "clay", ok(WallClay(80, 60, 20, 50, 10)), 240, 1e-9)
	near(t, "round clay", ok(RoundWallClay(60, 20, 50, 10)), 55*math.Pi, 1e-9)
	near(t, "round room", ok(RoundWall(60, 20, 20, 20)), 100*math.Pi, 1e-9)
	near(t, "height", ok(WallHeight(20, 15, 10)), 45, 0)
}

// Source: the rooms and walls cut into strips and slices and summed by
// quadrature (gonum), apart from the formulas.
func TestWallsAgainstQuadrature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		size := rapid.Float64Range(10, 300)
		length, width := size.Draw(t, "length"), size.Draw(t, "width")
		height := rapid.Float64Range(2, 80).Draw(t, "height")
		margin := rapid.Float64Range(0, 50).Draw(t, "margin")
		cover := rapid.Float64Range(0, 40).Draw(t, "cover")
		thick := rapid.Float64Range(1, 20).Draw(t, "thickness")
		inL, inW, inR := length+2*margin, width+2*margin, length/2+margin
		up := func(area float64) float64 { return over(0, height+cover, func(float64) float64 { return area }) / 1000 }

		room := up(over(0, inL, func(float64) float64 { return inW }))
		near(t, "room", ok(WallBox(length, width, height, margin, cover)), room, 1e-9*room)
		round := up(discBySlices(inR))
		near(t, "round room", ok(RoundWall(length, height, margin, cover)), round, 1e-9*round)

		ends := 2 * over(0, thick, func(float64) float64 { return inW + 2*thick })
		sides := over(0, inL, func(float64) float64 { return 2 * thick })
		clay := up(ends + sides)
		near(t, "clay", ok(WallClay(length, width, margin, height+cover, thick)), clay, 1e-9*clay)
		rings := up(over(inR, inR+thick, func(r float64) float64 { return 2 * math.Pi * r }))
		near(t, "round clay", ok(RoundWallClay(length, margin, height+cover, thick)), rings, 1e-9*rings)
	})
}

// Every measure k times as large gives k^3 of the volume, and no measure
// larger ever gives less. A round wall inside a square one holds less and
// takes less clay.
func TestWallsScale(t *testing.T) {
	walls := map[string]func([]float64) (float64, error){
		"room":       func(d []float64) (float64, error) { return WallBox(d[0], d[1], d[2], d[3], d[4]) },
		"round room": func(d []float64) (float64, error) { return RoundWall(d[0], d[1], d[2], d[3]) },
		"clay":       func(d []float64) (float64, error) { return WallClay(d[0], d[1], d[2], d[3], d[4]) },
		"round clay": func(d []float64) (float64, error) { return RoundWallClay(d[0], d[1], d[2], d[3]) },
	}
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		d := rapid.SliceOfN(rapid.Float64Range(0.1, 500), 5, 5).Draw(t, "d")
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		scaled, grown := make([]float64, 5), append([]float64(nil), d...)
		for i := range d {
			scaled[i] = k * d[i]
		}
		grown[rapid.IntRange(0, 4).Draw(t, "which")] *= rapid.Float64Range(1, 3).Draw(t, "by")
		for name, wall := range walls {
			small := ok(wall(d))
			near(t, name, ok(wall(scaled)), k*k*k*small, 1e-9*k*k*k*small)
			if large := ok(wall(grown)); large < small*(1-1e-12) {
				t.Errorf("%s shrank from %v to %v", name, small, large)
			}
		}
		if ok(RoundWall(d[0], d[1], d[2], d[3])) >= ok(WallBox(d[0], d[0], d[1], d[2], d[3])) ||
			ok(RoundWallClay(d[0], d[1], d[2], d[3])) >= ok(WallClay(d[0], d[0], d[1], d[2], d[3])) {
			t.Error("a round wall is larger than the square one about it")
		}
	})
}

func TestWallsRefuse(t *testing.T) {
	for _, bad := range []float64{-1, -5e-324, 1e308, math.NaN(), math.Inf(1), math.Inf(-1)} {
		for name, give := range map[string]func() (float64, error){
			"room":             func() (float64, error) { return WallBox(80, 60, 20, 20, bad) },
			"round room":       func() (float64, error) { return RoundWall(bad, 20, 20, 20) },
			"round margin":     func() (float64, error) { return RoundWall(80, 20, bad, 20) },
			"height":           func() (float64, error) { return WallHeight(bad, 15, 10) },
			"freeboard":        func() (float64, error) { return WallHeight(20, 15, bad) },
			"clay":             func() (float64, error) { return WallClay(80, bad, 20, 50, 10) },
			"clay margin":      func() (float64, error) { return WallClay(80, 60, bad, 50, 10) },
			"round clay":       func() (float64, error) { return RoundWallClay(80, 20, bad, 10) },
			"round clay thick": func() (float64, error) { return RoundWallClay(80, 20, 50, bad) },
			"slurry":           func() (float64, error) { return SlurryVolume(bad, 10) },
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

// Source: box less sculpt, 200 x 150 x 40 mm and 39 ml.
func TestTraySlurry(t *testing.T) {
	ok := must(t)
	near(t, "tray", ok(TraySlurry(200, 150, 40, 39, 18)), 1161, 1e-9)
	_, err := TraySlurry(200, 150, 15, 39, 18)
	if err == nil {
		t.Fatal("a piece that sticks out passes")
	}
	tellsMaker(t, err)
}
