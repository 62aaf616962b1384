package talk

import (
	"regexp"
	"strconv"
	"strings"
)

var (
	upToTwenty = strings.Fields(`zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen
seventeen eighteen nineteen`)
	tens = strings.Fields("twenty thirty forty fifty sixty seventy eighty ninety")
)

// numberInWords says a whole number from 0 to 999,999.
func numberInWords(n int) string {
	switch {
	case n < 20:
		return upToTwenty[n]
	case n < 100:
		return strings.TrimSuffix(tens[n/10-2]+" "+upToTwenty[n%10], " zero")
	case n < 1000 && n%100 == 0:
		return upToTwenty[n/100] + " hundred"
	case n < 1000:
		return upToTwenty[n/100] + " hundred and " + numberInWords(n%100)
	case n%1000 == 0:
		return numberInWords(n/1000) + " thousand"
	case n%1000 < 100:
		return numberInWords(n/1000) + " thousand and " + numberInWords(n%1000)
	}
	return numberInWords(n/1000) + " thousand " + numberInWords(n%1000)
}

var (
	thousands  = regexp.MustCompile(`(\d),(\d{3})\b`)
	andPart    = regexp.MustCompile(`(\d) ?(½|\b1/2\b|\b1/4\b|\b3/4\b)`)
	figures    = regexp.MustCompile(`\d+(?:\.\d+)?`)
	signs      = strings.NewReplacer("’", "'", "%", " percent ", "°C", " degrees ", "°", " degrees ", "&", " and ", "½", " a half ", "1/2", " a half ", "1/4", " a quarter ", "3/4", " three quarters ")
	shortened  = regexp.MustCompile(`(\d)\s*(mm|cm|ml|g)\b`)
	written    = map[string]string{"mm": "millimetres", "cm": "centimetres", "ml": "millilitres", "g": "grams"}
	plainWords = regexp.MustCompile(`^[A-Za-z]+(?: [A-Za-z]+)*$`)
	foreign    = regexp.MustCompile(`[0-9/]|[^\x00-\x7f–—…“”]`) // what is left that has no English words
	unspoken   = regexp.MustCompile(`[^a-z' ]+`)
	edges      = regexp.MustCompile(`(^|\s)'+|'+(\s|$)`)
)

// inWords gives a text as it is spoken, in lower case letters and apostrophes
// only; "" where it can't be, as with words of another language.
func inWords(text string) string {
	if plainWords.MatchString(text) {
		return strings.ToLower(text)
	}
	s := thousands.ReplaceAllString(andPart.ReplaceAllString(strings.TrimSpace(text), "$1 and $2"), "$1$2")
	s = signs.Replace(s)
	s = shortened.ReplaceAllStringFunc(s, func(m string) string {
		found := shortened.FindStringSubmatch(m)
		return found[1] + " " + written[found[2]]
	})
	s = strings.ToLower(figures.ReplaceAllStringFunc(s, figureInWords))
	if foreign.MatchString(s) {
		return ""
	}
	s = edges.ReplaceAllString(unspoken.ReplaceAllString(s, " "), " ")
	return strings.Join(strings.Fields(s), " ")
}

// figureInWords says a figure; as it is where it is too large.
func figureInWords(figure string) string {
	whole, part, decimal := strings.Cut(figure, ".")
	n, err := strconv.Atoi(whole)
	if err != nil || n >= 1e6 {
		return figure
	}
	say := " " + numberInWords(n) + " "
	if decimal {
		say += "point "
		for _, d := range part {
			say += upToTwenty[d-'0'] + " "
		}
	}
	return say
}
