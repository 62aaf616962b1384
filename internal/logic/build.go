package logic

import (
	"cmp"
	"math"
	"slices"
)

// Build returns the conditions added so far as a Base. The Builder stays usable.
func (b *Builder) Build() *Base {
	base := &Base{
		vocabulary: b.vocabulary,
		config:     b.config,
		texts:      slices.Clone(b.texts),
		mentions:   b.mentions.clone(),
		cuts:       b.cuts.clone(),
		programs:   slices.Clone(b.programs),
		sumFacts:   slices.Clone(b.gates.places),
	}
	p := placing{gates: b.gates, net: &base.net}
	p.numberGates(len(b.facts))
	p.linkUp()
	base.roots = p.placeRoots(b.roots)
	base.sumsOf = make([][]int32, len(b.facts))
	for i, facts := range base.sumFacts {
		for _, f := range facts {
			base.sumsOf[f] = append(base.sumsOf[f], int32(i))
		}
	}
	return base
}

// placing gives the gates their places in the flat arrays.
type placing struct {
	*gates
	*net
	place  []int32 // of each gate: its leaf or node number
	leaves int32
	count  int32 // of nodes
}

func (p *placing) isNode(gate int32) bool { return p.all[gate].kind == andGate }

// numberGates numbers leaves by fact and threshold, nodes in order of making.
func (p *placing) numberGates(facts int) {
	p.place = make([]int32, len(p.all))
	var leaves []int32
	for i, g := range p.all {
		if g.kind == andGate {
			p.place[i] = p.count
			p.count++
			continue
		}
		leaves = append(leaves, int32(i))
	}
	slices.SortFunc(leaves, func(a, b int32) int { return compareLeaves(&p.all[a], &p.all[b]) })
	p.leaves = int32(len(leaves))
	p.firstLeaf = make([]int32, facts+1)
	p.cutAt = make([]float64, len(leaves))
	for i, id := range leaves {
		g := p.all[id]
		p.place[id] = int32(i)
		p.cutAt[i] = g.cut
		if g.kind != sumLeaf {
			p.firstLeaf[g.fact+1]++
		}
	}
	for f := range facts {
		p.firstLeaf[f+1] += p.firstLeaf[f]
	}
}

// compareLeaves orders leaves by fact, then option or threshold; sums are last.
func compareLeaves(a, b *gate) int {
	aSum, bSum := a.kind == sumLeaf, b.kind == sumLeaf
	switch {
	case aSum != bSum:
		if aSum {
			return 1
		}
		return -1
	case a.fact != b.fact:
		return cmp.Compare(a.fact, b.fact)
	case a.index != b.index:
		return cmp.Compare(a.index, b.index)
	}
	return cmp.Compare(a.cut, b.cut)
}

// linkUp fills the links from leaves and nodes to the nodes above, the levels
// and the counts of a fresh state.
func (p *placing) linkUp() {
	size := p.leaves + p.count
	ends := make([]int32, 2*size+2) // ends[2i+neg+1] counts, then sums up
	p.nodes = make([]node, p.count)
	p.start = make([]uint16, p.count)
	p.eachLink(func(node, slot int32) { ends[slot+1]++ })
	for i := range 2 * size {
		p.widest = max(p.widest, ends[i+1])
		ends[i+1] += ends[i]
	}
	p.links = make([]int32, ends[2*size])
	next := slices.Clone(ends)
	p.eachLink(func(node, slot int32) {
		p.links[next[slot]] = node
		next[slot]++
	})
	p.leafUp = slices.Clone(ends[:2*p.leaves+1])
	for i := range p.nodes {
		at := 2 * (p.leaves + int32(i))
		p.nodes[i] = node{up: ends[at], plain: ends[at+1], end: ends[at+2]}
	}
	p.setLevels()
}

// slot returns the place of a child among the links: leaves, then nodes, each
// with its plain links before its negated ones.
func (p *placing) slot(kid ref) int32 {
	id := p.place[kid.gate()]
	if p.isNode(kid.gate()) {
		id += p.leaves
	}
	return kidRef(id, kid.neg())
}

func (p *placing) eachLink(visit func(node, slot int32)) {
	for i := range p.all {
		if p.all[i].kind != andGate {
			continue
		}
		for _, kid := range p.all[i].kids {
			visit(p.place[i], p.slot(kid))
		}
	}
}

// setLevels puts every node above its children, and those with nothing above
// them together on the last level: they need no more passing on.
func (p *placing) setLevels() {
	var kids []int32
	for i, g := range p.all {
		if g.kind != andGate {
			continue
		}
		kids = kids[:0]
		n := &p.nodes[p.place[i]]
		for _, kid := range g.kids {
			kids = append(kids, p.slot(kid))
			if p.isNode(kid.gate()) {
				n.level = max(n.level, p.nodes[p.place[kid.gate()]].level+1)
			}
		}
		p.levels = max(p.levels, n.level+1)
		p.start[p.place[i]] = uint16(len(g.kids))
		p.net.kids.add(kids)
	}
	for i := range p.nodes {
		if n := &p.nodes[i]; n.up == n.end {
			n.level = p.levels
		}
	}
	p.levels++
}

// placeRoots returns the root node of each condition and lists the conditions
// by their node.
func (p *placing) placeRoots(roots []ref) []ref {
	placed := make([]ref, len(roots))
	for c, r := range roots {
		placed[c] = ref(kidRef(p.place[r.gate()], r.neg()))
		p.nodes[placed[c].gate()].last++ // counts, before it is a place
	}
	end := int32(0)
	for i := range p.nodes {
		n := &p.nodes[i]
		n.first, n.last, end = end, end, end+n.last
	}
	p.conds = make([]ref, len(roots))
	for c, r := range placed {
		n := &p.nodes[r.gate()]
		p.conds[n.last] = ref(kidRef(int32(c), r.neg()))
		n.last++
	}
	return placed
}

// infinite reports whether x can be no answer to a number fact.
func infinite(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }
