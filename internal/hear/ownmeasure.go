package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// The facts of a maker's own cap or scoop.
const (
	measureFact = "measure"
	ownMeasure  = "own"
)

const ownMeasureMl = "own_measure_ml" // what it holds

var ownMeasureFacts = []string{"own_measure_per_tablespoon", ownMeasureMl}

// tellOwnMeasure: who says what a cap holds measures with that cap.
func (h *Hearing) tellOwnMeasure(f *book.Fact, words string, m *Meaning) {
	measure := h.factNamed(measureFact)
	if measure == nil || !slices.Contains(ownMeasureFacts, f.Name) {
		return
	}
	for i, o := range measure.Options {
		if o.Value == ownMeasure {
			m.tell(measure.ID, logic.Option(i), words)
		}
	}
}

// tellMeasure hears what is measured with where amounts are asked for: "how
// many spoons of gelatin", "in cups"; while sums are under way, where nothing
// else is said: "I use US cups".
func (h *Hearing) tellMeasure(c Context, l *line, m *Meaning) {
	f := h.factNamed(measureFact)
	if f == nil || m.has(f.ID) || m.Command != sayAmounts && len(c.Sums) == 0 {
		return
	}
	for i := 1; i < len(l.tokens); i++ {
		if l.claimed[i] || !isOneOf(l.tokens[i-1].word, "many", "in", "use", "using", "only", "have") {
			continue
		}
		o, end := h.measureAt(f, l, i)
		if end == 0 || m.Command != sayAmounts && !l.saysOnly(i, end) {
			continue
		}
		m.tell(f.ID, logic.Option(o), l.said(i, end))
		l.claim(i-1, end)
		return
	}
}

// saysOnly reports whether all words of meaning outside tokens from to to-1 are
// understood already, or only lead to these.
func (l *line) saysOnly(from, to int) bool {
	return !slices.ContainsFunc(l.words, func(w word) bool {
		inside := w.at >= from && w.at < to
		return !inside && !l.claimed[w.at] && !courtesies[l.tokens[w.at].word] && !isOneOf(l.tokens[w.at].word, "use", "using", "only", "measure", "no", "wait")
	})
}

// measureAt gives the option of which the longest name begins with token i, and
// the token after it; 0 where there is none. Small words count: "US cups".
func (h *Hearing) measureAt(f *book.Fact, l *line, i int) (option, end int) {
	for o := range f.Options {
		for _, say := range sayings(f, f.Options[o]) {
			words := h.read(say)
			for len(words) > 1 && isOneOf(words[0].word, "in", "a") {
				words = words[1:]
			}
			n := min(i+len(words), len(l.tokens))
			if n > end && slices.EqualFunc(words, l.tokens[i:n], func(a, b token) bool { return a.stem == b.stem }) {
				option, end = o, n
			}
		}
	}
	return option, end
}

// vessels are what makers measure with.
var vessels = wordSet("glass cap lid scoop beaker ladle mug cup thimble measure")

// tellVessel hears what a maker's own measure holds: "with a 50 ml shot glass".
func (h *Hearing) tellVessel(l *line, list []amount, m *Meaning) {
	f := h.factNamed(ownMeasureMl)
	if f == nil || m.has(f.ID) {
		return
	}
	for _, a := range list {
		first := a.from
		for first > 0 && light[l.tokens[first-1].word] && !isOneOf(l.tokens[first-1].word, "with", "by") {
			first--
		}
		if l.claimed[a.from] || a.units == nil || !dimensionFits(f, a) || !isOneOf(wordAt(l.tokens, first-1), "with", "using", "use", "by") {
			continue
		}
		for at := a.to; at < a.to+2 && at < len(l.tokens) && !l.tokens[at-1].ends; at++ {
			if vessels[l.tokens[at].word] {
				h.tellAmong(Context{}, []*book.Fact{f}, l, a, m)
				l.claim(first-1, at+1)
				return
			}
		}
	}
}
