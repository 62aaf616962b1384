package craft

import (
	"fmt"
	"math"
)

// WallBox gives the volume in ml inside the wall round a sculpt, filled to
// cover above the highest point. Length and width are of everything that lies
// on the plate, skirt included; margin is the gap on each side. All in mm.
// Source: (L+2m)(W+2m)(H+cover).
func WallBox(length, width, height, margin, cover float64) (float64, error) {
	err := firstOf(ellipseSound(length, width), fillSound(height, margin, cover))
	if err != nil {
		return 0, err
	}
	return (length + 2*margin) * (width + 2*margin) * (height + cover) / mm3PerML, nil
}

// RoundWall gives the volume in ml inside a round wall, filled to cover above
// the highest point of the sculpt. Across is the widest measure of everything
// that lies on the plate, skirt included; margin is the gap all round. All in
// mm.
// Source: the cylinder, pi (D+2m)^2/4 (H+cover).
func RoundWall(across, height, margin, cover float64) (float64, error) {
	err := firstOf(positive("width across", across, maxLength, "mm"), fillSound(height, margin, cover))
	if err != nil {
		return 0, err
	}
	return disc(across+2*margin) * (height + cover) / mm3PerML, nil
}

// WallHeight gives how high in mm the wall must stand: the highest point of
// the sculpt, the cover of plaster over it, and the freeboard that stays dry.
// All in mm.
func WallHeight(height, cover, freeboard float64) (float64, error) {
	err := firstOf(positive("height", height, maxLength, "mm"),
		notNegative("cover", cover, maxLength, "mm"),
		notNegative("freeboard", freeboard, maxLength, "mm"))
	if err != nil {
		return 0, err
	}
	return height + cover + freeboard, nil
}

// WallClay gives the clay in ml for a wall with square corners round a sculpt
// of length and width, skirt included, at margin on each side; the thickness
// of the wall lies outside the margin. All in mm. Each corner counts once.
// Source: length of the wall at its middle line, 2(L+2m+t) + 2(W+2m+t), times
// height times thickness.
func WallClay(length, width, margin, wallHeight, thickness float64) (float64, error) {
	err := firstOf(ellipseSound(length, width), wallSound(margin, wallHeight, thickness))
	if err != nil {
		return 0, err
	}
	middle := 2 * (length + width + 4*margin + 2*thickness)
	return middle * wallHeight * thickness / mm3PerML, nil
}

// RoundWallClay gives the clay in ml for a round wall: across, the widest
// measure of the sculpt with its skirt, margin all round, height and thickness
// of the wall. All in mm.
// Source: Pappus's theorem, the difference of two discs times the height.
func RoundWallClay(across, margin, wallHeight, thickness float64) (float64, error) {
	err := firstOf(positive("width across", across, maxLength, "mm"), wallSound(margin, wallHeight, thickness))
	if err != nil {
		return 0, err
	}
	inner := across + 2*margin
	return (disc(inner+2*thickness) - disc(inner)) * wallHeight / mm3PerML, nil
}

// TraySlurry gives the plaster in ml that fills a tray of length, width and
// depth of filling round a sculpt of so many ml and so high (mm). A sculpt that
// would stick out is an error.
func TraySlurry(length, width, depth, sculpt, height float64) (float64, error) {
	err := firstOf(positive("height of the piece", height, maxLength, "mm"), positive("depth of the tray", depth, maxLength, "mm"))
	if err != nil {
		return 0, err
	}
	if depth <= height {
		return 0, fmt.Errorf("the tray is filled to %s mm and the piece is %s mm high: fill it to %s mm or more",
			plain(depth), plain(height), plain(math.Ceil(height+leastCover)))
	}
	box, err := Block(length, width, depth)
	if err != nil {
		return 0, err
	}
	return SlurryVolume(box, sculpt)
}

// leastCover is the least plaster in mm over the highest point (common
// practice, no source: 10 to 15).
const leastCover = 10.0

// SlurryVolume gives the plaster in ml that fills the box (ml) round a sculpt
// (ml, 0 for none).
func SlurryVolume(box, sculpt float64) (float64, error) {
	err := firstOf(positive("volume inside the wall", box, maxAmount, "ml"),
		notNegative("volume of the sculpt", sculpt, maxAmount, "ml"))
	if err != nil {
		return 0, err
	}
	if sculpt >= box {
		return 0, fmt.Errorf("a sculpt of %s ml leaves no room for plaster in a wall that holds %s ml",
			plain(Sensible(sculpt)), plain(Sensible(box)))
	}
	return box - sculpt, nil
}

func fillSound(height, margin, cover float64) error {
	return firstOf(positive("height", height, maxLength, "mm"),
		notNegative("margin", margin, maxLength, "mm"),
		notNegative("cover", cover, maxLength, "mm"))
}

func wallSound(margin, wallHeight, thickness float64) error {
	return firstOf(notNegative("margin", margin, maxLength, "mm"),
		positive("height of the wall", wallHeight, maxLength, "mm"),
		positive("thickness of the wall", thickness, maxLength, "mm"))
}
