package logic

import (
	"fmt"
	"strconv"

	"github.com/expr-lang/expr/ast"
)

// expects returns the kinds of fact that would fit beside n, without checking.
func (c *checker) expects(n ast.Node) kinds {
	switch n := n.(type) {
	case *ast.StringNode:
		return choices
	case *ast.BoolNode:
		return yesNos
	case *ast.IntegerNode, *ast.FloatNode, *ast.CallNode:
		return numbers
	case *ast.IdentifierNode:
		if id, ok := c.names[n.Value]; ok {
			return 1 << c.facts[id].Kind
		}
		return anyKinds
	case *ast.UnaryNode:
		if n.Operator == "-" {
			return numbers
		}
		return yesNos
	}
	if group(n) == sums {
		return numbers
	}
	return yesNos
}

// compare checks both sides of a comparison and that they fit together.
func (c *checker) compare(n *ast.BinaryNode) {
	ordered := n.Operator != "==" && n.Operator != "!="
	left, right := c.expects(n.Right), c.expects(n.Left)
	if ordered {
		left, right = numbers, numbers
	}
	before := len(c.faults)
	l, r := c.sortOf(n.Left, left), c.sortOf(n.Right, right)
	c.unquoted(n, before, l, r)
	switch {
	case ordered && (c.noOrder(n.Left, l, n.Operator) || c.noOrder(n.Right, r, n.Operator)):
	case l == broken || r == broken:
	case l == choice && r == words:
		c.needOption(n.Left, n.Right)
	case l == words && r == choice:
		c.needOption(n.Right, n.Left)
	case l == choice && r == choice:
		c.shareOption(n)
	case l == words && r == words:
		c.fault(n, "words are compared with words", "one side must be a fact")
	case l != r:
		c.mismatch(n, l, r)
	case !ordered && l == number:
		// fine, and so are two conditions
	}
}

// unquoted turns the fault about an unknown name into one about missing quotes
// where the name is an option of the choice beside it.
func (c *checker) unquoted(n *ast.BinaryNode, before int, l, r sort) {
	fact, name := n.Left, n.Right
	if r == choice {
		fact, name = name, fact
	} else if l != choice {
		return
	}
	id, ok := name.(*ast.IdentifierNode)
	if !ok || len(c.faults) != before+1 {
		return
	}
	f := c.names[fact.(*ast.IdentifierNode).Value]
	if _, ok := c.option(f, id.Value); ok {
		c.faults[before].Message = fmt.Sprintf("%s is an answer and needs quotes", id.Value)
		c.faults[before].Hint = "write " + strconv.Quote(id.Value)
	} else if near := nearest(id.Value, c.facts[f].Options); near != "" {
		c.faults[before].Hint = fmt.Sprintf("did you mean the answer %q, in quotes?", near)
	}
}

// noOrder reports a side that < and its like cannot take.
func (c *checker) noOrder(n ast.Node, s sort, sign string) bool {
	switch s {
	case choice:
		c.fault(n, fmt.Sprintf("%s and has no order, so %s cannot be used", c.subject(n, s), sign), `use == or in [..]`)
	case condition:
		c.fault(n, fmt.Sprintf("%s and has no order, so %s cannot be used", c.subject(n, s), sign), "")
	case words:
		c.quotedNumber(n)
	default:
		return false
	}
	return true
}

// needOption reports words that are not among the options of the choice.
func (c *checker) needOption(fact, word ast.Node) {
	name := fact.(*ast.IdentifierNode).Value
	f := c.names[name]
	text := word.(*ast.StringNode).Value
	if _, ok := c.option(f, text); ok {
		return
	}
	c.fault(word, fmt.Sprintf("%s has no option %q", name, text), hint(text, c.facts[f].Options, "options", true))
}

// shareOption reports two choices that can never be equal.
func (c *checker) shareOption(n *ast.BinaryNode) {
	l, r := n.Left.(*ast.IdentifierNode).Value, n.Right.(*ast.IdentifierNode).Value
	for _, word := range c.facts[c.names[l]].Options {
		if _, ok := c.option(c.names[r], word); ok {
			return
		}
	}
	c.fault(n, fmt.Sprintf("%s and %s have no option in common", l, r), "")
}

// mismatch reports sides of different sorts, the fact first.
func (c *checker) mismatch(n *ast.BinaryNode, l, r sort) {
	left, right := n.Left, n.Right
	if !isName(left) && isName(right) {
		left, right, l, r = right, left, r, l
	}
	if r == words && l == number {
		if _, err := strconv.ParseFloat(right.(*ast.StringNode).Value, 64); err == nil {
			c.quotedNumber(right)
			return
		}
	}
	at := right
	if !isName(left) || isName(right) {
		at = n
	}
	c.fault(at, fmt.Sprintf("%s, compared with %s", c.subject(left, l), c.describe(right, r)), c.mismatchHint(left, l, r))
}

func (c *checker) mismatchHint(left ast.Node, l, r sort) string {
	id, ok := left.(*ast.IdentifierNode)
	switch {
	case !ok:
	case l == choice:
		return hint("", c.facts[c.names[id.Value]].Options, "options", true)
	case l == condition && r == words:
		return fmt.Sprintf("write %s, or not %s", id.Value, id.Value)
	}
	return ""
}

// in checks a membership: a fact or sum on the left, constants on the right.
func (c *checker) in(n *ast.BinaryNode) {
	list, ok := n.Right.(*ast.ArrayNode)
	if !ok {
		c.sortOf(n.Left, anyKinds)
		c.fault(n.Right, "in needs a list", "write in [.., ..]")
		return
	}
	want := choices | numbers
	if len(list.Nodes) > 0 {
		want = c.expects(list.Nodes[0])
	}
	left := c.sortOf(n.Left, want)
	switch {
	case left == condition || left == words:
		c.fault(n.Left, fmt.Sprintf("%s and cannot be looked for in a list", c.subject(n.Left, left)), "")
	case len(list.Nodes) == 0:
		c.fault(list, "the list is empty", "")
	}
	for _, item := range list.Nodes {
		c.item(n.Left, left, item)
	}
}

// item checks one entry of the list after in.
func (c *checker) item(fact ast.Node, left sort, item ast.Node) {
	if id, ok := item.(*ast.IdentifierNode); ok {
		c.bareItem(fact, left, id)
		return
	}
	if c.mentionsFact(item) {
		c.fault(item, "a list holds only constants", "join two comparisons with or")
		return
	}
	switch s := c.sortOf(item, 0); {
	case s == broken || left == broken || left == condition || left == words:
	case left == choice && s == words:
		c.needOption(fact, item)
	case left == number && s == words:
		c.quotedNumber(item)
	case left == choice || s != number:
		c.fault(item, fmt.Sprintf("%s, compared with %s", c.subject(fact, left), c.describe(item, s)),
			c.mismatchHint(fact, left, s))
	}
}

// bareItem reports a name in a list: a fact, or words without their quotes.
func (c *checker) bareItem(fact ast.Node, left sort, item *ast.IdentifierNode) {
	if _, ok := c.names[item.Value]; ok || left != choice {
		c.fault(item, "a list holds only constants", "join two comparisons with or")
		return
	}
	f := c.names[fact.(*ast.IdentifierNode).Value]
	if _, ok := c.option(f, item.Value); ok {
		c.fault(item, fmt.Sprintf("%s is an answer and needs quotes", item.Value), "write "+strconv.Quote(item.Value))
		return
	}
	c.fault(item, fmt.Sprintf("%s has no option %q", c.facts[f].Name, item.Value),
		hint(item.Value, c.facts[f].Options, "options", true))
}

func isName(n ast.Node) bool {
	_, ok := n.(*ast.IdentifierNode)
	return ok
}

// subject says what n is: "leak_place is a choice".
func (c *checker) subject(n ast.Node, s sort) string {
	return c.source(n) + " is " + nature(n, s)
}

// nature says what a sort is: "a choice".
func nature(n ast.Node, s sort) string {
	if s == condition && !isName(n) {
		return "a condition"
	}
	return [...]string{broken: "unclear", condition: "yes or no", number: "a number", choice: "a choice", words: "words"}[s]
}

// describe names n as the other side of a comparison.
func (c *checker) describe(n ast.Node, s sort) string {
	switch {
	case s == words:
		return strconv.Quote(n.(*ast.StringNode).Value)
	case isName(n):
		return c.source(n) + ", " + nature(n, s)
	}
	return nature(n, s)
}
