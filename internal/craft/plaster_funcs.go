package craft

// plasterFuncs are the sums of plaster for rule expressions.
func plasterFuncs() []Func {
	return []Func{
		sum("with_spare", "x percent", "",
			"the amount with so many percent more, for what stays in the bowl",
			func(x ...float64) (float64, error) { return WithSpare(x[0], x[1]) }),
	}
}

func plasterPart(part func(PlasterMix) float64) func(...float64) (float64, error) {
	return func(x ...float64) (float64, error) {
		mix, err := MixPlaster(x[0], x[1])
		return part(mix), err
	}
}
