// Package craft does the sums of the materials: units, volumes of a sculpt,
// plaster and gelatin amounts, measures a maker owns, and burn times.
//
// Everything is pure and total. Base units everywhere: g, ml, mm, minutes,
// degrees C and percent. An input that makes no sense gives an error that is
// one sentence for the maker; no result is NaN or infinite when err is nil.
package craft

import (
	"fmt"
	"math"
	"strconv"
)

// The largest inputs taken. Far past any bench, and small enough that no
// product of them overflows.
const (
	maxLength = 1e4 // mm, ten metres
	maxAmount = 1e9 // g, ml, minutes: also the bound of every other amount

	// Less than this is nothing: no scale or rule shows it, and it keeps the
	// sums clear of numbers too small to divide by.
	nothing = 1e-9
)

// known refuses NaN, infinities and anything above most.
func known(what string, x, most float64, unit string) error {
	switch {
	case math.IsNaN(x):
		return fmt.Errorf("the %s is not a number", what)
	case x > most:
		return fmt.Errorf("the %s is too large to make sense (the most is %s)", what, amount(most, unit))
	case x < -most:
		return fmt.Errorf("the %s is too far below nothing to make sense", what)
	}
	return nil
}

// notNegative takes 0 <= x <= most.
func notNegative(what string, x, most float64, unit string) error {
	if x < 0 {
		return fmt.Errorf("the %s cannot be less than nothing", what)
	}
	return known(what, x, most, unit)
}

// positive takes nothing < x <= most.
func positive(what string, x, most float64, unit string) error {
	if err := notNegative(what, x, most, unit); err != nil {
		return err
	}
	if x < nothing {
		return fmt.Errorf("the %s must be more than nothing", what)
	}
	return nil
}

// within takes low <= x <= high.
func within(what string, x, low, high float64, unit string) error {
	if math.IsNaN(x) {
		return fmt.Errorf("the %s is not a number", what)
	}
	if x < low || x > high {
		return fmt.Errorf("the %s must lie between %s and %s", what, plain(low), amount(high, unit))
	}
	return nil
}

// firstOf returns the first error, so that a list of checks reads as a list.
func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// plain writes a number without an exponent and without trailing zeros.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func amount(x float64, unit string) string {
	if unit == "" {
		return plain(x)
	}
	return plain(x) + " " + unit
}
