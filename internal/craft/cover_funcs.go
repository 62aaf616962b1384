package craft

// coverFuncs are the sums of thin coats for rule expressions.
func coverFuncs() []Func { return nil }
