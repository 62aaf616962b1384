package craft

import "math"

// Consistency is the water, in parts by mass to 100 of plaster, to take when
// the bag says nothing.
// Source: manufacturers' data sheets for pottery and moulding plaster.
const Consistency = 70.0

const (
	// The molar masses (IUPAC standard atomic weights) of half-hydrate, CaSO4.½H2O,
	// and of the one and a half waters that it takes up.
	molarPlaster = 145.148
	molarUptake  = 1.5 * 18.0153

	boundWater = 100 * molarUptake / molarPlaster // parts per 100 plaster: 18.62
	waterAt20C = 0.9982                           // g/ml
	cpSet      = 1.08                             // kJ/(kg K), gypsum
	cpWater    = 4.18                             // kJ/(kg K)
)

// A PlasterKind holds what differs between plasters.
type PlasterKind struct {
	Name      string
	Particle  float64 // density of the grains, g/ml
	Heat      float64 // kJ given off by each kg that sets
	Expansion float64 // percent, linear, on setting
}

// The kinds of pure gypsum plaster.
// Source: grain densities, Wirsching, "Calcium Sulfate", Ullmann's
// Encyclopedia; heats, NBS Tables (Wagman et al. 1982); expansion 0.2 %,
// maker's data sheet (alpha kinds vary from 0.08 to 0.39).
var (
	BetaPlaster  = PlasterKind{Name: "pottery or moulding plaster", Particle: 2.63, Heat: 132.5, Expansion: 0.2}
	AlphaPlaster = PlasterKind{Name: "hard gypsum cement", Particle: 2.76, Heat: 118, Expansion: 0.2}
)

// A PlasterMix is one batch of slurry and what becomes of it.
type PlasterMix struct {
	Plaster    float64 // g, dry powder
	Water      float64 // g
	WetDensity float64 // g/ml of the slurry
	DryDensity float64 // g/ml of the set block once it is dry
	DryMass    float64 // g of the set block once it is dry
	Rise       float64 // degrees C above the start: an upper bound, no heat lost
}

// MixPlaster gives the batch of BetaPlaster that fills slurry ml at a
// consistency (parts water to 100 plaster by mass).
func MixPlaster(slurry, consistency float64) (PlasterMix, error) {
	return BetaPlaster.Mix(slurry, consistency)
}

// Mix gives the batch of this kind that fills slurry ml at a consistency
// (parts water to 100 plaster by mass), with no allowance for loss.
// Source: absolute volumes, V = 100/particle + c/0.9982 ml per 100 g plaster;
// dry density 118.62 / (V (1+e)^3); rise H / (1.186*1.08 + (c-18.6)/100*4.18).
func (k PlasterKind) Mix(slurry, consistency float64) (PlasterMix, error) {
	err := firstOf(positive("volume of plaster slurry", slurry, maxAmount, "ml"),
		within("water to 100 of plaster", consistency, 20, 200, "by mass"),
		k.check())
	if err != nil {
		return PlasterMix{}, err
	}
	setParts := 100 + boundWater
	per100 := 100/k.Particle + consistency/waterAt20C
	grams := 100 * slurry / per100
	heldHeat := setParts/100*cpSet + (consistency-boundWater)/100*cpWater
	return PlasterMix{
		Plaster:    grams,
		Water:      grams * consistency / 100,
		WetDensity: (100 + consistency) / per100,
		DryDensity: setParts / (per100 * math.Pow(1+k.Expansion/100, 3)),
		DryMass:    grams * setParts / 100,
		Rise:       k.Heat / heldHeat,
	}, nil
}

func (k PlasterKind) check() error {
	return firstOf(within("density of the plaster grains", k.Particle, 1, 5, "g/ml"),
		within("heat of the plaster", k.Heat, 0, 500, "kJ/kg"),
		within("expansion of the plaster", k.Expansion, 0, 5, "percent"))
}

// WithSpare adds percent to an amount for what stays in the bowl.
func WithSpare(x, percent float64) (float64, error) {
	err := firstOf(notNegative("amount", x, maxAmount, ""),
		within("spare", percent, 0, 200, "percent"))
	if err != nil {
		return 0, err
	}
	return x * (1 + percent/100), nil
}
