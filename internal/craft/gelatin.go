package craft

import (
	"errors"
	"fmt"
)

// Densities in g/ml at room temperature.
// Source: gelatin, maker's page (relative density 1.3-1.4); glycerin, the
// 20 degrees C table of Bosart and Snoddy (1928); sorbitol syrup at 70 %
// solids, pharmacopoeia-grade specification.
const (
	GelatinDensity       = 1.35 // the solid, as it counts in a melt
	GlycerinDensity      = 1.26
	SorbitolSyrupDensity = 1.30
	WaterDensity         = 1.0

	// GelatinSpooned is loose powder in a spoon. Published packets disagree,
	// so GelatinSpoonedDoubt percent either way: weigh where there is a scale.
	GelatinSpooned      = 0.65
	GelatinSpoonedDoubt = 25.0
)

const maxIngredients = 50

// An Ingredient is one line of a mix by parts by mass.
type Ingredient struct {
	Name    string
	Parts   float64 // by mass
	Density float64 // g/ml in the melt
	Spooned float64 // g/ml as poured into a spoon or jug; 0 means the same
	Doubt   float64 // percent either way of Spooned
}

// A Portion is one ingredient, measured out.
type Portion struct {
	Name        string
	Grams       float64
	Millilitres float64 // as spooned or poured out, not as it lies in the melt
	Doubt       float64 // percent either way of Millilitres; Grams have none
}

// Mix measures out a recipe that fills volume ml when melted, with allowance
// percent more for what stays in the jug. Portions are in the order of the
// recipe. Volumes are taken to add up, with nothing lost as steam.
func Mix(volume float64, recipe []Ingredient, allowance float64) ([]Portion, error) {
	err := firstOf(positive("volume of the mix", volume, maxAmount, "ml"), recipeSound(recipe))
	if err != nil {
		return nil, err
	}
	fill, err := WithSpare(volume, allowance)
	if err != nil {
		return nil, err
	}
	perPart := 0.0 // ml of melt for one gram to the part
	for _, in := range recipe {
		perPart += in.Parts / in.Density
	}
	portions := make([]Portion, len(recipe))
	for i, in := range recipe {
		portions[i] = in.portion(in.Parts * fill / perPart)
	}
	return portions, nil
}

func (in Ingredient) portion(grams float64) Portion {
	spooned := in.Spooned
	if spooned == 0 {
		spooned = in.Density
	}
	return Portion{Name: in.Name, Grams: grams, Millilitres: grams / spooned, Doubt: in.Doubt}
}

func recipeSound(recipe []Ingredient) error {
	if len(recipe) == 0 {
		return errors.New("the mix has no ingredients")
	}
	if len(recipe) > maxIngredients {
		return fmt.Errorf("a mix can have at most %d ingredients", maxIngredients)
	}
	for _, in := range recipe {
		if err := in.check(); err != nil {
			return err
		}
	}
	return nil
}

func (in Ingredient) check() error {
	if in.Name == "" {
		return errors.New("an ingredient of the mix has no name")
	}
	err := firstOf(within("parts of "+in.Name, in.Parts, 0.001, 1e6, ""),
		within("density of "+in.Name, in.Density, 0.01, 25, "g/ml"),
		within("doubt about "+in.Name, in.Doubt, 0, 100, "percent"))
	if err != nil || in.Spooned == 0 {
		return err
	}
	return within("spooned density of "+in.Name, in.Spooned, 0.01, 25, "g/ml")
}
