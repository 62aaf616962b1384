package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func gelatin(parts float64) Ingredient {
	return Ingredient{"gelatin", parts, GelatinDensity, GelatinSpooned, GelatinSpoonedDoubt}
}
func glycerin(parts float64) Ingredient {
	return Ingredient{Name: "glycerin", Parts: parts, Density: GlycerinDensity}
}
func water(parts float64) Ingredient {
	return Ingredient{Name: "water", Parts: parts, Density: WaterDensity}
}

// Source: Bosart and Snoddy (1928), glycerin at 20 degrees C 1.2611; syrup of
// 70.5 % solids 1.301 (maker's sheet) and 1.298 by volumes; gelatin 1.3 to 1.4
// (gelatin maker's page).
func TestDensities(t *testing.T) {
	near(t, "glycerin", GlycerinDensity, 1.2611, 0.002)
	near(t, "syrup", SorbitolSyrupDensity, 1.301, 0.01)
	near(t, "syrup", SorbitolSyrupDensity, 1.298, 0.01)
	near(t, "gelatin", GelatinDensity, 1.35, 0.05)
}

// Source: arithmetic. 1.00 parts water and 1.26 glycerin share the volume evenly.
func TestMixByHand(t *testing.T) {
	got, err := Mix(200, []Ingredient{water(1), glycerin(1.26)}, 10)
	if err != nil || len(got) != 2 {
		t.Fatal(got, err)
	}
	near(t, "water g", got[0].Grams, 110, 1e-9)
	near(t, "water ml", got[0].Millilitres, 110, 1e-9)
	near(t, "glycerin g", got[1].Grams, 138.6, 1e-9)
	near(t, "glycerin ml", got[1].Millilitres, 110, 1e-9)
	if got[1].Name != "glycerin" {
		t.Errorf("order of the recipe is lost: %v", got)
	}
}

// Source: glycerin and water at 20 degrees C, Bosart and Snoddy (1928). Adding
// volumes up is at most a little over 1 % off, where they shrink most.
func TestMixAgainstSolutionDensities(t *testing.T) {
	for percent, density := range map[float64]float64{
		90: 1.2351, 80: 1.2085, 70: 1.1813, 60: 1.1538, 50: 1.1263, 40: 1.0993, 30: 1.0727, 20: 1.0469, 10: 1.0221,
	} {
		got, err := Mix(1000, []Ingredient{glycerin(percent), water(100 - percent)}, 0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "grams in a litre", got[0].Grams+got[1].Grams, 1000*density, 0.015*1000*density)
	}
}

// Source: kitchen pages on the 7 g (1/4 oz) packet give 1 1/2 to 2 1/2 US tsp.
// The low end lies just outside the stated doubt, hence the advice to weigh.
func TestSpoonedGelatinWithinPublishedPackets(t *testing.T) {
	p := gelatin(1).portion(7)
	low, high := 1.5*usTeaspoon, 2.5*usTeaspoon
	if p.Millilitres < low || p.Millilitres > high {
		t.Errorf("a packet is %v ml, published %v to %v", p.Millilitres, low, high)
	}
	if p.Doubt != 25 {
		t.Errorf("doubt of %v percent is not passed on", p.Doubt)
	}
}

func TestMixRefuses(t *testing.T) {
	sound := []Ingredient{gelatin(3), water(4)}
	for name, c := range map[string]struct {
		volume    float64
		recipe    []Ingredient
		allowance float64
	}{
		"no volume":        {0, sound, 10},
		"negative volume":  {-5, sound, 10},
		"no number":        {math.NaN(), sound, 10},
		"no recipe":        {100, nil, 10},
		"long recipe":      {100, make([]Ingredient, 51), 10},
		"no name":          {100, []Ingredient{{Parts: 1, Density: 1}}, 10},
		"no parts":         {100, []Ingredient{water(0), gelatin(1)}, 10},
		"parts no number":  {100, []Ingredient{water(math.NaN())}, 10},
		"no density":       {100, []Ingredient{{Name: "dye", Parts: 1}}, 10},
		"spooned nonsense": {100, []Ingredient{{Name: "dye", Parts: 1, Density: 1, Spooned: -1}}, 10},
		"allowance":        {100, sound, -10},
	} {
		got, err := Mix(c.volume, c.recipe, c.allowance)
		if err == nil || got != nil {
			t.Errorf("%s passes: %v", name, got)
			continue
		}
		tellsMaker(t, err)
	}
}

// Whatever the recipe: the portions keep its parts, fill the volume with the
// allowance, and grow in step with it.
func TestMixConserves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		recipe := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Ingredient {
			return Ingredient{
				Name:    rapid.SampledFrom([]string{"gelatin", "glycerin", "syrup", "water"}).Draw(t, "name"),
				Parts:   rapid.Float64Range(0.01, 100).Draw(t, "parts"),
				Density: rapid.Float64Range(0.5, 3).Draw(t, "density"),
				Spooned: rapid.Float64Range(0.1, 3).Draw(t, "spooned"),
			}
		}), 1, 8).Draw(t, "recipe")
		volume := rapid.Float64Range(1, 1e5).Draw(t, "volume")
		allowance := rapid.Float64Range(0, 100).Draw(t, "allowance")
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		got, err := Mix(volume, recipe, allowance)
		if err != nil {
			t.Fatal(err)
		}
		more, err := Mix(k*volume, recipe, allowance)
		if err != nil {
			t.Fatal(err)
		}
		mass, parts, filled := 0.0, 0.0, 0.0
		for i, p := range got {
			mass += p.Grams
			parts += recipe[i].Parts
			filled += p.Grams / recipe[i].Density
			near(t, "k times the volume", more[i].Grams, k*p.Grams, 1e-9*k*p.Grams)
			near(t, "spooned", p.Millilitres*recipe[i].Spooned, p.Grams, 1e-9*p.Grams)
		}
		fill := volume * (1 + allowance/100)
		near(t, "volume filled", filled, fill, 1e-9*fill)
		for i, p := range got {
			near(t, "share of the mass", p.Grams/mass, recipe[i].Parts/parts, 1e-9)
		}
	})
}
