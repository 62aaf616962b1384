package craft

import (
	"errors"
	"fmt"
	"math"
)

// HeatCapacity gives the specific heat of a mix in kJ/(kg K) at a temperature
// in degrees C, to about 5 %: each part counts by its mass. Solids other than
// gelatin, sorbitol and glycerol count as sorbitol. Glycerol in water takes up
// more than the two apart, by a term fitted to the solutions in Perry.
// Source: protein and carbohydrate, Choi and Okos (1986) as in ASHRAE,
// Thermal Properties of Foods (from memory); glycerol, Perry's Chemical
// Engineers' Handbook, Table 2-206 (2.32 at 15, 2.41 at 32 degrees C), and its
// table of glycerol solutions.
func (d Dry) HeatCapacity(celsius float64) (float64, error) {
	err := firstOf(d.check(), within("temperature of the mix", celsius, 0, 100, "degrees C"))
	if err != nil {
		return 0, err
	}
	t := celsius
	protein := 2.0082 + 1.2089e-3*t - 1.3129e-6*t*t
	carbohydrate := 1.5488 + 1.9625e-3*t - 5.9399e-6*t*t
	glycerol := 2.32 + (t-15)*(2.41-2.32)/(32-15)
	held := d.Gelatin*protein + (d.Sorbitol+d.Other)*carbohydrate + d.Glycerol*glycerol + d.Water*cpWater
	return held/d.mass() + solutionGain*(d.Glycerol/d.mass())*(d.Water/d.mass()), nil
}

// solutionGain in kJ/(kg K), by the shares of glycerol and of water: between
// 0.49 and 0.69 from 20 to 80 % of glycerol.
const solutionGain = 0.55

// A Warming is one batch to be warmed in a microwave oven.
type Warming struct {
	Grams        float64
	HeatCapacity float64 // kJ/(kg K)
	Gelatin      float64 // g in a set gel that has to melt; 0 when it is melted or still powder
	From, To     float64 // degrees C
	Watts        float64 // rated output of the oven
}

// meltingHeat is the heat in J that a gram of gelatin takes up as its gel
// melts.
// Source: classic calorimetry of gelatin gels, 6.7 cal to the gram; the ends
// from memory.
var meltingHeat = Guess{Name: "heat of melting", Value: 28, Low: 20, High: 40}

// Heat gives the heat that the batch takes up, in kJ.
func (w Warming) Heat() (float64, error) {
	if err := w.check(); err != nil {
		return 0, err
	}
	return w.joules(1, meltingHeat.Value) / 1000, nil
}

// joules gives the heat with the heat capacity off by a factor.
func (w Warming) joules(off, melting float64) float64 {
	return off*w.Grams*w.HeatCapacity*(w.To-w.From) + w.Gelatin*melting
}

// Seconds gives the time at full power, all bursts together, stirred between.
// Low is the one to start from: what boils over is not brought back.
// Source: heat by the oven's rated output, times the part of it that a load of
// that mass takes up; equally rated ovens differ by up to 30 % between them, so
// 15 either way (a consumer test, second hand).
func (w Warming) Seconds() (Span, error) {
	if err := w.check(); err != nil {
		return Span{}, err
	}
	taken := uptake(w.Grams)
	span, _, err := Spread(func(x []float64) (float64, error) {
		return w.joules(x[0], x[1]) / (w.Watts * x[2] * x[3]), nil
	}, []Guess{
		{Name: "heat capacity", Value: 1, Low: 0.95, High: 1.05},
		meltingHeat,
		{Name: "share of the power taken up", Value: taken.Mid, Low: taken.Low, High: taken.High},
		{Name: "power of the oven", Value: 1, Low: 0.85, High: 1.15},
	})
	return span, err
}

const (
	smallestLoad = 20.0   // g
	largestLoad  = 5000.0 // g
)

func (w Warming) check() error {
	err := firstOf(within("mass to warm", w.Grams, smallestLoad, largestLoad, "g"),
		within("heat capacity", w.HeatCapacity, 1, 5, "kJ/(kg K)"),
		notNegative("mass of gelatin to melt", w.Gelatin, largestLoad, "g"),
		within("temperature before warming", w.From, 0, 95, "degrees C"),
		within("temperature after warming", w.To, 0, 95, "degrees C"),
		within("power of the oven", w.Watts, 100, 3000, "W"))
	switch {
	case err != nil:
		return err
	case w.To <= w.From:
		return fmt.Errorf("the mix is at %s degrees C already: warming has to end warmer than it starts", plain(math.Round(w.From)))
	case w.Gelatin > w.Grams:
		return errors.New("there cannot be more gelatin to melt than there is mix")
	}
	return nil
}

// uptakes holds the share of an oven's rated output that a load takes up.
// Source: Buffler, Microwave Cooking and Processing (1993), from memory, for
// 100, 250 and 500 g. The row at 20 g is a guess that keeps the shortest time
// on the safe side.
var uptakes = [...]struct{ grams, low, high float64 }{
	{smallestLoad, 0.3, 0.7}, {100, 0.6, 0.7}, {250, 0.8, 0.85}, {500, 0.9, 1},
}

// uptake reads the table, straight lines between its rows.
func uptake(grams float64) Span {
	last := uptakes[len(uptakes)-1]
	low, high := last.low, last.high
	for i, b := range uptakes[1:] {
		if grams < b.grams {
			a := uptakes[i]
			along := (grams - a.grams) / (b.grams - a.grams)
			low, high = a.low+along*(b.low-a.low), a.high+along*(b.high-a.high)
			break
		}
	}
	return Span{Low: low, Mid: (low + high) / 2, High: high}
}

// Bursts gives how many bursts of each seconds make up a time in seconds, at
// the fewest and at the most; at least one.
func Bursts(total Span, each float64) (fewest, most int, err error) {
	err = firstOf(total.check("time of warming", 24*3600, "seconds"),
		within("length of a burst", each, 1, 600, "seconds"))
	if err != nil {
		return 0, 0, err
	}
	count := func(seconds float64) int { return max(1, int(math.Ceil(seconds/each-1e-9))) }
	return count(total.Low), count(total.High), nil
}

// OvenWatts gives the output of a microwave oven by the rise, in degrees C, of
// so many grams of cold water in so many seconds; a litre makes the figure
// comparable with the rating.
// Source: IEC 60705, P = 4.187 m dT / t (from memory; the heat that the vessel
// takes is left out).
func OvenWatts(grams, rise, seconds float64) (float64, error) {
	err := firstOf(within("mass of water", grams, 200, largestLoad, "g"),
		within("rise of the water", rise, 1, 80, "degrees C"),
		within("time in the oven", seconds, 5, 1200, "seconds"))
	if err != nil {
		return 0, err
	}
	return 4.187 * grams * rise / seconds, nil
}
