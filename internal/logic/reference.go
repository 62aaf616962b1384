package logic

import (
	"slices"

	"github.com/expr-lang/expr/ast"
)

// Reference decides c from its text alone, without the network: it parses,
// walks the tree and applies Kleene's tables. It is slow and there to check the
// State against. value gives the answer to a fact, or false for none.
func Reference(base *Base, value func(FactID) (Value, bool), c Cond) Truth {
	if !base.has(c) {
		return Unknown
	}
	tree, err := base.reparse(c)
	if err != nil {
		return Unknown
	}
	return base.kleene(value).truth(tree)
}

// reparse returns the tree of a condition. The parser looks up only functions
// that Add has let pass, so it does not write to the shared configuration.
func (base *Base) reparse(c Cond) (ast.Node, error) {
	return parse(base.texts[c], base.config)
}

// kleene walks a parser's tree.
type kleene struct {
	arith
	answer func(FactID) (Value, bool)
}

func (base *Base) kleene(value func(FactID) (Value, bool)) kleene {
	number := func(f FactID) (float64, bool) {
		v, ok := value(f)
		return v.x, ok
	}
	return kleene{arith{base.vocabulary, number}, value}
}

func (k kleene) truth(n ast.Node) Truth {
	switch n := n.(type) {
	case *ast.BoolNode:
		return truthOf(n.Value)
	case *ast.IdentifierNode:
		v, ok := k.answer(k.names[n.Value])
		if !ok {
			return Unknown
		}
		return truthOf(v.Bool())
	case *ast.UnaryNode:
		return k.truth(n.Node).Not()
	case *ast.BinaryNode:
		return k.two(n)
	}
	return Unknown
}

func (k kleene) two(n *ast.BinaryNode) Truth {
	switch n.Operator {
	case "and", "&&":
		return both(k.truth(n.Left), k.truth(n.Right))
	case "or", "||":
		return both(k.truth(n.Left).Not(), k.truth(n.Right).Not()).Not()
	case "in":
		none := True
		for _, item := range n.Right.(*ast.ArrayNode).Nodes {
			none = both(none, k.compare("==", n.Left, item).Not())
		}
		return none.Not()
	}
	return k.compare(n.Operator, n.Left, n.Right)
}

// both is Kleene's and.
func both(a, b Truth) Truth {
	switch {
	case a == False || b == False:
		return False
	case a == True && b == True:
		return True
	}
	return Unknown
}

func (k kleene) compare(op string, left, right ast.Node) Truth {
	if a, ok := k.word(left); ok {
		b, _ := k.word(right)
		if a == "" || b == "" {
			return Unknown
		}
		return truthOf((a == b) == (op == "=="))
	}
	if k.isTruth(left) {
		a, b := k.truth(left), k.truth(right)
		if a == Unknown || b == Unknown {
			return Unknown
		}
		return truthOf((a == b) == (op == "=="))
	}
	a, errA := k.number(left)
	b, errB := k.number(right)
	if errA != nil || errB != nil {
		return Unknown
	}
	return truthOf(slices.Contains(fits[op], sign(a, b)))
}

// fits lists for each operator the signs of left minus right that it takes.
var fits = map[string][]int{
	"==": {0}, "!=": {-1, 1}, "<": {-1}, "<=": {-1, 0}, ">": {1}, ">=": {0, 1},
}

func sign(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// word returns the words that n stands for, "" while unanswered; false when n
// does not stand for words.
func (k kleene) word(n ast.Node) (string, bool) {
	switch n := n.(type) {
	case *ast.StringNode:
		return "=" + n.Value, true
	case *ast.IdentifierNode:
		f := k.names[n.Value]
		if k.facts[f].Kind != Choice {
			return "", false
		}
		v, ok := k.answer(f)
		if !ok {
			return "", true
		}
		return "=" + k.facts[f].Options[v.Index()], true
	}
	return "", false
}

func (k kleene) isTruth(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BoolNode:
		return true
	case *ast.IdentifierNode:
		return k.facts[k.names[n.Value]].Kind == YesNo
	case *ast.UnaryNode:
		return n.Operator != "-"
	}
	g := group(n)
	return g == joining || g == comparing || g == membership
}
