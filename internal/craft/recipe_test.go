package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

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
		recipe := anyRecipe(t)
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

func anyRecipe(t *rapid.T) Recipe {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Ingredient {
		return Ingredient{
			Name:    rapid.SampledFrom([]string{"gelatin", "glycerin", "syrup", "water"}).Draw(t, "name"),
			Parts:   rapid.Float64Range(0.01, 100).Draw(t, "parts"),
			Density: rapid.Float64Range(0.5, 3).Draw(t, "density"),
			Spooned: rapid.Float64Range(0.1, 3).Draw(t, "spooned"),
		}
	}), 1, 8).Draw(t, "recipe")
}

// firm is one part gelatin to two of syrup and two of glycerin.
func firm() Recipe {
	return Recipe{gelatin(1), {Name: "syrup", Parts: 2, Density: SorbitolSyrupDensity}, glycerin(2)}
}

func measured(t interface {
	Helper()
	Fatalf(string, ...any)
}) func(Portions, error) Portions {
	return func(p Portions, err error) Portions {
		t.Helper()
		if err != nil {
			t.Fatalf("unexpected: %v", err)
		}
		return p
	}
}

// Source: arithmetic; 250 g in five parts are 50, 100 and 100 g.
func TestRecipeByHand(t *testing.T) {
	ok := measured(t)
	for name, got := range map[string]Portions{
		"of a mass":    ok(firm().OfMass(250)),
		"from gelatin": ok(firm().From("gelatin", 50)),
		"from syrup":   ok(firm().From("syrup", 100)),
	} {
		near(t, name, got[0].Grams, 50, 1e-9)
		near(t, name, got[1].Grams, 100, 1e-9)
		near(t, name, got[2].Grams, 100, 1e-9)
		near(t, name+", syrup as poured", got[1].Millilitres, 100/1.3, 1e-9)
	}
	shares, err := firm().Shares()
	if err != nil || len(shares) != 3 {
		t.Fatal(shares, err)
	}
	near(t, "share of gelatin", shares[0], 20, 1e-9)
}

// Source: volumes that add up as in the table of as-cast densities: 5 parts in
// 1/1.35 + 2/1.30 + 2/1.26 ml. The density of the whole, of dry solids and
// water, is that figure too (1.285, reckoned there from other densities).
func TestRecipeDensity(t *testing.T) {
	ok := must(t)
	near(t, "by hand", ok(firm().Density()), 5/(1/1.35+2/1.30+2/1.26), 1e-9)
	near(t, "by dry solids", ok(firm().Density()), 1.285, 0.01)
	near(t, "glycerin alone", ok(Recipe{glycerin(3)}.Density()), 1.2611, 0.002) // Bosart and Snoddy (1928)
}

// Source: GNU units for the cup; 1 cup of loose gelatin at 0.65 g/ml to 1 cup
// of water.
func TestPartsByVolume(t *testing.T) {
	cup := askUnits(t, [][2]string{{"cup", "ml"}})[0]
	got, err := Recipe{gelatin(cup), water(cup)}.ByMass()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "gelatin", got[0].Parts, 153.78, 0.01)
	near(t, "water", got[1].Parts, 236.59, 0.01)
}

// Whatever the recipe and however much of it is asked for, the mass asked for
// comes out, shares stay, and there and back is where it started.
func TestRecipeConserves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ok, value := measured(t), must(t)
		recipe := anyRecipe(t)
		grams := rapid.Float64Range(1, 1e5).Draw(t, "grams")
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		got := ok(recipe.OfMass(grams))
		near(t, "mass", got.Grams(), grams, 1e-9*grams)
		near(t, "k times the mass", ok(recipe.OfMass(k*grams)).Grams(), k*grams, 1e-9*k*grams)
		shares, err := recipe.Shares()
		if err != nil {
			t.Fatal(err)
		}
		all := 0.0
		for i, p := range got {
			all += shares[i]
			near(t, "share", p.Grams, shares[i]/100*grams, 1e-9*grams)
		}
		near(t, "all shares", all, 100, 1e-9)

		first, held := got[0].Name, 0.0
		for _, p := range got {
			if p.Name == first {
				held += p.Grams
			}
		}
		near(t, "from one ingredient", ok(recipe.From(first, held)).Grams(), grams, 1e-9*grams)

		spare := rapid.Float64Range(0, 50).Draw(t, "spare")
		filled := value(recipe.Fills(grams, spare))
		near(t, "poured and back", ok(Mix(filled, recipe, spare)).Grams(), grams, 1e-9*grams)
		copies := rapid.IntRange(1, 20).Draw(t, "copies")
		near(t, "copies", ok(recipe.Copies(filled, copies, spare)).Grams(), float64(copies)*grams, 1e-8*float64(copies)*grams)
	})
}

func TestVolumePartsThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		recipe := anyRecipe(t)
		byVolume, err := recipe.ByVolume()
		if err != nil {
			return // a part can come out too small to be one
		}
		back, err := byVolume.ByMass()
		if err != nil {
			t.Fatal(err)
		}
		for i := range recipe {
			near(t, "parts", back[i].Parts, recipe[i].Parts, 1e-9*recipe[i].Parts)
			near(t, "mass of the volume", byVolume[i].Parts*recipe[i].Spooned, recipe[i].Parts, 1e-9*recipe[i].Parts)
		}
	})
}

func TestRecipeRefuses(t *testing.T) {
	for name, try := range map[string]func() (Portions, error){
		"no mass":          func() (Portions, error) { return firm().OfMass(0) },
		"no number":        func() (Portions, error) { return firm().OfMass(math.NaN()) },
		"empty":            func() (Portions, error) { return Recipe{}.OfMass(10) },
		"not in it":        func() (Portions, error) { return firm().From("water", 10) },
		"a sea of it":      func() (Portions, error) { return Recipe{water(0.001), glycerin(1e6)}.From("water", 1e6) },
		"no copies":        func() (Portions, error) { return firm().Copies(50, 0, 10) },
		"too many copies":  func() (Portions, error) { return firm().Copies(50, 1001, 10) },
		"endless":          func() (Portions, error) { return firm().Copies(math.MaxFloat64, 1000, 10) },
		"negative portion": func() (Portions, error) { return firm().From("gelatin", -1) },
	} {
		got, err := try()
		if err == nil || got != nil {
			t.Errorf("%s passes: %v", name, got)
			continue
		}
		tellsMaker(t, err)
	}
	for name, try := range map[string]func() (float64, error){
		"no recipe":       func() (float64, error) { return Recipe{}.Density() },
		"nothing to pour": func() (float64, error) { return Recipe{}.Fills(10, 0) },
		"negative pour":   func() (float64, error) { return firm().Fills(-1, 0) },
		"odd spare":       func() (float64, error) { return firm().Fills(10, math.NaN()) },
	} {
		if got, err := try(); err == nil || got != 0 {
			t.Errorf("%s passes: %v", name, got)
		} else {
			tellsMaker(t, err)
		}
	}
	for name, recipe := range map[string]Recipe{"nothing": {}, "feathers": {{Name: "flock", Parts: 0.01, Density: 1, Spooned: 0.05}}} {
		if got, err := recipe.ByMass(); err == nil || got != nil {
			t.Errorf("%s passes: %v", name, got)
		}
		if got, err := recipe.Shares(); name == "nothing" && (err == nil || got != nil) {
			t.Errorf("%s has shares: %v", name, got)
		}
	}
}
