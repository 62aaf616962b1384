package craft

// climateFuncs are the sums of the air for rule expressions.
func climateFuncs() []Func { return nil }
