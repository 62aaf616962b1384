// Package aloud turns a reply into what a person says, for a speech
// synthesiser: figures and units in words, British English.
package aloud

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"sparehand/internal/phrase"
)

// Words says a text: "2 1/2 tsp" is "two and a half teaspoons". No figure is
// left, brackets become commas and quotation marks are dropped. Words of what
// it gave changes nothing more.
func Words(text string) string {
	s := speaker{rest: mid.ReplaceAllString(plain(text), "${1}number $2")}
	for s.rest != "" {
		if digit(s.rest[0]) || point(s.rest) && !s.afterFigure {
			s.figure()
		} else {
			s.mark()
		}
	}
	return tidy(s.said.String())
}

// speaker goes through a text once.
type speaker struct {
	rest        string
	said        strings.Builder
	last        rune // taken from the text; 0 at the beginning
	afterFigure bool
}

var (
	// mid is a number sign within a sentence: at its beginning "No." is an answer.
	mid = regexp.MustCompile(`([a-z,] )No\. ?(\d)`)

	upTo  = regexp.MustCompile(`^(?:-| - | ?[–—] ?|:)([A-Z]?\.?\d)`)
	times = regexp.MustCompile(`^ ?[x×*] ?(\.?\d)`)
	over  = regexp.MustCompile(`^ ?/ ?(\d)`)
	area  = regexp.MustCompile(`^(?:(?:mm|cm|m)[²³23]|° ?[CF])`)
)

// figure says the number at hand, with its unit.
func (s *speaker) figure() {
	if s.said.Len() > 0 && (unicode.IsLetter(s.last) || s.last == '.') {
		s.said.WriteByte(' ') // M1 is "M one"
	}
	before := s.said.String()
	said, used := momentAt(s.rest, before)
	if used == 0 {
		n, digits := numberAt(s.rest)
		said, used = n.withUnit(s.rest[digits:], before)
		used += digits
	}
	s.take(begun(said, before), used)
	for _, sep := range []struct {
		at   *regexp.Regexp
		word string
	}{{upTo, "to"}, {times, "by"}, {over, "over"}} {
		if m := sep.at.FindStringSubmatch(s.rest); m != nil {
			s.take(" "+sep.word+" ", len(m[0])-len(m[1]))
			return
		}
	}
	if wordGoesOn(s.rest) {
		s.said.WriteByte(' ') // 3D is "three D"
	}
}

// begun gives a sentence that begins with a figure its capital: without,
// espeak-ng makes no pause before it.
func begun(said, before string) string {
	if before = strings.TrimRight(before, " "); before == "" || strings.ContainsAny(before[len(before)-1:], ".!?") {
		return phrase.Capital(said)
	}
	return said
}

// withUnit says the number with the unit after it, and how long that is in the
// text. After an article the unit stands in the singular: "a three millimetre
// edge".
func (n number) withUnit(rest, before string) (said string, used int) {
	u, hyphen, used := unitAt(rest)
	if used == 0 {
		u, used = spelledAt(rest)
	}
	if !u.read && !readAfter(rest) {
		n = n.counted()
	}
	before = " " + strings.ToLower(before)
	article := strings.HasSuffix(before, " a ") || strings.HasSuffix(before, " an ")
	switch {
	case used == 0:
		return n.words(), 0
	case hyphen:
		return n.words() + "-" + u.one, used
	case n.part() && article:
		return parts(n.num, n.den) + " " + u.one, used
	case n.part():
		return n.of(u.one), used
	case n.single() || article:
		return n.words() + " " + u.one, used
	}
	return n.words() + " " + u.many, used
}

// mark says what is no figure.
func (s *speaker) mark() {
	r, size := utf8.DecodeRuneInString(s.rest)
	next := s.rest[size:]
	word, isMark := marks[r]
	if !unicode.IsLetter(s.last) && area.MatchString(s.rest) {
		if u, _, used := unitAt(s.rest); used > 0 {
			s.take(u.many, used)
			return
		}
	}
	switch {
	case isMark:
		s.take(" "+word+" ", size)
	case r == '-' && next != "" && (digit(next[0]) || point(next)) && !unicode.IsLetter(s.last):
		s.take("minus ", size)
	case strings.ContainsRune("([{", r):
		s.take(", ", size)
	case strings.ContainsRune(")]}", r):
		s.take(", ", size)
	case r == '\'' && !(unicode.IsLetter(s.last) && wordGoesOn(next)):
		s.take("", size)
	default:
		s.take(string(r), size)
	}
}

// take says words for the next bytes of the text.
func (s *speaker) take(words string, bytes int) {
	s.afterFigure = digit(s.rest[0])
	s.last, _ = utf8.DecodeLastRuneInString(s.rest[:bytes])
	s.said.WriteString(words)
	s.rest = s.rest[bytes:]
}

// point reports whether text begins with a decimal without its nought.
func point(text string) bool { return len(text) > 1 && text[0] == '.' && digit(text[1]) }

// wordGoesOn reports whether text begins with a letter.
func wordGoesOn(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return unicode.IsLetter(r)
}
