package logic

import (
	"math"
	"slices"

	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/vm"
)

// Base holds compiled conditions. They never change, so any number of goroutines
// may use it, each with States of its own.
type Base struct {
	*vocabulary
	config   *conf.Config
	texts    []string
	roots    []ref // of each condition: an AND node and its negation
	mentions lists[FactID]
	cuts     lists[cut]
	programs []*vm.Program
	sumFacts [][]FactID // of each program
	net
	works works
}

// net is the network in flat arrays. Leaves are numbered fact by fact: the
// options of a choice in order; the thresholds of a number, rising; the one
// leaf of a yes/no; last come the comparisons that expr runs. Nodes are the AND
// gates, children before parents.
type net struct {
	firstLeaf []int32   // of each fact, and one past the last
	cutAt     []float64 // of each leaf: the threshold, where it has one
	leafUp    []int32   // of leaf i: links[leafUp[2i]:leafUp[2i+1]] as they are, to leafUp[2i+2] negated
	nodes     []node
	links     []int32 // nodes that lie above
	conds     []ref   // conditions by root node, with their negation
	levels    int32
	widest    int32        // length of the longest list of links
	start     []uint16     // counts of each node while nothing is known
	kids      lists[int32] // of each node: leaf or node numbers, see kidRef
	sumsOf    [][]int32    // of each fact: the programs that mention it
}

// node is where an AND gate passes its turns on to.
type node struct {
	up, plain, end int32 // links[up:plain] to take it as it is, links[plain:end] negated
	first, last    int32 // conds[first:last] have it as their root
	level          int32 // above all its children; what has nothing above is on the last
}

// kidRef packs a child for Constant: 2*number+negated, leaves first.
func kidRef(number int32, neg bool) int32 {
	if neg {
		return number<<1 | 1
	}
	return number << 1
}

// FactID returns the id of the fact with this name.
func (base *Base) FactID(name string) (FactID, bool) {
	id, ok := base.names[name]
	return id, ok
}

// Fact returns the fact with this id, or a Fact without a name for an id that
// is not of this base. Its Options are shared and not to be changed.
func (base *Base) Fact(id FactID) Fact {
	if id < 0 || int(id) >= len(base.facts) {
		return Fact{}
	}
	return base.facts[id]
}

// Facts returns the number of facts; their ids run from 0.
func (base *Base) Facts() int { return len(base.facts) }

// Conds returns the number of conditions; they run from 0.
func (base *Base) Conds() int { return len(base.roots) }

func (base *Base) has(c Cond) bool { return c >= 0 && int(c) < len(base.roots) }

// Mentions returns the facts that c speaks of, sorted. The slice is shared and
// not to be changed.
func (base *Base) Mentions(c Cond) []FactID {
	if !base.has(c) {
		return nil
	}
	return base.mentions.at(int(c))
}

// Text returns the text of c as it was given to Add.
func (base *Base) Text(c Cond) string {
	if !base.has(c) {
		return ""
	}
	return base.texts[c]
}

// Cuts returns the constants, rising and distinct, that the number fact f is
// compared with in these conditions, or in all when none is given. Sums and
// comparisons of two facts have no such constant.
func (base *Base) Cuts(f FactID, conds ...Cond) []float64 {
	var found []float64
	take := func(cuts []cut) {
		for _, k := range cuts {
			if k.fact == f {
				found = append(found, k.at)
			}
		}
	}
	if len(conds) == 0 {
		take(base.cuts.items)
	}
	for _, c := range conds {
		if base.has(c) {
			take(base.cuts.at(int(c)))
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

// position returns how many thresholds of number fact f are at or below x: the
// leaves "f < threshold" that are false.
func (n *net) position(f FactID, x float64) int32 {
	cuts := n.cutAt[n.firstLeaf[f]:n.firstLeaf[f+1]]
	lo, hi := 0, len(cuts)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		if cuts[mid] <= x {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return int32(lo)
}

// A node's state is one 16-bit word: how many children are unknown in the low
// 7 bits, how many are false in the next 7, and whether the node waits to be
// looked at again.
const (
	oneFalse   = 1 << 7
	countMask  = 1<<14 - 1
	waitingBit = 1 << 15
)

// weight is what a child of each truth adds to its parent's counts.
var weight = [...]uint16{Unknown: 1, False: oneFalse, True: 0}

// truthOfCounts returns the truth of an AND with these counts.
func truthOfCounts(counts uint16) Truth {
	switch counts &= countMask; {
	case counts >= oneFalse:
		return False
	case counts == 0:
		return True
	}
	return Unknown
}

var notKnown = math.NaN()
