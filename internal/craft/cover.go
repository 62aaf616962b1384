package craft

import (
	"errors"
	"math"
)

// What thin coats take. The films are wet, in mm, one coat on one face.
// Common practice, no source: a cheek piece of 60 cm2 takes about 0.6 ml of
// glue on both faces. The label of the product outranks them.
var (
	AdhesiveFilm = Span{Low: 0.03, Mid: 0.05, High: 0.10}
	OilFilm      = Span{Low: 0.005, Mid: 0.01, High: 0.02} // release, blotted
	SealerFilm   = Span{Low: 0.03, Mid: 0.05, High: 0.08}
	PowderCover  = Span{Low: 0.5, Mid: 1, High: 2} // setting powder, mg/cm2
)

// Coat gives the ml for an area (cm2) at a wet thickness (mm) a coat and a
// whole number of coats. Glue on both faces is two coats.
func Coat(area, thickness, coats float64) (float64, error) {
	err := firstOf(areaSound(area),
		positive("thickness of a coat", thickness, 10, "mm"),
		within("number of coats", coats, 1, 50, ""))
	if err != nil {
		return 0, err
	}
	if coats != math.Trunc(coats) {
		return 0, errors.New("the number of coats must be a whole number")
	}
	return area * mm2PerCM2 * thickness * coats / mm3PerML, nil
}

// CoatMass gives the g for an area (cm2) at so many mg to each cm2.
func CoatMass(area, perCM2 float64) (float64, error) {
	err := firstOf(areaSound(area), positive("amount on each cm2", perCM2, 1000, "mg"))
	if err != nil {
		return 0, err
	}
	return area * perCM2 / 1000, nil
}
