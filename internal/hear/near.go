package hear

import (
	"math"
	"slices"
	"strings"
)

// How many tokens may stand between a number and the name of its fact: after
// the number ("15 mm thick") and before it ("humidity is now about 30").
const (
	nameAfter  = 1
	nameBefore = 3
	// the thing that a "wide" is said of, other numbers of it passed over
	subjectBefore = 10
	// any name at all
	nameWithin = 16
)

// namesOf gives the matches of number facts' names that stand nearest to the
// amount and fit its unit, each fact once: more than one where facts share a
// name.
func (h *Hearing) namesOf(c Context, l *line, found []match, a amount) []match {
	var best []match
	least := math.MaxInt
	consider := func(v match, gap int) {
		rank := h.standing(c, v.phrase.fact)
		if !h.mayName(c, &v, a, rank, gap) {
			return
		}
		cost := gap - 20*len(v.phrase.words) - int(rank)
		if cost < least {
			best, least = best[:0], cost
		}
		same := func(o match) bool { return o.phrase.fact == v.phrase.fact }
		if cost == least && !slices.ContainsFunc(best, same) {
			best = append(best, v)
		}
	}
	for _, v := range found {
		if at := l.words[v.from].at; v.phrase.option != quantity || at < a.from-nameWithin || at > a.to+nameWithin || l.spent(&v) {
			continue
		}
		if f := &h.book.Facts[v.phrase.fact]; !dimensionFits(f, a) && !(f.Unit == "" && l.words[v.from].at == a.bare) {
			continue
		}
		if v.phrase.whole != nil && !l.saysAll(&v) || h.countsThings(l, &v, a) {
			continue
		}
		if gap, ok := h.gap(l, found, &v, a, h.forSums[v.phrase.fact]); ok {
			consider(v, gap)
		}
	}
	for _, v := range h.around(l, a) {
		consider(v, 0)
	}
	return best
}

// spent reports whether all words of a match are understood already.
func (l *line) spent(v *match) bool {
	for i := v.from; i < v.to; i++ {
		if !l.claimed[l.words[i].at] {
			return false
		}
	}
	return true
}

// countsThings reports whether a number counts what a measure is named with:
// "two microwaves" are no watts.
func (h *Hearing) countsThings(l *line, v *match, a amount) bool {
	at := l.words[v.from].at
	if len(a.units) > 0 || at != a.to || h.book.Facts[v.phrase.fact].Unit == "" {
		return false
	}
	word := l.said(at, at+1)
	return len(word) > 3 && strings.HasSuffix(word, "s") && !strings.HasSuffix(word, "ss")
}

// saysAll reports whether all words of a name stand round its match.
func (l *line) saysAll(v *match) bool {
	at := l.words[v.from].at
	for from := max(0, at-len(v.phrase.whole)+1); from <= at; from++ {
		if wordsAt(l.tokens, from, v.phrase.whole) > 0 {
			return true
		}
	}
	return false
}

// mayName reports whether a name may claim an amount where its fact stands.
// What only sums use is not told by a word in idle talk.
func (h *Hearing) mayName(c Context, v *match, a amount, rank standing, gap int) bool {
	if h.book.Facts[v.phrase.fact].Name == LeftFact && len(a.units) == 0 {
		return false // "by the window" is near no call, whatever number stands by
	}
	words := len(v.phrase.words)
	switch rank {
	case foreign:
		return c.Problem == nil && words > 1
	case sumFact:
		f := &h.book.Facts[v.phrase.fact]
		near := gap < wordApart/2 && (len(a.units) > 0 || isOneOf(f.Unit, "", "%", "C"))
		return words > 1 && (gap < wordApart || len(a.units) > 0) || near && (c.Problem == nil || h.summedBy[c.Problem.ID][f.ID])
	}
	return true
}

// What stands between a number and a name, in the order of how far it parts
// them: a word of meaning or the end of a clause, and a small word.
const (
	wordApart  = 100
	smallApart = 10
)

// gap says how far an amount and a name are apart, if they are near enough
// and no other number stands between. What a thing is for is not how much
// there is of it: "plaster for 300 ml".
func (h *Hearing) gap(l *line, found []match, v *match, a amount, ofSum bool) (int, bool) {
	from, to := l.span(v)
	switch {
	case from >= a.bare && from < a.to && to >= a.to:
		return 0, true // the name begins with the unit: "85 degrees in here"
	case to <= a.from:
		if ofSum && v.phrase.tail != "for" && slices.ContainsFunc(l.tokens[to:a.from], func(t token) bool { return t.word == "for" }) {
			return 0, false
		}
		return l.gapBefore(found, v, to, a.from)
	case from < a.to:
		return 0, false
	}
	return h.gapAfter(l, found, v, a, from)
}

func (l *line) gapBefore(found []match, v *match, lo, hi int) (int, bool) {
	if hi-lo > nameBefore || l.asking[l.words[v.to-1].at] || l.covered(found, v) {
		return 0, false
	}
	gap := 0
	for i := lo; i < hi; i++ {
		if isCount(l.tokens[i]) {
			return 0, false
		}
		gap += apart(l.tokens[i].word)
	}
	for i := lo; i <= hi && i > 0; i++ {
		if l.tokens[i-1].ends {
			return gap + wordApart/2, true
		}
	}
	return gap, true
}

// gapAfter lets "of my", and what an answer is called, stand between: "200 ml
// of the gelatin and glycerin mix".
func (h *Hearing) gapAfter(l *line, found []match, v *match, a amount, hi int) (int, bool) {
	from := wordAt(l.tokens, a.to) == "from"
	count := h.book.Facts[v.phrase.fact].Unit == ""
	of := from || wordAt(l.tokens, a.to) == "of" || hi == a.to && (len(a.units) > 0 || count)
	if from && v.phrase.whole == nil {
		return 0, false // so far from it, not so much of it
	}
	if l.tokens[a.to-1].ends || l.asking[l.words[v.from].at] && !of || l.covered(found, v) || h.qualifies(l, found, v, a) {
		return 0, false
	}
	gap, others := 0, 0
	for i := a.to; i < hi; i++ {
		word := l.tokens[i].word
		switch {
		case isCount(l.tokens[i]) || l.tokens[i].ends || isOneOf(word, "for", "and", "but", "with", "without", "using"):
			return 0, false
		case of && (light[word] || l.inOption(found, i) || l.inName(found, i)):
		default:
			others++
			gap += apart(word)
		}
	}
	return gap, others <= nameAfter || len(v.phrase.words) > 1 && gap < wordApart/2
}

func apart(word string) int {
	if light[word] || isOneOf(word, "here", "now", "today", "currently") {
		return smallApart
	}
	return wordApart
}

// qualifies reports whether a name only says which kind of the next one is
// meant: plaster in "plaster slurry".
func (h *Hearing) qualifies(l *line, found []match, v *match, a amount) bool {
	return slices.ContainsFunc(found, func(o match) bool {
		next := o.from == v.to && l.words[o.from].at == l.words[v.to-1].at+1 && !l.tokens[l.words[o.from].at-1].ends
		return next && o.phrase.option == quantity && dimensionFits(&h.book.Facts[o.phrase.fact], a)
	})
}

// inName reports whether a token is part of a number's name.
func (l *line) inName(found []match, token int) bool {
	return slices.ContainsFunc(found, func(v match) bool {
		from, to := l.span(&v)
		return v.phrase.option == quantity && token >= from && token < to
	})
}

// covered reports whether a name is part of a longer answer to another fact:
// glycerin in "the glycerin recipe".
func (l *line) covered(found []match, v *match) bool {
	return slices.ContainsFunc(found, func(o match) bool {
		longer := o.from <= v.from && o.to >= v.to && o.to-o.from > v.to-v.from
		return longer && o.phrase.option != quantity && !o.phrase.part && l.words[o.from].clause == l.words[o.to-1].clause
	})
}

// around finds names of two words that stand on both sides of an amount: "the
// skirt is 1 mm thick" for a thick skirt.
func (h *Hearing) around(l *line, a amount) []match {
	after := -1
	for i, w := range l.words {
		if w.at >= a.to {
			if w.at-a.to <= nameAfter && !l.tokens[a.to-1].ends {
				after = i
			}
			break
		}
	}
	if after < 0 {
		return nil
	}
	var list []match
	for i := after - 1; i >= 0 && l.words[i].at >= a.from-subjectBefore; i-- {
		w := l.words[i]
		word := l.tokens[w.at].word
		_, isAxis := axisWords[word]
		if w.at >= a.from || isAxis || isCount(l.tokens[w.at]) || isUnitWord(word) || l.claimed[w.at] {
			continue // "the skirt is 8 mm wide and 1 mm thick"
		}
		for _, id := range h.lexicon.pairs[pair{w.stem, l.words[after].stem}] {
			if !l.asking[w.at] && dimensionFits(&h.book.Facts[h.lexicon.phrases[id].fact], a) {
				list = append(list, match{phrase: &h.lexicon.phrases[id], from: after, to: after + 1})
			}
		}
		break
	}
	return list
}
