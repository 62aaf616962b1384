// Package phrase puts words together as they are spoken.
package phrase

import (
	"strconv"
	"strings"
)

// Or joins words as they are spoken: "a, b or c".
func Or(words []string) string { return joined(words, "or") }

// And joins words as they are spoken: "a, b and c".
func And(words []string) string { return joined(words, "and") }

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

// Plural counts a word: "1 hour", "2.5 hours".
func Plural(n float64, word string) string {
	s := strconv.FormatFloat(n, 'f', -1, 64) + " " + word
	if n != 1 {
		s += "s"
	}
	return s
}

// Sentence makes words a sentence: a capital first, an end last.
func Sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return ""
	}
	s = Capital(s)
	if !strings.ContainsAny(s[len(s)-1:], ".!?:") {
		s += "."
	}
	return s
}

// Capital makes the first letter large.
func Capital(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return ""
	}
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

// First cuts a text after its first sentence, for speaking.
func First(s string) string {
	for _, end := range []string{". ", "; ", ": "} {
		if i := strings.Index(s, end); i > 15 {
			s = s[:i]
		}
	}
	return Sentence(s)
}

// Lower makes the first letter small, to go on in a sentence; words in
// capitals stay.
func Lower(s string) string {
	r := []rune(s)
	if len(r) == 0 || len(r) > 1 && strings.ToUpper(string(r[1])) == string(r[1]) && r[1] != ' ' {
		return s
	}
	return strings.ToLower(string(r[:1])) + string(r[1:])
}

// Speech joins sentences, leaving out the empty ones.
func Speech(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p = Sentence(p); p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, " ")
}
