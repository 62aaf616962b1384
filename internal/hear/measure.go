package hear

import (
	"fmt"
	"math"
	"slices"
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

// readingsIn is readingsFor, but that a length without a unit is taken in the
// unit of the lines before.
func (h *Hearing) readingsIn(c Context, f *book.Fact, a amount) (list []reading, complaint string) {
	if f.Unit == "mm" && len(a.units) == 0 && isLength(c.LastUnit) && c.LastUnit.Name != "" {
		if base, err := c.LastUnit.Base(a.value); err == nil && believable(f, base) {
			a.units = []craft.Unit{c.LastUnit}
		}
	}
	return readingsFor(f, a)
}

// readingsFor turns an amount into the fact's base unit. There is one reading
// where the amount is clear, several where it must be asked about, and a
// complaint where none is possible.
func readingsFor(f *book.Fact, a amount) (list []reading, complaint string) {
	dim, measured := dimensionOf(f.Unit)
	switch {
	case !dimensionFits(f, a) && !measured:
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
			list = append(list, reading{base, label(a, u)})
		} else if a.value < 0 {
			return nil, lessThanNothing(f)
		}
	}
	if len(list) == 0 {
		return nil, wanted[dim]
	}
	return bounded(f, list)
}

// label shows an amount in one of its units so that no two readings of it
// look alike.
func label(a amount, u craft.Unit) string {
	text := withUnit(a.value, u)
	if len(a.units) > 1 && u.Dimension == craft.Mass {
		text += " by weight"
	}
	return text
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
	return nil, outside(f, list[0])
}

// outside says why a value cannot be, and what to do.
func outside(f *book.Fact, r reading) string {
	value := round(r.value)
	switch {
	case value < 0 && f.Low >= 0 && f.Unit != "C":
		return lessThanNothing(f)
	case value == 0 && f.Low > 0 && f.Unit != "C":
		return name(f) + " must be more than nothing: measure it and tell me with its unit."
	}
	told := strings.TrimSpace(show(value) + " " + unitSign(f.Unit))
	if r.label != "" && r.label != told && r.label != show(value) && !strings.HasPrefix(r.label, show(value)+" ") {
		told = r.label + " (" + told + ")"
	}
	bounds := fmt.Sprintf("%s of %s is outside %s to %s", name(f), told, show(f.Low), strings.TrimSpace(show(f.High)+" "+unitSign(f.Unit)))
	if meant := meantInstead(f, r); meant != "" {
		return bounds + ": did you mean " + meant + "?"
	}
	return bounds + ": check it and tell me again with its unit."
}

func lessThanNothing(f *book.Fact) string {
	return name(f) + " cannot be less than nothing: tell me again without the minus."
}

// meantInstead gives the amount in the one other usual unit that makes it
// believable, or "".
func meantInstead(f *book.Fact, r reading) string {
	number, own, _ := strings.Cut(r.label, " ")
	x, err := strconv.ParseFloat(number, 64)
	dim, measured := dimensionOf(f.Unit)
	if err != nil || !measured || own == "" {
		return ""
	}
	meant := ""
	for _, word := range usualUnits[dim] {
		u, _ := craft.UnitNamed(word)
		base, err := u.Base(x)
		if err != nil || !believable(f, base) || base == r.value {
			continue
		}
		if meant != "" {
			return ""
		}
		meant = withUnit(x, u)
	}
	return meant
}

// usualUnits are those that makers mix up.
var usualUnits = map[craft.Dimension][]string{
	craft.Length: {"millimetre", "centimetre", "inch"}, craft.Mass: {"gram", "kilogram", "dry ounce"},
	craft.Volume: {"millilitre", "litre", "cup"}, craft.Temperature: {"celsius", "fahrenheit"},
}

// within rounds a believable value, and keeps it so.
func within(f *book.Fact, x float64) float64 {
	x = round(x)
	if f.Low == 0 && f.High == 0 {
		return x
	}
	return min(max(x, f.Low), f.High)
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
	return bounded(f, []reading{{a.value, show(a.value) + " " + unitSign(f.Unit)}})
}

// The greatest bare numbers that people say of a piece in inches and in
// centimetres, and the least in millimetres. (Common practice, no source.)
const (
	mostInches      = 24
	mostCentimetres = 40
	leastMillimetre = 15
	thinFact        = 60 // mm: a fact this small is told in millimetres from 1 on
	leastHeight     = 1  // mm: so is a height, which may be as little as this
)

// bareLength reads a bare number as a length. A height is hardly ever near its
// most, so that 12 is no 120 mm.

func bareLength(f *book.Fact, x float64) ([]reading, string) {
	var list []reading
	add := func(ok bool, name string) {
		u, _ := craft.UnitNamed(name)
		if base, err := u.Base(x); ok && err == nil && believable(f, base) {
			list = append(list, reading{base, withUnit(x, u)})
		}
	}
	high := f.Low <= leastHeight && f.High > thinFact
	thin := high || f.High > 0 && f.High <= thinFact
	add(x <= mostInches, "inch")
	add(x <= mostCentimetres, "centimetre")
	add(x >= leastMillimetre || thin, "millimetre")
	if high && believable(f, x) {
		list = slices.DeleteFunc(list, func(r reading) bool { return r.value > f.High/2 && r.value != x })
	}
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
