package craft

import (
	"errors"
	"fmt"
)

const (
	maxIngredients = 50
	maxCopies      = 1000
)

// An Ingredient is one line of a mix by parts by mass.
type Ingredient struct {
	Name    string
	Parts   float64 // by mass
	Density float64 // g/ml in the melt
	Spooned float64 // g/ml as poured into a spoon or jug; 0 means the same
	Doubt   float64 // percent either way of Spooned
}

// A Recipe is a mix, its ingredients in the order they are written.
type Recipe []Ingredient

// A Portion is one ingredient, measured out.
type Portion struct {
	Name        string
	Grams       float64
	Millilitres float64 // as spooned or poured out, not as it lies in the melt
	Doubt       float64 // percent either way of Millilitres; Grams have none
}

// Portions are a recipe measured out, in the order of the recipe.
type Portions []Portion

// Grams gives the mass of all the portions.
func (p Portions) Grams() float64 {
	sum := 0.0
	for _, one := range p {
		sum += one.Grams
	}
	return sum
}

// Mix measures out a recipe that fills volume ml when melted, with allowance
// percent more for the skin that stays in the jug. Volumes are taken to add
// up, with nothing lost as steam.
func Mix(volume float64, recipe Recipe, allowance float64) (Portions, error) {
	err := firstOf(positive("volume of the mix", volume, maxAmount, "ml"), recipe.check())
	if err != nil {
		return nil, err
	}
	fill, err := WithSpare(volume, allowance)
	if err != nil {
		return nil, err
	}
	_, perPart := recipe.totals()
	return recipe.portions(fill / perPart), nil
}

// Copies measures out one batch for so many castings of volume ml each, with
// allowance percent more for the jug.
func (r Recipe) Copies(volume float64, copies int, allowance float64) (Portions, error) {
	if copies < 1 || copies > maxCopies {
		return nil, fmt.Errorf("the number of copies must lie between 1 and %d", maxCopies)
	}
	return Mix(volume*float64(copies), r, allowance)
}

// OfMass measures out so many grams of the mix.
func (r Recipe) OfMass(grams float64) (Portions, error) {
	err := firstOf(positive("mass of the mix", grams, maxAmount, "g"), r.check())
	if err != nil {
		return nil, err
	}
	parts, _ := r.totals()
	return r.portions(grams / parts), nil
}

// From measures out as much of the mix as grams of one ingredient make; where
// the recipe names it more than once, grams are for all of these lines.
func (r Recipe) From(name string, grams float64) (Portions, error) {
	err := firstOf(positive("mass of "+name, grams, maxAmount, "g"), r.check())
	if err != nil {
		return nil, err
	}
	parts := 0.0
	for _, in := range r {
		if in.Name == name {
			parts += in.Parts
		}
	}
	if parts == 0 {
		return nil, fmt.Errorf("there is no %s in this mix", name)
	}
	made := r.portions(grams / parts)
	if err := notNegative("mass of the mix", made.Grams(), maxAmount, "g"); err != nil {
		return nil, err
	}
	return made, nil
}

// Shares gives what each ingredient is of the mass of the mix, in percent.
func (r Recipe) Shares() ([]float64, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	parts, _ := r.totals()
	shares := make([]float64, len(r))
	for i, in := range r {
		shares[i] = 100 * in.Parts / parts
	}
	return shares, nil
}

// Density gives the density of the melt in g/ml, volumes taken to add up.
func (r Recipe) Density() (float64, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	parts, volume := r.totals()
	return parts / volume, nil
}

// Fills gives the ml of casting that grams of the melted mix fill when
// allowance percent of what is poured out stays in the jug: Mix, backwards.
func (r Recipe) Fills(grams, allowance float64) (float64, error) {
	if err := positive("mass of the mix", grams, maxAmount, "g"); err != nil {
		return 0, err
	}
	density, err := r.Density()
	if err != nil {
		return 0, err
	}
	toOne, err := WithSpare(1, allowance)
	if err != nil {
		return 0, err
	}
	return grams / density / toOne, nil
}

// ByMass reads the parts of r as volumes, as spooned or poured, and gives the
// same mix by mass.
func (r Recipe) ByMass() (Recipe, error) {
	return r.reckoned(func(in Ingredient) float64 { return in.Parts * in.poured() })
}

// ByVolume gives the same mix with its parts as volumes, as spooned or poured.
// It undoes ByMass.
func (r Recipe) ByVolume() (Recipe, error) {
	return r.reckoned(func(in Ingredient) float64 { return in.Parts / in.poured() })
}

func (r Recipe) reckoned(parts func(Ingredient) float64) (Recipe, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	out := make(Recipe, len(r))
	for i, in := range r {
		in.Parts = parts(in)
		out[i] = in
	}
	if err := out.check(); err != nil {
		return nil, err
	}
	return out, nil
}

// portions measures out grams to the part.
func (r Recipe) portions(grams float64) Portions {
	portions := make(Portions, len(r))
	for i, in := range r {
		portions[i] = in.portion(in.Parts * grams)
	}
	return portions
}

func (in Ingredient) portion(grams float64) Portion {
	return Portion{Name: in.Name, Grams: grams, Millilitres: grams / in.poured(), Doubt: in.Doubt}
}

// poured gives g/ml as the maker measures it out.
func (in Ingredient) poured() float64 {
	if in.Spooned == 0 {
		return in.Density
	}
	return in.Spooned
}

// totals gives all the parts, and the ml of melt at one gram to the part.
func (r Recipe) totals() (parts, volume float64) {
	for _, in := range r {
		parts += in.Parts
		volume += in.Parts / in.Density
	}
	return parts, volume
}

func (r Recipe) check() error {
	if len(r) == 0 {
		return errors.New("the mix has no ingredients")
	}
	if len(r) > maxIngredients {
		return fmt.Errorf("a mix can have at most %d ingredients", maxIngredients)
	}
	for _, in := range r {
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
