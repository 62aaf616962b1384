package aloud

import (
	"regexp"
	"strings"
)

// measure is a unit as it is said. What is read off an instrument keeps its
// decimals, "two point five grams"; what is counted does not, "two and a half
// cups".
type measure struct {
	one, many string
	read      bool
}

func countable(one string) measure { return measure{one, one + "s", false} }
func readOff(one string) measure   { return measure{one, one + "s", true} }

// units are the signs that stand after a figure (those of the SI and beside it
// by the SI Brochure, 9th edition; the kitchen's by common practice).
var units = map[string]measure{
	"g": readOff("gram"), "kg": countable("kilo"), "mg": readOff("milligram"),
	"ml": readOff("millilitre"), "cl": readOff("centilitre"), "l": countable("litre"), "mL": readOff("millilitre"), "L": countable("litre"),
	"mm": readOff("millimetre"), "cm": readOff("centimetre"), "m": readOff("metre"),
	"mm²": readOff("square millimetre"), "cm²": readOff("square centimetre"), "m²": readOff("square metre"),
	"mm³": readOff("cubic millimetre"), "cm³": readOff("cubic centimetre"), "m³": readOff("cubic metre"),
	"s": readOff("second"), "min": countable("minute"), "h": countable("hour"),
	"W": readOff("watt"), "kW": readOff("kilowatt"),
	"oz": countable("ounce"), "lb": countable("pound"),
	"tsp": countable("teaspoon"), "tbsp": countable("tablespoon"),
	"°": readOff("degree"), "%": {"percent", "percent", true},
	"°C": readOff("degree"), "C": readOff("degree"), // as the book speaks of them
	"°F": {"degree Fahrenheit", "degrees Fahrenheit", true}, "F": {"degree Fahrenheit", "degrees Fahrenheit", true},
}

// spelled are measures in full letters, singular and plural.
var spelled = func() map[string]measure {
	all := map[string]measure{"inch": {"inch", "inches", false}, "inches": {"inch", "inches", false}}
	add := func(u measure) { all[u.one], all[u.many] = u, u }
	for _, u := range units {
		add(u)
	}
	for _, one := range []string{"cup", "spoon", "spoonful", "teaspoonful", "tablespoonful", "pint", "drop", "packet", "cap", "day"} {
		add(countable(one))
	}
	return all
}()

var (
	unitForm = regexp.MustCompile(`^([ -]?)(° ?[CF]|°|%|(?:mm|cm|m)[²³23]|[A-Za-z]+)`)
	perForm  = regexp.MustCompile(`^ ?/ ?([A-Za-z]+)`)
	wordForm = regexp.MustCompile(`^ ((?:metric |level |heaped |fluid )?)([a-z]+)`)
	second   = regexp.MustCompile(`^(?: (?:to|by|or|and|x|×|-|–|±) |[-–×x±])\d+(?:\.\d+)?`)
	digitsUp = strings.NewReplacer("2", "²", "3", "³", " ", "")
)

// unitAt reads a unit after a figure: the unit, whether a hyphen joins it, and
// how long it is in the text; 0 for none.
func unitAt(rest string) (u measure, hyphen bool, used int) {
	m := unitForm.FindStringSubmatch(rest)
	if m == nil {
		return measure{}, false, 0
	}
	u, ok := units[digitsUp.Replace(m[2])]
	used = len(m[0])
	if !ok || wordGoesOn(rest[used:]) {
		return measure{}, false, 0
	}
	if p := perForm.FindStringSubmatch(rest[used:]); p != nil {
		if per, ok := units[p[1]]; ok && !wordGoesOn(rest[used+len(p[0]):]) {
			u = measure{u.one + " per " + per.one, u.many + " per " + per.one, true}
			used += len(p[0])
		}
	}
	return u, m[1] == "-", used
}

// spelledAt reads a measure in full letters after a figure, and how long it is
// in the text.
func spelledAt(rest string) (u measure, used int) {
	m := wordForm.FindStringSubmatch(rest)
	if m == nil || wordGoesOn(rest[len(m[0]):]) {
		return measure{}, 0
	}
	u, ok := spelled[m[2]]
	if !ok {
		return measure{}, 0
	}
	u.one, u.many = m[1]+u.one, m[1]+m[2] // as it was written
	return u, len(m[0])
}

// readAfter reports whether a figure is the first of a range of what is read
// off an instrument: the 2.5 of "2.5 to 7.5 ml".
func readAfter(rest string) bool {
	m := second.FindString(rest)
	if m == "" {
		return false
	}
	u, _, used := unitAt(rest[len(m):])
	if used == 0 {
		u, _ = spelledAt(rest[len(m):])
	}
	return u.read
}
