package logic

import "slices"

// Constant returns True or False for a condition that comes out the same
// whatever is answered, else Unknown. It sees folded constants, a condition
// joined with its opposite, two options of one choice at once, all options
// excluded, and a number between limits that leave no room. It does not see
// through sums, nor every contradiction that needs cases.
func (base *Base) Constant(c Cond) Truth {
	if !base.has(c) {
		return Unknown
	}
	r := base.roots[c]
	d := decider{base, map[int32]Truth{}}
	t := d.fixed(r.gate())
	if r.neg() {
		return t.Not()
	}
	return t
}

// decider looks for nodes that no answers can change. Nodes are shared, so it
// looks at each once.
type decider struct {
	*Base
	found map[int32]Truth
}

// needs is what must all hold for a node to be true.
type needs struct {
	literals map[int32]bool // links to leaves, or to nodes that are not fixed
	seen     map[int32]bool // nodes gone into
}

// fixed returns the truth of an AND node that no answers can change.
func (d decider) fixed(node int32) Truth {
	if t, ok := d.found[node]; ok {
		return t
	}
	n := needs{map[int32]bool{}, map[int32]bool{}}
	t := Unknown
	switch {
	case !d.gather(node, n) || d.contradict(n.literals):
		t = False
	case len(n.literals) == 0:
		t = True
	}
	d.found[node] = t
	return t
}

// gather adds what must hold for node to be true, leaving out what always
// holds. It returns false when one of them never holds.
func (d decider) gather(node int32, n needs) bool {
	if n.seen[node] {
		return true
	}
	n.seen[node] = true
	leaves := int32(len(d.cutAt))
	for _, kid := range d.net.kids.at(int(node)) {
		inner, negated := kid>>1-leaves, kid&1 == 1
		switch {
		case inner < 0:
			n.literals[kid] = true
		case !negated && !d.gather(inner, n):
			return false
		case negated && d.fixed(inner) == True:
			return false
		case negated && d.fixed(inner) == Unknown:
			n.literals[kid] = true
		}
	}
	return true
}

// contradict reports whether the literals can never hold together.
func (base *Base) contradict(literals map[int32]bool) bool {
	for kid := range literals {
		if literals[kid^1] {
			return true
		}
	}
	leaves := int32(len(base.cutAt))
	for kid := range literals {
		leaf := kid >> 1
		if leaf >= leaves {
			continue
		}
		f := base.factOf(leaf)
		if f < len(base.facts) && base.noAnswer(literals, f) {
			return true
		}
	}
	return false
}

// noAnswer reports whether no answer to a fact fits the literals.
func (base *Base) noAnswer(literals map[int32]bool, f int) bool {
	first, end := base.firstLeaf[f], base.firstLeaf[f+1]
	switch base.facts[f].Kind {
	case Choice:
		return noOption(literals, first, end)
	case Number:
		return noRoom(literals, first, end)
	}
	return false
}

// noOption reports whether two options must hold at once, or none may.
func noOption(literals map[int32]bool, first, end int32) bool {
	must, mustNot := int32(0), int32(0)
	for leaf := first; leaf < end; leaf++ {
		if literals[kidRef(leaf, false)] {
			must++
		}
		if literals[kidRef(leaf, true)] {
			mustNot++
		}
	}
	return must > 1 || mustNot == end-first
}

// noRoom reports whether a number must be below one threshold and not below
// the same or a higher one.
func noRoom(literals map[int32]bool, first, end int32) bool {
	below := false
	for leaf := first; leaf < end; leaf++ {
		below = below || literals[kidRef(leaf, false)]
		if below && literals[kidRef(leaf, true)] {
			return true
		}
	}
	return false
}

// factOf finds the fact that a leaf belongs to; leaves that belong to none
// give the number of facts or more.
func (base *Base) factOf(leaf int32) int {
	after, _ := slices.BinarySearch(base.firstLeaf, leaf+1)
	return after - 1
}
