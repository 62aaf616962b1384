package book

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"sparehand/internal/logic"
)

// Signs that decide nothing. Three kinds are looked for; each is exact, so a
// warning is never about a sign that could have moved the causes against each
// other:
//
//   - Flat: for one fact the ratios of a cause are normalised over the answers
//     (see package diagnose). Where every cause of a problem gives the fact the
//     same ratios but for a constant factor, the answer multiplies every cause
//     by the same, and their order and odds stay. A sign that is the same for
//     every answer the fact can have is flat by itself. So is a sign over
//     several facts that every cause has with the same strength.
//   - Twice: two signs of one cause that are true for just the same answers
//     count one observation double. Strength is what `points` is for.
//   - Never met: the sign is true only where one of its facts is not asked,
//     since its only_if is false there.
//
// A fact that only sets the known causes against "something else" is flat as
// well: no cause can be told from another by it.

// signOf is a sign with its cause.
type signOf struct {
	cause *Cause
	sign  *Sign
	truth string // of each answer, for a sign over one fact
}

func (l *lint) idleSigns() {
	state := l.book.Base.NewState()
	for _, p := range l.book.Problems {
		byFact := map[logic.FactID][]signOf{}
		var order []logic.FactID
		var joint []signOf
		for _, c := range p.Causes {
			for i := range c.Signs {
				s := signOf{cause: c, sign: &c.Signs[i]}
				facts := l.book.Base.Mentions(s.sign.When)
				if len(facts) != 1 {
					joint = append(joint, s)
					continue
				}
				if byFact[facts[0]] == nil {
					order = append(order, facts[0])
				}
				byFact[facts[0]] = append(byFact[facts[0]], s)
			}
		}
		for _, f := range order {
			l.flatFact(p, &l.book.Facts[f], byFact[f], state)
		}
		l.flatJoint(p, joint)
		for _, s := range joint {
			l.neverMet(s.sign, state)
		}
	}
}

// flatFact looks at all signs over one fact alone.
func (l *lint) flatFact(p *Problem, f *Fact, signs []signOf, state *logic.State) {
	conds := make([]logic.Cond, len(signs))
	for i, s := range signs {
		conds[i] = s.sign.When
	}
	if slices.ContainsFunc(conds, l.summed) {
		return
	}
	answers := l.book.answers(f, conds)
	for i := range signs {
		signs[i].truth = truths(state, f.ID, answers, signs[i].sign.When)
		if same := strings.Trim(signs[i].truth, "x") == "" || strings.Trim(signs[i].truth, ".") == ""; same {
			l.warn(signs[i].sign.Place, "this sign is the same for every answer that %s can have, so it decides nothing", f.Name)
		}
	}
	l.twice(signs)
	first := weights(p.Causes[0], signs, len(answers))
	for _, c := range p.Causes[1:] {
		if !alike(first, weights(c, signs, len(answers))) {
			return
		}
	}
	l.warn(signs[0].sign.Place, "the signs about %s are the same for every cause of %s, so its answer tells none from another", f.Name, p.ID)
}

// weights are the decibans that the signs of a cause give each answer.
func weights(c *Cause, signs []signOf, answers int) []float64 {
	sum := make([]float64, answers)
	for _, s := range signs {
		for i := range sum {
			if s.cause == c && s.truth[i] == 'x' {
				sum[i] += PointsDecibans[s.sign.Points]
			}
		}
	}
	return sum
}

// alike reports whether two causes' weights differ by a constant only, which
// normalising takes out. Decibans are whole numbers, so no rounding is in it.
func alike(a, b []float64) bool {
	for i := range a {
		if a[i]-b[i] != a[0]-b[0] {
			return false
		}
	}
	return true
}

// twice finds signs of one cause that are true for the same answers.
func (l *lint) twice(signs []signOf) {
	for i, s := range signs {
		for _, before := range signs[:i] {
			if before.cause == s.cause && before.truth == s.truth {
				l.warn(s.sign.Place, "cause %s has a sign for the same answers already, at line %d", s.cause.ID, before.sign.Place.Line)
				break
			}
		}
	}
}

// flatJoint looks at signs over several facts: the same text is the same
// condition.
func (l *lint) flatJoint(p *Problem, joint []signOf) {
	causes := map[string][]signOf{}
	for i, s := range joint {
		text := l.plainText(s.sign.When)
		for _, before := range joint[:i] {
			if before.cause == s.cause && l.plainText(before.sign.When) == text {
				l.warn(s.sign.Place, "cause %s has this sign already, at line %d", s.cause.ID, before.sign.Place.Line)
			}
		}
		key := fmt.Sprint(text, " ", PointsDecibans[s.sign.Points])
		if !slices.ContainsFunc(causes[key], func(o signOf) bool { return o.cause == s.cause }) {
			causes[key] = append(causes[key], s)
		}
		if len(causes[key]) == len(p.Causes) {
			l.warn(causes[key][0].sign.Place, "every cause of %s has this very sign, so it tells none from another", p.ID)
		}
	}
}

func (l *lint) plainText(c logic.Cond) string {
	return strings.Join(strings.Fields(l.book.Base.Text(c)), " ")
}

// sum finds arithmetic and calls in a condition.
var sum = regexp.MustCompile(`[-+*/]|[a-z0-9_]\(`)

// summed reports whether a condition compares sums: where those turn isn't
// known, so such a sign is left alone.
func (l *lint) summed(c logic.Cond) bool { return sum.MatchString(l.book.Base.Text(c)) }

// mostTries bounds the answers tried for one sign.
const mostTries = 20_000

// neverMet looks for answers for which a sign is true and each of its facts
// may be asked.
func (l *lint) neverMet(s *Sign, state *logic.State) {
	facts := slices.Clone(l.book.Base.Mentions(s.When))
	conds := []logic.Cond{s.When}
	var asked []logic.Cond
	for _, id := range facts[:len(facts):len(facts)] {
		f := &l.book.Facts[id]
		if !f.HasOnlyIf {
			continue
		}
		asked = append(asked, f.OnlyIf)
		for _, other := range l.book.Base.Mentions(f.OnlyIf) {
			if !slices.Contains(facts, other) {
				facts = append(facts, other)
			}
		}
	}
	if len(asked) == 0 {
		return
	}
	conds = append(conds, asked...)
	if slices.ContainsFunc(conds, l.summed) {
		return
	}
	tries := 1
	answers := make([][]logic.Value, len(facts))
	for i, id := range facts {
		answers[i] = l.book.answers(&l.book.Facts[id], conds)
		if tries *= len(answers[i]); tries > mostTries {
			return
		}
	}
	defer state.Reset()
	if !possible(state, facts, answers, func() bool {
		return state.Truth(s.When) == logic.True &&
			!slices.ContainsFunc(asked, func(c logic.Cond) bool { return state.Truth(c) == logic.False })
	}) {
		l.warn(s.Place, "this sign is true only where one of its facts is never asked, by its only_if")
	}
}

// possible reports whether some answers to the facts make holds true.
func possible(state *logic.State, facts []logic.FactID, answers [][]logic.Value, holds func() bool) bool {
	if len(facts) == 0 {
		return holds()
	}
	for _, v := range answers[0] {
		if state.Set(facts[0], v) == nil && possible(state, facts[1:], answers[1:], holds) {
			return true
		}
	}
	return false
}

// answers lists what can be answered to a fact, as far as conds tell it apart:
// the options, or for a number the thresholds and a number on either side of
// each, within what is believable.
func (b *Book) answers(f *Fact, conds []logic.Cond) []logic.Value {
	if f.Kind != logic.Number {
		out := make([]logic.Value, len(f.Options))
		for i := range out {
			out[i] = logic.Option(i)
		}
		if f.Kind == logic.YesNo {
			out = []logic.Value{logic.Yes(true), logic.Yes(false)}
		}
		return out
	}
	cuts := b.Base.Cuts(f.ID, conds...)
	low, high := f.Low, f.High
	if low == high && len(cuts) > 0 { // open
		low, high = cuts[0]-1, cuts[len(cuts)-1]+1
	}
	out := []logic.Value{logic.Num(low)}
	last := low
	for _, c := range cuts {
		if c > low && c < high {
			out = append(out, logic.Num((last+c)/2), logic.Num(c))
			last = c
		}
	}
	return append(out, logic.Num((last+high)/2), logic.Num(high))
}

// truths writes for each answer x where the condition is true, else a dot.
func truths(state *logic.State, f logic.FactID, answers []logic.Value, c logic.Cond) string {
	out := make([]byte, len(answers))
	for i, v := range answers {
		out[i] = '.'
		state.Reset()
		if state.Set(f, v) == nil && state.Truth(c) == logic.True {
			out[i] = 'x'
		}
	}
	state.Reset()
	return string(out)
}
