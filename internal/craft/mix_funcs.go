package craft

// mixFuncs are the sums of recipes for rule expressions.
func mixFuncs() []Func { return nil }
