package craft

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: the times derived from Moritz and Henriques, Am. J. Pathol. 23:695
// (1947), as a secondary list quotes them. The equations are those of ASTM
// C1055 (from memory): this table is what stands behind them.
func TestThresholdsAgainstPublishedTimes(t *testing.T) {
	const minute, hour = 60.0, 3600.0
	for _, row := range []struct{ celsius, second, third float64 }{
		{60, 3, 5}, {55, 17, 30}, {51, 2 * minute, 4.2 * minute}, {49, 8 * minute, 10 * minute},
		{48, 15 * minute, 20 * minute}, {47, 20 * minute, 45 * minute}, {45, 2 * hour, 3 * hour},
	} {
		near(t, "reversible", reversibleAt(row.second), row.celsius, 1.5)
		near(t, "irreversible", irreversibleAt(row.third), row.celsius, 1.5)
	}
}

// Source: ISO 13732-1:2006 (from memory), any material: 51 at one minute, 48
// at ten minutes, 43 at eight hours.
func TestReversibleAgainstContactLimits(t *testing.T) {
	near(t, "1 minute", reversibleAt(60), 51, 1.5)
	near(t, "10 minutes", reversibleAt(600), 48, 1.5)
	near(t, "8 hours", reversibleAt(8*3600), 43, 1.5)
}

// The halving finds the time that the equation started from, and the times
// only get shorter as it gets hotter.
func TestBurnTimesInvert(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seconds := math.Exp(rapid.Float64Range(math.Log(0.2), math.Log(28000)).Draw(t, "ln s"))
		burns, err := BurnTimes(reversibleAt(seconds))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "reversible", burns.Reversible, seconds, 1e-6*seconds)
		if burns.Irreversible < burns.Reversible {
			t.Errorf("lasting harm after %v s, before redness at %v", burns.Irreversible, burns.Reversible)
		}
		hotter, err := BurnTimes(irreversibleAt(seconds))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "irreversible", hotter.Irreversible, seconds, 1e-6*seconds)
		if hotter.Reversible > burns.Reversible*(1+1e-9) {
			t.Errorf("hotter, yet longer: %v then %v", burns, hotter)
		}
	})
}

func TestBurnTimesBounded(t *testing.T) {
	for celsius, want := range map[float64]float64{20: LongestBurn, 40: LongestBurn, 90: ShortestBurn, 1500: ShortestBurn} {
		burns, err := BurnTimes(celsius)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "bound", burns.Reversible, want, 0)
	}
	for _, celsius := range []float64{-10, math.NaN(), math.Inf(1), 1e5} {
		if burns, err := BurnTimes(celsius); err == nil {
			t.Errorf("%v degrees passes: %v", celsius, burns)
		} else {
			tellsMaker(t, err)
		}
	}
}

// Source: the published times above, with room either side.
func TestContact(t *testing.T) {
	for _, c := range []struct {
		celsius, seconds float64
		want             Level
	}{
		{37, 8 * 3600, NoHarm}, {40, 3600, NoHarm},
		{45, 60, Care}, {55, 1, Care}, {41, 0, Care},
		{60, 10, Stop}, {55, 60, Stop}, {49, 1200, Stop}, {45, 4 * 3600, Stop}, {95, 0, Stop},
	} {
		got, err := Contact(c.celsius, c.seconds)
		if err != nil || got != c.want {
			t.Errorf("%v degrees for %v s: got %v, %v, want %v", c.celsius, c.seconds, got, err, c.want)
		}
	}
	if text := fmt.Sprint(NoHarm, Care, Stop); text != "none care stop" {
		t.Errorf("the levels read %q", text)
	}
	for _, c := range [][2]float64{{math.NaN(), 1}, {50, math.NaN()}, {50, -1}, {-5, 1}} {
		if level, err := Contact(c[0], c[1]); err == nil || level != Stop {
			t.Errorf("%v: got %v, %v, want stop and an error", c, level, err)
		}
	}
}

// Hotter or longer is never taken more lightly.
func TestContactNeverEases(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		celsius := rapid.Float64Range(0, 120).Draw(t, "celsius")
		seconds := rapid.Float64Range(0, 1e5).Draw(t, "seconds")
		before, err := Contact(celsius, seconds)
		if err != nil {
			t.Fatal(err)
		}
		after, err := Contact(celsius+rapid.Float64Range(0, 20).Draw(t, "more"), seconds*rapid.Float64Range(1, 3).Draw(t, "by"))
		if err != nil || after < before {
			t.Errorf("%v became %v (%v)", before, after, err)
		}
	})
}
