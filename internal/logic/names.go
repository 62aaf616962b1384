package logic

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/hbollon/go-edlib"
)

// few is how many names a hint lists before a list stops helping.
const few = 8

// kinds is a set of fact kinds.
type kinds uint8

const (
	choices  kinds = 1 << Choice
	numbers  kinds = 1 << Number
	yesNos   kinds = 1 << YesNo
	anyKinds       = choices | numbers | yesNos
)

// nearest returns the name with the least edit distance from word, or "" when
// none is nearer than 3 changes or than the word is long.
func nearest(word string, names []string) string {
	best, found := 3, ""
	for _, name := range names {
		if far := len(word) - len(name); far > 8 || far < -8 {
			continue // in bytes, so with room for other alphabets
		}
		d := edlib.OSADamerauLevenshteinDistance(strings.ToLower(word), strings.ToLower(name))
		if d < best && d < len([]rune(word)) {
			best, found = d, name
		}
	}
	return found
}

// factNames returns the names of the facts of these kinds, in order.
func (v *vocabulary) factNames(want kinds) []string {
	var names []string
	for _, f := range v.facts {
		if want&(1<<f.Kind) != 0 {
			names = append(names, f.Name)
		}
	}
	return names
}

// hint joins a near miss and a list, each only where it helps.
func hint(word string, names []string, list string, quote bool) string {
	show := func(name string) string {
		if quote {
			return strconv.Quote(name)
		}
		return name
	}
	var parts []string
	if near := nearest(word, names); near != "" {
		parts = append(parts, fmt.Sprintf("did you mean %q?", near))
	}
	if len(names) > 0 && len(names) <= few {
		shown := make([]string, len(names))
		for i, name := range names {
			shown[i] = show(name)
		}
		parts = append(parts, list+": "+strings.Join(shown, ", "))
	}
	return strings.Join(parts, " ")
}

// unknownFact returns the message and hint for a name that no fact has.
func (v *vocabulary) unknownFact(name string, want kinds) (message, help string) {
	message = fmt.Sprintf("no fact is called %q", name)
	switch strings.ToLower(name) {
	case "and", "or", "not", "in", "true", "false":
		return fmt.Sprintf("%q is not known", name), "write " + strings.ToLower(name)
	case "yes":
		return message, "write true, or the fact alone"
	case "no":
		return message, "write false, or not and the fact"
	case "nil", "null", "none", "unknown":
		return message, "an unanswered fact makes a condition unknown by itself"
	}
	if want&choices != 0 && nearest(name, v.factNames(want)) == "" && v.isOption(name) {
		return message, fmt.Sprintf("write %q in quotes if it is an answer", name)
	}
	return message, hint(name, v.factNames(want), "facts", false)
}

func (v *vocabulary) isOption(name string) bool {
	for i := range v.facts {
		if _, ok := v.option(FactID(i), name); ok {
			return true
		}
	}
	return false
}

// unknownFunc returns the message and hint for a call of something undeclared.
func (v *vocabulary) unknownFunc(name string) (message, help string) {
	names := make([]string, len(v.funcs))
	for i, f := range v.funcs {
		names[i] = f.Name
	}
	if _, ok := v.names[name]; ok {
		return fmt.Sprintf("%s is a fact and takes no brackets", name), ""
	}
	help = hint(name, names, "functions", false)
	if len(names) == 0 {
		help = "there are no functions here"
	}
	return fmt.Sprintf("no function is called %q", name), help
}
