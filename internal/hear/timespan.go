package hear

import (
	"sparehand/internal/craft"
)

// span is a time from now, or a time of day, and the tokens that told it.
type span struct {
	from, to int
	minutes  float64
	clock    *Clock
	bare     bool // a number without its unit: "give me a shout in ten"
}

// timeIn reads the time that is told in tokens from to to-1: a length of time
// first, then a time of day, then a bare number of minutes.
func timeIn(l *line, from, to int) (span, bool) {
	list := readAmounts(l)
	for _, a := range list {
		if a.from < from || a.to > to {
			continue
		}
		if minutes, ok := lasting(a); ok {
			return l.widened(span{from: a.from, to: a.to, minutes: minutes}, from, to), true
		}
	}
	for i := from; i < to; i++ {
		at, end, ok := readClock(l.tokens, i)
		told := end-i > 1 || isOneOf(wordAt(l.tokens, i), "noon", "midday", "midnight") ||
			isOneOf(wordAt(l.tokens, i-1), "at", "by", "till", "until", "around") || l.saysAny(max(from, i-3), i, "alarm")
		cut := wordAt(l.tokens, end) == "past" || wordAt(l.tokens, end) == "to" && end+1 >= to // "ten past", of an hour left out
		if ok && told && end <= to && !cut {
			at.Tomorrow = l.saysAny(from, to, "tomorrow")
			return l.widened(span{from: i, to: end, clock: &at}, from, to), true
		}
	}
	for _, a := range list {
		whole := a.from >= from && a.to <= to && len(a.units) == 0 && !a.article && a.chain == 0 && a.value >= 1 && a.value <= 180
		ends := a.to == to || isOneOf(wordAt(l.tokens, a.to), "to", "for", "please", "from", "on")
		if whole && ends && (a.from == from || isOneOf(wordAt(l.tokens, a.from-1), "in", "for", "timer", "it", "a", "after", "give", "add", "snooze", "by")) {
			return l.widened(span{from: a.from, to: a.to, minutes: a.value, bare: true}, from, to), true
		}
	}
	return span{}, false
}

// lasting gives an amount in minutes where it is a length of time to wait for.
// "A second" is a manner of speaking.
func lasting(a amount) (float64, bool) {
	for _, u := range a.units {
		if u.Dimension != craft.Time || a.article && u.Name == "second" {
			continue
		}
		if x, err := u.Base(a.value); err == nil && x > 0 {
			return x, true
		}
	}
	return 0, false
}

// widened takes the small words around a time into it: "in ten minutes' time",
// "when half an hour is up".
func (l *line) widened(s span, from, to int) span {
	for s.from > from && isOneOf(l.tokens[s.from-1].word, "in", "at", "after", "for", "by", "of", "about", "around", "once", "when",
		"every", "exactly", "it", "is", "has", "been", "the", "those", "these", "this", "till", "until") {
		s.from--
	}
	for s.to < to && (isOneOf(l.tokens[s.to].word, "is", "are", "have", "has", "up", "passed", "over", "gone", "by", "from", "now", "time", "later",
		"or", "tomorrow", "exactly") || l.tokens[s.to].word == "so" && l.tokens[s.to-1].word == "or") {
		s.to++
	}
	return s
}
