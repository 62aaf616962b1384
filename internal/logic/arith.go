package logic

import (
	"errors"
	"fmt"
	"math"

	"github.com/expr-lang/expr/ast"
)

var (
	errNotFinite = errors.New("the result is not a usable number")
	errNoDivisor = errors.New("divided by nothing")
	errNoTree    = errors.New("not a sum")
)

// unanswered is the error about a fact that has no answer yet.
type unanswered string

func (u unanswered) Error() string { return fmt.Sprintf("%s has no answer yet", string(u)) }

// arith works out sums straight from the parser's tree.
type arith struct {
	*vocabulary
	value func(FactID) (float64, bool)
}

// number returns the value of n, which must be finite.
func (a arith) number(n ast.Node) (float64, error) {
	x, err := a.sum(n)
	if err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
		err = errNotFinite
	}
	return x, err
}

func (a arith) sum(n ast.Node) (float64, error) {
	switch n := n.(type) {
	case *ast.IntegerNode:
		return float64(n.Value), nil
	case *ast.FloatNode:
		return n.Value, nil
	case *ast.IdentifierNode:
		if x, ok := a.value(a.names[n.Value]); ok {
			return x, nil
		}
		return 0, unanswered(n.Value)
	case *ast.UnaryNode:
		x, err := a.sum(n.Node)
		return -x, err
	case *ast.BinaryNode:
		return a.binary(n)
	case *ast.CallNode:
		return a.call(n)
	}
	return 0, errNoTree
}

func (a arith) binary(n *ast.BinaryNode) (float64, error) {
	l, err := a.sum(n.Left)
	if err != nil {
		return 0, err
	}
	r, err := a.sum(n.Right)
	if err != nil {
		return 0, err
	}
	switch n.Operator {
	case "+":
		return l + r, nil
	case "-":
		return l - r, nil
	case "*":
		return l * r, nil
	case "/":
		return divide(l, r)
	}
	return 0, errNoTree
}

func divide(l, r float64) (float64, error) {
	if r == 0 {
		return 0, errNoDivisor
	}
	return l / r, nil
}

func (a arith) call(n *ast.CallNode) (float64, error) {
	id, ok := n.Callee.(*ast.IdentifierNode)
	if !ok {
		return 0, errNoTree
	}
	args := make([]float64, len(n.Arguments))
	for i, arg := range n.Arguments {
		x, err := a.sum(arg)
		if err != nil {
			return 0, err
		}
		args[i] = x
	}
	return a.funcs[a.funcNames[id.Value]].call(args...)
}

// constant returns the value of n where no fact is mentioned in it.
func (v *vocabulary) constant(n ast.Node) (x float64, isConst bool, err error) {
	switch n := n.(type) {
	case *ast.IntegerNode:
		return float64(n.Value), true, nil
	case *ast.FloatNode:
		return n.Value, true, nil
	case *ast.IdentifierNode:
		return 0, false, nil
	}
	a := arith{v, func(FactID) (float64, bool) { return 0, false }}
	x, err = a.number(n)
	var u unanswered
	if errors.As(err, &u) || v.mentionsFact(n) {
		return 0, false, nil
	}
	return x, true, err
}

func (v *vocabulary) mentionsFact(n ast.Node) bool {
	if id, ok := n.(*ast.IdentifierNode); ok {
		_, isFact := v.names[id.Value]
		return isFact
	}
	for _, kid := range children(n) {
		if v.mentionsFact(kid) {
			return true
		}
	}
	return false
}
