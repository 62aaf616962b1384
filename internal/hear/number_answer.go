package hear

import (
	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// answerNumber reads an answer to a number fact.
func (h *Hearing) answerNumber(c Context, l *line, found []match, m *Meaning) bool {
	f := c.Asked.Fact
	a, ok := h.amountFor(c, l, found)
	if !ok {
		a, ok = misheardNumber(l)
	}
	if !ok {
		return h.noNumber(l, m)
	}
	if a.chain > 0 && h.tellSizes(l, m) {
		return true
	}
	list, complaint := readingsFor(f, a)
	if complaint != "" {
		if h.sounds(l, a) > 4 {
			return false // a tale with a number in it is no answer
		}
		m.Complaint = complaint
		l.claim(a.from, a.to)
		return true
	}
	h.tellReadings(f, l, a, list, m)
	return true
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

// tellReadings tells a clear amount, and offers one that is not.
func (h *Hearing) tellReadings(f *book.Fact, l *line, a amount, list []reading, m *Meaning) {
	words := l.said(a.from, a.to)
	l.claim(a.from, a.to)
	if len(list) == 1 {
		m.tell(f.ID, logic.Num(round(list[0].value)), words)
		h.tellOwnMeasure(f, words, m)
		return
	}
	for _, r := range list[:min(3, len(list))] {
		told := Heard{f.ID, logic.Num(round(r.value)), words}
		m.Readings = append(m.Readings, Choice{r.label, []Heard{told}, f.ID})
	}
}

// amountFor picks the amount of the line that answers the question: not one
// that another fact's name claims; after a correction the last; else the
// first whose unit fits.
func (h *Hearing) amountFor(c Context, l *line, found []match) (amount, bool) {
	f := c.Asked.Fact
	var list []amount
	for _, a := range readAmounts(l) {
		named := h.nameOf(c, l, found, a)
		if named != nil && named.phrase.fact != f.ID || a.article && !dimensionFits(f, a) {
			continue
		}
		if named != nil || c.Problem == nil || len(l.words) <= 12 {
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

func correctedBetween(l *line, from, to int) bool {
	for i := from; i < to; i++ {
		if isOneOf(l.tokens[i].word, "wait", "sorry", "actually", "rather", "correction", "no", "mean", "scratch") {
			return true
		}
	}
	return false
}

// dimensionFits reports whether the amount can be one of the fact. A number
// without a unit always can.
func dimensionFits(f *book.Fact, a amount) bool {
	dim, measured := dimensionOf(f.Unit)
	if len(a.units) == 0 || !measured {
		return len(a.units) == 0
	}
	for _, u := range a.units {
		if u.Dimension == dim {
			return true
		}
	}
	return false
}

// misheardNumber takes "to" for two and the like, where it is all that was
// said, and "none" for zero.
func misheardNumber(l *line) (amount, bool) {
	if len(l.tokens) == 0 || len(l.tokens) > 2 {
		return amount{}, false
	}
	values := map[string]float64{"to": 2, "too": 2, "for": 4, "fore": 4, "won": 1, "ate": 8, "tree": 3, "free": 3, "sex": 6, "tin": 10, "none": 0}
	value, ok := values[l.tokens[0].word]
	if !ok {
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
		if len(l.words) <= 3 && isOneOf(t.word, "few", "several", "some", "lots", "many", "loads", "plenty") {
			m.Complaint = "I need a number, a rough one will do."
			l.claim(0, len(l.tokens))
			return true
		}
	}
	return false
}
