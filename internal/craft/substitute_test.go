package craft

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Source: the square-root rule of the GMIA Gelatin Handbook (from memory), and
// a published kitchen table of factors that follows it (1.41, 2.00, 1.15).
func TestExchangeBloom(t *testing.T) {
	for _, c := range []struct{ recipe, own, want, tol float64 }{
		{250, 200, 1.118, 0.001}, {225, 175, 1.134, 0.001}, {200, 100, 1.414, 0.001},
		{200, 100, 1.41, 0.005}, {240, 60, 2.00, 0.005}, {80, 60, 1.15, 0.005},
	} {
		got, err := ExchangeBloom(c.recipe, c.own)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "factor", got.Factor, c.want, c.tol)
		near(t, "linear", got.Linear, c.recipe/c.own, 1e-12)
	}
	for _, c := range [][2]float64{{0, 200}, {200, 0}, {200, 700}, {math.NaN(), 200}, {200, math.Inf(1)}, {-200, 200}} {
		if got, err := ExchangeBloom(c[0], c[1]); err == nil || got != (BloomExchange{}) {
			t.Errorf("%v passes: %v", c, got)
		} else {
			tellsMaker(t, err)
		}
	}
}

// There and back is no exchange, and the linear bound lies further out.
func TestExchangeBloomHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(30, 350).Draw(t, "a")
		b := rapid.Float64Range(30, 350).Draw(t, "b")
		there, err := ExchangeBloom(a, b)
		if err != nil {
			t.Fatal(err)
		}
		back, err := ExchangeBloom(b, a)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "there and back", there.Factor*back.Factor, 1, 1e-12)
		if math.Abs(there.Linear-1) < math.Abs(there.Factor-1)-1e-12 {
			t.Errorf("%v for %v: the bound is nearer than the factor: %v", b, a, there)
		}
	})
}

// Source: mass balance by hand. 200 g of 70 % hold 140 g of sorbitol and 60 of
// water: as 56 % 250 g with 110 of water, as powder 140 g.
func TestSwapSyrup(t *testing.T) {
	for _, c := range []struct{ strength, take, water float64 }{
		{70, 200, 0}, {56, 250, -50}, {100, 140, 60}, {50, 280, -80},
	} {
		got, err := SwapSyrup(200, c.strength)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "take", got.Take, c.take, 1e-9)
		near(t, "water", got.Water, c.water, 1e-9)
	}
}

// A food syrup near 18 % is no substitute (common practice, no source): 82 g
// of water to 18 of sorbitol is 4.6 times its weight.
func TestFoodSyrupRefused(t *testing.T) {
	got, err := SwapSyrup(200, 18)
	if err == nil || got != (SyrupSwap{}) {
		t.Fatalf("passes: %v", got)
	}
	tellsMaker(t, err)
	if !strings.Contains(err.Error(), "4.6 times") || !strings.Contains(err.Error(), "18 percent") {
		t.Errorf("the reason is lost: %v", err)
	}
	for _, c := range [][2]float64{{200, 49.9}, {200, 1e-300}, {200, 0}, {200, -3}, {200, 101}, {200, math.NaN()},
		{0, 70}, {-1, 70}, {math.Inf(1), 70}, {math.NaN(), 70}} {
		if got, err := SwapSyrup(c[0], c[1]); err == nil || got != (SyrupSwap{}) {
			t.Errorf("%v passes: %v", c, got)
		} else {
			tellsMaker(t, err)
		}
	}
}

// Every stand-in carries the solids of the syrup, and its water.
func TestStandInsConserve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grams := rapid.Float64Range(1, 1e5).Draw(t, "grams")
		strength := rapid.Float64Range(weakestSyrup, 100).Draw(t, "strength")
		swap, err := SwapSyrup(grams, strength)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mass", swap.Take+swap.Water, grams, 1e-9*grams)
		near(t, "sorbitol", swap.Take*strength, grams*SyrupSolids, 1e-9*grams*SyrupSolids)
		back := swap.Take * strength / SyrupSolids
		near(t, "there and back", back, grams, 1e-9*grams)

		made := min(strength, strongestSyrup)
		powder, water, err := MakeSyrup(grams, made)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "made", powder+water, grams, 1e-9*grams)
		near(t, "strength made", 100*powder/grams, made, 1e-9*made)

		instead, water, err := WithoutSorbitol(grams)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "without sorbitol", instead+water, grams, 1e-9*grams)
		near(t, "solids", instead*glycerinGrade, grams*SyrupSolids, 1e-9*grams*SyrupSolids)
	})
}

func TestStandInsRefuse(t *testing.T) {
	for _, c := range [][2]float64{{0, 70}, {-1, 70}, {100, 5}, {100, 90}, {math.NaN(), 70}, {100, math.NaN()}, {math.Inf(1), 70}} {
		powder, water, err := MakeSyrup(c[0], c[1])
		if err == nil || powder != 0 || water != 0 {
			t.Errorf("%v passes: %v, %v", c, powder, water)
			continue
		}
		tellsMaker(t, err)
	}
	for _, grams := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if glycerin, water, err := WithoutSorbitol(grams); err == nil || glycerin != 0 || water != 0 {
			t.Errorf("%v g pass", grams)
		}
	}
}

// Source: NIST HB 44 spoons (14.787 and 4.929 ml); 20 g of gelatin at 0.65 g/ml
// are 30.8 ml: two tablespoons hold 19.22 g, give or take a quarter.
func TestSpoonings(t *testing.T) {
	portions, err := Recipe{gelatin(1), water(3)}.OfMass(80)
	if err != nil {
		t.Fatal(err)
	}
	got, err := portions.Spoonings(measures(t, "tbsp", "tsp"))
	if err != nil || len(got) != 2 {
		t.Fatal(got, err)
	}
	if text := got[0].Measured.Counts[0].String(); got[0].Name != "gelatin" || text != "2 tablespoons" {
		t.Errorf("got %s of %s", text, got[0].Name)
	}
	held := got[0].Measured.Millilitres * 0.65
	near(t, "gelatin", got[0].Grams.Mid, held, 1e-9)
	near(t, "least gelatin", got[0].Grams.Low, 0.75*held, 1e-9)
	near(t, "most gelatin", got[0].Grams.High, 1.25*held, 1e-9)
	if water := got[1].Grams; water.Low != water.Mid || water.High != water.Mid {
		t.Errorf("water is in doubt: %v", water)
	}
	for name, try := range map[string]func() ([]Spooning, error){
		"no measures":  func() ([]Spooning, error) { return portions.Spoonings(nil) },
		"only buckets": func() ([]Spooning, error) { return portions.Spoonings([]Measure{{Name: "bucket", Millilitres: 1e4}}) },
		"no amount":    func() ([]Spooning, error) { return Portions{{Name: "dye"}}.Spoonings(measures(t, "tsp")) },
	} {
		if got, err := try(); err == nil || got != nil {
			t.Errorf("%s passes: %v", name, got)
		} else {
			tellsMaker(t, err)
		}
	}
}
