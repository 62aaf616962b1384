package talk

import (
	"regexp"
	"strings"

	"sparehand/internal/aloud"
)

// numberInWords says a whole number in words that a recogniser knows.
func numberInWords(n int) string { return strings.ReplaceAll(aloud.Cardinal(n), "-", " ") }

var (
	plainWords = regexp.MustCompile(`^[A-Za-z]+(?: [A-Za-z]+)*$`)
	foreign    = regexp.MustCompile(`[0-9/]|[^\x00-\x7f–—…“”’]`) // what is left that has no English words
	unspoken   = regexp.MustCompile(`[^a-z' ]+`)
	edges      = regexp.MustCompile(`(^|\s)'+|'+(\s|$)`)
)

// inWords gives a text as it is spoken, in lower case letters and apostrophes
// only; "" where it can't be, as with words of another language.
func inWords(text string) string {
	if plainWords.MatchString(text) {
		return strings.ToLower(text)
	}
	s := strings.ToLower(strings.ReplaceAll(aloud.Words(strings.TrimSpace(text)), "’", "'"))
	if foreign.MatchString(s) {
		return ""
	}
	s = strings.ReplaceAll(s, "nought point", "zero point") // as answers to a number are expected
	s = edges.ReplaceAllString(unspoken.ReplaceAllString(s, " "), " ")
	return strings.Join(strings.Fields(s), " ")
}
