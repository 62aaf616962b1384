package book

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Most words in a sentence. Twenty can be followed with both hands in the
// plaster; what is shown as well may have a few more.
const (
	mostSpoken = 20
	mostShown  = 25
)

// spokenKeys are the texts that are read aloud, with the most words that a
// sentence of each may have.
var spokenKeys = map[string]int{
	"fact.ask": mostSpoken, "fact.how_to_check": mostSpoken, "fact.why": mostSpoken, "option.label": mostSpoken,
	"usual.text": mostSpoken, "usual.better": mostSpoken,
	"problem.title": mostSpoken, "problem.meaning": mostSpoken, "problem.first": mostSpoken,
	"hurry.save": mostSpoken, "hurry.hide": mostSpoken, "hurry.drop": mostSpoken,
	"fallback.try": mostSpoken, "fallback.seek": mostSpoken,
	"cause.title": mostSpoken, "cause.why": mostShown, "sign.because": mostSpoken,
	"guide.order": mostSpoken, "guide.brief": mostSpoken, "guide.never": mostSpoken, "guide.look": mostSpoken, "guide.starts": mostSpoken,
	"doing.say": mostSpoken, "verdict.say": mostSpoken, "steptimer.say": mostSpoken, "steptimer.warning": mostSpoken, "shorter.say": mostSpoken, "shorter.costs": mostSpoken,
	"remedy.say": mostSpoken, "remedy.now": mostSpoken, "remedy.next_time": mostSpoken,
	"caution.text": mostShown,
	"amount.say":   mostSpoken, "warn.text": mostSpoken, "least.text": mostSpoken,
	"emergency.say": mostSpoken, "emergency.do": mostSpoken, "emergency.ask": mostSpoken, "emergency.call": mostSpoken,
	"elsewhere.say": mostSpoken,
}

// longSentences warns about sentences that can't be followed by ear.
func (l *lint) longSentences() {
	for i := range l.book.written {
		w := &l.book.written[i]
		most, ok := spokenKeys[w.key]
		if !ok {
			continue
		}
		text := asSpoken(w.text)
		if wordCount(text) <= most {
			continue
		}
		for _, s := range sentences(text) {
			if n := wordCount(s); n > most {
				l.warn(w.at, "%s", w.of(counted(n, most, s)))
			}
		}
	}
}

// asSpoken puts a figure with its unit where an answer has a {part name}.
func asSpoken(s string) string { return Slot.ReplaceAllString(s, "10 g") }

// sentenceEnd is a mark, what may close after it, and space: "0.5 mm" has none.
var sentenceEnd = regexp.MustCompile(`[.!?]+["')\]”’]*\s+`)

// shortened are words whose full stop ends no sentence.
var shortened = setOf("dr. mr. mrs. st. no. e.g. i.e. approx. ca. ph. eur. vs.")

// sentences splits a text where a sentence ends: at a full stop, question or
// exclamation mark that is followed by space and not by a small letter.
func sentences(s string) []string {
	var out []string
	from := 0
	for _, at := range sentenceEnd.FindAllStringIndex(s, -1) {
		next, _ := utf8.DecodeRuneInString(s[at[1]:])
		fields := strings.Fields(s[from:at[1]])
		last := strings.ToLower(strings.Trim(fields[len(fields)-1], `("'“‘`))
		if unicode.IsLower(next) || shortened[last] {
			continue
		}
		out = append(out, strings.TrimSpace(s[from:at[1]]))
		from = at[1]
	}
	if rest := strings.TrimSpace(s[from:]); rest != "" {
		out = append(out, rest)
	}
	return out
}

// wordCount counts what is spoken as a word: a dash or a bracket alone is none.
func wordCount(s string) int {
	n := 0
	for _, w := range strings.Fields(s) {
		if strings.ContainsFunc(w, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '%' }) {
			n++
		}
	}
	return n
}

// counted says how long a sentence is, and how it begins.
func counted(n, most int, sentence string) string {
	words := strings.Fields(sentence)
	return fmt.Sprintf("a sentence of %d words, and no more than %d are easily heard: %q", n, most, strings.Join(words[:min(5, len(words))], " ")+" ...")
}
