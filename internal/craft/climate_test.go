package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// cast is DryOf with a 70 % syrup, for tests where it must be fine.
func cast(t interface {
	Helper()
	Fatalf(string, ...any)
}, gelatinPowder, syrup, glycerin, water, lost float64) Dry {
	t.Helper()
	d, err := DryOf(gelatinPowder, syrup, SyrupSolids, glycerin, water, lost)
	if err != nil {
		t.Fatalf("unexpected: %v", err)
	}
	return d
}

// The mixes of the table, by parts: (a) gelatin 1, syrup 2, glycerin 2; (a')
// the same with 1 of water; (b) gelatin 1, glycerin 3; (c) gelatin 3, water 4.
var tableMixes = map[string]struct {
	parts    [4]float64 // gelatin, syrup, glycerin, water
	water    float64    // percent of the cast
	density  float64    // g/ml
	mass     [6]float64 // percent, at tableHumidities
	size     [6]float64 // percent; NaN where the table has none
	steadyRH float64
}{
	"a": {[4]float64{1, 2, 2, 0}, 14.4, 1.285,
		[6]float64{-7.7, -2.8, 4.0, 15.2, 40.8, 204}, [6]float64{-3.4, -1.2, 1.7, 6.1, 15, 54}, 42},
	"a'": {[4]float64{1, 2, 2, 1}, 28.7, math.NaN(),
		[6]float64{-23.1, -19.0, -13.4, -4.0, 17.3, 153},
		[6]float64{math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()}, 69},
	"b": {[4]float64{1, 0, 3, 0}, 3.1, 1.269,
		[6]float64{5.3, 11.8, 20.8, 36.0, 70.8, 295}, [6]float64{2.2, 4.8, 8.1, 13, 24, 68}, 7},
	"c": {[4]float64{3, 0, 0, 4}, 61.9, 1.108,
		[6]float64{-58.6, -57.3, -55.9, -54.2, -51.5, -46.4}, [6]float64{-30, -29, -28, -26, -25, -22}, 98.8},
}

var tableHumidities = [6]float64{20, 35, 50, 65, 80, 95}

// Source: published isotherms added up by Zdanovskii's rule, worked apart from
// this code. The table gives larger sizes in whole percent only. At refuses
// its last column, so that one goes through the sum inside; it is held to half
// a percent besides the rounding of the table.
func TestCastsAgainstTheTable(t *testing.T) {
	for name, mix := range tableMixes {
		d := cast(t, mix.parts[0], mix.parts[1], mix.parts[2], mix.parts[3], 0)
		near(t, name+" water", 100*d.Water/d.mass(), mix.water, 0.05)
		near(t, name+" steady", must(t)(d.SteadyRH()), mix.steadyRH, 0.5)
		if !math.IsNaN(mix.density) {
			near(t, name+" density", d.mass()/d.volume(), mix.density, 0.003)
		}
		for i, humidity := range tableHumidities[:5] {
			s, err := d.At(humidity)
			if err != nil {
				t.Fatal(err)
			}
			near(t, name+" mass", s.MassChange, mix.mass[i], 1)
			if !math.IsNaN(mix.size[i]) {
				near(t, name+" size", s.SizeChange, mix.size[i], 0.5)
			}
		}
		damp := d
		damp.Water = d.waterAt(0.95)
		near(t, name+" mass at 95", 100*(damp.mass()/d.mass()-1), mix.mass[5], 1)
		if !math.IsNaN(mix.size[5]) {
			near(t, name+" size at 95", damp.sizeAgainst(d), mix.size[5], 1)
		}
		if _, err := d.At(95); err == nil {
			t.Errorf("%s: a figure at 95 %%", name)
		} else {
			tellsMaker(t, err)
		}
	}
}

// Source: the same table: water of the whole once settled, in percent.
func TestSettledWaterAgainstTheTable(t *testing.T) {
	for name, want := range map[string][5]float64{
		"a": {7.2, 11.9, 17.7, 25.7, 39.2}, "b": {8.0, 13.4, 19.8, 28.8, 43.3}, "c": {7.9, 10.7, 13.4, 16.8, 21.4},
	} {
		parts := tableMixes[name].parts
		d := cast(t, parts[0], parts[1], parts[2], parts[3], 0)
		for i, humidity := range tableHumidities[:5] {
			s, err := d.At(humidity)
			if err != nil {
				t.Fatal(err)
			}
			near(t, name+" water", 100*s.Water/s.Mass, want[i], 0.1)
		}
	}
}

// Source: Forney and Brandl (1992) in place of our glycerin, in the mix of
// gelatin 1, syrup 2, glycerin 2: the figures by hand are -1.5 points of mass
// at 35 %, -0.9 at 50 %, +0.2 at 65 % and +1.3 at 80 %.
func TestCastWithOtherGlycerinStandard(t *testing.T) {
	d := cast(t, 1, 2, 2, 0, 0)
	for humidity, moved := range map[float64]float64{35: -1.5, 50: -0.9, 65: 0.2, 80: 1.3} {
		_, percent := forneyBrandl(humidity)
		other := d.Glycerol * (100/percent - 1 - glycerol.waterAt(humidity/100))
		near(t, "moved", 100*other/d.mass(), moved, 0.1)
		s, err := d.At(humidity)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(moved) > s.Doubt {
			t.Errorf("at %v %% the doubt of %v does not cover another published standard", humidity, s.Doubt)
		}
	}
}

// The doubt covers a gelatin that holds half as much again, as cold-set gels
// are published to.
func TestDoubtCoversColdSetGelatin(t *testing.T) {
	d := cast(t, 1, 2, 2, 0, 0)
	for _, humidity := range []float64{20, 35, 50, 65, 80, 90} {
		s, err := d.At(humidity)
		if err != nil {
			t.Fatal(err)
		}
		if more := 50 * d.Gelatin * gelatinWaterAt(humidity/100) / d.mass(); more > s.Doubt {
			t.Errorf("at %v %% it would be %v points, the doubt is %v", humidity, more, s.Doubt)
		}
	}
}

// Source: by hand, from the published isotherms: losing 0.3 part of the water
// while cooking takes the steady humidity from 42 to 26 %.
func TestCookingLoss(t *testing.T) {
	ok := must(t)
	near(t, "nothing lost", ok(cast(t, 1, 2, 2, 0, 0).SteadyRH()), 42, 0.5)
	near(t, "0.3 lost", ok(cast(t, 1, 2, 2, 0, 0.3).SteadyRH()), 26, 0.5)
}

// Source: arithmetic. 10 g of powder are 8.9 dry, 20 g of 70 % syrup 14, 20 g
// of glycerin 19.9; water 1.1 + 6 + 0.1 + 3 less 2.
func TestDryOfByHand(t *testing.T) {
	d := cast(t, 10, 20, 20, 3, 2)
	near(t, "gelatin", d.Gelatin, 8.9, 1e-9)
	near(t, "sorbitol", d.Sorbitol, 14, 1e-9)
	near(t, "glycerol", d.Glycerol, 19.9, 1e-9)
	near(t, "water", d.Water, 8.2, 1e-9)
	near(t, "all of it", d.mass(), 51, 1e-9)
	near(t, "boiled dry", cast(t, 10, 20, 20, 3, 10.2).Water, 0, 1e-9)
}

// Source: Flory-Huggins by hand, 0.988 for gelatin 3 to water 4. Between the
// isotherm of dry gelatin and a true gel lies a stretch that neither tells of:
// there the answer stays, so that more water is never steady in drier air.
func TestWetCasts(t *testing.T) {
	ok := must(t)
	last := 0.0
	for _, water := range []float64{0.1, 0.3, 0.43, 0.46, 0.6, 1, 1.3, 1.6, 5, 50} {
		steady := ok(Dry{Gelatin: 1, Water: water}.SteadyRH())
		if steady < last || steady > 100 {
			t.Errorf("with %v of water steady at %v, with less at %v", water, steady, last)
		}
		last = steady
	}
	near(t, "3 to 4", ok(cast(t, 3, 0, 0, 4, 0).SteadyRH()), 98.8, 0.1)
	if got := ok(cast(t, 3, 0, 0, 1000, 0).SteadyRH()); got < 99.99 || got > 100 {
		t.Errorf("a thin gel is steady at %v", got)
	}
	if a, b := ok(cast(t, 3, 0, 0.5, 40, 0).SteadyRH()), ok(cast(t, 3, 0, 0, 40, 0).SteadyRH()); a >= b {
		t.Errorf("glycerin does not hold water in a thin gel: %v against %v", a, b)
	}
}

func TestRoughOutsideTheFairRange(t *testing.T) {
	d := cast(t, 1, 2, 2, 0, 0)
	for humidity, rough := range map[float64]bool{0: true, 34.9: true, 35: false, 65: false, 65.1: true, 90: true} {
		s, err := d.At(humidity)
		if err != nil || s.Rough != rough || (s.Doubt == 10) != rough {
			t.Errorf("%v %%: %+v, %v", humidity, s, err)
		}
	}
}

// The ferryman's barnacle crust, gelatin 1, syrup 2, glycerin 2, made at 45 %,
// carried at 60 % and worn at 50 %. Source: the table's sizes at 50 % (+1.7)
// and between 50 and 65 % (+1.7 to +6.1).
func TestWorstSize(t *testing.T) {
	d := cast(t, 100, 200, 200, 0, 0)
	hold, err := d.WorstSize(45, 60, 50)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "worn", hold.Sizes[2], 1.7, 0.5)
	if hold.Worst != hold.Sizes[1] || hold.Worst < 1.7 || hold.Worst > 6.1 {
		t.Errorf("the worst is %v of %v", hold.Worst, hold.Sizes)
	}
	near(t, "spread", hold.Spread, 100*((100+hold.Sizes[1])/(100+hold.Sizes[0])-1), 1e-9)
	for tolerance, want := range map[float64]bool{0.5: false, 4: false, 5: true} {
		if got, err := hold.Within(tolerance); err != nil || got != want {
			t.Errorf("within %v %%: %v, %v, for %+v", tolerance, got, err, hold)
		}
	}
	for _, tolerance := range []float64{-1, math.NaN(), 101} {
		if got, err := hold.Within(tolerance); err == nil || got {
			t.Errorf("tolerance %v is taken", tolerance)
		} else {
			tellsMaker(t, err)
		}
	}
	if hold, err := d.WorstSize(45, 95, 50); err == nil || hold != (Hold{}) {
		t.Errorf("carried at 95 %%: %+v", hold)
	} else {
		tellsMaker(t, err)
	}
}

// A shrunken and a swollen room together are further apart than either from
// the mould, and that counts too.
func TestWithinMindsTheSpread(t *testing.T) {
	d := cast(t, 1, 2, 2, 0, 0)
	hold, err := d.WorstSize(30, 52, 52)
	if err != nil {
		t.Fatal(err)
	}
	if hold.Spread <= hold.Worst {
		t.Fatalf("the rooms do not lie either side: %+v", hold)
	}
	if held, err := hold.Within((hold.Worst + hold.Spread) / 2); err != nil || held {
		t.Errorf("%v, %v for %+v", held, err, hold)
	}
}

func TestClimateRefuses(t *testing.T) {
	sound := cast(t, 1, 2, 2, 0, 0)
	for name, call := range map[string]func() error{
		"no number":       func() error { _, err := sound.At(math.NaN()); return err },
		"below nothing":   func() error { _, err := sound.At(-1); return err },
		"past everything": func() error { _, err := sound.At(101); return err },
		"nothing dry":     func() error { _, err := Dry{Water: 5, Other: 1}.At(50); return err },
		"empty":           func() error { _, err := Dry{}.SteadyRH(); return err },
		"negative":        func() error { _, err := Dry{Gelatin: 1, Water: -1}.SteadyRH(); return err },
		"endless":         func() error { _, err := Dry{Gelatin: math.Inf(1)}.WaterToHold(50); return err },
		"no humidity":     func() error { _, err := sound.WaterToHold(math.NaN()); return err },
		"too damp":        func() error { _, err := sound.WaterToHold(91); return err },
		"lost too much":   func() error { _, err := DryOf(1, 2, 70, 2, 0, 0.8); return err },
		"syrup over 100":  func() error { _, err := DryOf(1, 2, 101, 2, 0, 0); return err },
		"no ingredients":  func() error { _, err := DryOf(0, 0, 70, 0, 5, 0); return err },
		"too much":        func() error { _, err := DryOf(1e10, 0, 70, 0, 5, 0); return err },
		"alone at 96":     func() error { _, err := GelatinWater(96); return err },
		"alone below 0":   func() error { _, err := SorbitolWater(-1); return err },
		"alone, no sense": func() error { _, err := GlycerinWater(math.NaN()); return err },
	} {
		err := call()
		if err == nil {
			t.Errorf("%s passes", name)
			continue
		}
		tellsMaker(t, err)
	}
}

func anyCast(t *rapid.T) Dry {
	part := func(name string, least float64) float64 { return rapid.Float64Range(least, 1000).Draw(t, name) }
	return Dry{Gelatin: part("gelatin", 0.1), Sorbitol: part("sorbitol", 0), Glycerol: part("glycerol", 0),
		Other: part("other", 0), Water: part("water", 0)}
}

// Nothing but water comes or goes, damper air never leaves less of it, and
// more water never swells a piece less.
func TestSettlingConservesAndGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyCast(t)
		low := rapid.Float64Range(0, mostSettled).Draw(t, "humidity")
		high := rapid.Float64Range(low, mostSettled).Draw(t, "damper")
		before, err := d.At(low)
		if err != nil {
			t.Fatal(err)
		}
		after, err := d.At(high)
		if err != nil {
			t.Fatal(err)
		}
		solids := d.Gelatin + d.Sorbitol + d.Glycerol + d.Other
		near(t, "mass", before.Mass, solids+before.Water, 1e-9*before.Mass)
		near(t, "change", (solids+d.Water)*(1+before.MassChange/100), before.Mass, 1e-9*(1+before.Mass+d.Water))
		if after.Water < before.Water || after.SizeChange < before.SizeChange {
			t.Errorf("%v %% gives %+v, %v %% gives %+v", low, before, high, after)
		}
		if (before.MassChange < 0) != (before.SizeChange < 0) && math.Abs(before.MassChange) > 1e-9 {
			t.Errorf("mass and size go different ways: %+v", before)
		}
	})
}

// What DryOf puts into a cast is what was weighed, less what was lost.
func TestDryOfConserves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SliceOfN(rapid.Float64Range(0.01, 1e4), 4, 4).Draw(t, "g")
		solids := rapid.Float64Range(0, 100).Draw(t, "solids")
		whole, err := DryOf(g[0], g[1], solids, g[2], g[3], 0)
		if err != nil {
			t.Fatal(err)
		}
		lost := whole.Water * rapid.Float64Range(0, 1).Draw(t, "share lost")
		d, err := DryOf(g[0], g[1], solids, g[2], g[3], lost)
		if err != nil {
			t.Fatal(err)
		}
		weighed := g[0] + g[1] + g[2] + g[3]
		near(t, "mass", d.mass(), weighed-lost, 1e-9*weighed)
	})
}

// The humidity at which nothing changes, and the water that makes it so, are
// two ends of one thing; and more water is never steady in drier air.
func TestSteadyMeansNoChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		d := anyCast(t)
		humidity := rapid.Float64Range(1, mostSettled).Draw(t, "humidity")
		held := d
		held.Water += ok(d.WaterToHold(humidity))
		near(t, "steady", ok(held.SteadyRH()), humidity, 1e-6)
		s, err := held.At(humidity)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mass", s.MassChange, 0, 1e-9)
		near(t, "size", s.SizeChange, 0, 1e-9)

		wetter := d
		wetter.Water += rapid.Float64Range(0, 1e4).Draw(t, "more")
		dry, wet := ok(d.SteadyRH()), ok(wetter.SteadyRH())
		if wet < dry || dry < 0 || wet > 100 {
			t.Errorf("steady at %v, with more water at %v", dry, wet)
		}
	})
}

// Any numbers give finite answers or an error.
func TestClimateIsTotal(t *testing.T) {
	odd := []float64{0, 5e-324, 1e-12, 1e-9, 0.5, 50, 90, 1e9, 1e308, -1, math.NaN(), math.Inf(1), math.Inf(-1)}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) float64 {
			return rapid.OneOf(rapid.SampledFrom(odd), rapid.Float64()).Draw(t, name)
		}
		held := func(what string, err error, results ...float64) {
			for _, r := range results {
				if !finite(r) || err != nil && r != 0 {
					t.Errorf("%s gives %v, %v", what, results, err)
				}
			}
		}
		a, b, c := draw("a"), draw("b"), draw("c")
		mixed, err := DryOf(a, b, c, draw("d"), draw("e"), draw("f"))
		held("dry of", err, mixed.Gelatin, mixed.Sorbitol, mixed.Glycerol, mixed.Other, mixed.Water)
		for _, d := range []Dry{mixed, {draw("g"), draw("h"), draw("i"), draw("j"), draw("k")}} {
			s, err := d.At(a)
			held("at", err, s.Mass, s.Water, s.MassChange, s.SizeChange, s.Doubt)
			rh, err := d.SteadyRH()
			held("steady", err, rh)
			w, err := d.WaterToHold(b)
			held("hold", err, w)
			hold, err := d.WorstSize(a, b, c)
			held("worst", err, hold.Sizes[0], hold.Sizes[1], hold.Sizes[2], hold.Worst, hold.Spread)
		}
	})
}

// What practice says of casts in the air (common practice, no source), by sign
// and order. Where the sum says otherwise, the log says how and when the two
// agree; only what should hold is asserted.
func TestPracticeFacts(t *testing.T) {
	settled := func(d Dry, humidity float64) Settled {
		t.Helper()
		s, err := d.At(humidity)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	firm := cast(t, 1, 2, 2, 0, 0) // gelatin, syrup, glycerin, nothing stirred in
	soft := cast(t, 1, 0, 3, 0, 0) // gelatin, glycerin
	plain := cast(t, 3, 0, 0, 4, 0)

	t.Run("keeps its size for a year at 65 to 70", func(t *testing.T) {
		low, high := settled(firm, 65), settled(firm, 70)
		t.Logf("a miss. Practice: gelatin, syrup and glycerin keep their size at 65 to 70 %%. "+
			"The sum, with no water stirred in: mass %+.0f to %+.0f %%, size %+.1f to %+.1f %%. "+
			"They agree when the batch holds 26 to 29 %% of water as cast, or if such growth goes unnoticed",
			low.MassChange, high.MassChange, low.SizeChange, high.SizeChange)
		near(t, "gain at 65", low.MassChange, 15, 1)
		near(t, "gain at 70", high.MassChange, 21, 1)
		for humidity, parts := range map[float64]float64{65: 0.76, 70: 1.06} {
			near(t, "water to hold", must(t)(firm.WaterToHold(humidity)), parts, 0.02)
			held := cast(t, 1, 2, 2, parts, 0)
			near(t, "size with it", settled(held, humidity).SizeChange, 0, 0.2)
			if share := 100 * held.Water / held.mass(); share < 25.5 || share > 29.5 {
				t.Errorf("it then holds %v %% of water as cast", share)
			}
		}
	})
	t.Run("thickens in damp and shrinks in very dry air", func(t *testing.T) {
		dry, damp, damper := settled(firm, 20), settled(firm, 65), settled(firm, 80)
		if dry.SizeChange >= -1 || damp.SizeChange <= 1 || damper.SizeChange <= damp.SizeChange {
			t.Errorf("size %v at 20 %%, %v at 65 %%, %v at 80 %%", dry.SizeChange, damp.SizeChange, damper.SizeChange)
		}
	})
	t.Run("swells near 100", func(t *testing.T) {
		perPoint := func(low, high float64) float64 {
			return (settled(firm, high).MassChange - settled(firm, low).MassChange) / (high - low)
		}
		room, damp := perPoint(50, 65), perPoint(80, 90)
		if damp < 3*room {
			t.Errorf("%v %% of mass a point above 80 %% humidity, %v in a room", damp, room)
		}
		wet := firm
		wet.Water = firm.waterAt(0.95)
		t.Logf("right in sign. Practice: a piece swells near 100 %% humidity. The sum: size %+.0f %% at 95 %%, "+
			"and no end to it beyond, where gelatin really holds back; so no figure is given above 90 %%",
			wet.sizeAgainst(firm))
	})
	t.Run("plain gelatin shrivels in any room", func(t *testing.T) {
		for humidity := 20.0; humidity <= 65; humidity += 5 {
			if size := settled(plain, humidity).SizeChange; size < -30 || size > -26 {
				t.Errorf("size %v at %v %%, should be -30 to -26", size, humidity)
			}
		}
	})
	t.Run("gelatin and glycerin turn damp", func(t *testing.T) {
		low, high := settled(soft, 50), settled(soft, 65)
		t.Logf("an expectation that practice has not confirmed. The sum: gelatin and glycerin alone gain %.0f to %.0f %% "+
			"of mass at 50 to 65 %% humidity; to hold there they need %.2f to %.2f parts of water stirred in",
			low.MassChange, high.MassChange, must(t)(soft.WaterToHold(50)), must(t)(soft.WaterToHold(65)))
		if low.MassChange <= settled(firm, 50).MassChange || high.MassChange <= settled(firm, 65).MassChange {
			t.Error("more glycerin does not draw more water")
		}
	})
}
