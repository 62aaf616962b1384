package hear

import (
	"math"
	"strconv"
	"strings"
)

var smallNumbers = map[string]float64{
	"zero": 0, "nought": 0, "nil": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "twelv": 12, "thirteen": 13, "fourteen": 14,
	"fifteen": 15, "fivteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}

var tensNumbers = map[string]float64{
	"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
	"ninety": 90, "ninty": 90,
}

var fractionWords = map[string]float64{
	"half": 0.5, "halves": 0.5, "quarter": 0.25, "quarters": 0.25, "third": 1.0 / 3, "thirds": 1.0 / 3,
	"eighth": 0.125, "eighths": 0.125, "eights": 0.125, "sixteenth": 1.0 / 16, "sixteenths": 1.0 / 16,
}

func isNumberWord(word string) bool {
	_, small := smallNumbers[word]
	_, tens := tensNumbers[word]
	_, part := fractionWords[word]
	return small || tens || part || word == "hundred" || word == "thousand" || word == "dozen" || word == "couple"
}

// numeral is a number read from tokens, up to but not including token end.
type numeral struct {
	value float64
	end   int
}

// readNumber reads the number that begins at token i: digits, decimals,
// fractions, words and mixtures such as "two and three quarters".
func readNumber(tokens []token, i int) (numeral, bool) {
	sign := 1.0
	if word := wordAt(tokens, i); word == "minus" || word == "negative" {
		sign, i = -1, i+1
	}
	n, ok := readUnsigned(tokens, i)
	if !ok || math.IsNaN(n.value) || n.value > 1e9 {
		return numeral{}, false
	}
	n.value *= sign
	return n, true
}

func readUnsigned(tokens []token, i int) (numeral, bool) {
	if n, ok := readPart(tokens, i); ok {
		return times(tokens, n), true
	}
	n, ok := readWhole(tokens, i)
	if !ok {
		return numeral{}, false
	}
	n = times(tokens, n)
	part, ok := readAnd(tokens, n.end)
	switch {
	case !ok:
		return n, true
	case wordAt(tokens, n.end-1) == "dozen":
		return numeral{n.value + 12*part.value, part.end}, true // "a dozen and a half"
	}
	return times(tokens, numeral{n.value + part.value, part.end}), true // "one and a half dozen"
}

// times takes "dozen" after a number: "half a dozen", "two dozen".
func times(tokens []token, n numeral) numeral {
	end := n.end
	if isOneOf(wordAt(tokens, end), "a", "an", "of") {
		end++
	}
	switch wordAt(tokens, end) {
	case "dozen":
		return numeral{n.value * 12, end + 1}
	case "hundred":
		return numeral{n.value * 100, end + 1}
	case "thousand":
		return numeral{n.value * 1000, end + 1}
	}
	return n
}

// readAnd reads the part after a whole number: "and a half", "1/2", "point five".
func readAnd(tokens []token, i int) (numeral, bool) {
	if i > 0 && tokens[i-1].ends {
		return numeral{}, false
	}
	if wordAt(tokens, i) == "and" {
		return readPart(tokens, i+1)
	}
	if wordAt(tokens, i) == "point" {
		return readDecimals(tokens, i+1)
	}
	if i < len(tokens) && tokens[i].digits && strings.Contains(tokens[i].word, "/") {
		return readPart(tokens, i)
	}
	return numeral{}, false
}

func readDecimals(tokens []token, i int) (numeral, bool) {
	digits := ""
	for ; i < len(tokens) && len(digits) < 6; i++ {
		if n, ok := smallNumbers[tokens[i].word]; ok && n < 10 {
			digits += strconv.Itoa(int(n))
		} else if tokens[i].digits && onlyDigits(tokens[i].word) {
			digits += tokens[i].word
		} else {
			break
		}
	}
	value, err := strconv.ParseFloat("0."+digits, 64)
	return numeral{value, i}, err == nil && digits != ""
}

func onlyDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// readPart reads a fraction: "1/2", "half", "a half", "a quarter", "three quarters", "one third".
func readPart(tokens []token, i int) (numeral, bool) {
	word := wordAt(tokens, i)
	if i < len(tokens) && tokens[i].digits && strings.Contains(word, "/") {
		value, ok := parseFraction(word)
		return numeral{value, i + 1}, ok
	}
	if part, ok := fractionWords[word]; ok && word != "third" && word != "eighth" {
		return numeral{part, i + 1}, true
	}
	count, ok := smallNumbers[word]
	if isOneOf(word, "a", "an") {
		count, ok = 1, true
	}
	if i < len(tokens) && onlyDigits(word) {
		count, _ = strconv.ParseFloat(word, 64)
		ok = true
	}
	part, isPart := fractionWords[wordAt(tokens, i+1)]
	if !ok || !isPart || count == 0 || count > 15 {
		return numeral{}, false
	}
	return numeral{count * part, i + 2}, true
}

func parseFraction(text string) (float64, bool) {
	over, under, _ := strings.Cut(text, "/")
	a, err1 := strconv.ParseFloat(over, 64)
	b, err2 := strconv.ParseFloat(under, 64)
	if err1 != nil || err2 != nil || b == 0 {
		return 0, false
	}
	return a / b, true
}

// readWhole reads digits or number words without a fraction.
func readWhole(tokens []token, i int) (numeral, bool) {
	if i < len(tokens) && tokens[i].digits {
		value, ok := parseDigits(tokens[i].word)
		return numeral{value, i + 1}, ok
	}
	word, next := wordAt(tokens, i), wordAt(tokens, i+1)
	switch {
	case word == "couple":
		return numeral{2, i + 1}, true
	case word == "dozen":
		return numeral{12, i + 1}, true
	case isOneOf(word, "a", "an") && next == "couple":
		return numeral{2, i + 2}, true
	case isOneOf(word, "a", "an") && next == "dozen":
		return numeral{12, i + 2}, true
	case isOneOf(word, "a", "an") && isOneOf(next, "hundred", "thousand"):
		return readCardinal(tokens, i+1, 1)
	case isHundred(tokens, i):
		return readCardinal(tokens, i, 1)
	}
	return readCardinal(tokens, i, 0)
}

// isHundred reports whether the "hundred" at token i is a hundred without its
// article: "hundred and ten by eighty", but not "a few hundred".
func isHundred(tokens []token, i int) bool {
	if wordAt(tokens, i) != "hundred" || i+1 >= len(tokens) || tokens[i].ends || isOneOf(wordAt(tokens, i-1), "few", "several", "many", "some") {
		return false
	}
	next := wordAt(tokens, i+1)
	return bys[next] || isUnitWord(next) || cardinalFollows(tokens, i+1) || next == "and" && cardinalFollows(tokens, i+2)
}

// readCardinal sums number words: "two hundred and fifty". pending is what an
// article before "hundred" stands for.
func readCardinal(tokens []token, i int, pending float64) (numeral, bool) {
	total, current, read := 0.0, pending, pending > 0
	start := i
	for ; i < len(tokens); i++ {
		word := tokens[i].word
		if i > start && tokens[i-1].ends {
			break
		}
		if n, ok := smallNumbers[word]; ok && fitsAfter(current, n, read) {
			current, read = current+n, true
		} else if n, ok := tensNumbers[word]; ok && fitsAfter(current, n, read) {
			current, read = current+n, true
		} else if word == "hundred" && current > 0 && current < 100 {
			current *= 100
		} else if word == "thousand" && current > 0 {
			total, current = total+current*1000, 0
		} else if word != "and" || current < 100 && total == 0 || !cardinalFollows(tokens, i+1) {
			break
		}
	}
	return numeral{total + current, i}, read
}

// fitsAfter: "twenty five" is one number, "five twenty" and "six four" are not.
func fitsAfter(current, n float64, read bool) bool {
	if !read || current == 0 {
		return true
	}
	unit := math.Mod(current, 100)
	return n > 0 && n < 10 && unit >= 20 && math.Mod(unit, 10) == 0 || n < 100 && unit == 0
}

func cardinalFollows(tokens []token, i int) bool {
	word := wordAt(tokens, i)
	_, small := smallNumbers[word]
	_, tens := tensNumbers[word]
	_, part := fractionWords[wordAt(tokens, i+1)]
	return (small || tens) && !part
}

// parseDigits reads 250, 2.5, 1,000 and the comma of 2,5.
func parseDigits(text string) (float64, bool) {
	if strings.Contains(text, "/") {
		return 0, false
	}
	if head, tail, ok := strings.Cut(text, ","); ok && !strings.Contains(tail, ",") && len(tail) != 3 && !strings.Contains(text, ".") {
		text = head + "." + tail
	}
	value, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64)
	return value, err == nil && value <= 1e9
}

func wordAt(tokens []token, i int) string {
	if i < 0 || i >= len(tokens) {
		return ""
	}
	return tokens[i].word
}

func isOneOf(word string, list ...string) bool {
	for _, w := range list {
		if word == w {
			return true
		}
	}
	return false
}
