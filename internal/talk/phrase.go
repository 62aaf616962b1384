package talk

import (
	"math"
	"strconv"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// anyOf joins words as they are spoken: "a, b or c".
func anyOf(words []string) string { return joined(words, "or") }

// allOf joins words as they are spoken: "a, b and c".
func allOf(words []string) string { return joined(words, "and") }

func joined(words []string, last string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " " + last + " " + words[n-1]
	}
}

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
	case m <= 1:
		return "a minute"
	case m < 90:
		return strconv.FormatFloat(math.Round(m), 'f', -1, 64) + " minutes"
	case m < 36*60:
		return "about " + plural(math.Round(m/60), "hour")
	default:
		return "about " + plural(math.Round(m/60/24), "day")
	}
}

func plural(n float64, word string) string {
	s := strconv.FormatFloat(n, 'f', -1, 64) + " " + word
	if n != 1 {
		s += "s"
	}
	return s
}

// sentence makes words a sentence: a capital first, an end last.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return ""
	}
	r := []rune(s)
	s = strings.ToUpper(string(r[:1])) + string(r[1:])
	if !strings.ContainsAny(s[len(s)-1:], ".!?:") {
		s += "."
	}
	return s
}

// firstSentence cuts a text after its first sentence, for speaking.
func firstSentence(s string) string {
	for _, end := range []string{". ", "; ", ": "} {
		if i := strings.Index(s, end); i > 15 {
			s = s[:i]
		}
	}
	return sentence(s)
}

// lower makes the first letter small, to go on in a sentence; words in
// capitals stay.
func lower(s string) string {
	r := []rune(s)
	if len(r) > 1 && strings.ToUpper(string(r[1])) == string(r[1]) && r[1] != ' ' {
		return s
	}
	return strings.ToLower(string(r[:1])) + string(r[1:])
}

// speech joins sentences, leaving out the empty ones.
func speech(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p = sentence(p); p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, " ")
}
