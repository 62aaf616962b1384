package craft

import "math"

// GlycerinDensityAt gives the density in g/ml of glycerin thinned with water:
// percent of glycerol by mass, 15 to 30 degrees C, within 0.1 %.
// Source: Volk and Kaehler, Exp. Fluids 59:75 (2018), from memory, checked
// against the table of Bosart and Snoddy (1928).
func GlycerinDensityAt(percent, celsius float64) (float64, error) {
	err := firstOf(within("share of glycerin", percent, 0, 100, "percent"),
		within("temperature of the glycerin", celsius, 15, 30, "degrees C"))
	if err != nil {
		return 0, err
	}
	w, t := percent/100, celsius
	alone := 1.273 - 0.000612*t
	water := 1 - math.Pow((t-4)/622, 1.7)
	added := 1 / (w/alone + (1-w)/water) // were the volumes to add up
	shrink := 1.78e-6*t*t - 1.82e-4*t + 1.41e-2
	return added * (1 + shrink*math.Pow(math.Sin(math.Pi*math.Pow(w, 1.31)), 0.81)), nil
}
