package hear

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/craft"
)

// reading is one value that an amount can have for a fact, in base units.
type reading struct {
	value float64
	label string // "6 inches"
}

// readingsFor turns an amount into the fact's base unit. There is one reading
// where the amount is clear, several where it must be asked about, and a
// complaint where none is possible.
func readingsFor(f *book.Fact, a amount) (list []reading, complaint string) {
	dim, measured := dimensionOf(f.Unit)
	switch {
	case !measured && len(a.units) > 0:
		return nil, "I wanted a plain number."
	case !measured:
		return bounded(f, []reading{{a.value, show(a.value)}})
	case len(a.units) == 0:
		return withoutUnit(f, dim, a)
	}
	for _, u := range a.units {
		if u.Dimension != dim {
			continue
		}
		if base, err := u.Base(a.value); err == nil {
			list = append(list, reading{base, withUnit(a.value, u)})
		} else if a.value < 0 {
			return nil, name(f) + " cannot be less than nothing."
		}
	}
	if len(list) == 0 {
		return nil, wanted[dim]
	}
	return bounded(f, list)
}

// bounded keeps the readings that are believable.
func bounded(f *book.Fact, list []reading) ([]reading, string) {
	var kept []reading
	for _, r := range list {
		if believable(f, r.value) {
			kept = append(kept, r)
		}
	}
	if len(kept) > 0 {
		return kept, ""
	}
	value := round(list[0].value)
	if value < 0 && f.Low >= 0 && f.Unit != "C" {
		return nil, name(f) + " cannot be less than nothing."
	}
	return nil, fmt.Sprintf("%s of %s is outside %s to %s.", name(f), strings.TrimSpace(show(value)+" "+unitSign(f.Unit)), show(f.Low), show(f.High))
}

func believable(f *book.Fact, x float64) bool {
	if f.Low == 0 && f.High == 0 {
		return !math.IsNaN(x) && math.Abs(x) <= 1e9 && (x >= 0 || f.Unit == "C")
	}
	const hair = 1e-9 // so that a bound told in another unit still counts
	return x >= f.Low-hair*math.Abs(f.Low) && x <= f.High+hair*math.Abs(f.High)
}

// withoutUnit reads a bare number: the base unit where that is believable,
// but a length can mean inches, centimetres or millimetres.
func withoutUnit(f *book.Fact, dim craft.Dimension, a amount) ([]reading, string) {
	switch {
	case dim == craft.Length && a.value > 0:
		return bareLength(f, a.value)
	case dim == craft.Ratio && a.value > 0 && a.value < 1 && !believable(f, a.value):
		return bounded(f, []reading{{a.value * 100, show(a.value*100) + " %"}})
	}
	list, complaint := bounded(f, []reading{{a.value, show(a.value) + " " + unitSign(f.Unit)}})
	if complaint != "" && dim == craft.Temperature && believable(f, (a.value-32)*5/9) {
		complaint = strings.TrimSuffix(complaint, ".") + " °C; if you meant Fahrenheit, say so."
	}
	return list, complaint
}

// The greatest bare numbers that people say of a piece in inches and in
// centimetres, and the least in millimetres. (Common practice, no source.)
const (
	mostInches      = 24
	mostCentimetres = 40
	leastMillimetre = 15
	thinFact        = 60 // mm: a fact this small is told in millimetres from 1 on
)

func bareLength(f *book.Fact, x float64) ([]reading, string) {
	var list []reading
	add := func(ok bool, name string) {
		u, _ := craft.UnitNamed(name)
		if base, err := u.Base(x); ok && err == nil && believable(f, base) {
			list = append(list, reading{base, withUnit(x, u)})
		}
	}
	thin := f.High > 0 && f.High <= thinFact
	add(x <= mostInches, "inch")
	add(x <= mostCentimetres, "centimetre")
	add(x >= leastMillimetre || thin, "millimetre")
	if len(list) > 0 {
		return list, ""
	}
	return bounded(f, []reading{{x, show(x) + " mm"}})
}

func withUnit(x float64, u craft.Unit) string {
	if x == 1 {
		return "1 " + u.Name
	}
	return show(x) + " " + u.Plural
}

// round drops the dust of conversions.
func round(x float64) float64 { return math.Round(x*1000) / 1000 }

func show(x float64) string { return strconv.FormatFloat(round(x), 'f', -1, 64) }

func unitSign(unit string) string {
	if unit == "C" {
		return "°C"
	}
	return unit
}

// name gives what a number fact is called, to begin a sentence with.
func name(f *book.Fact) string {
	text := strings.ReplaceAll(f.Name, "_", " ")
	for _, unit := range []string{" mm", " ml", " min", " g", " c"} {
		text = strings.TrimSuffix(text, unit)
	}
	if len(f.Says) > 0 {
		text = f.Says[0]
	}
	if text == "" {
		return "That"
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
