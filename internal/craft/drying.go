package craft

import (
	"errors"
	"math"
)

// plainGelActivity is the water activity (0 to 1) of gelatin powder and water
// 3 to 4 by mass, by gelActivity.
const plainGelActivity = 0.988

const (
	// stillFlux is what evaporates into still air, in g/(m2 h) for each Pa
	// between the surface and the air. Source: the least for undisturbed water
	// in Shah, HVAC&R Res. 8(1):125 (2002), from memory.
	stillFlux = 0.05

	// Published rates for still air reach from 45 to 100 g/(m2 h) at 22
	// degrees C and 50 % humidity (heat and mass transfer by Lewis's relation
	// with and without self-cooling, the rule for pools): this far from the
	// middle.
	fluxLow  = 0.6
	fluxHigh = 1.4

	// curlStrain is the shrinkage in length at which an edge is seen to curl.
	// Common practice, no source: chosen so that an edge of half a millimetre
	// curls within the hour. Time an edge of your own to do better.
	curlStrain = 0.03

	// An edge closer than this to the air, in percent humidity, hardly dries.
	driesFrom = 0.5

	// Thicker than this, in mm, the water comes from the surface alone and
	// the sum for an edge drying through says nothing.
	thickestEdge = 3.0
)

// SaturationPressure gives the pressure of water vapour over water in Pa, from
// 0 to 50 degrees C, within 0.3 %.
// Source: Buck, J. Appl. Meteorol. 20:1527 (1981), from memory, checked
// against the steam tables.
func SaturationPressure(celsius float64) (float64, error) {
	if err := within("temperature of the air", celsius, 0, 50, "degrees C"); err != nil {
		return 0, err
	}
	return 611.21 * math.Exp(17.502*celsius/(240.97+celsius)), nil
}

// DryingRate gives the water that leaves a wet surface in still air, in
// g/(m2 h): celsius from 0 to 50, humidity in percent, activity of the water
// in the surface from 0 to 1 (1 for water itself). It is nothing where the air
// is as damp as the surface or damper. A draught makes it much more.
// Source: see stillFlux; within about 40 %.
func DryingRate(celsius, humidity, activity float64) (float64, error) {
	err := firstOf(within("humidity", humidity, 0, 100, "percent"),
		within("water activity", activity, 0, 1, ""))
	if err != nil {
		return 0, err
	}
	saturated, err := SaturationPressure(celsius)
	if err != nil {
		return 0, err
	}
	return stillFlux * saturated * max(0, activity-humidity/100), nil
}

// EdgeCurl gives the minutes until a thin edge, drying in still air, is seen
// to curl: its thickness in mm (up to 3), 1 or 2 faces open to the air,
// celsius from 0 to 50, humidity in percent and the water activity of the cast
// from 0 to 1. The span is that of the published drying rates; a draught is
// quicker still. Where the edge does not dry it is an error.
// Source: the water lost by a film that shrinks by curlStrain, in proportion
// in all directions, over its drying rate.
func EdgeCurl(thickness, faces, celsius, humidity, activity float64) (Span, error) {
	if err := within("thickness of the edge", thickness, 0.01, thickestEdge, "mm"); err != nil {
		return Span{}, err
	}
	if faces != 1 && faces != 2 {
		return Span{}, errors.New("the faces open to the air must be 1 or 2")
	}
	rate, err := DryingRate(celsius, humidity, activity)
	if err != nil {
		return Span{}, err
	}
	if 100*activity-humidity < driesFrom {
		return Span{}, errors.New("it takes up water or hardly dries at that humidity, so it does not curl")
	}
	const gPerM2PerMM = 1000 * WaterDensity
	minutes := 60 * 3 * curlStrain * gPerM2PerMM * thickness / (faces * rate)
	return Span{Low: minutes / fluxHigh, Mid: minutes, High: minutes / fluxLow}, nil
}
