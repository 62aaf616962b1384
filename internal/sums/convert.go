package sums

import (
	"fmt"
	"math"

	"sparehand/internal/book"
	"sparehand/internal/craft"
)

// Conversion is a question such as "how many ml in 3 tablespoons", or "how
// many cups is 300 g of plaster".
type Conversion struct {
	Value    float64
	From, To craft.Unit
	Material *book.Material // what it is of, or nil
}

// Convert works a conversion out. Mass and volume go over into each other
// only by a material.
func (c Conversion) Convert() (Line, error) {
	asked := number1(math.Round(c.Value*1e4)/1e4) + " " + unitWord(c.Value, c.From)
	base, err := c.From.Base(c.Value)
	if err != nil {
		return Line{}, err
	}
	grams, ml, err := c.both(base)
	if err != nil {
		return Line{}, err
	}
	line := Line{Name: asked, Material: c.Material, Grams: grams, Millilitres: ml}
	if c.Material != nil {
		line.Name += " of " + c.Material.Title
		line.Doubt = c.Material.Doubt
	}
	there := base
	switch {
	case c.From.Dimension == craft.Mass && c.To.Dimension == craft.Volume:
		there = ml
	case c.From.Dimension == craft.Volume && c.To.Dimension == craft.Mass:
		there = grams
	}
	x, err := craft.Convert(there, craft.BaseUnit(c.To.Dimension), c.To)
	if err != nil {
		return Line{}, err
	}
	line.Text = c.figures(x) + " " + unitWord(x, c.To)
	line.Span = craft.Span{Low: there, Mid: there, High: there}
	line.Unit = baseUnit(c.To.Dimension)
	return line, nil
}

// both gives mass and volume, as far as one gives the other; both 0 for
// another dimension.
func (c Conversion) both(base float64) (grams, ml float64, err error) {
	from, to := c.From.Dimension, c.To.Dimension
	weighs := func(d craft.Dimension) bool { return d == craft.Mass || d == craft.Volume }
	switch {
	case from != to && !(weighs(from) && weighs(to)):
		return 0, 0, fmt.Errorf("%s cannot be told in %s: one is a %s, the other a %s", c.From.Plural, c.To.Plural, from, to)
	case from != to && c.Material == nil:
		return 0, 0, fmt.Errorf("a weight and a volume go over into each other only by what it is of: say gelatin, glycerin, syrup, water or plaster")
	}
	density := 0.0
	if c.Material != nil {
		density = c.Material.Scooped
	}
	switch {
	case from == craft.Mass && density > 0:
		return base, base / density, nil
	case from == craft.Mass:
		return base, 0, nil
	case from == craft.Volume:
		return base * density, base, nil
	}
	return 0, 0, nil
}

func unitWord(x float64, u craft.Unit) string {
	if x == 1 {
		return u.Name
	}
	return u.Plural
}

func baseUnit(d craft.Dimension) string {
	switch d {
	case craft.Mass:
		return "g"
	case craft.Volume:
		return "ml"
	case craft.Length:
		return "mm"
	case craft.Time:
		return "min"
	case craft.Temperature:
		return "C"
	}
	return "%"
}

// figures writes the answer: lengths to a hundredth, the rest to three figures,
// which is more than a kitchen measures.
func (c Conversion) figures(x float64) string {
	if c.To.Dimension == craft.Length {
		return number1(math.Round(x*100) / 100)
	}
	return number1(craft.Meaningful(x, math.Abs(x)/100))
}
