package craft

import (
	"errors"
	"fmt"
	"math"
)

// Bounds of what the sum of the air can say, in percent humidity.
const (
	// Past mostSettled the sum has no finite limit, and the gelatin resists.
	mostSettled = 90.0

	// Between these the sum is at its best.
	fairFrom = 35.0
	fairTo   = 65.0

	// What each material holds is added up as far as this; wetter than that
	// is a gel, of which the isotherm of the dry gelatin says nothing.
	mostAdded = 98.0
)

// What the weighed ingredients bring, in percent by mass.
// Source: gelatin makers give 8 to 13 % moisture as sold; glycerin is that of
// the pharmacopoeia grade at 99.5 %.
const (
	powderMoisture = 11.0
	glycerinGrade  = 99.5
)

// sorbitolDensity is that of the dry solid in g/ml.
// Source: maker's data; with water it gives 1.298 for a 70 % syrup.
const sorbitolDensity = 1.49

// Dry is what a cast holds, in g: its dry matter, and the water with it.
// Other takes up no water (pigment, flock); it counts as dense as gelatin.
type Dry struct {
	Gelatin, Sorbitol, Glycerol, Other, Water float64
}

// Settled is a cast that has come to rest with the air, after days for a few
// millimetres. Changes are from as cast, + for more.
type Settled struct {
	Mass       float64 // g, everything
	Water      float64 // g, of that
	MassChange float64 // percent of the mass as cast
	SizeChange float64 // percent of every length, alike in all directions
	Rough      bool    // outside 35 to 65 % humidity
	Doubt      float64 // points of MassChange either way
}

// The doubt about MassChange, in points either way. No source: weighed here
// from what the result moves when an input goes to its other published value
// (gelatin holding half as much again, other constants for the syrup and the
// glycerin: up to 2 points at 65 %, 4 in damp air), and from the gelatin not
// having been shown to leave the others' water alone.
const (
	fairDoubt  = 5.0
	roughDoubt = 10.0
)

// DryOf gives what is in a cast of weighed ingredients, in g: gelatin powder
// as sold (11 % moisture), sorbitol syrup with syrupSolids percent of solids,
// glycerin (99.5 %), water stirred in, and water lost in cooking. All solids
// of the syrup count as sorbitol. Losing more than there is is an error.
func DryOf(gelatinPowder, syrup, syrupSolids, glycerin, water, lost float64) (Dry, error) {
	err := firstOf(notNegative("gelatin powder", gelatinPowder, maxAmount, "g"),
		notNegative("syrup", syrup, maxAmount, "g"),
		within("share of solids in the syrup", syrupSolids, 0, 100, "percent"),
		notNegative("glycerin", glycerin, maxAmount, "g"),
		notNegative("water", water, maxAmount, "g"),
		notNegative("water lost", lost, maxAmount, "g"))
	if err != nil {
		return Dry{}, err
	}
	d := Dry{
		Gelatin:  gelatinPowder * (1 - powderMoisture/100),
		Sorbitol: syrup * syrupSolids / 100,
		Glycerol: glycerin * glycerinGrade / 100,
	}
	held := gelatinPowder*powderMoisture/100 + syrup*(1-syrupSolids/100) + glycerin*(1-glycerinGrade/100) + water
	if lost > held {
		return Dry{}, fmt.Errorf("the mix holds only %s g of water, so it cannot have lost %s g: weigh the pot again",
			plain(Sensible(held)), plain(Sensible(lost)))
	}
	d.Water = held - lost
	if err := d.check(); err != nil {
		return Dry{}, err
	}
	return d, nil
}

// At gives the cast once it has settled at a relative humidity in percent.
// Above 90 it is an error.
// Source: the water of each material alone at that humidity, added up
// (Zdanovskii 1936; Stokes and Robinson, J. Phys. Chem. 70:2126 (1966), from
// memory); sizes by volumes that add up. That gelatin keeps to the rule is
// unproven: in dry air the water comes out high.
func (d Dry) At(humidity float64) (Settled, error) {
	if err := firstOf(d.check(), settledSound(humidity)); err != nil {
		return Settled{}, err
	}
	after := d
	after.Water = d.waterAt(humidity / 100)
	s := Settled{
		Mass:       after.mass(),
		Water:      after.Water,
		MassChange: 100 * (after.mass()/d.mass() - 1),
		SizeChange: after.sizeAgainst(d),
		Rough:      humidity < fairFrom || humidity > fairTo,
		Doubt:      fairDoubt,
	}
	if s.Rough {
		s.Doubt = roughDoubt
	}
	return s, nil
}

// SteadyRH gives the relative humidity, in percent, at which the cast neither
// takes up water nor gives it off: 100 times its water activity. Above 90 it
// is rough; a cast wetter than the sum can follow comes out at 98 or more.
// Source: as At, turned round by halving. Where that is off its scale, Ross,
// Food Technol. 29(3):26 (1975), from memory: the product of the activities of
// each material in all the water, for the gelatin by Flory-Huggins.
func (d Dry) SteadyRH() (float64, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if d.Water <= d.waterAt(mostAdded/100) {
		return risingTo(mostAdded, func(rh float64) bool { return d.waterAt(rh/100) < d.Water }), nil
	}
	wet := gelActivity(d.Gelatin, d.Water) *
		glycerol.activity(d.Glycerol, d.Water) * sorbitol.activity(d.Sorbitol, d.Water)
	return max(mostAdded, 100*wet), nil
}

// WaterToHold gives the water in g to stir in, for the cast not to change at
// a relative humidity in percent (up to 90). Below nothing, so much would have
// to go.
func (d Dry) WaterToHold(humidity float64) (float64, error) {
	if err := firstOf(d.check(), settledSound(humidity)); err != nil {
		return 0, err
	}
	return d.waterAt(humidity/100) - d.Water, nil
}

// Hold is how well a cast keeps its size from the mould to the stage.
type Hold struct {
	Sizes  [3]float64 // percent of each length against as cast: where made, carried, worn
	Worst  float64    // percent, the largest of them either way
	Spread float64    // percent, the largest against the smallest of the three
}

// WorstSize gives how far the size strays when the cast settles in each of
// three places in turn, by their relative humidity in percent (up to 90):
// where it is made, carried and worn.
func (d Dry) WorstSize(made, carried, worn float64) (Hold, error) {
	places := [3]string{"made", "carried", "worn"}
	var hold Hold
	for i, humidity := range [3]float64{made, carried, worn} {
		settled, err := d.At(humidity)
		if err != nil {
			return Hold{}, fmt.Errorf("where the piece is %s, %w", places[i], err)
		}
		hold.Sizes[i] = settled.SizeChange
		hold.Worst = max(hold.Worst, math.Abs(settled.SizeChange))
	}
	s := hold.Sizes
	smallest, largest := min(s[0], s[1], s[2]), max(s[0], s[1], s[2])
	hold.Spread = 100 * (largest - smallest) / (100 + smallest)
	return hold, nil
}

// Within says whether the size stays within tolerance, in percent: neither
// from as cast nor from one place to another is the change larger.
func (h Hold) Within(tolerance float64) (bool, error) {
	if err := within("change of size allowed", tolerance, 0, 100, "percent"); err != nil {
		return false, err
	}
	return h.Worst <= tolerance && h.Spread <= tolerance, nil
}

// waterAt is the water in g held by all the materials at water activity aw.
func (d Dry) waterAt(aw float64) float64 {
	return d.Gelatin*gelatinWaterAt(aw) + d.Sorbitol*sorbitol.waterAt(aw) + d.Glycerol*glycerol.waterAt(aw)
}

func (d Dry) dry() float64  { return d.Gelatin + d.Sorbitol + d.Glycerol + d.Other }
func (d Dry) mass() float64 { return d.dry() + d.Water }

// volume is in ml; volumes are taken to add up.
func (d Dry) volume() float64 {
	return (d.Gelatin+d.Other)/GelatinDensity + d.Sorbitol/sorbitolDensity +
		d.Glycerol/GlycerinDensity + d.Water/WaterDensity
}

// sizeAgainst gives the change of every length from before, in percent.
func (d Dry) sizeAgainst(before Dry) float64 {
	return 100 * (math.Cbrt(d.volume()/before.volume()) - 1)
}

func (d Dry) check() error {
	err := firstOf(notNegative("dry gelatin", d.Gelatin, maxAmount, "g"),
		notNegative("dry sorbitol", d.Sorbitol, maxAmount, "g"),
		notNegative("dry glycerin", d.Glycerol, maxAmount, "g"),
		notNegative("other dry matter", d.Other, maxAmount, "g"),
		notNegative("water in the cast", d.Water, maxAmount, "g"))
	if err != nil {
		return err
	}
	if d.Gelatin+d.Sorbitol+d.Glycerol < nothing {
		return errors.New("the cast must hold some gelatin, syrup or glycerin")
	}
	return nil
}

func settledSound(humidity float64) error {
	if err := within("humidity", humidity, 0, 100, "percent"); err != nil {
		return err
	}
	if humidity > mostSettled {
		return fmt.Errorf("no figure can be given above %s percent humidity: the sum would let the piece swell "+
			"without end, and in truth the gelatin holds it back by an unknown amount", plain(mostSettled))
	}
	return nil
}
