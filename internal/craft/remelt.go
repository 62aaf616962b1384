package craft

import "errors"

// A Weighing is a mix weighed before and after it was melted, in g and with
// the same jug or none.
type Weighing struct {
	Before, After float64
}

// leastKept is the least of its weight that a mix keeps: the wettest mix, of
// three parts gelatin to four of water, is 62 % water.
const leastKept = 0.3

// WaterLost gives the g of water that left as steam, to be stirred in again.
// It refuses a mix that grew heavier or lost more than it can hold as water.
func (w Weighing) WaterLost() (float64, error) {
	err := firstOf(positive("weight before melting", w.Before, maxAmount, "g"),
		positive("weight after melting", w.After, maxAmount, "g"))
	switch {
	case err != nil:
		return 0, err
	case w.After > w.Before:
		return 0, errors.New("the mix weighs more after melting than before: weigh both times with the same jug, the scale at nought")
	case w.After < leastKept*w.Before:
		return 0, errors.New("more weight is gone than a mix holds as water: weigh both times with the same jug, the scale at nought")
	}
	return w.Before - w.After, nil
}

// WaterLost gives the g of water that left in several meltings together.
func WaterLost(meltings ...Weighing) (float64, error) {
	sum := 0.0
	for _, w := range meltings {
		lost, err := w.WaterLost()
		if err != nil {
			return 0, err
		}
		sum += lost
	}
	if err := known("water lost in all", sum, maxAmount, "g"); err != nil {
		return 0, err
	}
	return sum, nil
}

// Dose gives the g of colour or flocking in a mix of so many grams at percent
// of its mass.
func Dose(grams, percent float64) (float64, error) {
	err := firstOf(positive("mass of the mix", grams, maxAmount, "g"),
		within("dose", percent, 0, 100, "percent"))
	if err != nil {
		return 0, err
	}
	return grams * percent / 100, nil
}
