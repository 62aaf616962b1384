package hear

import (
	"slices"

	"sparehand/internal/book"
)

// befores are the facts that are read twice, before and after something.
var befores = [][2]string{{"melt_before_g", "melt_after_g"}, {"jug_before_ml", "jug_after_ml"}}

// pairTold is two amounts of the same thing, before and after.
type pairTold struct {
	facts         [2]*book.Fact
	before, after amount
}

// pairOf finds what was read before and after: "from 400 g to 382 g", "400
// before and 382 after", "I cooked 250 grams and now it is 235". A jug in the
// microwave gets lighter; one that a sculpt goes into gets fuller.
func (h *Hearing) pairOf(l *line, list []amount) (pairTold, bool) {
	for i := 1; i < len(list); i++ {
		a, b := list[i-1], list[i]
		if a.chain > 0 || a.article || b.article || l.claimed[a.from] || l.claimed[b.from] || !l.beforeAndAfter(a, b) {
			continue
		}
		if a.units == nil {
			a.units = b.units
		} else if b.units == nil {
			b.units = a.units
		}
		for n, names := range befores {
			facts := [2]*book.Fact{h.factNamed(names[0]), h.factNamed(names[1])}
			if facts[0] == nil || facts[1] == nil || !dimensionFits(facts[0], a) || !dimensionFits(facts[1], b) || (a.value > b.value) != (n == 0) {
				continue
			}
			return pairTold{facts, a, b}, true
		}
	}
	return pairTold{}, false
}

// beforeAndAfter reports whether words say that b was read after a.
func (l *line) beforeAndAfter(a, b amount) bool {
	if wordAt(l.tokens, a.from-1) == "from" && b.from == a.to+1 && wordAt(l.tokens, a.to) == "to" {
		return true
	}
	if b.from-a.to > 6 {
		return false
	}
	after := l.saysAny(a.to, b.from, "now", "after", "afterwards", "later") || isOneOf(wordAt(l.tokens, b.to), "after", "now", "afterwards", "later")
	before := l.saysAny(max(0, a.from-4), a.from, "before", "was", "cooked", "heated", "melted", "weighed", "started", "had") || wordAt(l.tokens, a.to) == "before"
	return before && after
}

// saysAny reports whether one of the words stands among tokens from to to-1.
func (l *line) saysAny(from, to int, words ...string) bool {
	return slices.ContainsFunc(l.tokens[from:min(to, len(l.tokens))], func(t token) bool { return isOneOf(t.word, words...) })
}

// tellPair tells both readings of a pair.
func (h *Hearing) tellPair(c Context, l *line, list []amount, m *Meaning) {
	p, ok := h.pairOf(l, list)
	if !ok || m.has(p.facts[0].ID) || m.has(p.facts[1].ID) {
		return
	}
	if !c.scope.has(p.facts[0].ID) && !l.saysAny(0, len(l.tokens), "jug", "mix", "gel", "melt", "weight", "weighed", "weighs", "water", "cooked", "heated") && !l.asks() {
		return
	}
	l.claim(max(0, p.before.from-4), p.after.to+1)
	for i, t := range l.tokens {
		if isOneOf(t.word, "water", "jug", "mix", "sculpt") {
			l.claim(i, i+1)
		}
	}
	h.tellAmong(c, []*book.Fact{p.facts[0]}, l, p.before, m)
	h.tellAmong(c, []*book.Fact{p.facts[1]}, l, p.after, m)
}
