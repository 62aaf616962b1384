package logic

import "github.com/expr-lang/expr/ast"

// Part is one of the members that a condition joins with and or or at its top.
type Part struct {
	Text     string // as written, without brackets around the whole of it
	From, To int    // rune offsets into the condition's text, half open
	Truth    Truth
}

// Parts returns the members of c in the order written, with what is known of
// each. A condition that joins nothing is its own only part.
func (s *State) Parts(c Cond) []Part {
	if !s.base.has(c) {
		return nil
	}
	tree, err := s.base.reparse(c)
	if err != nil {
		return nil
	}
	place := checker{vocabulary: s.base.vocabulary, text: s.base.texts[c]}
	walk := s.base.kleene(s.Value)
	var parts []Part
	for _, n := range members(tree) {
		from, to := place.span(n)
		parts = append(parts, Part{string(place.runes[from:to]), from, to, walk.truth(n)})
	}
	return parts
}

// members splits at the operator of the root only: "a and b and (c or d)" has
// three members.
func members(n ast.Node) []ast.Node {
	b, ok := n.(*ast.BinaryNode)
	if !ok || group(n) != joining {
		return []ast.Node{n}
	}
	var split func(ast.Node) []ast.Node
	split = func(n ast.Node) []ast.Node {
		if m, ok := n.(*ast.BinaryNode); ok && group(m) == joining && isOr(m) == isOr(b) {
			return append(split(m.Left), split(m.Right)...)
		}
		return []ast.Node{n}
	}
	return split(n)
}

func isOr(n *ast.BinaryNode) bool { return n.Operator == "or" || n.Operator == "||" }
