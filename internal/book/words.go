package book

// Often is how often a cause lies behind a problem, before anything is known.
type Often string

// Points says which way a true sign points, and how strongly.
type Points string

// Works says how likely a remedy is to work where its cause is the true one.
type Works string

// OftenWeight gives the relative frequency that each word stands for.
var OftenWeight = map[Often]float64{
	"usual":    8,
	"common":   4,
	"uncommon": 2,
	"rare":     0.7,
}

// PointsDecibans gives each word's weight of evidence in decibans (ten times
// the common logarithm of the likelihood ratio): I. J. Good, "Probability and
// the Weighing of Evidence" (1950). 3 decibans double the odds, 6 make them
// four times, 12 sixteen times, 20 a hundred times what they were.
var PointsDecibans = map[Points]float64{
	"rules in":         20,
	"strongly for":     12,
	"for":              6,
	"slightly for":     3,
	"slightly against": -3,
	"against":          -6,
	"strongly against": -12,
	"rules out":        -20,
}

// WorksChance gives the chance that each word stands for.
var WorksChance = map[Works]float64{
	"nearly always": 0.95,
	"mostly":        0.8,
	"often":         0.6,
	"sometimes":     0.4,
	"seldom":        0.15,
}
