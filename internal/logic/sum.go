package logic

import (
	"fmt"
	"reflect"
	"slices"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/builtin"
	exprcheck "github.com/expr-lang/expr/checker"
	"github.com/expr-lang/expr/compiler"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/parser"
	"github.com/expr-lang/expr/vm"
)

// Names of our own functions in compiled comparisons. No text can call them,
// since $ has no place in a text.
const (
	divideName = "$divide" // refuses to divide by zero
	finiteName = "$finite" // refuses what is not a finite number
)

var floatType = reflect.TypeFor[float64]()

// addFunctions declares funcs and our own to expr.
func addFunctions(c *conf.Config, funcs []Func) {
	for _, f := range append(slices.Clone(funcs),
		Func{Name: divideName, Params: []string{"a", "b"}, Fn: func(x ...float64) (float64, error) { return divide(x[0], x[1]) }},
		Func{Name: finiteName, Params: []string{"a"}, Fn: func(x ...float64) (float64, error) { return x[0], nil }},
	) {
		c.Functions[f.Name] = &builtin.Function{Name: f.Name, Func: wrap(f), Types: []reflect.Type{funcType(len(f.Params))}}
	}
}

func funcType(arity int) reflect.Type {
	in := slices.Repeat([]reflect.Type{floatType}, arity)
	return reflect.FuncOf(in, []reflect.Type{floatType}, false)
}

func wrap(f Func) func(args ...any) (any, error) {
	return func(args ...any) (any, error) {
		xs := make([]float64, len(args))
		for i, arg := range args {
			x, ok := arg.(float64)
			if !ok {
				return nil, fmt.Errorf("%s: %w", f.Name, errNoTree)
			}
			xs[i] = x
		}
		return f.call(xs...)
	}
}

// sum returns the leaf for a comparison that expr has to run: sums, calls, or
// two facts. Equal text after normalising gives the same leaf.
func (l *lowering) sum(op string, left, right ast.Node) ref {
	n := &ast.BinaryNode{Operator: op, Left: guarded(left), Right: guarded(right)}
	text := n.String()
	if r, ok := l.gates.sums[text]; ok {
		return r
	}
	program, err := l.compile(n)
	if err != nil && l.failed == nil {
		l.failed = err
	}
	r := l.gates.add(gate{kind: sumLeaf, index: int32(len(l.programs))})
	l.gates.sums[text] = r
	l.programs = append(l.programs, program)
	l.gates.places = append(l.gates.places, l.factsIn(n))
	return r
}

func (l *lowering) compile(n ast.Node) (*vm.Program, error) {
	tree := &parser.Tree{Node: n}
	if _, err := new(exprcheck.Checker).Check(tree, l.config); err != nil {
		return nil, err
	}
	return compiler.Compile(tree, l.config)
}

// guarded returns a side of a comparison in floating point, with every
// division and the result watched.
func guarded(n ast.Node) ast.Node {
	n = floating(n)
	switch n.(type) {
	case *ast.FloatNode, *ast.IdentifierNode:
		return n
	}
	return ownCall(finiteName, n)
}

func ownCall(name string, args ...ast.Node) ast.Node {
	return &ast.CallNode{Callee: &ast.IdentifierNode{Value: name}, Arguments: args}
}

// floating returns a copy of n in which all numbers are floating point and
// all divisions are ours.
func floating(n ast.Node) ast.Node {
	switch n := n.(type) {
	case *ast.IntegerNode:
		return &ast.FloatNode{Value: float64(n.Value)}
	case *ast.UnaryNode:
		return &ast.UnaryNode{Operator: n.Operator, Node: floating(n.Node)}
	case *ast.BinaryNode:
		l, r := floating(n.Left), floating(n.Right)
		if n.Operator == "/" {
			return ownCall(divideName, l, r)
		}
		return &ast.BinaryNode{Operator: n.Operator, Left: l, Right: r}
	case *ast.CallNode:
		args := make([]ast.Node, len(n.Arguments))
		for i, arg := range n.Arguments {
			args[i] = floating(arg)
		}
		return &ast.CallNode{Callee: &ast.IdentifierNode{Value: n.Callee.(*ast.IdentifierNode).Value}, Arguments: args}
	}
	return n
}

// factsIn returns the facts that n mentions, sorted.
func (v *vocabulary) factsIn(n ast.Node) []FactID {
	var found []FactID
	var walk func(ast.Node)
	walk = func(n ast.Node) {
		if id, ok := n.(*ast.IdentifierNode); ok {
			if f, ok := v.names[id.Value]; ok {
				found = append(found, f)
			}
		}
		for _, kid := range children(n) {
			walk(kid)
		}
	}
	walk(n)
	slices.Sort(found)
	return slices.Compact(found)
}
