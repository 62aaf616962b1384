package logic

import "github.com/expr-lang/expr/ast"

// span returns the rune offsets of everything that belongs to n. A parser's
// node knows only where its sign is, and brackets leave no node at all.
func (c *checker) span(n ast.Node) (from, to int) {
	if c.runes == nil {
		c.runes = []rune(c.text)
	}
	from, to = edges(n)
	return balance(c.runes, max(from, 0), min(to, len(c.runes)))
}

// source returns the text of n.
func (c *checker) source(n ast.Node) string {
	from, to := c.span(n)
	return string(c.runes[from:to])
}

// edges returns the least From and the greatest To among n and what is in it.
func edges(n ast.Node) (from, to int) {
	loc := n.Location()
	from, to = loc.From, loc.To
	if to == 0 { // a node without a place, as in a call of something unknown
		from = int(^uint(0) >> 1)
	}
	for _, kid := range children(n) {
		if kid == nil {
			continue
		}
		f, t := edges(kid)
		from, to = min(from, f), max(to, t)
	}
	return from, to
}

func children(n ast.Node) []ast.Node {
	switch n := n.(type) {
	case *ast.UnaryNode:
		return []ast.Node{n.Node}
	case *ast.BinaryNode:
		return []ast.Node{n.Left, n.Right}
	case *ast.CallNode:
		return append([]ast.Node{n.Callee}, n.Arguments...)
	case *ast.ArrayNode:
		return n.Nodes
	case *ast.MemberNode:
		return []ast.Node{n.Node, n.Property}
	case *ast.ChainNode:
		return []ast.Node{n.Node}
	case *ast.BuiltinNode:
		return n.Arguments
	}
	return nil
}

// balance widens a span to the brackets that it opens or closes only half.
// A call or list without entries ends at its own closing bracket.
func balance(text []rune, from, to int) (int, int) {
	if from > to {
		return 0, len(text)
	}
	depth, missing := 0, 0 // open at the end; closed without being opened
	count := func(r rune) {
		switch r {
		case '(', '[':
			depth++
		case ')', ']':
			if depth > 0 {
				depth--
			} else {
				missing++
			}
		}
	}
	for i := from; i < to; i++ {
		if end := skipQuoted(text, i); end > i {
			i = end - 1
			continue
		}
		count(text[i])
	}
	for ; depth > 0 && to < len(text); to++ {
		if end := skipQuoted(text, to); end > to {
			to = end - 1
			continue
		}
		count(text[to])
	}
	for ; missing > 0 && from > 0; from-- {
		switch text[from-1] {
		case '(', '[':
			missing--
		case ')', ']':
			missing++
		}
	}
	return from, to
}

// skipQuoted returns the end of the quoted words that start at i, else i.
func skipQuoted(text []rune, i int) int {
	quote := text[i]
	if quote != '"' && quote != '\'' && quote != '`' {
		return i
	}
	for j := i + 1; j < len(text); j++ {
		switch {
		case text[j] == '\\' && quote != '`':
			j++
		case text[j] == quote:
			return j + 1
		}
	}
	return len(text)
}
