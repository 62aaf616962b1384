package hear

import (
	"slices"

	"sparehand/internal/logic"
)

// benchStage holds the facts of the room, the sizes and the measures, which
// matter whatever the problem.
const benchStage = "bench"

// standing says how near a fact is to what is talked about.
type standing uint8

const (
	foreign standing = iota
	sumFact          // of a sum that is not talked about
	sharedFact
	problemFact
	scopeFact // of a sum that is asked for or under way
	askedFact
)

func (h *Hearing) standing(c Context, id logic.FactID) standing {
	switch {
	case c.Asked != nil && c.Asked.Fact != nil && c.Asked.Fact.ID == id:
		return askedFact
	case c.scope.has(id), c.scope.asks() && slices.Contains(h.mixes, &h.book.Facts[id]):
		return scopeFact
	case c.Problem != nil && h.factsOf[c.Problem.ID][id]:
		return problemFact
	case h.forSums[id]:
		return sumFact
	case h.book.Facts[id].Stage == benchStage, c.Problem == nil && h.shared[id]:
		return sharedFact
	}
	return foreign
}

// volunteer adds the facts that the words tell in passing. The longest phrase
// wins; among facts that share it, the one nearest to what is talked about;
// where that is not one fact, none is taken.
func (h *Hearing) volunteer(c Context, l *line, found []match, answered bool, m *Meaning) {
	var aside *line
	if answered && c.Asked.Kind != logic.YesNo {
		aside = l
	}
	list := h.worthwhile(c, found, aside)
	slices.SortStableFunc(list, func(a, b match) int {
		if n := (b.to - b.from) - (a.to - a.from); n != 0 {
			return n
		}
		return int(h.standing(c, b.phrase.fact)) - int(h.standing(c, a.phrase.fact))
	})
	for i := range list {
		v := &list[i]
		if l.taken(v) || l.asksOf(v) && !h.namesMix(l, v) || h.contested(c, list, i) {
			continue
		}
		h.tellMatch(l, v, m)
	}
}

// worthwhile keeps the matches that may be taken without being asked for. A
// single word aside of a choice or number belongs to that answer, unless it is
// all that its clause says: "itchy, only where the glue was".
func (h *Hearing) worthwhile(c Context, found []match, aside *line) []match {
	var list []match
	for _, v := range found {
		p := v.phrase
		if p.option == quantity || p.part || len(p.words) < 2 && (aside != nil && !aside.aloneInClause(&v) || isNumberWord(p.words[0])) {
			continue
		}
		enough := false
		switch h.standing(c, p.fact) {
		case askedFact:
			enough = true
		case problemFact, scopeFact:
			enough = len(p.words) > 1 || p.length >= 4 && !p.common
		case sharedFact, sumFact:
			enough = (len(p.words) > 1 || p.length >= 5) && !p.common
		case foreign:
			enough = c.Problem == nil && len(p.words) > 2 && !p.common
		}
		if enough {
			list = append(list, v)
		}
	}
	return list
}

// aloneInClause reports whether a match is all that its clause says.
func (l *line) aloneInClause(v *match) bool {
	from, to := l.span(v)
	for from > 0 && !l.cutAt(from) {
		from--
	}
	for to < len(l.tokens) && !l.cutAt(to) {
		to++
	}
	for i := range l.words {
		if at := l.words[i].at; at >= from && at < to && (i < v.from || i >= v.to) {
			return false
		}
	}
	return true
}

// taken reports whether tokens of the match are understood already.
func (l *line) taken(v *match) bool {
	for i := v.from; i < v.to; i++ {
		if l.claimed[l.words[i].at] {
			return true
		}
	}
	return false
}

// asksOf reports whether a match is only what a sum is asked of: "how much
// gelatin and glycerin" names no recipe, "how much of the gelatin and glycerin
// mix" does, and so does a request with all of its words.
func (l *line) asksOf(v *match) bool {
	inside := 0
	for i := v.from; i < v.to; i++ {
		if l.asking[l.words[i].at] {
			inside++
		}
	}
	if inside == 0 || inside == v.to-v.from && inside > 1 {
		return false
	}
	_, to := l.span(v)
	return !isOneOf(wordAt(l.tokens, to), "mix", "recipe", "version", "kind", "one") || v.to-v.from < 2
}

// namesMix reports whether a match chooses a mix although a sum is asked of what
// is in it: where the names stand apart from "how much", as in "gelatin and
// glycerin, how much of each"; where "mix" is part of it; and where only one
// recipe is made of these.
func (h *Hearing) namesMix(l *line, v *match) bool {
	f := &h.book.Facts[v.phrase.fact]
	if !slices.Contains(h.mixes, f) || v.to-v.from < 2 {
		return false
	}
	from, to := l.span(v)
	apart := l.asksHowMuch() && (from == 0 || !l.asking[from-1])
	return apart || isOneOf(l.tokens[to-1].word, "mix", "recipe") || h.onlyRecipe(l, from, to, f.Options[v.phrase.option].Value)
}

// onlyRecipe reports whether the materials named by tokens from to to-1 are all
// those of one recipe, and of no other together.
func (h *Hearing) onlyRecipe(l *line, from, to int, id string) bool {
	named := make(map[string]bool)
	for i := from; i < to; i++ {
		if material := h.materialAt(l, i); material != "" {
			named[material] = true
		}
	}
	holding, all := 0, false
	for _, r := range h.book.Recipes {
		n := 0
		for _, p := range r.Parts {
			if named[p.Material.ID] {
				n++
			}
		}
		if n == len(named) {
			holding++
			all = all || r.ID == id && n == len(r.Parts)
		}
	}
	return all && holding == 1
}

// contested reports whether another match of the same words, of another
// meaning and no farther fact, makes list[i] unsafe to take; or another
// option of the same fact is said elsewhere in the line.
func (h *Hearing) contested(c Context, list []match, i int) bool {
	v := list[i]
	for j, o := range list {
		if j == i {
			continue
		}
		same := o.from == v.from && o.to == v.to
		if same && o.phrase.fact != v.phrase.fact && h.standing(c, o.phrase.fact) >= h.standing(c, v.phrase.fact) {
			return true
		}
		if o.phrase.fact == v.phrase.fact && o.phrase.option != v.phrase.option && o.denied == v.denied && o.to-o.from >= v.to-v.from {
			return true
		}
	}
	return false
}

func (h *Hearing) tellMatch(l *line, v *match, m *Meaning) {
	from, to := l.span(v)
	l.claim(from, to)
	f := &h.book.Facts[v.phrase.fact]
	if f.Kind == logic.YesNo {
		m.tell(f.ID, logic.Yes((v.phrase.option == 0) != v.denied), l.said(from, to))
		return
	}
	value := logic.Option(v.phrase.option)
	if v.denied {
		if d := (Denied{f.ID, value}); !slices.Contains(m.Denied, d) {
			m.Denied = append(m.Denied, d)
		}
		return
	}
	m.tell(f.ID, value, l.said(from, to))
}
