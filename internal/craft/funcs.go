package craft

import (
	"fmt"
	"math"
	"strings"
)

// A Func is one sum that rule expressions may call by name.
type Func struct {
	Name   string
	Params []string // as documented; their number is the arity
	Units  string   // of the result; "" means those of the first parameter
	Doc    string
	Fn     func(args ...float64) (float64, error)
}

// Funcs gives the documented set, in the order to document it. Each Fn checks
// the number of its arguments and never returns NaN or an infinity without an
// error.
func Funcs() []Func {
	funcs := []Func{
		{"mound_ml", []string{"length", "width", "height"}, "ml",
			"volume of a rounded mound on an oval footprint; all in mm, skirt not counted",
			func(x ...float64) (float64, error) { return Mound(x[0], x[1], x[2], Rounded) }},
		{"skirt_ml", []string{"length", "width", "skirt_width", "skirt_thickness"}, "ml",
			"volume of the thin edge outside the mound, feathered to nothing; all in mm",
			func(x ...float64) (float64, error) { return Skirt(x[0], x[1], x[2], x[3]) }},
		{"piece_ml", []string{"length", "width", "height", "skirt_width", "skirt_thickness"}, "ml",
			"volume of a whole piece measured over its skirt: rounded mound and thin edge; all in mm",
			func(x ...float64) (float64, error) { return Piece(x[0], x[1], x[2], x[3], x[4]) }},
		{"footprint_cm2", []string{"length", "width", "skirt_width"}, "cm2",
			"area the piece covers with its skirt; all in mm",
			func(x ...float64) (float64, error) { return Footprint(x[0], x[1], x[2]) }},
		{"wall_box_ml", []string{"length", "width", "height", "margin", "cover"}, "ml",
			"room inside the wall up to the top of the plaster; length and width with the skirt, all in mm",
			func(x ...float64) (float64, error) { return WallBox(x[0], x[1], x[2], x[3], x[4]) }},
		{"slurry_ml", []string{"box_ml", "sculpt_ml"}, "ml",
			"plaster slurry that fills the box round the sculpt",
			func(x ...float64) (float64, error) { return SlurryVolume(x[0], x[1]) }},
		{"dry_plaster_g", []string{"slurry_ml", "consistency"}, "g",
			"plaster powder for the slurry; consistency is water to 100 of plaster by mass, usually 70",
			plasterPart(func(m PlasterMix) float64 { return m.Plaster })},
		{"plaster_water_g", []string{"slurry_ml", "consistency"}, "g",
			"water for the slurry; consistency is water to 100 of plaster by mass, usually 70",
			plasterPart(func(m PlasterMix) float64 { return m.Water })},
		{"with_spare", []string{"x", "percent"}, "",
			"the amount with so many percent more, for what stays in the bowl",
			func(x ...float64) (float64, error) { return WithSpare(x[0], x[1]) }},
	}
	for i := range funcs {
		funcs[i].Fn = guarded(funcs[i])
	}
	return funcs
}

func plasterPart(part func(PlasterMix) float64) func(...float64) (float64, error) {
	return func(x ...float64) (float64, error) {
		mix, err := MixPlaster(x[0], x[1])
		return part(mix), err
	}
}

// guarded checks the arity before and the result after.
func guarded(f Func) func(...float64) (float64, error) {
	return func(args ...float64) (float64, error) {
		if len(args) != len(f.Params) {
			return 0, fmt.Errorf("%s needs %d numbers (%s), not %d",
				f.Name, len(f.Params), strings.Join(f.Params, ", "), len(args))
		}
		y, err := f.Fn(args...)
		if err != nil {
			return 0, err
		}
		if math.IsNaN(y) || math.IsInf(y, 0) {
			return 0, fmt.Errorf("%s has no sensible answer for these numbers", f.Name)
		}
		return y, nil
	}
}
