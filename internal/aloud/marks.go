package aloud

import (
	"regexp"
	"strings"
	"unicode"
)

// marks are said in words, wherever they stand.
var marks = map[rune]string{
	'±': "plus or minus", '~': "about", '≈': "about", '≤': "at most", '≥': "at least", '<': "less than", '>': "more than",
	'×': "times", '÷': "divided by", '=': "equals", '+': "plus", '&': "and", '→': "to", '%': "percent", '°': "degrees",
	'²': "squared", '³': "cubed", '#': "number", '№': "number",
	'"': "", '“': "", '”': "", '„': "", '«': "", '»': "", '‹': "", '›': "",
}

// vulgar are the fractions that are one character (The Unicode Standard, Number
// Forms and Latin-1 Supplement).
var vulgar = map[rune]string{
	'½': "1/2", '¼': "1/4", '¾': "3/4", '⅓': "1/3", '⅔': "2/3", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅑': "1/9", '⅒': "1/10",
}

// plain brings figures into one form: ASCII digits and fractions, one kind of
// space, hyphen and apostrophe. Signs of number that nobody writes amounts
// with are left out.
func plain(text string) string {
	var b strings.Builder
	var wasDigit, wasVulgar bool
	for _, r := range text {
		part, isVulgar := vulgar[r]
		isDigit := unicode.Is(unicode.Nd, r)
		if isVulgar && (wasDigit || wasVulgar) || isDigit && wasVulgar { // 2½ is 2 1/2
			b.WriteByte(' ')
		}
		wasDigit, wasVulgar = isDigit, isVulgar
		switch {
		case isVulgar:
			b.WriteString(part)
		case r == '²' || r == '³':
			b.WriteRune(r)
		case isDigit:
			b.WriteByte('0' + value(r))
		case unicode.IsNumber(r) || unicode.IsSpace(r) || unicode.IsControl(r):
			b.WriteByte(' ')
		case r == '−' || r == '‐' || r == '‑':
			b.WriteByte('-')
		case r == '⁄':
			b.WriteByte('/')
		case r == '’' || r == '‘':
			b.WriteByte('\'')
		default:
			b.WriteRune(r)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// value is that of a decimal digit of any script. Each script's ten stand in a
// row from nought (The Unicode Standard, chapter 4, Numeric Value).
func value(r rune) byte {
	for _, row := range unicode.Nd.R16 {
		if rune(row.Lo) <= r && r <= rune(row.Hi) {
			return byte((r - rune(row.Lo)) % 10)
		}
	}
	for _, row := range unicode.Nd.R32 {
		if rune(row.Lo) <= r && r <= rune(row.Hi) {
			return byte((r - rune(row.Lo)) % 10)
		}
	}
	return 0 // not reached: r is in Nd
}

var (
	loose   = regexp.MustCompile(` +([,.;:!?])`)
	doubled = regexp.MustCompile(`([,.;:!?])(?: *,)+`)
	hanging = regexp.MustCompile(`, *([.;:!?])`)
)

// tidy mends the spaces and commas round what was left out.
func tidy(said string) string {
	said = strings.Join(strings.Fields(said), " ")
	said = loose.ReplaceAllString(said, "$1")
	said = doubled.ReplaceAllString(said, "$1")
	said = hanging.ReplaceAllString(said, "$1")
	return strings.Trim(said, ", ")
}
