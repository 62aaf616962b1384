package craft

// shapeFuncs are the sums of shapes for rule expressions.
func shapeFuncs() []Func {
	return []Func{
		sum("mound_ml", "length width height", "ml",
			"volume of a rounded mound on an oval footprint; all in mm, skirt not counted",
			func(x ...float64) (float64, error) { return Mound(x[0], x[1], x[2], Rounded) }),
		sum("skirt_ml", "length width skirt_width skirt_thickness", "ml",
			"volume of the thin edge outside the mound, feathered to nothing; all in mm",
			func(x ...float64) (float64, error) { return Skirt(x[0], x[1], x[2], x[3]) }),
		sum("piece_ml", "length width height skirt_width skirt_thickness", "ml",
			"volume of a whole piece measured over its skirt: rounded mound and thin edge; all in mm",
			func(x ...float64) (float64, error) { return Piece(x[0], x[1], x[2], x[3], x[4]) }),
		sum("footprint_cm2", "length width skirt_width", "cm2",
			"area the piece covers with its skirt; all in mm",
			func(x ...float64) (float64, error) { return Footprint(x[0], x[1], x[2]) }),
		sum("wall_box_ml", "length width height margin cover", "ml",
			"room inside the wall up to the top of the plaster; length and width with the skirt, all in mm",
			func(x ...float64) (float64, error) { return WallBox(x[0], x[1], x[2], x[3], x[4]) }),
		sum("slurry_ml", "box_ml sculpt_ml", "ml",
			"plaster slurry that fills the box round the sculpt",
			func(x ...float64) (float64, error) { return SlurryVolume(x[0], x[1]) }),
		sum("dry_plaster_g", "slurry_ml consistency", "g",
			"plaster powder for the slurry; consistency is water to 100 of plaster by mass, usually 70",
			plasterPart(func(m PlasterMix) float64 { return m.Plaster })),
		sum("plaster_water_g", "slurry_ml consistency", "g",
			"water for the slurry; consistency is water to 100 of plaster by mass, usually 70",
			plasterPart(func(m PlasterMix) float64 { return m.Water })),
	}
}
