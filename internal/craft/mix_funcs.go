package craft

import "math"

// mixFuncs are the sums of recipes for rule expressions.
func mixFuncs() []Func {
	return []Func{
		sum("bloom_factor", "recipe_bloom own_bloom", "times",
			"by how much to multiply the gelatin of a recipe for gelatin of another grade; both in grams Bloom",
			func(x ...float64) (float64, error) {
				e, err := ExchangeBloom(x[0], x[1])
				return e.Factor, err
			}),
		sum("bloom_factor_linear", "recipe_bloom own_bloom", "times",
			"the other bound of bloom_factor, by the plain ratio of the grades; both in grams Bloom",
			func(x ...float64) (float64, error) {
				e, err := ExchangeBloom(x[0], x[1])
				return e.Linear, err
			}),
		sum("syrup_needed_g", "syrup_g strength_percent", "g",
			"own syrup with the sorbitol of so many g of 70 % syrup; the strength is its sorbitol in percent, 100 for powder",
			func(x ...float64) (float64, error) {
				s, err := SwapSyrup(x[0], x[1])
				return s.Take, err
			}),
		signed(sum("syrup_water_g", "syrup_g strength_percent", "g",
			"water to add with syrup_needed_g, below nothing: to leave out of the recipe; g of 70 % syrup, own strength in percent",
			func(x ...float64) (float64, error) {
				s, err := SwapSyrup(x[0], x[1])
				return s.Water, err
			})),
		sum("powder_for_syrup_g", "syrup_g strength_percent", "g",
			"sorbitol powder in so many g of syrup of so many percent",
			func(x ...float64) (float64, error) {
				powder, _, err := MakeSyrup(x[0], x[1])
				return powder, err
			}),
		sum("water_for_syrup_g", "syrup_g strength_percent", "g",
			"water in so many g of syrup of so many percent",
			func(x ...float64) (float64, error) {
				_, water, err := MakeSyrup(x[0], x[1])
				return water, err
			}),
		sum("glycerin_for_syrup_g", "syrup_g", "g",
			"glycerin with the solids of so many g of 70 % syrup; water makes up the rest of its weight",
			func(x ...float64) (float64, error) {
				glycerin, _, err := WithoutSorbitol(x[0])
				return glycerin, err
			}),
		sum("water_lost_g", "before_g after_g", "g",
			"water that left as steam, by the weight of the mix in g before and after melting",
			func(x ...float64) (float64, error) { return Weighing{x[0], x[1]}.WaterLost() }),
		sum("whole", "x", "", "the whole part, as of casts that a mix is enough for: 11 of 11.8, and 12 of 11.96; not below nothing",
			func(x ...float64) (float64, error) {
				return math.Floor(x[0] + 0.05), notNegative("amount", x[0], maxAmount, "")
			}),
		sum("dose_g", "mix_g percent", "g",
			"colour or flocking for so many g of mix, in percent of its mass",
			func(x ...float64) (float64, error) { return Dose(x[0], x[1]) }),
	}
}
