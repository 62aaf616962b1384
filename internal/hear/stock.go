package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
)

const (
	clayFact  = "clay_g"       // what the clay of the sculpt weighs
	waterFact = "have_water_g" // the water in the bowl
	mixFact   = "mix_g"        // what the melt weighs
)

func isMass(u craft.Unit) bool { return u.Dimension == craft.Mass }

// tellWeights tells the weights that have no name beside them.
func (h *Hearing) tellWeights(c Context, l *line, found []match, list []amount, m *Meaning) {
	if _, paired := h.pairOf(l, list); paired {
		return
	}
	for _, a := range list {
		weighs := slices.ContainsFunc(a.units, isMass) && a.pack == ""
		if !weighs || l.claimed[a.from] || h.ofSomethingElse(c, l, found, a) || len(h.namesOf(c, l, found, a)) > 0 && !l.itWeighs(a) {
			continue
		}
		if len(c.Sums) > 0 && m.Command == "" && l.isLimit(a) {
			m.Complaint = first(m.Complaint, "I can't keep to a weight, since the sizes decide it: give me smaller sizes, or tell me how much you have.")
			l.claim(0, len(l.tokens))
			return
		}
		facts := h.weightFacts(c, l, a, m)
		if len(facts) > 0 && slices.ContainsFunc(a.units, func(u craft.Unit) bool { return !isMass(u) }) {
			for _, f := range h.byUnit(c, a, m) { // ounces may be fluid ones
				if !slices.Contains(facts, f) {
					facts = append(facts, f)
				}
			}
		}
		h.tellAmong(c, facts, l, a, m)
	}
}

// weightFacts gives what a weight without a name may be of: the clay, where it
// is spoken of; the plaster there is, where its sum is under way; of a mix
// either all of it or what there is of one part. None leaves it to its unit.
func (h *Hearing) weightFacts(c Context, l *line, a amount, m *Meaning) []*book.Fact {
	if inSachets[a.pack] || l.takesEach(a) {
		return nil
	}
	var facts []*book.Fact
	add := func(f *book.Fact, ok bool) {
		if f != nil && ok && !m.has(f.ID) && !slices.Contains(facts, f) && len(facts) < mostOffered {
			facts = append(facts, f)
		}
	}
	clay, mix := h.factNamed(clayFact), h.factNamed(mixFact)
	if add(clay, clay != nil && c.scope.has(clay.ID) && (l.itWeighs(a) || l.saysAny(0, len(l.tokens), "clay", "sculpt", "sculpture"))); len(facts) > 0 {
		return facts
	}
	if at := h.enoughAsked(l, readAmounts(l)); at >= 0 {
		add(h.stockAt(l, at), true)
		return facts
	}
	if m.Command != "" || l.saysAny(0, len(l.tokens), "how", "what") {
		return nil // a question says what its weights are of, or its sum does
	}
	add(h.stockNamed(plaster), h.ofPlaster(c.Sums))
	for _, sum := range c.Sums {
		if sum.Mix != nil {
			add(mix, true)
			for _, have := range sum.Mix.Have {
				add(have.Grams, l.isStock(a))
			}
		}
	}
	return facts
}

// itWeighs reports whether "it weighs" stands before an amount: the sculpt does.
func (l *line) itWeighs(a amount) bool {
	return isOneOf(wordAt(l.tokens, a.from-1), "weighs", "weighed") && isOneOf(wordAt(l.tokens, a.from-2), "it", "that", "sculpt", "model", "lump")
}

// isStock reports whether an amount is what a maker has: "I've got 800 g", "is
// 1 kg enough", "will 700 grams do".
func (l *line) isStock(a amount) bool {
	return l.saysAny(0, len(l.tokens), "have", "got", "left", "only", "enough") || l.wouldDo(a)
}

// wouldDo reports whether the line asks if an amount will do.
func (l *line) wouldDo(a amount) bool {
	return isOneOf(wordAt(l.tokens, a.from-1), "will", "would") && l.saysAny(a.to, len(l.tokens), "do")
}

// isLimit reports whether an amount is a weight to keep under.
func (l *line) isLimit(a amount) bool {
	under := l.saysAny(max(0, a.from-2), a.from, "under", "below", "within") || l.saysAny(max(0, a.from-3), a.from, "than")
	return under && !l.saysAny(0, a.from, "have", "got", "left")
}

// stockNamed gives the fact for what there is of a material, by its name, or
// nil.
func (h *Hearing) stockNamed(name string) *book.Fact {
	for _, m := range h.book.Materials {
		if m.ID == name {
			return m.Have
		}
	}
	return nil
}

func (h *Hearing) stockAt(l *line, at int) *book.Fact {
	return h.stockNamed(h.materialAt(l, at))
}

// enoughAsked gives the token of the material of which the line asks whether
// there is enough, or -1: "do I have enough plaster", "I have 2 lb of plaster,
// is it enough".
func (h *Hearing) enoughAsked(l *line, list []amount) int {
	for i, t := range l.tokens {
		if t.word != "enough" || !l.asksHere(i) {
			continue
		}
		if at := i + 1; !t.ends && at < len(l.tokens) && h.nouns[l.tokens[at].stem] != nil {
			if len(list) > 0 || at+1 == len(l.tokens) || wordAt(l.tokens, at+1) == "for" {
				return at
			}
			continue
		}
		before := wordAt(l.tokens, i-1)
		ofAmount := slices.ContainsFunc(list, func(a amount) bool { return a.to == i })
		if ofAmount || i > 0 && (isOneOf(before, "it", "that", "this", "be") || h.nouns[l.tokens[i-1].stem] != nil && slices.ContainsFunc(list, func(a amount) bool { return a.to < i && a.to > i-3 })) {
			return h.nounApart(l, list)
		}
	}
	if at := slices.IndexFunc(list, l.wouldDo); at >= 0 && len(list[at].units) > 0 {
		return h.nounApart(l, list)
	}
	return -1
}

// asksHere reports whether the clause of token i is a question of yes or no.
func (l *line) asksHere(i int) bool {
	for i > 0 && !l.tokens[i-1].ends {
		i--
	}
	for startsTurn[wordAt(l.tokens, i)] || isOneOf(wordAt(l.tokens, i), "and", "but") {
		i++
	}
	word := wordAt(l.tokens, i)
	return askingVerbs[word] || isOneOf(word, "have", "has", "got") && askedAbout[wordAt(l.tokens, i+1)]
}
