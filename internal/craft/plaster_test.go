package craft

import (
	"testing"

	"pgregory.net/rapid"
)

const poundPerCubicFoot = 16.018463 / 1000 // g/ml

// Source: a plaster maker's table of typical physical properties (United
// States Gypsum, industrial plasters and gypsum cements), wet and dry in
// lb/ft3; expansion from the same maker's sheets, assumed for the first row.
func TestDensitiesAgainstPublishedTable(t *testing.T) {
	for _, row := range []struct {
		class               string
		kind                PlasterKind
		c, expand, wet, dry float64
	}{
		{"hobby plaster", BetaPlaster, 65, 0.20, 100, 72.5},
		{"pottery plaster", BetaPlaster, 70, 0.21, 99, 69},
		{"moulding plaster", BetaPlaster, 70, 0.21, 99, 69},
		{"white gypsum cement", AlphaPlaster, 45, 0.39, 110.6, 90},
		{"low expansion gypsum cement", AlphaPlaster, 38, 0.08, 115, 99},
		{"hardest gypsum cement", AlphaPlaster, 32, 0.24, 119.4, 108.7},
	} {
		row.kind.Expansion = row.expand
		mix, err := row.kind.Mix(1000, row.c)
		if err != nil {
			t.Fatal(err)
		}
		wet, dry := row.wet*poundPerCubicFoot, row.dry*poundPerCubicFoot
		near(t, row.class+" wet", mix.WetDensity, wet, 0.02*wet)
		near(t, row.class+" dry", mix.DryDensity, dry, 0.02*dry)
	}
}

// Grams a litre of slurry and densities, worked apart from this code from the
// absolute volumes of grain (2.63 g/ml) and water at 20 degrees C.
func TestAmountsPerLitre(t *testing.T) {
	for _, row := range []struct{ c, plaster, water, wet, dry float64 }{
		{60, 1019, 611, 1.630, 1.202},
		{65, 970, 630, 1.600, 1.143},
		{70, 925, 647, 1.572, 1.090},
		{80, 846, 677, 1.523, 0.998},
		{100, 724, 724, 1.447, 0.853},
	} {
		mix, err := MixPlaster(1000, row.c)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "plaster", mix.Plaster, row.plaster, 1)
		near(t, "water", mix.Water, row.water, 1)
		near(t, "wet", mix.WetDensity, row.wet, 0.001)
		near(t, "dry", mix.DryDensity, row.dry, 0.001)
	}
}

// Source: IUPAC weights, 27.023/145.148 = 18.62 parts of water are bound; a
// maker's sheet dries 99 lb of wet block to 69 at 70 parts.
func TestBoundWaterAndDrying(t *testing.T) {
	near(t, "theoretical water", boundWater, 18.62, 0.02)
	mix, err := MixPlaster(1000, 70)
	if err != nil {
		t.Fatal(err)
	}
	lost := 1 - mix.DryMass/(mix.Plaster+mix.Water)
	near(t, "lost on drying", lost, 1-69.0/99, 0.005)
	near(t, "set mass of 100 plaster", 100*mix.DryMass/mix.Plaster, 118.62, 0.02)
}

// Source: rises worked from the NBS heats of formation (from memory, Wagman et
// al. 1982); the bound on the sum from 20 degrees C is expert evidence in a
// British prosecution of 2009, "up to 60 degrees C in large quantities".
func TestRise(t *testing.T) {
	for _, row := range []struct {
		kind    PlasterKind
		c, rise float64
	}{
		{BetaPlaster, 60, 44.0}, {BetaPlaster, 70, 38.6}, {BetaPlaster, 80, 34.4},
		{AlphaPlaster, 45, 49.5}, {AlphaPlaster, 38, 56.5}, {AlphaPlaster, 32, 64.1},
	} {
		mix, err := row.kind.Mix(500, row.c)
		if err != nil {
			t.Fatal(err)
		}
		near(t, row.kind.Name, mix.Rise, row.rise, 0.1)
	}
	mix, _ := MixPlaster(5000, Consistency)
	near(t, "from 20 degrees C", 20+mix.Rise, 60, 2)
}

func TestPlasterRefuses(t *testing.T) {
	for _, c := range []struct{ slurry, consistency float64 }{
		{0, 70}, {-1, 70}, {1e12, 70}, {500, 0}, {500, 18.6}, {500, 1000}, {500, -70},
	} {
		mix, err := MixPlaster(c.slurry, c.consistency)
		if err == nil || mix != (PlasterMix{}) {
			t.Errorf("%v passes: %v", c, mix)
			continue
		}
		tellsMaker(t, err)
	}
	if _, err := (PlasterKind{}).Mix(500, 70); err == nil {
		t.Error("a plaster of nothing passes")
	}
}

// The grams fill the volume they were worked for, whatever the consistency.
func TestPlasterFillsTheWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slurry := rapid.Float64Range(1, 1e5).Draw(t, "slurry")
		c := rapid.Float64Range(20, 200).Draw(t, "c")
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		mix, err := MixPlaster(slurry, c)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "volume", (mix.Plaster+mix.Water)/mix.WetDensity, slurry, 1e-9*slurry)
		near(t, "consistency", 100*mix.Water/mix.Plaster, c, 1e-9*c)
		if mix.DryMass >= mix.Plaster+mix.Water || mix.DryMass <= mix.Plaster {
			t.Errorf("dry block of %v g from %v g plaster", mix.DryMass, mix.Plaster)
		}
		more, err := MixPlaster(k*slurry, c)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "k times the slurry", more.Plaster, k*mix.Plaster, 1e-9*k*mix.Plaster)
		near(t, "the same rise", more.Rise, mix.Rise, 1e-9)
	})
}

func TestWithSpare(t *testing.T) {
	ok := must(t)
	near(t, "15 percent", ok(WithSpare(400, 15)), 460, 1e-9)
	near(t, "none", ok(WithSpare(400, 0)), 400, 0)
	for _, percent := range []float64{-5, 500} {
		if _, err := WithSpare(400, percent); err == nil {
			t.Errorf("%v percent passes", percent)
		}
	}
}
