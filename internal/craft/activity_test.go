package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// ross gives the water activity of a mix as the product over its humectants,
// each in all the water.
// Source: Ross, Food Technol. 29(3):26 (1975), from memory.
func ross(d Dry) float64 {
	return glycerol.activity(d.Glycerol, d.Water) * sorbitol.activity(d.Sorbitol, d.Water)
}

// mixedNorrish gives the water activity of several humectants together.
// Source: Norrish, J. Food Technol. 1:25 (1966), from memory:
// ln aw = ln Xw - (sum of sqrt(K) X)^2.
func mixedNorrish(d Dry) float64 {
	g, s, w := d.Glycerol/glycerol.molar, d.Sorbitol/sorbitol.molar, d.Water/molarWater
	all := g + s + w
	pull := math.Sqrt(glycerol.norrish)*g/all + math.Sqrt(sorbitol.norrish)*s/all
	return w / all * math.Exp(-pull*pull)
}

// Source: the handbook table of glycerin in water, Miner and Dalton, Glycerol,
// ACS Monograph 117 (1953), from memory: percent glycerol at a humidity. K was
// fitted to its middle, so only the ends stand quite apart.
func TestGlycerolAgainstTheHandbook(t *testing.T) {
	for humidity, percent := range map[float64]float64{
		20: 92, 30: 89, 40: 84, 50: 79, 60: 72, 70: 64, 80: 51, 90: 33,
	} {
		near(t, "percent glycerol", glycerolPercent(humidity), percent, 2)
	}
}

// glycerolPercent is the share of glycerol by mass that rests at a humidity.
func glycerolPercent(humidity float64) float64 {
	return 100 / (1 + glycerol.waterAt(humidity/100))
}

// Source: Norrish's equation with K 1.65 for sorbitol, by hand.
func TestSorbitolTable(t *testing.T) {
	for percent, want := range map[float64]float64{50: 0.898, 60: 0.847, 70: 0.767, 80: 0.628} {
		near(t, "activity", sorbitol.activity(percent, 100-percent), want, 0.0006)
	}
}

// Source: Norrish's equation with K 0.90 for glycerol, worked apart from this
// code: the shares that rest at these humidities.
func TestGlycerolTable(t *testing.T) {
	for humidity, want := range map[float64]float64{30: 88.2, 50: 78.7, 65: 68.5, 80: 52.6, 95: 20.5} {
		near(t, "percent glycerol", glycerolPercent(humidity), want, 0.3)
	}
}

// Source: Sloan and Labuza (1975), sorbitol that has not crystallised, as a
// later text quotes them: g of water for 100 g.
func TestSorbitolAgainstMeasurement(t *testing.T) {
	for aw, water := range map[float64]float64{0.60: 25, 0.70: 35, 0.80: 55, 0.90: 110} {
		near(t, "activity", sorbitol.activity(100, water), aw, 0.03)
	}
}

// Source: per-component table, by the published equations: g of water per g.
func TestWaterHeldAlone(t *testing.T) {
	for _, row := range []struct{ humidity, gelatin, glycerin, sorbitol float64 }{
		{20, 0.086, 0.087, 0.060}, {35, 0.120, 0.164, 0.105}, {50, 0.155, 0.275, 0.167},
		{65, 0.201, 0.464, 0.270}, {80, 0.272, 0.909, 0.505}, {95, 0.404, 3.878, 2.024},
	} {
		ok := must(t)
		near(t, "gelatin", ok(GelatinWater(row.humidity)), row.gelatin, 0.0006)
		near(t, "glycerin", ok(GlycerinWater(row.humidity)), row.glycerin, 0.0006)
		near(t, "sorbitol", ok(SorbitolWater(row.humidity)), row.sorbitol, 0.0006)
	}
}

// Source: capsule shells, quoted from their makers: 12 to 16 % water of the
// whole at 45 to 55 % humidity, 13 to 16 % at 35 to 65 %, where the doubt of
// some 15 % in the isotherm shows at the ends. Bull, J. Am. Chem. Soc. 66:1499
// (1944), from memory: about 0.27 g/g at 80 %.
func TestGelatinAgainstCapsuleShells(t *testing.T) {
	ok := must(t)
	wet := func(humidity float64) float64 {
		w := ok(GelatinWater(humidity))
		return 100 * w / (1 + w)
	}
	for _, humidity := range []float64{45, 50, 55} {
		if w := wet(humidity); w < 12 || w > 16 {
			t.Errorf("%v %% water at %v %% humidity, published 12 to 16", w, humidity)
		}
	}
	if w := wet(35); w > 16 || w < 0.8*13 {
		t.Errorf("%v %% water at 35 %% humidity", w)
	}
	if w := wet(65); w < 13 || w > 1.2*16 {
		t.Errorf("%v %% water at 65 %% humidity", w)
	}
	near(t, "at 80", ok(GelatinWater(80)), 0.27, 0.01)
}

// Source: Flory-Huggins by hand: powder and water 3 to 4 is 2.67 g dry in 4.33,
// a volume share of 0.30, and ln 0.7 + 0.3 + 0.5 times 0.09 = -0.0117.
func TestPlainGelActivity(t *testing.T) {
	near(t, "3 to 4", gelActivity(2.67, 4.33), math.Exp(-0.0117), 0.0005)
	near(t, "as kept", plainGelActivity, gelActivity(2.67, 4.33), 0.0005)
	near(t, "water", gelActivity(0, 1), 1, 0)
}

// Source: three published rules for mixes, on one mix of sorbitol 1.4 and
// glycerol 1.99; the figures as each rule gives them by hand.
func TestMixedActivity(t *testing.T) {
	for _, row := range []struct{ water, added, ross, norrish float64 }{
		{0.3, 0.232, 0.190, 0.234}, {0.6, 0.419, 0.405, 0.420}, {1.0, 0.575, 0.575, 0.576},
		{1.5, 0.687, 0.691, 0.688}, {2.5, 0.799, 0.803, 0.799}, {5.0, 0.896, 0.897, 0.896},
	} {
		d := Dry{Sorbitol: 1.4, Glycerol: 1.99, Water: row.water}
		added := must(t)(d.SteadyRH()) / 100
		near(t, "added up", added, row.added, 0.001)
		near(t, "Ross", ross(d), row.ross, 0.001)
		near(t, "mixed Norrish", mixedNorrish(d), row.norrish, 0.001)
		near(t, "added up against mixed Norrish", added, mixedNorrish(d), 0.002)
		if added > 0.4 {
			near(t, "added up against Ross", added, ross(d), 0.02)
		}
	}
}

// The inverse finds the activity that the equation started from.
func TestWaterAtInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		aw := rapid.Float64Range(0.001, 0.98).Draw(t, "aw")
		h := humectant{
			molar:   rapid.Float64Range(60, 400).Draw(t, "molar mass"),
			norrish: rapid.Float64Range(0, 7).Draw(t, "K"),
		}
		near(t, "activity", h.activity(1, h.waterAt(aw)), aw, 1e-9)
	})
}

// Source: Raoult's law, aw = Xw, to which every solution goes when thin.
func TestThinSolutionsFollowRaoult(t *testing.T) {
	for _, h := range []humectant{glycerol, sorbitol} {
		moles := 1 / h.molar
		near(t, "activity", h.activity(1, 1000), 1-moles/(moles+1000/molarWater), 1e-7)
	}
}

// Damper air never holds less water in anything.
func TestWaterGrowsWithHumidity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ok := must(t)
		low := rapid.Float64Range(0, mostHumid).Draw(t, "humidity")
		high := rapid.Float64Range(low, mostHumid).Draw(t, "damper")
		for name, held := range map[string]func(float64) (float64, error){
			"gelatin": GelatinWater, "glycerin": GlycerinWater, "sorbitol": SorbitolWater,
		} {
			if before, after := ok(held(low)), ok(held(high)); after < before || before < 0 {
				t.Errorf("%s holds %v at %v %%, %v at %v %%", name, before, low, after, high)
			}
		}
	})
}
