package logic

import (
	"encoding/binary"
	"math"
	"slices"
)

// ref points at a gate; the lowest bit negates it.
type ref int32

// The constant gate is an AND of nothing, so it is true.
const (
	always ref = 0
	never  ref = 1
)

func (r ref) not() ref    { return r ^ 1 }
func (r ref) gate() int32 { return int32(r >> 1) }
func (r ref) neg() bool   { return r&1 == 1 }

// maxKids is the most children of one AND gate: a State counts them in 7 bits.
const maxKids = 127

// gateKind says what decides a gate.
type gateKind uint8

const (
	andGate    gateKind = iota // all kids true
	optionLeaf                 // fact has option number index
	belowLeaf                  // fact is below the number cut
	yesLeaf                    // fact is a yes
	sumLeaf                    // comparison number index, run by expr
)

// gate is one node of the network while it is being built. An OR is a negated
// AND of negated kids, so there is no other inner gate.
type gate struct {
	kind  gateKind
	fact  FactID
	index int32
	cut   float64
	kids  []ref // sorted, distinct; shared, not to be changed
}

// cutKey finds the leaf "fact is below this number".
type cutKey struct {
	fact FactID
	bits uint64
}

// gates holds the network under construction. Equal gates are made once.
type gates struct {
	all    []gate
	first  []ref // for each fact: its first option or yes leaf
	cuts   map[cutKey]ref
	ands   map[string]ref
	key    []byte
	kids   []ref // arena for gate.kids
	sums   map[string]ref
	places [][]FactID // for each sum leaf: the facts in it
}

func newGates(facts []Fact) *gates {
	g := &gates{cuts: map[cutKey]ref{}, ands: map[string]ref{}, sums: map[string]ref{}}
	g.add(gate{kind: andGate})
	g.ands[""] = always
	g.first = make([]ref, len(facts))
	for i, f := range facts {
		g.first[i] = ref(len(g.all) << 1)
		switch f.Kind {
		case Choice:
			for j := range f.Options {
				g.add(gate{kind: optionLeaf, fact: FactID(i), index: int32(j)})
			}
		case YesNo:
			g.add(gate{kind: yesLeaf, fact: FactID(i)})
		}
	}
	return g
}

func (g *gates) add(x gate) ref {
	g.all = append(g.all, x)
	return ref((len(g.all) - 1) << 1)
}

// option returns the leaf "f has option i".
func (g *gates) option(f FactID, i int) ref { return g.first[f] + ref(i<<1) }

// yes returns the leaf "f is a yes".
func (g *gates) yes(f FactID) ref { return g.first[f] }

// below returns the leaf "f < x".
func (g *gates) below(f FactID, x float64) ref {
	x += 0 // -0 and 0 are one cut
	key := cutKey{f, math.Float64bits(x)}
	if r, ok := g.cuts[key]; ok {
		return r
	}
	r := g.add(gate{kind: belowLeaf, fact: f, cut: x})
	g.cuts[key] = r
	return r
}

// atMost returns the leaf "f <= x", which is f below the next number.
func (g *gates) atMost(f FactID, x float64) ref {
	return g.below(f, math.Nextafter(x, math.Inf(1)))
}

// and returns the gate that is true when all kids are. It sorts kids in place.
// Only what holds in three values is simplified: x and not x stays, since it
// is unknown while x is.
func (g *gates) and(kids []ref) ref {
	kids = tidy(kids)
	switch {
	case len(kids) == 1:
		return kids[0]
	case len(kids) > maxKids:
		var parts []ref
		for part := range slices.Chunk(kids, maxKids) {
			parts = append(parts, g.hashed(part))
		}
		return g.and(parts)
	}
	return g.hashed(kids)
}

// root returns the AND gate for a whole condition; a lone leaf gets a gate of
// its own, so that every condition hangs on an AND.
func (g *gates) root(kids []ref) ref {
	r := g.and(kids)
	if g.all[r.gate()].kind == andGate {
		return r
	}
	return g.hashed([]ref{r})
}

// tidy sorts kids, drops doubles and the constant true, and reduces all to the
// constant false where it is among them.
func tidy(kids []ref) []ref {
	slices.Sort(kids)
	kids = slices.Compact(kids)
	if len(kids) > 0 && kids[0] == always {
		kids = kids[1:]
	}
	if len(kids) > 0 && kids[0] == never {
		kids = kids[:1]
	}
	return kids
}

// hashed returns the one AND gate with these kids.
func (g *gates) hashed(kids []ref) ref {
	g.key = g.key[:0]
	for _, k := range kids {
		g.key = binary.LittleEndian.AppendUint32(g.key, uint32(k))
	}
	if r, ok := g.ands[string(g.key)]; ok {
		return r
	}
	start := len(g.kids)
	g.kids = append(g.kids, kids...)
	r := g.add(gate{kind: andGate, kids: g.kids[start:len(g.kids):len(g.kids)]})
	g.ands[string(g.key)] = r
	return r
}
