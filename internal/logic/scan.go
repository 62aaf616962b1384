package logic

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// scan looks over a text before it is parsed: limits, brackets, quotes and
// signs that do not belong. The parser recurses once for each open bracket, so
// the depth has to be known before it starts.
type scan struct {
	text   string
	open   []bracket
	slips  []slip
	faults []Fault
}

// bracket is an opening bracket and its rune offset.
type bracket struct {
	sign rune
	at   int
}

// slip is a sign with a known cure, at a rune offset.
type slip struct {
	at, length int
	cure       string
}

// strays are single signs that have no place in a condition.
const strays = ";?{}#^:@~\\$"

// cures maps mistaken single signs to what was meant.
var cures = map[rune]string{
	'\u201c': `"`, '\u201d': `"`, '\u201e': `"`, '\u2018': `'`, '\u2019': `'`,
	'\u2264': "<=", '\u2265': ">=", '\u2260': "!=", '\u2212': "-", '\u00d7': "*", '\u00f7': "/",
}

// prescan returns the faults that can be seen without parsing, and the slips
// among them that repair can cure.
func prescan(text, what string) (faults []Fault, slips []slip) {
	if len(text) > MaxText {
		return []Fault{{From: 0, To: utf8.RuneCountInString(text),
			Message: fmt.Sprintf("the %s is %d bytes long, the most is %d", what, len(text), MaxText),
			Hint:    "split it"}}, nil
	}
	if !utf8.ValidString(text) {
		at := utf8.RuneCountInString(text[:invalidAt(text)])
		return []Fault{{From: at, To: at + 1, Message: "this is not readable text", Hint: "save the file as utf-8"}}, nil
	}
	if strings.TrimSpace(text) == "" {
		return []Fault{{To: utf8.RuneCountInString(text), Message: fmt.Sprintf("the %s is empty", what)}}, nil
	}
	var room [8]bracket
	s := scan{text: text, open: room[:0]}
	s.run()
	return s.faults, s.slips
}

func invalidAt(text string) int {
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return len(text)
}

func (s *scan) run() {
	at := 0 // rune offset of byte i
	for i := 0; i < len(s.text); {
		r, size := rune(s.text[i]), 1
		if r >= utf8.RuneSelf {
			r, size = utf8.DecodeRuneInString(s.text[i:])
		}
		runes := 1
		switch {
		case r == '"' || r == '\'' || r == '`':
			size, runes = s.quoted(i, at)
		case r == '(' || r == '[':
			s.opening(r, at)
		case r == ')' || r == ']':
			s.closing(r, at)
		case isWord(r) || r == ' ':
		default:
			size = s.sign(r, i, at, size)
			runes = utf8.RuneCountInString(s.text[i : i+size])
		}
		if size == 0 || len(s.open) > MaxDepth {
			return
		}
		i += size
		at += runes
	}
	for _, b := range s.open {
		s.fault(b.at, 1, fmt.Sprintf("the bracket %c is never closed", b.sign), "")
	}
}

func isWord(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '_' || r >= 'A' && r <= 'Z' ||
		r >= utf8.RuneSelf && unicode.IsLetter(r)
}

func (s *scan) fault(at, length int, message, hint string) {
	s.faults = append(s.faults, Fault{From: at, To: at + length, Message: message, Hint: hint})
}

// quoted returns the bytes and runes of the quoted words that start at byte i,
// or 0 when they never end.
func (s *scan) quoted(i, at int) (size, runes int) {
	quote := s.text[i]
	for j := i + 1; j < len(s.text); j++ {
		switch c := s.text[j]; {
		case c == '\\' && quote != '`':
			j++
		case c == quote:
			return j + 1 - i, utf8.RuneCountInString(s.text[i : j+1])
		}
	}
	s.fault(at, utf8.RuneCountInString(s.text[i:]), "the quote is never closed", "")
	return 0, 0
}

func (s *scan) opening(r rune, at int) {
	s.open = append(s.open, bracket{r, at})
	if len(s.open) > MaxDepth {
		s.fault(at, 1, fmt.Sprintf("brackets are more than %d deep", MaxDepth), "")
	}
}

func (s *scan) closing(r rune, at int) {
	want := '('
	if r == ']' {
		want = '['
	}
	if n := len(s.open); n > 0 && s.open[n-1].sign == want {
		s.open = s.open[:n-1]
		return
	}
	s.fault(at, 1, fmt.Sprintf("the bracket %c closes nothing", r), "")
}

// sign looks at one sign or pair of signs and returns its length in bytes.
func (s *scan) sign(r rune, i, at, size int) int {
	rest := s.text[i:]
	for _, good := range [...]string{"==", "!=", "<=", ">=", "&&", "||"} {
		if strings.HasPrefix(rest, good) {
			return 2
		}
	}
	switch {
	case strings.HasPrefix(rest, "<>"):
		return s.slip(at, "<>", "!=", "use != for not equal")
	case strings.HasPrefix(rest, "=<"), strings.HasPrefix(rest, "=>"):
		return s.slip(at, rest[:2], rest[1:2]+"=", fmt.Sprintf("use %s=", rest[1:2]))
	case strings.HasPrefix(rest, "**"), strings.HasPrefix(rest, "//"), strings.HasPrefix(rest, "/*"):
		s.fault(at, 2, fmt.Sprintf("%q is not used here", rest[:2]), "")
		return 2
	case r == '=':
		return s.slip(at, "=", "==", "use == to compare")
	case r == '&':
		return s.slip(at, "&", "&&", "use and")
	case r == '|':
		return s.slip(at, "|", "||", "use or")
	case cures[r] != "":
		return s.slip(at, rest[:size], cures[r], "use "+cures[r])
	case r == '%' || r == '\u00b0':
		s.fault(at, 1, fmt.Sprintf("%q is not used here", string(r)), "write the number alone, without a unit")
	case strings.ContainsRune(strays, r):
		s.fault(at, 1, fmt.Sprintf("%q is not used here", string(r)), "")
	case r > unicode.MaxASCII && !unicode.IsSpace(r) || r < ' ' && !unicode.IsSpace(r):
		s.fault(at, 1, fmt.Sprintf("%q is not used here", string(r)), "")
	}
	return size
}

func (s *scan) slip(at int, wrong, cure, hint string) int {
	n := utf8.RuneCountInString(wrong)
	s.slips = append(s.slips, slip{at, n, cure})
	s.fault(at, n, fmt.Sprintf("%q is not used here", wrong), hint)
	return len(wrong)
}

// repair cures the slips without moving anything else: a cure longer than the
// slip takes the place of a space beside it. It reports false where there is
// no room.
func repair(text string, slips []slip) (string, bool) {
	runes := []rune(text)
	for _, s := range slips {
		cure := []rune(s.cure)
		at, end := s.at, s.at+s.length
		switch extra := len(cure) - s.length; {
		case extra == 0:
		case extra == 1 && end < len(runes) && runes[end] == ' ':
		case extra == 1 && at > 0 && runes[at-1] == ' ':
			at--
		default:
			return "", false
		}
		copy(runes[at:], cure)
	}
	return string(runes), true
}
