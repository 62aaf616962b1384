package logic

import (
	"github.com/expr-lang/expr/ast"
)

// lowering turns a checked tree into gates. Each part is brought into the form
// "(not) all of these", whose members wait on one stack.
type lowering struct {
	*Builder
	stack []ref
	cuts  []cut // constants that number facts are compared with
}

// cut is a constant that a number fact is compared with.
type cut struct {
	fact FactID
	at   float64
}

// spread pushes the members of n and reports whether their AND is negated.
func (l *lowering) spread(n ast.Node) (neg bool) {
	switch n := n.(type) {
	case *ast.BoolNode:
		return !n.Value
	case *ast.IdentifierNode:
		l.push(l.gates.yes(l.names[n.Value]))
		return false
	case *ast.UnaryNode:
		return !l.spread(n.Node)
	case *ast.BinaryNode:
		switch group(n) {
		case joining:
			return l.join(n)
		case membership:
			return l.in(n)
		}
		return l.compare(n)
	}
	return false
}

func (l *lowering) push(r ref) { l.stack = append(l.stack, r) }

// join spreads and as it stands, and a or b as not (not a and not b).
func (l *lowering) join(n *ast.BinaryNode) bool {
	or := n.Operator == "or" || n.Operator == "||"
	l.member(n.Left, or)
	l.member(n.Right, or)
	return or
}

// member adds n, or its negation, to the AND whose members are on the stack.
func (l *lowering) member(n ast.Node, negate bool) {
	start := len(l.stack)
	neg := l.spread(n)
	l.settle(start, neg != negate)
}

// settle leaves on the stack what stands for the members from start on, the
// AND of which is negated or not.
func (l *lowering) settle(start int, neg bool) {
	if !neg {
		return
	}
	r := l.gates.and(l.stack[start:])
	l.stack = append(l.stack[:start], r.not())
}

// ref takes the members from start on off the stack and returns their gate.
func (l *lowering) ref(start int, neg bool) ref {
	r := l.gates.and(l.stack[start:])
	l.stack = l.stack[:start]
	if neg {
		return r.not()
	}
	return r
}

// in spreads x in [a, b] as not (x != a and x != b).
func (l *lowering) in(n *ast.BinaryNode) bool {
	for _, item := range n.Right.(*ast.ArrayNode).Nodes {
		start := len(l.stack)
		neg := l.compare(&ast.BinaryNode{Operator: "==", Left: n.Left, Right: item})
		l.settle(start, !neg)
	}
	return true
}

// compare spreads a comparison. != > >= are the negations of == <= <.
func (l *lowering) compare(n *ast.BinaryNode) (neg bool) {
	left, right, op := n.Left, n.Right, n.Operator
	switch op {
	case "!=":
		op, neg = "==", true
	case ">":
		op, neg = "<=", true
	case ">=":
		op, neg = "<", true
	}
	if l.isWords(left) || l.isWords(right) {
		l.same(left, right)
		return neg
	}
	if l.isCondition(left) {
		return l.equal(left, right) != neg
	}
	return l.order(left, op, right) != neg
}

func (l *lowering) isWords(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.StringNode:
		return true
	case *ast.IdentifierNode:
		return l.facts[l.names[n.Value]].Kind == Choice
	}
	return false
}

func (l *lowering) isCondition(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BoolNode:
		return true
	case *ast.IdentifierNode:
		return l.facts[l.names[n.Value]].Kind == YesNo
	case *ast.UnaryNode:
		return n.Operator != "-"
	case *ast.BinaryNode:
		return group(n) != sums
	}
	return false
}

// same pushes a choice compared with words, or with another choice: both have
// one of the options that they share.
func (l *lowering) same(left, right ast.Node) {
	if word, ok := left.(*ast.StringNode); ok {
		left, right = right, word
	}
	f := l.names[left.(*ast.IdentifierNode).Value]
	if word, ok := right.(*ast.StringNode); ok {
		i, _ := l.option(f, word.Value)
		l.push(l.gates.option(f, i))
		return
	}
	l.push(l.sum("==", left, right))
}

// equal spreads a == b for conditions: not (a and not b) and not (not a and b).
func (l *lowering) equal(left, right ast.Node) bool {
	start := len(l.stack)
	a := l.ref(start, l.spread(left))
	b := l.ref(start, l.spread(right))
	if a == always || a == never {
		a, b = b, a
	}
	switch b {
	case always:
		l.push(a)
		return false
	case never:
		l.push(a)
		return true
	}
	first := l.gates.and([]ref{a, b.not()})
	second := l.gates.and([]ref{a.not(), b})
	l.push(first.not())
	l.push(second.not())
	return false
}

// order spreads a comparison of numbers; op is one of == < <=.
func (l *lowering) order(left ast.Node, op string, right ast.Node) (neg bool) {
	x, leftConst, _ := l.constant(left)
	y, rightConst, _ := l.constant(right)
	switch {
	case leftConst && rightConst:
		return !(op == "==" && x == y || op == "<" && x < y || op == "<=" && x <= y)
	case rightConst && isName(left):
		return l.threshold(l.names[left.(*ast.IdentifierNode).Value], op, y)
	case leftConst && isName(right):
		f := l.names[right.(*ast.IdentifierNode).Value]
		switch op {
		case "<": // x < f is not f <= x
			return !l.threshold(f, "<=", x)
		case "<=":
			return !l.threshold(f, "<", x)
		}
		return l.threshold(f, op, x)
	}
	l.push(l.sum(op, left, right))
	return false
}

// threshold spreads f op x with the leaves "f is below some number".
func (l *lowering) threshold(f FactID, op string, x float64) (neg bool) {
	l.cuts = append(l.cuts, cut{f, x + 0})
	switch op {
	case "<":
		l.push(l.gates.below(f, x))
	case "<=":
		l.push(l.gates.atMost(f, x))
	default:
		l.push(l.gates.atMost(f, x))
		l.push(l.gates.below(f, x).not())
	}
	return false
}
