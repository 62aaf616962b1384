package hear

import (
	"fmt"
	"slices"
	"strings"

	"sparehand/internal/logic"
)

const copiesFact = "copies"

// notCopied are things that makers count and that are no casts.
var notCopied = wordSet(`minutes hours days weeks seconds months years people actors players shows performances nights evenings
rehearsals times coats layers parts pours mixes batches bowls bags packs bottles tubs tins boxes trays squares scoops caps lids spoons
drops bits sides ends corners edges walls moulds dollars euros quid pounds pence cents bucks degrees percent watts things ways
questions problems holes bubbles lumps cracks leaks grams units sheets leaves holds hands faces fingers`)

// tellCopies hears how many casts are wanted: "5 barnacles", "two of them",
// "a dozen", "twice" — in a line that asks for a sum or tells sizes, or while
// sums are under way.
func (h *Hearing) tellCopies(c Context, l *line, found []match, list []amount, m *Meaning) {
	f := h.factNamed(copiesFact)
	sized := slices.ContainsFunc(m.Facts, func(t Heard) bool { return h.isSize(&h.book.Facts[t.Fact]) }) || len(m.Readings) > 0
	if f == nil || f.Kind != logic.Number || m.has(f.ID) || len(c.scope.groups) == 0 && !c.scope.asked && !sized {
		return
	}
	if h.tellsNoCount(c, l, found, list, m) {
		return
	}
	for _, a := range list {
		if l.claimed[a.from] || a.chain > 0 || a.article || len(a.units) > 0 || a.value < 1 || a.value != float64(int(a.value)) {
			continue
		}
		if to := h.counts(l, found, a); to > 0 && believable(f, a.value) {
			m.tell(f.ID, logic.Num(a.value), l.said(a.from, to))
			l.claim(a.from, to)
			return
		}
	}
	for i, t := range l.tokens {
		value := 0.0
		switch {
		case isOneOf(wordAt(l.tokens, i+1), "as", "the", "its", "that"): // twice as big
		case t.word == "twice":
			value = 2
		case t.word == "thrice":
			value = 3
		case t.word == "both" && l.isPlural(i+1):
			value = 2
		}
		if value > 0 && !l.claimed[i] {
			m.tell(f.ID, logic.Num(value), l.said(i, i+1))
			l.claim(i, i+1)
			return
		}
	}
}

// counts gives the end of a count of things that are cast, or 0.
func (h *Hearing) counts(l *line, found []match, a amount) int {
	dozen := l.saysAny(a.from, a.to, "dozen")
	next := wordAt(l.tokens, a.to)
	switch {
	case a.counts:
		return a.to + 1
	case l.ofCompany(a):
		return a.to
	case l.tokens[a.to-1].ends || next == "":
		return only(dozen, a.to)
	}
	if next == "of" {
		return only(isOneOf(wordAt(l.tokens, a.to+1), "them", "these", "those", "it") || h.isThing(l, found, a.to+1), a.to+2)
	}
	if next == "times" {
		return only(a.to+1 == len(l.tokens) || !isCount(l.tokens[a.to+1]), a.to+1)
	}
	if end := h.thingAfter(l, found, a.to); end > 0 {
		return end
	}
	return only(dozen, a.to)
}

// thingAfter gives the end of what is counted from token i on, with a word of
// its kind perhaps before it: "5 small barnacles"; or 0.
func (h *Hearing) thingAfter(l *line, found []match, i int) int {
	for at := i; at < i+2 && at < len(l.tokens); at++ {
		if h.isThing(l, found, at) {
			return at + 1
		}
		if h.materialAt(l, at) != "" || light[l.tokens[at].word] || l.tokens[at].ends || isCount(l.tokens[at]) {
			break
		}
	}
	return 0
}

// companies are groups of people of whom each gets a cast.
var companies = wordSet("class group crew cast company chorus team workshop")

// ofCompany reports whether an amount is how many people there are to cast for:
// "for a class of twelve".
func (l *line) ofCompany(a amount) bool {
	return wordAt(l.tokens, a.from-1) == "of" && companies[wordAt(l.tokens, a.from-2)] && l.saysAny(max(0, a.from-5), max(0, a.from-2), "for")
}

// noCounts are said where a number of copies is wanted.
var noCounts = wordSet("few several")

// tellsNoCount complains of copies that no number is told of, or one that
// cannot be: "a few copies", "2.5 copies". Nothing else of the line is taken
// then, or it would be worked out for one copy.
func (h *Hearing) tellsNoCount(c Context, l *line, found []match, list []amount, m *Meaning) bool {
	f := h.factNamed(copiesFact)
	none := slices.ContainsFunc(list, func(a amount) bool {
		told := a.value == float64(int(a.value)) && believable(f, a.value)
		return !told && len(a.units) == 0 && !a.article && a.chain == 0 && !l.claimed[a.from] && h.thingAfter(l, found, a.to) > 0
	})
	for i, t := range l.tokens {
		wanted := c.scope.asks() || l.opensTurn(i) || l.saysAny(max(0, i-2), i, "for") // not "I made a few casts"
		none = none || wanted && noCounts[t.word] && !t.ends && h.thingAfter(l, found, i+1) > 0
	}
	if !none {
		return false
	}
	m.Complaint = fmt.Sprintf("Tell me how many copies, a whole number from %s to %s.", show(f.Low), show(f.High))
	m.Facts, m.Readings = nil, nil
	l.claim(0, len(l.tokens))
	return true
}

func only(ok bool, end int) int {
	if ok {
		return end
	}
	return 0
}

// isThing reports whether token i is a plural that can be cast: no unit, no
// material and no word of an answer or a quantity.
func (h *Hearing) isThing(l *line, found []match, i int) bool {
	if i >= len(l.tokens) || !l.isPlural(i) || isUnitWord(l.tokens[i].word) || h.materialAt(l, i) != "" || l.asking[i] {
		return false
	}
	if copied[l.tokens[i].stem] && !isOneOf(wordAt(l.tokens, i-2), "in", "into") {
		return true
	}
	return !slices.ContainsFunc(found, func(v match) bool {
		from, to := l.span(&v)
		return i >= from && i < to && h.book.Facts[v.phrase.fact].Name != copiesFact
	})
}

// isPlural reports whether token i was said as the plural of something that
// may be cast. Mending can take the ending off: "noses" is nose then.
func (l *line) isPlural(i int) bool {
	word := l.said(i, i+1)
	plural := strings.HasSuffix(word, "s") && !strings.HasSuffix(word, "ss") && !strings.HasSuffix(word, "us") && len(word) > 3
	return (plural || isOneOf(word, "teeth", "ears")) && !notCopied[word] && !notCopied[l.tokens[i].word] && !light[word]
}
