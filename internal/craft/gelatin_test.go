package craft

import "testing"

func gelatin(parts float64) Ingredient {
	return Ingredient{"gelatin", parts, GelatinDensity, GelatinSpooned, GelatinSpoonedDoubt}
}
func glycerin(parts float64) Ingredient {
	return Ingredient{Name: "glycerin", Parts: parts, Density: GlycerinDensity}
}
func water(parts float64) Ingredient {
	return Ingredient{Name: "water", Parts: parts, Density: WaterDensity}
}

// Source: Bosart and Snoddy (1928), glycerin at 20 degrees C 1.2611; syrup of
// 70.5 % solids 1.301 (maker's sheet) and 1.298 by volumes; gelatin 1.3 to 1.4
// (gelatin maker's page).
func TestDensities(t *testing.T) {
	near(t, "glycerin", GlycerinDensity, 1.2611, 0.002)
	near(t, "syrup", SorbitolSyrupDensity, 1.301, 0.01)
	near(t, "syrup", SorbitolSyrupDensity, 1.298, 0.01)
	near(t, "gelatin", GelatinDensity, 1.35, 0.05)
}

// Source: kitchen pages on the 7 g (1/4 oz) packet give 1 1/2 to 2 1/2 US tsp.
// The low end lies just outside the stated doubt, hence the advice to weigh.
func TestSpoonedGelatinWithinPublishedPackets(t *testing.T) {
	p := gelatin(1).portion(7)
	low, high := 1.5*usTeaspoon, 2.5*usTeaspoon
	if p.Millilitres < low || p.Millilitres > high {
		t.Errorf("a packet is %v ml, published %v to %v", p.Millilitres, low, high)
	}
	if p.Doubt != 25 {
		t.Errorf("doubt of %v percent is not passed on", p.Doubt)
	}
}
