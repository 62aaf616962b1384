package hear

import (
	"slices"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/craft"
)

// answerNumber reads an answer to a number fact.
func (h *Hearing) answerNumber(c Context, l *line, found []match, m *Meaning) bool {
	f := c.Asked.Fact
	list := readAmounts(l)
	if h.tellByPlace(c, l, list, m); m.has(f.ID) || len(m.Facts) > 0 && l.allClaimed(list) {
		return true
	}
	chained := slices.ContainsFunc(list, func(a amount) bool { return a.chain > 0 })
	if (chained || h.isSize(f)) && h.tellSizes(c, l, found, list, m) {
		h.tellRest(c, l, found, list, m)
		return true
	}
	a, ok := h.amountFor(c, l, found, list)
	if !ok {
		a, ok = misheardNumber(l)
	}
	if !ok {
		return h.noNumber(l, m)
	}
	if !dimensionFits(f, a) {
		if others := h.insteadOf(c, l, f, a, m); len(others) > 0 {
			return h.tellAmong(c, others, l, a, m)
		}
	}
	if _, complaint := h.readingsIn(c, f, a); complaint != "" && h.sounds(l, a) > 4 {
		return false // a tale with a number in it is no answer
	}
	return h.tellAmong(c, []*book.Fact{f}, l, a, m)
}

// allClaimed reports whether all amounts of the line are understood.
func (l *line) allClaimed(list []amount) bool {
	return !slices.ContainsFunc(list, func(a amount) bool { return !l.claimed[a.from] })
}

// tellRest takes what is left beside sizes for the answer: "30 mm, 20 wide".
func (h *Hearing) tellRest(c Context, l *line, found []match, list []amount, m *Meaning) {
	f := c.Asked.Fact
	if m.has(f.ID) || len(m.Readings) > 0 || m.Complaint != "" {
		return
	}
	for _, a := range list {
		if !l.claimed[a.from] && !a.article && len(a.units) > 0 && dimensionFits(f, a) && len(h.namesOf(c, l, found, a)) == 0 {
			h.tellAmong(c, []*book.Fact{f}, l, a, m)
			return
		}
	}
}

// sounds counts the words of meaning outside the amount.
func (h *Hearing) sounds(l *line, a amount) int {
	n := 0
	for _, w := range l.words {
		if w.at < a.from || w.at >= a.to {
			n++
		}
	}
	return n
}

// amountFor picks the amount of the line that answers the question: not one
// that another fact's name claims; after a correction the last; else the
// first whose unit fits.
func (h *Hearing) amountFor(c Context, l *line, found []match, all []amount) (amount, bool) {
	f := c.Asked.Fact
	var list []amount
	for _, a := range all {
		named := h.namesOf(c, l, found, a)
		if len(named) > 0 && h.ofOther(f, named) || a.article && !dimensionFits(f, a) && h.sounds(l, a) > 1 {
			continue
		}
		if len(named) > 0 || c.Problem == nil || len(l.words) <= 12 {
			list = append(list, a)
		}
	}
	if len(list) == 0 {
		return amount{}, false
	}
	pick := list[0]
	for i, a := range list {
		if i > 0 && correctedBetween(l, list[i-1].to, a.from) || i > 0 && !dimensionFits(f, pick) && dimensionFits(f, a) {
			pick = a
		}
	}
	return pick, true
}

// ofOther reports whether names claim an amount for other facts than the one
// asked about. A word such as "wide" says nothing against another length.
func (h *Hearing) ofOther(asked *book.Fact, named []match) bool {
	for _, v := range named {
		f := &h.book.Facts[v.phrase.fact]
		if f.ID == asked.ID || asked.Unit == "mm" && h.isSize(f) && !h.isSize(asked) {
			return false
		}
	}
	return true
}

func correctedBetween(l *line, from, to int) bool {
	for i := from; i < to; i++ {
		if isOneOf(l.tokens[i].word, "wait", "sorry", "actually", "rather", "correction", "no", "mean", "scratch") {
			return true
		}
	}
	return false
}

// priceSuffix ends the names of facts that are told in any currency.
const priceSuffix = "_price"

func isPound(u craft.Unit) bool { return u.Name == "pound" }

// dimensionFits reports whether the amount can be one of the fact. A number
// without a unit always can.
func dimensionFits(f *book.Fact, a amount) bool {
	dim, measured := dimensionOf(f.Unit)
	if !measured {
		return len(a.units) == 0 || strings.HasSuffix(f.Name, priceSuffix) && slices.ContainsFunc(a.units, isPound)
	}
	if len(a.units) == 0 {
		return true
	}
	for _, u := range a.units {
		if u.Dimension == dim {
			return true
		}
	}
	return false
}

var misheardNumbers = map[string]float64{"to": 2, "too": 2, "for": 4, "fore": 4, "won": 1, "ate": 8, "tree": 3, "free": 3, "sex": 6, "tin": 10}

// misheardNumber takes "to" for two and the like, where it is all that was
// said, and "none" for zero.
func misheardNumber(l *line) (amount, bool) {
	if len(l.tokens) == 0 || len(l.tokens) > 2 {
		return amount{}, false
	}
	value, ok := misheardNumbers[l.tokens[0].word]
	if !ok && l.tokens[0].word != "none" {
		return amount{}, false
	}
	a := amount{value: value, from: 0, to: 1}
	a.takeUnit(l.tokens, 1)
	return a, len(l.tokens) == 1 || a.units != nil
}

// noMeter: who has nothing to measure with is not sure.
var noMeter = phraseList(`do not have a|do not have one|do not have any|have not got a|have not got one|do not own a|no meter|
no thermometer|no ruler|no scales|no scale|can not measure|never measured|did not measure|did not weigh|did not time|no way to measure`)

func (h *Hearing) noNumber(l *line, m *Meaning) bool {
	from, to := h.doubts(l)
	if from < 0 {
		from, to = find(l.tokens, noMeter)
	}
	if from >= 0 {
		m.NotSure = true
		l.claim(from, to)
		return true
	}
	for _, t := range l.tokens {
		if word := singular(t.word); len(l.words) <= 3 && (containers[word] || packWords[word]) {
			m.Complaint = "I can't tell how much that holds: give me grams, millilitres or cups."
			l.claim(0, len(l.tokens))
			return true
		}
		if len(l.words) <= 3 && isOneOf(t.word, "few", "several", "some", "lots", "many", "loads", "plenty") {
			m.Complaint = "I need a number, a rough one will do."
			l.claim(0, len(l.tokens))
			return true
		}
	}
	return false
}
