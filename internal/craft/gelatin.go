package craft

// Densities in g/ml at room temperature.
// Source: gelatin, maker's page (relative density 1.3-1.4); glycerin, the
// 20 degrees C table of Bosart and Snoddy (1928); sorbitol syrup at 70 %
// solids, pharmacopoeia-grade specification.
const (
	GelatinDensity       = 1.35 // the solid, as it counts in a melt
	GlycerinDensity      = 1.26
	SorbitolSyrupDensity = 1.30
	WaterDensity         = 1.0

	// GelatinSpooned is loose powder in a spoon. Published packets disagree,
	// so GelatinSpoonedDoubt percent either way: weigh where there is a scale.
	GelatinSpooned      = 0.65
	GelatinSpoonedDoubt = 25.0
)

// Temperatures in degrees C at which a melt that cools stops flowing.
// Source: water gels, a gelatin maker's data (gel point 30-35); mixes with
// little water and much sorbitol or glycerin, soft-capsule practice (45-60,
// from memory).
var (
	PlainSets  = Span{Low: 30, Mid: 32, High: 35}
	PolyolSets = Span{Low: 45, Mid: 50, High: 60}
)
