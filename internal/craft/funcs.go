package craft

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// A Func is one sum that rule expressions may call by name.
type Func struct {
	Name   string
	Params []string // as documented; their number is the arity
	Units  string   // of the result; "" means those of the first parameter
	Doc    string
	Signed bool // the result may be below nothing
	Fn     func(args ...float64) (float64, error)
}

// Funcs gives the documented set, in the order to document it. Each Fn checks
// the number of its arguments and never returns NaN or an infinity without an
// error.
func Funcs() []Func {
	funcs := slices.Concat(shapeFuncs(), plasterFuncs(), mixFuncs(), climateFuncs(), heatFuncs(), coverFuncs())
	for i := range funcs {
		funcs[i].Fn = guarded(funcs[i])
	}
	return funcs
}

// sum declares a function; params are its parameters, a space between.
func sum(name, params, units, doc string, fn func(...float64) (float64, error)) Func {
	return Func{Name: name, Params: strings.Fields(params), Units: units, Doc: doc, Fn: fn}
}

// signed declares that a function may come out below nothing.
func signed(f Func) Func {
	f.Signed = true
	return f
}

// guarded checks the arity before and the result after.
func guarded(f Func) func(...float64) (float64, error) {
	return func(args ...float64) (float64, error) {
		if len(args) != len(f.Params) {
			return 0, fmt.Errorf("%s needs %d numbers (%s), not %d",
				f.Name, len(f.Params), strings.Join(f.Params, ", "), len(args))
		}
		y, err := f.Fn(args...)
		if err != nil {
			return 0, err
		}
		if math.IsNaN(y) || math.IsInf(y, 0) {
			return 0, fmt.Errorf("%s has no sensible answer for these numbers", f.Name)
		}
		return y, nil
	}
}
