package craft

// coverFuncs are the sums of thin coats for rule expressions.
func coverFuncs() []Func {
	return []Func{
		sum("coat_ml", "area_cm2 coat_mm coats", "ml",
			"liquid for an area in cm2: wet thickness of a coat in mm (glue 0.05, release oil 0.01, sealer 0.05), whole number of coats, glue on both faces being two",
			func(x ...float64) (float64, error) { return Coat(x[0], x[1], x[2]) }),
		sum("coat_g", "area_cm2 mg_per_cm2", "g",
			"powder for an area in cm2 at so many mg to each cm2 (setting powder 1)",
			func(x ...float64) (float64, error) { return CoatMass(x[0], x[1]) }),
	}
}
