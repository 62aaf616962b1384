package craft

// heatFuncs are the sums of heating and cooling for rule expressions.
func heatFuncs() []Func { return nil }
