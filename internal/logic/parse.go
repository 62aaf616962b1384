package logic

import (
	"errors"
	"fmt"
	"strings"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
)

// newConfig returns the one expr configuration that a Builder parses and
// compiles with. Making one for each text would cost more than the parsing.
func newConfig(facts []Fact, funcs []Func) *conf.Config {
	env := make(map[string]any, len(facts))
	for _, f := range facts {
		env[f.Name] = [...]any{Choice: "", Number: 0.0, YesNo: false}[f.Kind]
	}
	c := conf.New(env)
	c.MaxNodes = MaxNodes
	c.DisableIfOperator = true
	for name := range c.Builtins {
		c.Disabled[name] = true
	}
	clear(c.Builtins)
	addFunctions(c, funcs)
	return c
}

// parse returns the tree of a text that prescan found nothing wrong with.
func parse(text string, c *conf.Config) (n ast.Node, err error) {
	defer func() {
		if r := recover(); r != nil {
			n, err = nil, fmt.Errorf("parser stopped: %v", r)
		}
	}()
	tree, err := parser.ParseWithConfig(text, c)
	if err != nil {
		return nil, err
	}
	if tree.Node == nil {
		return nil, errors.New("parser gave no tree")
	}
	return tree.Node, nil
}

// syntaxFault puts a parser's error into plain words.
func syntaxFault(text string, err error) Fault {
	runes := []rune(text)
	var fe *file.Error
	if !errors.As(err, &fe) {
		return Fault{0, len(runes), "this cannot be read", ""}
	}
	from := min(max(fe.From, 0), len(runes))
	to := min(max(fe.To, from), len(runes))
	switch {
	case strings.Contains(fe.Message, "maximum allowed nodes"):
		return Fault{0, len(runes), fmt.Sprintf("there are more than %d names, numbers and signs in this", MaxNodes), "split it"}
	case strings.Contains(fe.Message, "bad number syntax"):
		from = wordStart(runes, from)
		to = wordEnd(runes, to)
		return Fault{from, to, fmt.Sprintf("%q is not a number", string(runes[from:to])), "write the number alone, without a unit"}
	case strings.Contains(fe.Message, "literal"):
		from, to = numberBefore(runes, from)
		return Fault{from, to, fmt.Sprintf("%q is not a number that can be used", string(runes[from:to])), ""}
	case strings.Contains(fe.Message, "char escape"):
		return Fault{from, to, "the \\ in these words is not followed by something known", "use \\\\ for the sign itself"}
	case strings.Contains(fe.Message, "EOF"), strings.Contains(fe.Message, "end of expression"):
		return endFault(runes)
	}
	return tokenFault(runes, from, to)
}

// numberBefore returns the span of the number that ends at or before at: the
// parser has already stepped past it when it complains.
func numberBefore(runes []rune, at int) (from, to int) {
	to = at
	if to >= len(runes)-1 && len(runes) > 0 && isWord(runes[len(runes)-1]) {
		to = len(runes)
	}
	for to > 0 && !isWord(runes[to-1]) {
		to--
	}
	from = to
	for from > 0 && (isWord(runes[from-1]) || strings.ContainsRune(".+", runes[from-1])) {
		from--
	}
	return from, to
}

func wordStart(runes []rune, at int) int {
	for at > 0 && (isWord(runes[at-1]) || runes[at-1] == '.') {
		at--
	}
	return at
}

func wordEnd(runes []rune, at int) int {
	for at < len(runes) && isWord(runes[at]) {
		at++
	}
	return at
}

// endFault points at the last word or sign of a text that ends too early.
func endFault(runes []rune) Fault {
	to := len(runes)
	for to > 0 && strings.ContainsRune(" \t\r\n", runes[to-1]) {
		to--
	}
	from := wordStart(runes, to)
	for from == to && from > 0 || from > 0 && from < to && !isWord(runes[from]) && strings.ContainsRune("=!<>&|", runes[from-1]) {
		from--
	}
	last := string(runes[from:to])
	return Fault{from, to, fmt.Sprintf("it ends after %q", last), fmt.Sprintf("write what comes after %q, or take it out", last)}
}

// tokenFault is about a word or sign in the wrong place.
func tokenFault(runes []rune, from, to int) Fault {
	token := string(runes[from:to])
	f := Fault{from, to, fmt.Sprintf("%q is not expected here", token), ""}
	if to <= from {
		return Fault{0, len(runes), "this cannot be read", ""}
	}
	before := strings.TrimRight(string(runes[:from]), " \t\r\n")
	if before == "" {
		return f
	}
	last := []rune(before)[len([]rune(before))-1]
	if last == '(' && token == ")" {
		return Fault{from - 1, to, "there is nothing in these brackets", ""}
	}
	switch strings.ToLower(token) {
	case "and", "or", "not", "in":
		return f
	}
	starts := isWord(runes[from]) || strings.ContainsRune("(\"'", runes[from])
	if starts && (isWord(last) || strings.ContainsRune(")]\"'", last)) {
		f.Hint = "join two conditions with and, or"
	}
	return f
}
