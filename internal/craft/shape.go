package craft

import (
	"errors"
	"math"
)

// Form is how full a mound is under its highest point.
type Form uint8

// The forms; the zero value is the one to take when nothing is known.
const (
	Rounded Form = iota // elliptic paraboloid: half of pi a b h
	Pointed             // elliptic cone: a third of pi a b h
	Full                // half an ellipsoid: two thirds of pi a b h
)

// fullness is the share of the cylinder pi a b h that each form fills.
var fullness = [...]float64{Rounded: 1.0 / 2, Pointed: 1.0 / 3, Full: 2.0 / 3}

func (f Form) share() (float64, error) {
	if int(f) >= len(fullness) {
		return 0, errors.New("the form of the mound must be rounded, pointed or full")
	}
	return fullness[f], nil
}

// widestUsualSkirt is the widest skirt to count on where the maker gives none,
// in mm (common practice, no source).
const widestUsualSkirt = 10.0

// UsualSkirt gives the width in mm of the skirt to count on round a piece of
// length and width (mm, over everything): 10 mm, but at most an eighth of
// the shorter side, so that a small piece keeps its body (common practice, no
// source).
func UsualSkirt(length, width float64) (float64, error) {
	if err := ellipseSound(length, width); err != nil {
		return 0, err
	}
	return min(widestUsualSkirt, length/8, width/8), nil
}

const (
	mm3PerML  = 1000.0
	mm2PerCM2 = 100.0
)

// Mound gives the volume in ml of a raised form on an elliptic footprint:
// length and width across the footprint and height, all in mm.
// Source: elementary solid geometry (share of pi a b h, see Form).
func Mound(length, width, height float64, form Form) (float64, error) {
	err := firstOf(ellipseSound(length, width), positive("height", height, maxLength, "mm"))
	if err != nil {
		return 0, err
	}
	full, err := form.share()
	if err != nil {
		return 0, err
	}
	return full * math.Pi * (length / 2) * (width / 2) * height / mm3PerML, nil
}

// Skirt gives the volume in ml of the tapered edge outside an elliptic
// footprint: thickness at the inner edge falling evenly to nothing over
// skirtWidth, all in mm.
// Source: Pappus and Steiner, t (P s/2 + pi s^2/3) with perimeter P.
func Skirt(length, width, skirtWidth, thickness float64) (float64, error) {
	err := firstOf(ellipseSound(length, width),
		notNegative("width of the skirt", skirtWidth, maxLength, "mm"),
		notNegative("thickness of the skirt", thickness, maxLength, "mm"))
	if err != nil {
		return 0, err
	}
	s := skirtWidth
	around := perimeter(length/2, width/2)*s/2 + math.Pi*s*s/3
	return thickness * around / mm3PerML, nil
}

// Piece gives the volume in ml of a whole piece from what a ruler shows:
// length and width over everything, skirt included, and height, all in mm. The
// rounded mound stands inside the skirt, which is taken for at most a quarter
// of the length and of the width, so that a small piece keeps a mound.
// Source: Mound and Skirt.
func Piece(length, width, height, skirtWidth, thickness float64) (float64, error) {
	return Filled(length, width, height, skirtWidth, thickness, 50)
}

// Filled gives the volume in ml as Piece does, for a form that fills so many
// percent of the cylinder on its footprint: 33 for a cone, 50 for a rounded
// mound, 67 for a dome, 100 for upright sides.
// Source: Mound and Skirt; the mound goes by the share that it fills.
func Filled(length, width, height, skirtWidth, thickness, percent float64) (float64, error) {
	skirt := min(skirtWidth, length/4, width/4)
	mound, err := Mound(length-2*skirt, width-2*skirt, height, Rounded)
	if err != nil {
		return 0, err
	}
	edge, err := Skirt(length-2*skirt, width-2*skirt, skirt, thickness)
	if err != nil {
		return 0, err
	}
	if err := within("fullness of the form", percent, 10, 100, "percent"); err != nil {
		return 0, err
	}
	return mound*percent/50 + edge, nil
}

// Footprint gives the area in cm2 that the piece covers, with a skirt of
// skirtWidth (mm, 0 for none) round the ellipse of length and width (mm). With
// lengths taken over the skirt and a skirtWidth of 0 it is the face that glue
// bonds.
// Source: Steiner's formula, pi a b + P s + pi s^2.
func Footprint(length, width, skirtWidth float64) (float64, error) {
	err := firstOf(ellipseSound(length, width),
		notNegative("width of the skirt", skirtWidth, maxLength, "mm"))
	if err != nil {
		return 0, err
	}
	a, b, s := length/2, width/2, skirtWidth
	return (math.Pi*a*b + perimeter(a, b)*s + math.Pi*s*s) / mm2PerCM2, nil
}

// Block gives the volume in ml of a flat block with square edges: length, width
// and height in mm.
// Source: length times width times height.
func Block(length, width, height float64) (float64, error) {
	err := firstOf(ellipseSound(length, width), positive("height", height, maxLength, "mm"))
	if err != nil {
		return 0, err
	}
	return length * width * height / mm3PerML, nil
}

// Tub gives the volume in ml of a round tub with upright sides, filled to
// height: across is the width inside; both in mm.
// Source: the cylinder, pi d^2/4 h.
func Tub(across, height float64) (float64, error) {
	err := firstOf(positive("width across", across, maxLength, "mm"), positive("height", height, maxLength, "mm"))
	if err != nil {
		return 0, err
	}
	return disc(across) * height / mm3PerML, nil
}

// disc is the area in mm2 of a circle of this diameter in mm.
func disc(across float64) float64 { return math.Pi * across * across / 4 }

func ellipseSound(length, width float64) error {
	return firstOf(positive("length", length, maxLength, "mm"), positive("width", width, maxLength, "mm"))
}

// perimeter of an ellipse of half axes a and b.
// Source: Ramanujan's second approximation (1914); within 0.04 % at its worst.
func perimeter(a, b float64) float64 {
	h := (a - b) / (a + b)
	h *= h
	return math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
}
