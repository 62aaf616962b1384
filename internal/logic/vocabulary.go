package logic

import (
	"fmt"
	"math"
	"slices"

	"github.com/expr-lang/expr/parser/utils"
)

// vocabulary is what texts may speak of. It does not change once made.
type vocabulary struct {
	facts     []Fact
	funcs     []Func
	names     map[string]FactID
	funcNames map[string]int // index into funcs
}

// keywords are the words that the syntax takes for itself.
var keywords = []string{
	"and", "or", "not", "in", "true", "false", "nil", "let",
	"matches", "contains", "startsWith", "endsWith",
}

func newVocabulary(facts []Fact, funcs []Func) (*vocabulary, error) {
	v := &vocabulary{
		facts:     slices.Clone(facts),
		funcs:     slices.Clone(funcs),
		names:     make(map[string]FactID, len(facts)),
		funcNames: make(map[string]int, len(funcs)),
	}
	for i, f := range facts {
		if err := v.checkName(f.Name); err != nil {
			return nil, fmt.Errorf("fact %d: %w", i, err)
		}
		if err := checkOptions(f); err != nil {
			return nil, fmt.Errorf("fact %s: %w", f.Name, err)
		}
		v.names[f.Name] = FactID(i)
		v.facts[i].Options = slices.Clone(f.Options)
	}
	for i, f := range funcs {
		if err := v.checkName(f.Name); err != nil {
			return nil, fmt.Errorf("function %d: %w", i, err)
		}
		if f.Fn == nil {
			return nil, fmt.Errorf("function %s does nothing", f.Name)
		}
		v.funcNames[f.Name] = i
	}
	return v, nil
}

func (v *vocabulary) checkName(name string) error {
	if !utils.IsValidIdentifier(name) || name[0] == '$' {
		return fmt.Errorf("%q cannot be a name", name)
	}
	if slices.Contains(keywords, name) {
		return fmt.Errorf("%q has a meaning of its own", name)
	}
	_, fact := v.names[name]
	_, function := v.funcNames[name]
	if fact || function {
		return fmt.Errorf("the name %q is used twice", name)
	}
	return nil
}

func checkOptions(f Fact) error {
	switch f.Kind {
	case Choice:
		if len(f.Options) == 0 {
			return fmt.Errorf("a choice needs options")
		}
		sorted := slices.Sorted(slices.Values(f.Options))
		if len(slices.Compact(sorted)) != len(f.Options) {
			return fmt.Errorf("an option is given twice")
		}
	case Number, YesNo:
		if len(f.Options) > 0 {
			return fmt.Errorf("only a choice has options")
		}
	default:
		return fmt.Errorf("there is no %s", f.Kind)
	}
	return nil
}

// option returns the index of a word among the options of fact f.
func (v *vocabulary) option(f FactID, word string) (int, bool) {
	i := slices.Index(v.facts[f].Options, word)
	return i, i >= 0
}

// CallError is what a function of a formula could not work out.
type CallError struct {
	Func string
	Err  error // the function's own words, for the maker
}

// Error gives the name and the words, for whoever wrote the formula.
func (e *CallError) Error() string { return e.Func + ": " + e.Err.Error() }

// Unwrap gives the function's own error.
func (e *CallError) Unwrap() error { return e.Err }

// call works out one function. A result that is not finite is an error.
func (f *Func) call(args ...float64) (float64, error) {
	x, err := f.Fn(args...)
	if err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
		err = errNotFinite
	}
	if err != nil {
		return 0, &CallError{f.Name, err}
	}
	return x, nil
}
