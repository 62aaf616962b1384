package hear

import (
	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// correcting are the words that a correction begins with, and that it is made
// of beside its number.
var correcting = wordSet("no sorry wait actually rather correction oops i mean meant make it is that was should be scratch not um er")

// tellCorrection hears a number that corrects one told before, without a word
// for which: "no sorry 120". What is made so many of is the copies; a size may
// be any of the piece's, so it is asked about.
func (h *Hearing) tellCorrection(c Context, l *line, m *Meaning) bool {
	list := readAmounts(l)
	if len(c.Sums) == 0 || len(list) != 1 || list[0].chain > 0 || list[0].article || !lengthFits(list[0]) || !h.mayCorrect(c, list[0]) {
		return false
	}
	a := list[0]
	opens, makes := false, false
	for i, t := range l.tokens {
		if i >= a.from && i < a.to {
			continue
		}
		if i > a.to || !correcting[t.word] {
			return false
		}
		opens = opens || isOneOf(t.word, "no", "sorry", "wait", "actually", "rather", "correction", "oops", "meant")
		makes = makes || t.word == "make"
	}
	if copies := h.factNamed(copiesFact); makes && len(a.units) == 0 && copies != nil && c.scope.has(copies.ID) && a.value >= 1 && a.value == float64(int(a.value)) && believable(copies, a.value) {
		m.tell(copies.ID, logic.Num(a.value), l.said(0, len(l.tokens)))
		l.claim(0, len(l.tokens))
		return true
	}
	return opens && h.offerSizes(c, l, a, m)
}

// mayCorrect reports whether a number may be a correction although something
// is asked: not where it answers.
func (h *Hearing) mayCorrect(c Context, a amount) bool {
	switch asked := c.Asked; {
	case asked == nil:
		return true
	case asked.Fact == nil:
		return false
	case asked.Kind == logic.Choice:
		return len(a.units) > 0 || a.value > float64(len(shown(asked)))
	default:
		return h.isSize(asked.Fact)
	}
}

// offerSizes asks which size of the piece a number is of.
func (h *Hearing) offerSizes(c Context, l *line, a amount, m *Meaning) bool {
	of := h.piece
	if c.Asked != nil && c.Asked.Fact != nil && h.tray.has(c.Asked.Fact) && !h.piece.has(c.Asked.Fact) {
		of = h.tray
	}
	var list []Choice
	words := l.said(a.from, a.to)
	for _, ax := range []axis{lengthwise, widthwise, upright} {
		f := of[ax]
		if f == nil || !c.scope.has(f.ID) {
			continue
		}
		if readings, _ := h.readingsIn(c, f, a); len(readings) == 1 {
			r := readings[0]
			list = append(list, Choice{name(f) + ": " + r.label, []Heard{{f.ID, logic.Num(within(f, r.value)), words}}, f.ID})
		}
	}
	if len(list) < 2 {
		return false
	}
	l.claim(0, len(l.tokens))
	m.offer(list)
	return true
}

func (s solid) has(f *book.Fact) bool {
	for _, own := range s {
		if own == f {
			return true
		}
	}
	return false
}

// takesBack reports whether a line begins as people do who put right what they
// said: "no wait, it was oil clay", "actually the edge".
func (l *line) takesBack() bool {
	for i, t := range l.tokens {
		switch {
		case isOneOf(t.word, "wait", "actually", "sorry", "correction", "meant", "oops"), t.word == "mean" && wordAt(l.tokens, i-1) == "i", t.word == "no" && i == 0 && t.ends:
			return true
		case i > 2 || !isOneOf(t.word, "no", "oh", "hang", "on", "i", "well", "hm", "um", "er", "ah", "but"):
			return false
		}
	}
	return false
}
