package hear

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/kljensen/snowball/english"
)

// token is one word, number or sign of an utterance. Contractions are spread:
// "won't" is will and not.
type token struct {
	word     string // folded and in the book's spelling
	stem     string
	from, to int  // bytes of the folded text
	digits   bool // written with digits
	slip     bool // put here for a slip
	known    bool // a word of the book or of everyday English
	first    byte // of the slip's own word
	ends     bool // a comma, a stop or the like follows
}

// maxTokens bounds the work that one utterance can cost.
const maxTokens = 400

// tokenise cuts a folded text into tokens. stem is given each word.
func tokenise(text string, stem func(string) string) []token {
	s := scanner{text: text, stem: stem}
	for s.at < len(text) && len(s.tokens) < maxTokens {
		s.next()
	}
	return s.tokens
}

type scanner struct {
	text   string
	at     int
	tokens []token
	stem   func(string) string
}

func (s *scanner) next() {
	r, size := utf8.DecodeRuneInString(s.text[s.at:])
	switch {
	case digitAt(s.text, s.at) || r == '.' && digitAt(s.text, s.at+1):
		s.number()
	case unicode.IsLetter(r):
		s.word()
	case r == '%':
		s.add("percent", s.at, s.at+1)
	case (r == '"' || r == '\'') && s.afterNumber():
		s.mark(size)
	case r == '-' || r == '+':
		s.dash(size)
	case strings.ContainsRune(".,;:!?()\n", r):
		s.clauseEnds()
		s.at += size
	case r == '&':
		s.add("and", s.at, s.at+1)
	default:
		s.at += size
	}
}

func digitAt(text string, i int) bool {
	return i < len(text) && text[i] >= '0' && text[i] <= '9'
}

// afterNumber reports whether a number ends right here, as in 6".
func (s *scanner) afterNumber() bool {
	n := len(s.tokens)
	return n > 0 && s.tokens[n-1].digits && strings.TrimSpace(s.text[s.tokens[n-1].to:s.at]) == ""
}

func (s *scanner) mark(size int) {
	if s.text[s.at] == '"' || strings.HasPrefix(s.text[s.at:], "''") {
		from := s.at
		s.add("inch", from, from+1)
		s.at = from + len(s.text[from:]) - len(strings.TrimLeft(s.text[from:], `"'`))
		return
	}
	s.add("foot", s.at, s.at+size)
}

// dash is a minus before a number, "to" between two, else a gap.
func (s *scanner) dash(size int) {
	from := s.at
	s.at += size
	if s.text[from] == '+' || !digitAt(s.text, s.at) {
		return
	}
	if from > 0 && !strings.ContainsRune(" (,", rune(s.text[from-1])) {
		if n := len(s.tokens); n > 0 && s.tokens[n-1].digits {
			s.add("to", from, s.at)
		}
		return
	}
	if n := len(s.tokens); n > 0 && s.tokens[n-1].digits && strings.HasSuffix(s.text[:from], " ") {
		return // "6 -4" is more likely a list
	}
	s.add("minus", from, s.at)
}

func (s *scanner) clauseEnds() {
	if n := len(s.tokens); n > 0 {
		s.tokens[n-1].ends = true
	}
}

// number takes digits with a decimal point, thousands commas or a fraction
// bar, and an ordinal ending.
func (s *scanner) number() {
	from := s.at
	for s.at < len(s.text) && (digitAt(s.text, s.at) || strings.IndexByte(".,/", s.text[s.at]) >= 0 && digitAt(s.text, s.at+1)) {
		s.at++
	}
	s.power10()
	to := s.at
	for _, ending := range []string{"st", "nd", "rd", "th"} {
		if strings.HasPrefix(s.text[to:], ending) && !letterAt(s.text, to+2) {
			to += 2
			s.add(s.text[from:to], from, to)
			return
		}
	}
	s.add(s.text[from:to], from, to)
	s.tokens[len(s.tokens)-1].digits = true
}

// power10 takes the exponent of "1e3" into the number (the notation of ISO
// 6093), so that no 3 is left over.
func (s *scanner) power10() {
	at := s.at + 1
	if s.at >= len(s.text) || s.text[s.at] != 'e' || !digitAt(s.text, at) {
		return
	}
	for digitAt(s.text, at) {
		at++
	}
	if !letterAt(s.text, at) {
		s.at = at
	}
}

func letterAt(text string, i int) bool {
	if i >= len(text) {
		return false
	}
	r, _ := utf8.DecodeRuneInString(text[i:])
	return unicode.IsLetter(r)
}

func (s *scanner) word() {
	from := s.at
	for s.at < len(s.text) {
		r, size := utf8.DecodeRuneInString(s.text[s.at:])
		if !unicode.IsLetter(r) && (r != '\'' || !letterAt(s.text, s.at+size)) {
			break
		}
		s.at += size
	}
	s.power(s.text[from:s.at])
	to := s.at
	word := s.text[from:to]
	if whole, ok := contractions[word]; ok {
		for _, w := range whole {
			s.add(w, from, to)
		}
		return
	}
	head, tail := spread(word)
	if head != "" {
		s.add(head, from, to)
	}
	if tail != "" {
		s.add(tail, from, to)
	}
}

// power takes the figure of "cm2" and "cm3" into the unit.
func (s *scanner) power(word string) {
	switch word {
	case "mm", "cm", "in", "m":
		if s.at < len(s.text) && (s.text[s.at] == '2' || s.text[s.at] == '3') && !digitAt(s.text, s.at+1) && !letterAt(s.text, s.at+1) {
			s.at++
		}
	}
}

func (s *scanner) add(word string, from, to int) {
	word = british(word)
	s.tokens = append(s.tokens, token{word: word, stem: s.stem(word), from: from, to: to})
	s.at = to
}

// spread opens a contraction: "isn't" to "is not", "it's" to "it is".
func spread(word string) (head, tail string) {
	i := strings.IndexByte(word, '\'')
	if i < 0 {
		return word, ""
	}
	head, tail = word[:i], strings.ReplaceAll(word[i+1:], "'", "")
	switch {
	case tail == "t" && strings.HasSuffix(head, "n") && len(head) > 2:
		return head[:len(head)-1], "not"
	case tail == "s" && isPronoun(head):
		return head, "is"
	case tail == "s":
		return head, ""
	}
	if full, ok := shortVerbs[tail]; ok && head != "" {
		return head, full
	}
	return strings.ReplaceAll(word, "'", ""), ""
}

func isPronoun(word string) bool {
	switch word {
	case "it", "that", "he", "she", "there", "what", "where", "how", "this", "who", "everything", "nothing":
		return true
	}
	return false
}

var shortVerbs = map[string]string{"m": "am", "re": "are", "ve": "have", "ll": "will", "d": "would"}

// contractions holds those that the rules of spread do not reach, and those
// written without their apostrophe.
var contractions = map[string][]string{
	"won't": {"will", "not"}, "wont": {"will", "not"}, "can't": {"can", "not"}, "cant": {"can", "not"},
	"cannot": {"can", "not"}, "ain't": {"is", "not"}, "aint": {"is", "not"}, "shan't": {"shall", "not"},
	"dont": {"do", "not"}, "doesnt": {"does", "not"}, "didnt": {"did", "not"}, "isnt": {"is", "not"},
	"wasnt": {"was", "not"}, "arent": {"are", "not"}, "werent": {"were", "not"}, "hasnt": {"has", "not"},
	"havent": {"have", "not"}, "hadnt": {"had", "not"}, "couldnt": {"could", "not"}, "wouldnt": {"would", "not"},
	"shouldnt": {"should", "not"}, "let's": {"let", "us"}, "its": {"it"}, "im": {"i", "am"}, "ive": {"i", "have"},
	"theres": {"there", "is"}, "thats": {"that", "is"}, "dunno": {"do", "not", "know"}, "gonna": {"going", "to"},
	"til": {"till"}, "o'clock": {"clock"}, "whats": {"what", "is"}, "hes": {"he", "is"}, "shes": {"she", "is"},
}

// stemOf gives the Porter 2 stem (snowballstem.org, English), with the few
// strong verbs that the trade leans on brought to one form.
func stemOf(word string) string {
	if s, ok := strong[word]; ok {
		return s
	}
	if len(word) > 40 {
		return word
	}
	return english.Stem(word, true)
}

var strong = map[string]string{
	"burnt": "burn", "broke": "break", "broken": "break", "stuck": "stick", "tore": "tear", "torn": "tear",
	"shrunk": "shrink", "shrank": "shrink", "shrunken": "shrink", "ran": "run", "froze": "freez", "frozen": "freez",
	"fell": "fall", "fallen": "fall", "came": "come", "went": "go", "gone": "go", "bled": "bleed", "swollen": "swell",
	"lost": "lose", "left": "leav", "kept": "keep", "dried": "dri", "drying": "dri", "melted": "melt", "molten": "melt",
	"swallowed": "swallow", "spilt": "spill", "leaves": "leav", "leaving": "leav", "leave": "leav", "felt": "felt",
	"knives": "knife", "halves": "half", "dyed": "dye", "dyeing": "dye", "dying": "dying", "died": "died", "dies": "died",
	"fired": "fired", "firing": "fired", "news": "news", "humidity": "humidity",
}
