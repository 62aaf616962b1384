package craft

import (
	"errors"
	"math"
)

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
	gypsum     = 2.32                             // g/ml, solid: NIOSH Pocket Guide, Gypsum
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
	Slurry     float64 // ml
	WetMass    float64 // g of the slurry, and of the block just set
	WetDensity float64 // g/ml of the slurry
	DryDensity float64 // g/ml of the set block once it is dry
	DryMass    float64 // g of the set block once it is dry
	WaterToDry float64 // g that leave the set block until it is dry
	Porosity   float64 // share of the dry block that is pores, 0 to 1
	Rise       float64 // degrees C above the start: an upper bound, no heat lost
}

// MixPlaster gives the batch of BetaPlaster that fills slurry ml at a
// consistency (parts water to 100 plaster by mass).
func MixPlaster(slurry, consistency float64) (PlasterMix, error) {
	return BetaPlaster.Mix(slurry, consistency)
}

// Mix gives the batch of this kind that fills slurry ml at a consistency
// (parts water to 100 plaster by mass), with no allowance for loss.
func (k PlasterKind) Mix(slurry, consistency float64) (PlasterMix, error) {
	err := firstOf(positive("volume of plaster slurry", slurry, maxAmount, "ml"), k.sound(consistency))
	if err != nil {
		return PlasterMix{}, err
	}
	return k.batch(100*slurry/k.per100(consistency), consistency), nil
}

// FromPlaster gives the batch that uses up so many g of powder at a
// consistency (parts water to 100 plaster by mass).
func (k PlasterKind) FromPlaster(grams, consistency float64) (PlasterMix, error) {
	err := firstOf(positive("weight of plaster", grams, maxAmount, "g"), k.sound(consistency))
	if err != nil {
		return PlasterMix{}, err
	}
	return k.batch(grams, consistency), nil
}

// FromWater gives the batch that uses up so many g of water at a consistency
// (parts water to 100 plaster by mass).
func (k PlasterKind) FromWater(grams, consistency float64) (PlasterMix, error) {
	err := firstOf(positive("weight of water", grams, maxAmount, "g"), k.sound(consistency))
	if err != nil {
		return PlasterMix{}, err
	}
	return k.batch(100*grams/consistency, consistency), nil
}

// per100 is the ml of slurry that 100 g of powder make.
func (k PlasterKind) per100(consistency float64) float64 {
	return 100/k.Particle + consistency/waterAt20C
}

// batch works out all of a mix from its powder; the inputs are sound.
// Source: absolute volumes, V = 100/particle + c/0.9982 ml per 100 g plaster;
// dry density 118.62 / (V (1+e)^3); pores 1 - dry/2.32; water to dry c - 18.62
// per 100 g plaster; rise H / (1.186*1.08 + (c-18.6)/100*4.18).
func (k PlasterKind) batch(grams, consistency float64) PlasterMix {
	setParts := 100 + boundWater
	per100 := k.per100(consistency)
	dry := setParts / (per100 * math.Pow(1+k.Expansion/100, 3))
	heldHeat := setParts/100*cpSet + (consistency-boundWater)/100*cpWater
	return PlasterMix{
		Plaster:    grams,
		Water:      grams * consistency / 100,
		Slurry:     grams * per100 / 100,
		WetMass:    grams * (100 + consistency) / 100,
		WetDensity: (100 + consistency) / per100,
		DryDensity: dry,
		DryMass:    grams * setParts / 100,
		WaterToDry: grams * (consistency - boundWater) / 100,
		Porosity:   1 - dry/gypsum,
		Rise:       k.Heat / heldHeat,
	}
}

// Peak gives in degrees C the warmest that slurry which starts at start can
// become in its middle: an upper bound, no heat lost. Consistency is the water
// to 100 of plaster by mass.
func (k PlasterKind) Peak(start, consistency float64) (float64, error) {
	err := firstOf(within("temperature of the slurry at the start", start, 0, 50, "degrees C"), k.sound(consistency))
	if err != nil {
		return 0, err
	}
	return start + k.batch(1, consistency).Rise, nil
}

// Consistencies that the strength was fitted to, with a little beyond.
const (
	strongest    = 30.0
	weakest      = 100.0
	strengthFall = 0.042 // of the logarithm, for each part of water
)

// RelativeStrength gives in percent how strong the dry block is against one
// mixed at Consistency. A rough figure: the fit is within 30 percent of each
// published strength, but since it runs a little low at 70, the ratio comes out
// up to 40 percent too high for the hard kinds near 38 parts.
// Source: S = 69 MPa exp(-0.042 (c-32)), fitted to the dry compressive
// strengths of a maker's table of plasters and gypsum cements, 32 to 70 parts
// of water; beyond 70 it is drawn on.
func RelativeStrength(consistency float64) (float64, error) {
	err := within("water to 100 of plaster", consistency, strongest, weakest, "by mass")
	if err != nil {
		return 0, err
	}
	return 100 * math.Exp(-strengthFall*(consistency-Consistency)), nil
}

// A MixChange is what another consistency does to the same volume of slurry,
// in percent more (+) or less (-), save for the rise.
type MixChange struct {
	WetDensity float64
	DryDensity float64
	Strength   float64 // rough, see RelativeStrength
	WaterToDry float64
	Rise       float64 // degrees C, warmer (+) or cooler (-)
}

// Change compares a mix at consistency to (parts water to 100 plaster by mass)
// with one at consistency from. Both must lie where the strength is known.
func (k PlasterKind) Change(from, to float64) (MixChange, error) {
	was, err := k.Mix(1000, from)
	if err != nil {
		return MixChange{}, err
	}
	is, err := k.Mix(1000, to)
	if err != nil {
		return MixChange{}, err
	}
	strengthWas, err := RelativeStrength(from)
	if err != nil {
		return MixChange{}, err
	}
	strengthIs, err := RelativeStrength(to)
	if err != nil {
		return MixChange{}, err
	}
	more := func(was, is float64) float64 { return 100 * (is/was - 1) }
	return MixChange{
		WetDensity: more(was.WetDensity, is.WetDensity),
		DryDensity: more(was.DryDensity, is.DryDensity),
		Strength:   more(strengthWas, strengthIs),
		WaterToDry: more(was.WaterToDry, is.WaterToDry),
		Rise:       is.Rise - was.Rise,
	}, nil
}

// Bulk densities in g/ml of powder as a cup scoops it from the bag, neither
// shaken nor pressed.
// Weak source: from memory of makers' data; weigh one cup of the bag in use.
var (
	LooseBeta  = middled(0.70, 0.80)
	LooseAlpha = middled(0.95, 1.10)
)

// Scooped gives the ml that so many g of powder fill when scooped at a loose
// density in g/ml. Low is the least: the powder at its densest.
func Scooped(grams float64, loose Span) (Span, error) {
	err := firstOf(positive("weight of plaster", grams, maxAmount, "g"), looseSound(loose))
	if err != nil {
		return Span{}, err
	}
	return Span{Low: grams / loose.High, Mid: grams / loose.Mid, High: grams / loose.Low}, nil
}

// ScoopMass gives the g of powder in so many ml scooped at a loose density in
// g/ml.
func ScoopMass(ml float64, loose Span) (Span, error) {
	err := firstOf(positive("volume of powder", ml, maxAmount, "ml"), looseSound(loose))
	if err != nil {
		return Span{}, err
	}
	return Span{Low: ml * loose.Low, Mid: ml * loose.Mid, High: ml * loose.High}, nil
}

func looseSound(loose Span) error {
	const what = "density of the loose powder"
	return firstOf(positive(what, loose.Low, 5, "g/ml"), loose.check(what, 5, "g/ml"))
}

// middled is a span with its middle halfway.
func middled(low, high float64) Span { return Span{Low: low, Mid: (low + high) / 2, High: high} }

// BowlFill is the share of a bowl to fill, so that it can be stirred and
// carried (common practice, no source).
const BowlFill = 2.0 / 3

// mostMixes is past what anybody pours before the first has set.
const mostMixes = 20

// Batches is slurry shared evenly between mixes.
type Batches struct {
	Mixes int     // how many bowls
	Each  float64 // ml of slurry in each
}

// InBowls shares slurry (ml) between as few mixes as a bowl that holds so many
// ml to its brim allows, filled to BowlFill. More than 20 are an error.
func InBowls(slurry, bowl float64) (Batches, error) {
	err := firstOf(positive("volume of plaster slurry", slurry, maxAmount, "ml"),
		positive("size of the bowl", bowl, maxAmount, "ml"))
	if err != nil {
		return Batches{}, err
	}
	const rounding = 1 - 1e-12 // a full bowl stays one bowl
	mixes := math.Ceil(slurry / (bowl * BowlFill) * rounding)
	if mixes > mostMixes {
		return Batches{}, errors.New("the bowl is too small: two thirds of it at a time takes more than 20 mixes")
	}
	return Batches{Mixes: int(mixes), Each: slurry / mixes}, nil
}

// Minutes from the water to the set. SetAllowed is what a standard lets pass
// as gypsum casting plaster, so a label may give anything inside it.
// Source: makers' data sheets, hand mixed at 65 to 74 parts of water and
// machine mixed at 70; ASTM C59/C59M-00.
var (
	SetByHand    = middled(27, 37)
	SetByMachine = middled(14, 24)
	SetAllowed   = middled(10, 50)
)

// A Shift is the way the set moves.
type Shift int8

// The shifts.
const (
	Sooner    Shift = -1
	EitherWay Shift = 0
	Later     Shift = 1
)

// A SetShift is one thing that moves the set, in a sentence for the maker.
type SetShift struct {
	Shift Shift
	Text  string
}

// SetShifts lists what moves the set of a plaster.
func SetShifts() []SetShift {
	return []SetShift{
		// Makers' data sheets.
		{Sooner, "Crumbs of set plaster in the bowl or on the tools bring the set much sooner."},
		{Sooner, "Longer or harder stirring brings the set sooner."},
		{Later, "More water to the plaster makes the set come later, and the block weaker."},
		// A plaster maker's page for builders.
		{Later, "Glue, gelatin or borax in the water makes the set come later."},
		{Sooner, "A little table salt in the water brings the set sooner."},
		// Common practice, no source; published sources disagree.
		{EitherWay, "Powder that was stored damp sets too fast, too slowly or not at all, and is weak."},
		// Ridge, Nature 184:47 (1959).
		{EitherWay, "Warm water changes little: the set runs fastest near 25 degrees C."},
	}
}

// sound checks the kind and the consistency of a mix.
func (k PlasterKind) sound(consistency float64) error {
	return firstOf(within("water to 100 of plaster", consistency, 20, 200, "by mass"), k.check())
}

// check bounds the grains below anhydrite, 2.96, so that pores are never less
// than nothing.
func (k PlasterKind) check() error {
	return firstOf(within("density of the plaster grains", k.Particle, 1, 2.96, "g/ml"),
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
