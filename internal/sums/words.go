package sums

import (
	"math"
	"strconv"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/phrase"
)

// Subject names a fact in words: piece_length_mm is "piece length".
func Subject(f *book.Fact) string {
	name := f.Name
	for _, unit := range []string{"_mm", "_ml", "_g", "_min", "_c", "_percent", "_w"} {
		name = strings.TrimSuffix(name, unit)
	}
	return strings.ReplaceAll(name, "_", " ")
}

// speak fills the answer's words in: its {names} are put to figures.
func (w *work) speak() {
	say := w.out.Amount.Say
	if say == "" || w.out.Spoken != "" {
		return
	}
	w.out.Spoken = book.Slot.ReplaceAllStringFunc(say, func(slot string) string {
		for _, line := range w.out.Lines {
			if line.Name == slot[1:len(slot)-1] {
				return line.Value()
			}
		}
		return slot
	})
}

// Value says the figure of a line: "45 mm", "35 to 50 seconds", "about 900 g".
func (l Line) Value() string {
	if l.Text != "" {
		return l.Text
	}
	if len(l.Measured.Counts) > 0 {
		return l.counts()
	}
	mid, low, high := l.Round(l.Span.Mid), l.Round(l.Span.Low), l.Round(l.Span.High)
	timed := l.Unit == "min" || l.Unit == "s"
	if timed && low < high {
		return RangeInUnit(low, high, l.Unit)
	}
	if high-low > worthNarrowing*math.Abs(mid) {
		return "about " + InUnit(craft.Meaningful(mid, (high-low)/4), l.Unit)
	}
	return InUnit(mid, l.Unit)
}

func (l Line) counts() string {
	parts := make([]string, len(l.Measured.Counts))
	for i, c := range l.Measured.Counts {
		parts[i] = c.String()
	}
	return strings.Join(parts, " and ")
}

// Round keeps the digits of a figure that mean something: what a kitchen
// scale, a ruler or a clock shows.
func (l Line) Round(x float64) float64 {
	switch l.Unit {
	case "g", "ml":
		return craft.Sensible(x)
	case "%":
		if math.Abs(x) < 10 {
			return math.Round(x*2) / 2
		}
	case "s":
		if math.Abs(x) >= 60 {
			return math.Round(x/5) * 5
		}
		return math.Round(x)
	case "mm":
		if math.Abs(x) < 10 {
			return math.Round(x*2) / 2
		}
	case "":
		if x >= 1 {
			return math.Round(x)
		}
		return math.Round(x*10) / 10
	}
	if math.Abs(x) < 3 { // minutes, degrees, square centimetres
		return math.Round(x*10) / 10
	}
	return math.Round(x)
}

// InUnit writes a figure with its unit in words.
func InUnit(x float64, unit string) string {
	switch { // nobody counts hundreds of seconds or minutes
	case unit == "s" && x < 0.5:
		return "less than a second"
	case unit == "s" && x >= 180:
		return InUnit(math.Round(x/60), "min")
	case unit == "min" && x >= 180:
		hours := math.Round(x/30) / 2
		return phrase.Plural(hours, "hour")
	}
	n := unitless(x)
	switch unit {
	case "":
		return n
	case "C":
		return n + " °C"
	case "cm2":
		return n + " cm²"
	case "min":
		return phrase.Plural(x, "minute")
	case "s":
		return phrase.Plural(x, "second")
	}
	return n + " " + unit
}

// RangeInUnit writes a range with its unit, once where both ends have the
// same: "35 to 50 seconds", "90 minutes to 5 hours".
func RangeInUnit(low, high float64, unit string) string {
	from, to := InUnit(low, unit), InUnit(high, unit)
	if from == to {
		return to
	}
	return strings.TrimSuffix(from, unitOf(to)) + " to " + to
}

// unitOf is the word after the figure, with the space before it.
func unitOf(text string) string { return text[max(strings.LastIndex(text, " "), 0):] }

func unitless(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// Say gives the answer in words: the amount's own, else a list of the lines.
func (w Worked) Say() string {
	if w.Spoken != "" {
		return phrase.Speech(w.Spoken, w.Warned, w.Short)
	}
	parts := make([]string, len(w.Lines))
	for i, line := range w.Lines {
		parts[i] = line.Name + ": " + line.Value()
		if line.Unit == "g" || line.Unit == "ml" {
			parts[i] = line.Value() + " of " + line.Name
		}
	}
	return phrase.Speech(phrase.Sentence(phrase.And(parts)), w.Warned, w.Short)
}

// RoundOff is how far the counted measures are off the line, in percent, + for
// more; 0 for none.
func (l Line) RoundOff() float64 { return math.Round(l.Measured.OffPercent) }
