package hear

import (
	"strings"

	"sparehand/internal/craft"
)

// readUnit reads the longest unit name that begins at token i, and gives all
// its readings: "oz" is a mass or a volume.
func readUnit(tokens []token, i int) (units []craft.Unit, end int) {
	name := ""
	for j := i; j < len(tokens) && j < i+4; j++ {
		if j > i {
			if tokens[j-1].ends {
				break
			}
			name += " "
		}
		name += tokens[j].word
		found := craft.Readings(name)
		if len(found) == 0 && j == i+1 && !tokens[j].digits {
			found = craft.Readings(tokens[i].word + tokens[j].word) // "table spoons"
		}
		if len(found) == 0 && j == i && i > 0 && isCount(tokens[i-1]) {
			found = spoonReadings(name)
		}
		if len(found) > 0 && (j > i || plausibleUnit(tokens, i)) {
			units, end = found, j+1
		}
	}
	if units == nil {
		return misspeltUnit(tokens, i)
	}
	if end == i+1 {
		units = eitherGallon(units)
	} else if tokens[i].word == "us" && len(units) == 1 && isOneOf(units[0].Name, "pint", "quart", "gallon") {
		units = []craft.Unit{usKind(units[0])}
	}
	return units, end
}

// eitherGallon gives both readings of a pint, a quart and a gallon that nobody
// calls US or imperial: they differ by a fifth.
func eitherGallon(units []craft.Unit) []craft.Unit {
	if len(units) != 1 || !isOneOf(units[0].Name, "pint", "quart", "gallon") {
		return units
	}
	imperial, ok := craft.UnitNamed("imperial " + units[0].Name)
	if !ok {
		return units
	}
	return []craft.Unit{usKind(units[0]), imperial}
}

// usKind names a pint, a quart or a gallon as the US one.
func usKind(u craft.Unit) craft.Unit {
	u.Name, u.Plural = "US "+u.Name, "US "+u.Plural
	return u
}

// tooLong are lengths that no piece is told in.
var tooLong = wordSet("mile miles kilometre kilometres kilometer kilometers km kms fathom fathoms furlong furlongs league leagues")

// spoonReadings gives both spoons for a word that one maker takes for the
// small and the next for the large one.
func spoonReadings(word string) []craft.Unit {
	switch word {
	case "t", "spoon", "spoons", "spoonful", "spoonfuls":
		small, _ := craft.UnitNamed("teaspoon")
		large, _ := craft.UnitNamed("tablespoon")
		return []craft.Unit{small, large}
	}
	return nil
}

func isCount(t token) bool { return t.digits || isNumberWord(t.word) }

// plausibleUnit keeps "in" from being inches in "2 in the morning".
func plausibleUnit(tokens []token, i int) bool {
	if tokens[i].word != "in" || tokens[i].ends || i+1 == len(tokens) {
		return true
	}
	return isOneOf(wordAt(tokens, i+1), "by", "x", "long", "wide", "high", "deep", "tall", "thick", "across", "and", "to")
}

// unitWords are the names long enough to be misspelt.
var unitWords = strings.Fields(`inch inches minute minutes ounce ounces centimetre centimetres millimetre millimetres
gram grams pound pounds teaspoon teaspoons tablespoon tablespoons millilitre millilitres litre litres percent degrees
celsius fahrenheit hours seconds kilogram kilograms gallon gallons metre metres watts`)

func isUnitWord(word string) bool { return len(craft.Readings(word)) > 0 }

func misspeltUnit(tokens []token, i int) ([]craft.Unit, int) {
	for n := 1; n <= 2 && i+n <= len(tokens); n++ {
		word := tokens[i].word
		if n == 2 {
			word += tokens[i+1].word
		}
		if len(word) < 5 || tooLong[word] || n == 1 && tokens[i].known && word != "minuet" {
			continue // "two pours" are not two hours
		}
		for _, name := range unitWords {
			if closeTo(word, name, max(1, slack(len(name)))) {
				return craft.Readings(name), i + n
			}
		}
	}
	return nil, i
}

// dimensionOf gives what a fact's base unit measures; false for a count.
func dimensionOf(unit string) (craft.Dimension, bool) {
	switch unit {
	case "g":
		return craft.Mass, true
	case "ml":
		return craft.Volume, true
	case "mm":
		return craft.Length, true
	case "min":
		return craft.Time, true
	case "C":
		return craft.Temperature, true
	case "%":
		return craft.Ratio, true
	case "cm2":
		return craft.Area, true
	case "W":
		return craft.Power, true
	}
	return 0, false
}

// wanted names what a number should have been told in.
var wanted = map[craft.Dimension]string{
	craft.Mass:        "I wanted a weight: give me grams, ounces or pounds.",
	craft.Volume:      "I wanted a volume: give me millilitres, cups or spoons.",
	craft.Length:      "I wanted a length: give me inches, centimetres or millimetres.",
	craft.Time:        "I wanted a time: give me minutes or hours.",
	craft.Temperature: "I wanted a temperature: give me degrees Celsius or Fahrenheit.",
	craft.Ratio:       "I wanted a percentage: give me a number from 0 to 100.",
	craft.Area:        "I wanted an area: give me square centimetres or square inches.",
	craft.Power:       "I wanted the power: give me watts.",
}
