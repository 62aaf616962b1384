package craft

import "errors"

// Densities of clay in g/ml as it is modelled; the oil-based kinds differ with
// their filler, so weigh a known cube where it matters.
// Common practice, no source (from memory).
var (
	WaterClay = Span{Low: 1.8, Mid: 1.9, High: 2.0}
	OilClay   = Span{Low: 1.4, Mid: 1.65, High: 1.9}
)

// CountedArea gives the area in cm2 of an outline drawn on squared paper: the
// whole squares inside it, the squares that the line cuts, which count half,
// and the side of a square in mm. It is never off by more than the half of
// the cut squares.
func CountedArea(whole, cut, side float64) (float64, error) {
	err := firstOf(notNegative("number of whole squares", whole, 1e6, ""),
		notNegative("number of cut squares", cut, 1e6, ""),
		within("side of a square", side, 0.5, 100, "mm"),
		positive("number of squares", whole+cut/2, 2e6, ""))
	if err != nil {
		return 0, err
	}
	return (whole + cut/2) * side * side / mm2PerCM2, nil
}

// OutlinedVolume gives the volume in ml of a mound on an outline of any shape:
// area in cm2 and greatest height in mm.
// Source: elementary solid geometry, the share of area times height that each
// Form fills, as for Mound.
func OutlinedVolume(area, height float64, form Form) (float64, error) {
	err := firstOf(areaSound(area), positive("height", height, maxLength, "mm"))
	if err != nil {
		return 0, err
	}
	full, err := form.share()
	if err != nil {
		return 0, err
	}
	return full * area * mm2PerCM2 * height / mm3PerML, nil
}

// DisplacedVolume gives the volume in ml of a piece held under water, from the
// readings of the jug before and with it, in ml.
// Source: Archimedes.
func DisplacedVolume(before, after float64) (float64, error) {
	err := firstOf(positive("reading before", before, maxAmount, "ml"),
		positive("reading after", after, maxAmount, "ml"))
	if err != nil {
		return 0, err
	}
	if after <= before {
		return 0, errors.New("the water must stand higher with the piece in it than before: read both again")
	}
	return after - before, nil
}

// VolumeByWeight gives the volume in ml of so many g at a density in g/ml, as
// of the clay in a sculpt (see WaterClay and OilClay).
func VolumeByWeight(grams, density float64) (float64, error) {
	err := firstOf(positive("weight", grams, maxAmount, "g"),
		within("density", density, 0.1, 10, "g/ml"))
	if err != nil {
		return 0, err
	}
	return grams / density, nil
}

// maxArea in cm2 is a hundred square metres.
const maxArea = 1e6

func areaSound(area float64) error { return positive("area", area, maxArea, "cm2") }
