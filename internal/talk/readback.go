package talk

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
)

// readBack says the numbers that were told by voice, so that a wrong one is
// noticed; "" where there is none or it was just asked about.
func (s *state) readBack(e Event, before glance) string {
	if e.Kind != "spoken" || before.doubted || e.asksBack() {
		return ""
	}
	var list []string
	for _, act := range e.Acts {
		f := s.a.book.FactByName(act.Fact)
		switch {
		case act.Do == doTimer && act.Step == "":
			list = append(list, minutes(act.Due.Sub(e.At).Minutes()))
		case act.Do != doTell || f == nil || f.Kind != logic.Number:
		case f.Name == hear.LeftFact:
			if v, fault := f.Parse(act.Value); fault == "" {
				at := e.At.Add(time.Duration(v.Number()) * time.Minute)
				list = append(list, fmt.Sprintf("the call at %s, in %s", at.Format("15:04"), minutes(v.Number())))
			}
		default:
			if v, fault := f.Parse(act.Value); fault == "" {
				list = append(list, strings.TrimSpace(shortFigure(v.Number())+" "+unitName(f.Unit, v.Number())))
			}
		}
	}
	return phrase.Sentence(phrase.And(list))
}

// withReadBack puts what is read back before the reply, where that does not say
// it by itself.
func withReadBack(back, say string) string {
	if back == "" || strings.HasPrefix(say, "Noted: ") || strings.HasPrefix(say, back) {
		return say
	}
	return phrase.Speech(back, say)
}

func shortFigure(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }

// unitNames are the units as they are spoken, in the plural.
var unitNames = map[string]string{
	"g": "grams", "ml": "millilitres", "mm": "millimetres", "min": "minutes", "cm2": "square centimetres", "W": "watts",
	"C": "degrees", "%": "percent",
}

// unitName is a unit as it is spoken after a number.
func unitName(unit string, n float64) string {
	name := unitNames[unit]
	if n == 1 {
		return strings.TrimSuffix(name, "s")
	}
	return name
}

// unitsOf are the units that a number may be told in, its own first.
func unitsOf(unit string) []string {
	others := map[string][]string{
		"g": {"kilograms", "kilos", "ounces", "pounds", "teaspoons", "tablespoons", "cups"}, "ml": {"mils", "litres", "cups", "tablespoons", "teaspoons"}, "mm": {"mils", "centimetres", "inches"},
		"min": {"hours", "days"},
	}
	if unitNames[unit] == "" {
		return nil
	}
	return slices.Insert(others[unit], 0, unitNames[unit])
}
