package aloud

import (
	"strconv"
	"strings"
)

var (
	small = []string{
		"nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
		"thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
	}
	tens   = []string{"", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}
	scales = []struct {
		size int
		word string
	}{{1e9, "billion"}, {1e6, "million"}, {1e3, "thousand"}, {100, "hundred"}}

	// The ordinals that are more than a "th" at the end.
	ordinals = map[string]string{
		"one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth", "twelve": "twelfth",
	}
)

// longest is the most digits that are said as one number: below a million
// million. A longer one is said digit by digit.
const longest = 12

// Cardinal says a whole number from 0 to below a million million: "one thousand
// and five". Below zero it is "minus".
func Cardinal(n int) string {
	if n < 0 {
		return "minus " + Cardinal(-n)
	}
	if n < len(small) {
		return small[n]
	}
	if n < 100 {
		if n%10 == 0 {
			return tens[n/10]
		}
		return tens[n/10] + "-" + small[n%10]
	}
	for _, s := range scales {
		if n < s.size {
			continue
		}
		words, rest := Cardinal(n/s.size)+" "+s.word, n%s.size
		switch {
		case rest == 0:
			return words
		case rest < 100:
			return words + " and " + Cardinal(rest)
		}
		return words + " " + Cardinal(rest)
	}
	return "" // not reached: n is 100 or more
}

// ordinal says a place in a row: "twenty-first".
func ordinal(n int) string {
	words := Cardinal(n)
	at := strings.LastIndexAny(words, " -") + 1
	last := words[at:]
	if o, ok := ordinals[last]; ok {
		return words[:at] + o
	}
	if root, ok := strings.CutSuffix(last, "y"); ok {
		last = root + "ie"
	}
	return words[:at] + last + "th"
}

// whole says digits as one number, or one by one where they are no amount: a
// row that begins with nought, or a very long one.
func whole(digits string) string {
	if n, err := strconv.Atoi(digits); err == nil && len(digits) <= longest && (digits[0] != '0' || len(digits) == 1) {
		return Cardinal(n)
	}
	return oneByOne(digits)
}

// oneByOne says digits singly, as after a point.
func oneByOne(digits string) string {
	words := make([]string, len(digits))
	for i, d := range digits {
		words[i] = small[d-'0']
	}
	return strings.Join(words, " ")
}
