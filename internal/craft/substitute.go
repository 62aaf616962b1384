package craft

import (
	"errors"
	"fmt"
	"math"
)

// SyrupSolids is the strength of the sorbitol syrup that recipes are written
// for, in percent of its mass.
// Source: USP-NF, Noncrystallizing Sorbitol Solution (water 28.5-31.5 %).
const SyrupSolids = 70.0

const (
	// weakestSyrup, in percent, brings as much water as sorbitol. In a mix of
	// one part gelatin to two of syrup that is 0.8 part more water than with
	// 70 %, and by the sums of the air such a piece still holds its size at 65
	// to 70 % humidity; anything weaker is another recipe. Where to draw the
	// line is a guess.
	weakestSyrup = 50.0

	// strongestSyrup, in percent, is where sorbitol stays grainy in a syrup
	// made at home: it dissolves to about 70 % at 25 degrees C (from memory:
	// Merck Index, 235 g in 100 g of water) and somewhat more warm.
	strongestSyrup = 75.0
)

// A BloomExchange holds by how much to multiply the gelatin of a recipe
// written for another Bloom grade.
type BloomExchange struct {
	Factor float64 // by the square root of the grades: the one to take
	Linear float64 // by the grades themselves: the other bound
}

// ExchangeBloom gives the factor for gelatin of grade own where the recipe
// was written for grade recipe, both in grams Bloom.
// The root is a rule of water gels of a few percent; in mixes that are mostly
// sorbitol and glycerin it is an extrapolation.
// Source: GMIA Gelatin Handbook (2012), C1 sqrt(B1) = C2 sqrt(B2) (from
// memory); kitchen pages also use the linear ratio.
func ExchangeBloom(recipe, own float64) (BloomExchange, error) {
	// Gelatin is sold from about 30 to 300 Bloom.
	err := firstOf(within("grade in the recipe", recipe, 30, 350, "Bloom"),
		within("grade of your gelatin", own, 30, 350, "Bloom"))
	if err != nil {
		return BloomExchange{}, err
	}
	return BloomExchange{Factor: math.Sqrt(recipe / own), Linear: recipe / own}, nil
}

// A SyrupSwap is what stands in for the 70 % syrup of a recipe, in g.
type SyrupSwap struct {
	Take  float64 // of the maker's own syrup, or of sorbitol powder at 100 %
	Water float64 // to add (+), or to leave out of the recipe's water (-)
}

// SwapSyrup exchanges grams of 70 % syrup for a syrup of strength percent
// sorbitol that carries the same sorbitol and, with Water, the same water.
// Below 50 % it refuses: such a syrup brings more water than sorbitol.
func SwapSyrup(grams, strength float64) (SyrupSwap, error) {
	if err := positive("mass of syrup in the recipe", grams, maxAmount, "g"); err != nil {
		return SyrupSwap{}, err
	}
	if strength > 0 && strength < weakestSyrup {
		return SyrupSwap{}, tooWeak(strength)
	}
	if err := within("strength of the syrup", strength, weakestSyrup, 100, "percent"); err != nil {
		return SyrupSwap{}, err
	}
	take := grams * SyrupSolids / strength
	return SyrupSwap{Take: take, Water: grams - take}, nil
}

func tooWeak(strength float64) error {
	if strength < 1 {
		return errors.New("there is next to no sorbitol in that syrup: take a syrup of 50 percent or more")
	}
	brought := math.Round(10*(100-strength)/strength) / 10
	return fmt.Errorf("a syrup of %s percent brings %s times the weight of its sorbitol in water, "+
		"so the piece would stay soft and shrink as it dries: take a syrup of %s percent or more, or sorbitol powder",
		plain(math.Round(10*strength)/10), plain(brought), plain(weakestSyrup))
}

// MakeSyrup gives the sorbitol powder and the water, in g, that make grams of
// syrup of strength percent. Near 70 % it has to be made warm and used soon,
// before it turns grainy.
func MakeSyrup(grams, strength float64) (powder, water float64, err error) {
	err = firstOf(positive("mass of syrup", grams, maxAmount, "g"),
		within("strength of the syrup", strength, 10, strongestSyrup, "percent"))
	if err != nil {
		return 0, 0, err
	}
	powder = grams * strength / 100
	return powder, grams - powder, nil
}

// WithoutSorbitol gives the glycerin (99.5 %) and the water, in g, that stand
// in for grams of 70 % syrup, solids one for one and the mass kept. The piece
// loses by it: it tears more easily and takes up more moisture.
func WithoutSorbitol(grams float64) (glycerin, water float64, err error) {
	if err := positive("mass of syrup in the recipe", grams, maxAmount, "g"); err != nil {
		return 0, 0, err
	}
	glycerin = grams * SyrupSolids / glycerinGrade
	return glycerin, grams - glycerin, nil
}

// A Spooning is one portion measured without a scale.
type Spooning struct {
	Name     string
	Measured Measured
	Grams    Span // what the counts hold: Mid as reckoned, the ends by the doubt
}

// Spoonings puts every portion into the measures owned, for a maker without a
// scale.
func (p Portions) Spoonings(owned []Measure) ([]Spooning, error) {
	out := make([]Spooning, 0, len(p))
	for _, one := range p {
		if err := one.check(); err != nil {
			return nil, err
		}
		measured, err := InMeasures(one.Millilitres, owned)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", one.Name, err)
		}
		mid := measured.Millilitres * one.Grams / one.Millilitres
		off := mid * one.Doubt / 100
		out = append(out, Spooning{one.Name, measured, Span{mid - off, mid, mid + off}})
	}
	return out, nil
}

func (p Portion) check() error {
	return firstOf(positive("mass of "+p.Name, p.Grams, maxAmount, "g"),
		positive("volume of "+p.Name, p.Millilitres, maxAmount, "ml"),
		within("doubt about "+p.Name, p.Doubt, 0, 100, "percent"))
}
