package logic

import (
	"fmt"
	"strconv"

	"github.com/expr-lang/expr/ast"
)

// sort is what an expression gives. (A fact's Kind is about answers, a sort is
// about text: words in quotes are a sort of their own.)
type sort uint8

const (
	broken sort = iota // already reported; fits everywhere
	condition
	number
	choice // a fact of kind Choice
	words  // quoted
)

// checker finds every fault of one tree.
type checker struct {
	*vocabulary
	text     string
	runes    []rune // of text, made when a place is asked for
	faults   []Fault
	mentions []FactID
	depth    int
}

func (c *checker) fault(n ast.Node, message, hint string) {
	from, to := c.span(n)
	c.faults = append(c.faults, Fault{from, to, message, hint})
}

// sortOf checks n and returns its sort. want narrows the near misses offered
// for an unknown name.
func (c *checker) sortOf(n ast.Node, want kinds) sort {
	c.depth++
	defer func() { c.depth-- }()
	if c.depth > MaxDepth {
		if c.depth == MaxDepth+1 {
			c.fault(n, fmt.Sprintf("this is more than %d deep", MaxDepth), "split it")
		}
		return broken
	}
	switch n := n.(type) {
	case *ast.BoolNode:
		return condition
	case *ast.IntegerNode, *ast.FloatNode:
		return number
	case *ast.StringNode:
		return words
	case *ast.IdentifierNode:
		return c.name(n, want)
	case *ast.UnaryNode:
		return c.unary(n)
	case *ast.BinaryNode:
		return c.binary(n)
	case *ast.CallNode:
		return c.call(n)
	}
	c.foreign(n)
	return broken
}

// foreign reports a form that the parser knows and conditions do not have.
func (c *checker) foreign(n ast.Node) {
	switch n := n.(type) {
	case *ast.BuiltinNode:
		message, help := c.unknownFunc(n.Name)
		c.fault(n, message, help)
	case *ast.ArrayNode:
		c.fault(n, "a list stands only after in", "")
	case *ast.NilNode:
		c.fault(n, "nothing can be compared with nil", "an unanswered fact makes a condition unknown by itself")
	case *ast.MemberNode, *ast.ChainNode, *ast.SliceNode:
		c.fault(n, "facts have no parts, so . and [ cannot follow here", "")
	default:
		c.fault(n, "this form is not used here", "")
	}
}

func (c *checker) name(n *ast.IdentifierNode, want kinds) sort {
	id, ok := c.names[n.Value]
	if !ok {
		message, help := c.unknownFact(n.Value, want)
		if _, isFunc := c.funcNames[n.Value]; isFunc {
			message, help = n.Value+" is a function", fmt.Sprintf("write %s(..)", n.Value)
		}
		c.fault(n, message, help)
		return broken
	}
	c.mentions = append(c.mentions, id)
	return [...]sort{Choice: choice, Number: number, YesNo: condition}[c.facts[id].Kind]
}

func (c *checker) unary(n *ast.UnaryNode) sort {
	switch n.Operator {
	case "not", "!":
		switch s := c.sortOf(n.Node, yesNos); s {
		case number, choice, words:
			c.fault(n, fmt.Sprintf("not covers only %s, which is %s", c.source(n.Node), nature(n.Node, s)),
				"put brackets round the whole comparison: not (..)")
			return broken
		}
		return condition
	case "-":
		c.needNumber(n.Node)
		return number
	}
	c.fault(n, fmt.Sprintf("%q before a number is not used here", n.Operator), "take it out")
	c.sortOf(n.Node, numbers)
	return broken
}

func (c *checker) binary(n *ast.BinaryNode) sort {
	switch group(n) {
	case joining:
		c.conditions(n)
		return condition
	case sums:
		before := len(c.faults)
		c.terms(n)
		c.workable(n, before)
		return number
	case comparing:
		c.compare(n)
		return condition
	case membership:
		c.in(n)
		return condition
	}
	c.fault(n, fmt.Sprintf("%q is not used here", n.Operator), "")
	return broken
}

// workable reports a sum that no answers can make right.
func (c *checker) workable(n *ast.BinaryNode, before int) {
	var left ast.Node = n
	for group(left) == sums && len(c.faults) == before {
		b := left.(*ast.BinaryNode)
		if x, ok, err := c.constant(b.Right); b.Operator == "/" && ok && err == nil && x == 0 {
			c.fault(b, "this divides by zero", "")
		}
		left = b.Left
	}
	if len(c.faults) > before {
		return
	}
	if _, ok, err := c.constant(n); ok && err != nil {
		c.fault(n, "this cannot be worked out: "+err.Error(), "")
	}
}

// operators come in groups.
type operators uint8

const (
	foreignSign operators = iota
	joining
	comparing
	membership
	sums
)

func group(n ast.Node) operators {
	b, ok := n.(*ast.BinaryNode)
	if !ok {
		return foreignSign
	}
	switch b.Operator {
	case "and", "or", "&&", "||":
		return joining
	case "==", "!=", "<", "<=", ">", ">=":
		return comparing
	case "in":
		return membership
	case "+", "-", "*", "/":
		return sums
	}
	return foreignSign
}

// conditions checks the operands of and and or. A run of them, however long,
// leans to the left and is one level.
func (c *checker) conditions(n ast.Node) {
	if group(n) != joining {
		c.needCondition(n)
		return
	}
	b := n.(*ast.BinaryNode)
	c.conditions(b.Left)
	c.needCondition(b.Right)
}

// terms checks the operands of a sum in the same way.
func (c *checker) terms(n ast.Node) {
	if group(n) != sums {
		c.needNumber(n)
		return
	}
	b := n.(*ast.BinaryNode)
	c.terms(b.Left)
	c.needNumber(b.Right)
}

func (c *checker) needCondition(n ast.Node) {
	switch s := c.sortOf(n, yesNos); s {
	case number, choice, words:
		c.fault(n, fmt.Sprintf("%s, not a condition", c.subject(n, s)), c.compareHint(n, s))
	}
}

func (c *checker) needNumber(n ast.Node) {
	switch s := c.sortOf(n, numbers); s {
	case condition, choice:
		c.fault(n, fmt.Sprintf("%s, not a number", c.subject(n, s)), "")
	case words:
		c.quotedNumber(n)
	}
}

// compareHint shows how to make a condition of something that is none.
func (c *checker) compareHint(n ast.Node, s sort) string {
	id, ok := n.(*ast.IdentifierNode)
	switch {
	case !ok:
		return ""
	case s == choice:
		return fmt.Sprintf("compare it: %s == %q", id.Value, c.facts[c.names[id.Value]].Options[0])
	case s == number:
		return fmt.Sprintf("compare it: %s > 0", id.Value)
	}
	return ""
}

// quotedNumber reports words where a number belongs.
func (c *checker) quotedNumber(n ast.Node) {
	word := n.(*ast.StringNode).Value
	if x, err := strconv.ParseFloat(word, 64); err == nil {
		c.fault(n, fmt.Sprintf("%q is in quotes, so it is words and not a number", word),
			"write "+strconv.FormatFloat(x, 'g', -1, 64))
		return
	}
	c.fault(n, fmt.Sprintf("%q is not a number", word), "")
}

func (c *checker) call(n *ast.CallNode) sort {
	id, ok := n.Callee.(*ast.IdentifierNode)
	if !ok {
		c.foreign(n.Callee)
		return broken
	}
	i, ok := c.funcNames[id.Value]
	if !ok {
		message, help := c.unknownFunc(id.Value)
		c.fault(id, message, help)
	}
	before := len(c.faults)
	for _, arg := range n.Arguments {
		c.needNumber(arg)
	}
	if !ok || len(c.faults) > before {
		return broken
	}
	if f := c.funcs[i]; len(f.Params) != len(n.Arguments) {
		c.fault(id, fmt.Sprintf("%s is given %d numbers and needs %d", f.Name, len(n.Arguments), len(f.Params)),
			"write "+signature(f))
		return broken
	}
	if _, ok, err := c.constant(n); ok && err != nil {
		c.fault(n, "this cannot be worked out: "+err.Error(), "")
	}
	return number
}
