package craft

import "math"

// molarWater is the molar mass of water in g/mol (IUPAC weights).
const molarWater = 18.0153

// mostHumid is the highest humidity, in percent, at which the water held by
// one material alone is given: above it the figures run away.
const mostHumid = 95.0

// A humectant is a solute that draws water from the air.
type humectant struct {
	molar   float64 // g/mol
	norrish float64 // K of Norrish's equation, without unit
}

// Source: sorbitol's K from Chirife, Favetto and Ferro Fontan (1982), from
// memory. Glycerol's is fitted here to the handbook table of Miner and Dalton
// (1953) from 20 to 80 % humidity: the published 1.16 is for thinner
// solutions and 1 to 2 % low in glycerol where the air is dry.
var (
	glycerol = humectant{molar: 92.094, norrish: 0.90}
	sorbitol = humectant{molar: 182.17, norrish: 1.65}
)

// activity gives the water activity (0 to 1) of dry g of the humectant in
// water g of water; one of the two must be more than nothing.
// Source: Norrish, J. Food Technol. 1:25 (1966), aw = Xw exp(-K Xs^2).
func (h humectant) activity(dry, water float64) float64 {
	moles, waterMoles := dry/h.molar, water/molarWater
	xs := moles / (moles + waterMoles)
	return waterMoles / (moles + waterMoles) * math.Exp(-h.norrish*xs*xs)
}

// waterAt gives the water held at water activity aw (0 to under 1), in g per
// g dry. The equation has no closed inverse, but rises all the way.
func (h humectant) waterAt(aw float64) float64 {
	xw := risingTo(1, func(x float64) bool { return x*math.Exp(-h.norrish*(1-x)*(1-x)) < aw })
	return xw / (1 - xw) * molarWater / h.molar
}

// risingTo finds by halving where below turns from true to false between 0
// and high.
func risingTo(high float64, below func(float64) bool) float64 {
	low := 0.0
	for range 60 {
		middle := (low + high) / 2
		if below(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// gelatinWaterAt gives the water held by gelatin at water activity aw (0 to
// 1), in g per g dry. Gels cast cold hold up to half as much again.
// Source: the GAB isotherm (Guggenheim, Anderson, de Boer), its constants
// fitted here to published capsule shells, 12 to 16 % water at 45 to 55 %
// humidity, and to Bull, J. Am. Chem. Soc. 66:1499 (1944), from memory.
func gelatinWaterAt(aw float64) float64 {
	const m0, c, k = 0.108, 11.0, 0.78
	ka := k * aw
	return m0 * c * ka / ((1 - ka) * (1 - ka + c*ka))
}

// gelActivity gives the water activity (0 to 1) of a wet gel of gelatin g dry
// and water g, where the isotherm of the dry material says nothing. The two
// must not both be nothing.
// Source: Flory-Huggins with chi 0.5 and the partial specific volume of
// gelatin in solution, 0.69 to 0.70 ml/g; both from memory.
func gelActivity(gelatin, water float64) float64 {
	const chi, volume = 0.5, 0.695
	phi := gelatin * volume / (gelatin*volume + water)
	return math.Exp(math.Log1p(-phi) + phi + chi*phi*phi)
}

// GelatinWater gives the water that gelatin alone holds once it has settled
// at a relative humidity in percent (up to 95), in g per g dry, within some
// 15 %; a gel cast cold may hold half as much again.
// Source: see gelatinWaterAt.
func GelatinWater(humidity float64) (float64, error) {
	return heldAlone(humidity, gelatinWaterAt)
}

// GlycerinWater gives the water that glycerin alone holds once it has settled
// at a relative humidity in percent (up to 95), in g per g dry.
// Source: Norrish's equation, inverted by halving.
func GlycerinWater(humidity float64) (float64, error) {
	return heldAlone(humidity, glycerol.waterAt)
}

// SorbitolWater gives the water that sorbitol alone, not crystallised, holds
// once it has settled at a relative humidity in percent (up to 95), in g per
// g dry.
// Source: Norrish's equation, inverted by halving.
func SorbitolWater(humidity float64) (float64, error) {
	return heldAlone(humidity, sorbitol.waterAt)
}

func heldAlone(humidity float64, waterAt func(float64) float64) (float64, error) {
	if err := within("humidity", humidity, 0, mostHumid, "percent"); err != nil {
		return 0, err
	}
	return waterAt(humidity / 100), nil
}
