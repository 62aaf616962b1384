package talk

import (
	"math"
	"strconv"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
)

// label gives a value in words, with its unit.
func (a *Assistant) label(f *book.Fact, v logic.Value) string {
	switch f.Kind {
	case logic.Number:
		return withUnit(v.Number(), f.Unit)
	case logic.YesNo:
		if v.Bool() {
			return "yes"
		}
		return "no"
	default:
		return f.Options[v.Index()].Label
	}
}

func withUnit(x float64, unit string) string {
	n := strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64)
	switch unit {
	case "":
		return n
	case "C":
		return n + " °C"
	case "%":
		return n + " %"
	case "min":
		return n + " minutes"
	case "cm2":
		return n + " cm²"
	case "W":
		return n + " watts"
	default:
		return n + " " + unit
	}
}

// minutes says a span of time.
func minutes(m float64) string {
	switch {
	case m > 0 && m < 0.9: // only timers are that short
		return phrase.Plural(math.Round(m*60), "second")
	case m <= 1:
		return "a minute"
	case m < 90:
		return strconv.FormatFloat(math.Round(m), 'f', -1, 64) + " minutes"
	case m < 36*60:
		return "about " + craft.FormatCount(math.Round(m/30)/2) + " hours"
	default:
		return "about " + phrase.Plural(math.Round(m/60/24), "day")
	}
}
