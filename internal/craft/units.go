package craft

import (
	"fmt"
	"math"
	"strings"
)

// Dimension is what a unit measures.
type Dimension uint8

// The dimensions and the base unit of each.
const (
	Mass        Dimension = iota // g
	Volume                       // ml
	Length                       // mm
	Time                         // minutes
	Temperature                  // degrees C
	Ratio                        // percent
	Area                         // square cm
	Power                        // W
)

var dimensionNames = [...]string{"mass", "volume", "length", "time", "temperature", "ratio", "area", "power"}

// String gives the plain word for the dimension.
func (d Dimension) String() string {
	if int(d) < len(dimensionNames) {
		return dimensionNames[d]
	}
	return "unknown dimension"
}

// A Unit is one named unit. An amount x of it is (x + Offset) * Factor in the
// base unit of its dimension; Offset is 0 except for temperatures.
type Unit struct {
	Name      string // singular, as shown
	Plural    string
	Dimension Dimension
	Factor    float64
	Offset    float64
}

// absoluteZero in degrees C.
const absoluteZero = -273.15

// Base turns x of the unit into the base unit of its dimension. Negative
// amounts are errors except for temperatures and ratios, and so is a
// temperature under absolute zero.
func (u Unit) Base(x float64) (float64, error) {
	if err := u.check(); err != nil {
		return 0, err
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, fmt.Errorf("the amount in %s is not a number", u.Plural)
	}
	base := (x + u.Offset) * u.Factor
	return base, u.bound(base)
}

// check refuses a unit that did not come from the table and cannot convert.
func (u Unit) check() error {
	sound := u.Factor >= 1e-6 && u.Factor <= 1e6 && math.Abs(u.Offset) <= 1e3
	if !sound || int(u.Dimension) >= len(dimensionNames) {
		return fmt.Errorf("%q is not a unit this tool knows", u.Name)
	}
	return nil
}

func (u Unit) bound(base float64) error {
	what := u.Dimension.String()
	switch u.Dimension {
	case Temperature:
		// A hair of slack lets absolute zero itself survive conversion.
		if base < absoluteZero-1e-9 {
			return fmt.Errorf("no temperature can be below absolute zero (%s degrees C)", plain(absoluteZero))
		}
		return known(what, base, maxAmount, "degrees C")
	case Ratio:
		return known(what, base, maxAmount, "percent")
	}
	return notNegative(what, base, maxAmount, BaseUnit(u.Dimension).Plural)
}

// Convert turns x of one unit into another of the same dimension.
// Temperatures are converted as readings, not as differences.
func Convert(x float64, from, to Unit) (float64, error) {
	base, err := from.Base(x)
	if err != nil {
		return 0, err
	}
	if err := to.check(); err != nil {
		return 0, err
	}
	if from.Dimension != to.Dimension {
		return 0, fmt.Errorf("%s measures %s and %s measures %s, so one cannot be turned into the other",
			from.Name, from.Dimension, to.Name, to.Dimension)
	}
	return base/to.Factor - to.Offset, nil
}

// BaseUnit gives the unit that results of the dimension are in.
func BaseUnit(d Dimension) Unit {
	for _, e := range unitTable {
		if e.Dimension == d && e.Factor == 1 && e.Offset == 0 {
			return e.Unit
		}
	}
	return Unit{}
}

// Readings gives every unit that the name can mean, in the order of the table:
// "oz" is a mass or a volume, so the caller can ask. Case does not matter,
// save that a capital "C" is never a cup. None means the name is not known.
func Readings(name string) []Unit {
	name = strings.TrimSpace(name)
	if len(name) > 64 {
		return nil
	}
	if name == "C" {
		name = "celsius"
	}
	return append([]Unit(nil), unitsByName[unitKey(name)]...)
}

// UnitNamed gives the unit that the name can only mean; false when the name
// is unknown or has several readings.
func UnitNamed(name string) (Unit, bool) {
	found := Readings(name)
	if len(found) != 1 {
		return Unit{}, false
	}
	return found[0], true
}

// UnitOf gives the reading of the name that measures d, for a caller that
// knows which is wanted: "oz" of a volume is the fluid ounce.
func UnitOf(name string, d Dimension) (Unit, bool) {
	var found []Unit
	for _, u := range Readings(name) {
		if u.Dimension == d {
			found = append(found, u)
		}
	}
	if len(found) != 1 {
		return Unit{}, false
	}
	return found[0], true
}

var unitKeyReplacer = strings.NewReplacer(".", " ", "-", " ", "_", " ", "°", "deg ", "º", "deg ",
	"℃", "deg c", "℉", "deg f", "”", `"`, "″", `"`, "’", "'", "′", "'")

// unitKey folds the ways a maker writes one name: "Fl. Oz." is "fl oz".
func unitKey(name string) string {
	return strings.Join(strings.Fields(unitKeyReplacer.Replace(strings.ToLower(name))), " ")
}

var unitsByName = indexUnits()

func indexUnits() map[string][]Unit {
	index := make(map[string][]Unit)
	for _, e := range unitTable {
		seen := make(map[string]bool)
		names := append([]string{e.Name, e.Plural}, strings.Split(e.also, ",")...)
		for _, name := range names {
			key := unitKey(name)
			if key != "" && !seen[key] {
				seen[key] = true
				index[key] = append(index[key], e.Unit)
			}
		}
	}
	return index
}
