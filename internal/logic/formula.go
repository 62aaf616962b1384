package logic

import (
	"slices"

	"github.com/expr-lang/expr/ast"
)

// Formula is a sum over number facts. It never changes and may be shared.
type Formula struct {
	*vocabulary
	text  string
	tree  ast.Node
	facts []FactID
}

// Formula reads a sum: number facts, numbers, + - * / and brackets, and the
// declared functions. It returns every fault it can find, or a Formula.
func (b *Builder) Formula(text string) (*Formula, []Fault) {
	tree, c, faults := b.read(text, "formula", (*checker).needNumber)
	if len(faults) > 0 {
		return nil, faults
	}
	slices.Sort(c.mentions)
	return &Formula{b.vocabulary, text, tree, slices.Clone(slices.Compact(c.mentions))}, nil
}

// Text returns the formula as written.
func (f *Formula) Text() string { return f.text }

// Facts returns the facts that the formula needs, sorted. The slice is shared
// and not to be changed.
func (f *Formula) Facts() []FactID { return f.facts }

// Eval works the formula out. value gives the number of a fact, or false while
// it has none. It is an error for a fact to have none, to divide by zero, for a
// function to fail, and for the result not to be a finite number.
func (f *Formula) Eval(value func(FactID) (float64, bool)) (float64, error) {
	return arith{f.vocabulary, value}.number(f.tree)
}
