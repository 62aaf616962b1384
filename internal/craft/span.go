package craft

import (
	"errors"
	"fmt"
	"math"
)

// A Span is a figure with the ends it may lie between, all in one unit and
// Low <= Mid <= High.
type Span struct {
	Low, Mid, High float64
}

// A Guess is one input of a sum that is not known for certain: the value taken
// and the ends it may lie between, in the unit of that input.
type Guess struct {
	Name             string
	Value, Low, High float64 // Low <= Value <= High
}

const maxGuesses = 50

// Spread gives what a sum comes to when its inputs are guesses, and the index
// of the guess whose range moves the result most: the one to measure better.
// It is -1 when none moves it.
//
// Each guess goes to its low and its high end alone, the others staying at
// their values; the moves up and the moves down are each combined as the root
// of the sum of their squares, as for errors that have nothing to do with one
// another. An end at which f fails counts as no move. Low is not below nothing
// unless f is at one of the ends. f runs 1 + 2 len(guesses) times and must not
// keep its argument. An error of f at the values themselves is passed on.
// Source: JCGM 100:2008 (Guide to the expression of uncertainty in
// measurement), 5.1, with finite steps in place of derivatives.
func Spread(f func([]float64) (float64, error), guesses []Guess) (Span, int, error) {
	values, err := guessed(guesses)
	if err != nil {
		return Span{}, -1, err
	}
	mid, err := f(values)
	if err != nil {
		return Span{}, -1, err
	}
	if !bounded(mid) {
		return Span{}, -1, errors.New("the sum has no sensible answer for these values")
	}
	down, up, lowest, most, widest := 0.0, 0.0, mid, 0.0, -1
	for i, g := range guesses {
		low, high := mid, mid
		for _, end := range []float64{g.Low, g.High} {
			values[i] = end
			if y, err := f(values); err == nil && bounded(y) {
				low, high = min(low, y), max(high, y)
			}
		}
		values[i] = g.Value
		down, up = math.Hypot(down, mid-low), math.Hypot(up, high-mid)
		lowest = min(lowest, low)
		if moved := high - low; moved > most {
			most, widest = moved, i
		}
	}
	span := Span{Low: mid - down, Mid: mid, High: mid + up}
	if lowest >= 0 {
		span.Low = max(span.Low, 0)
	}
	return span, widest, nil
}

// bounded keeps Spread clear of numbers whose sums overflow.
func bounded(x float64) bool { return math.Abs(x) <= 1e300 }

// guessed checks the guesses and gives their values.
func guessed(guesses []Guess) ([]float64, error) {
	if len(guesses) > maxGuesses {
		return nil, fmt.Errorf("a sum can have at most %d guesses", maxGuesses)
	}
	values := make([]float64, len(guesses))
	for i, g := range guesses {
		if !(g.Low <= g.Value && g.Value <= g.High && bounded(g.Low) && bounded(g.High)) {
			return nil, fmt.Errorf("the %s must lie between its low and its high end", g.Name)
		}
		values[i] = g.Value
	}
	return values, nil
}

// check refuses a span that is out of order, below nothing or above most.
func (s Span) check(what string, most float64, unit string) error {
	if !(s.Low <= s.Mid && s.Mid <= s.High) {
		return fmt.Errorf("the %s must have its low end first and its high end last", what)
	}
	return firstOf(notNegative(what, s.Low, most, unit), notNegative(what, s.High, most, unit))
}
