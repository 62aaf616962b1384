// Package diagnose works out why something went wrong: beliefs over the
// causes of a problem, the next question worth asking, and the order in which
// to try the remedies.
//
// The model of a problem is a naive Bayes network written in words. A cause
// has a verbal frequency; a sign multiplies the odds of the answers for which
// it is true. For one fact the answers' ratios are normalised, so that each
// cause gives a proper distribution over the answers, and an answer that a
// cause does not expect speaks against it without a sign of its own. Signs
// over several facts multiply on top when they are true. Beliefs are products
// and so do not depend on the order of the answers.
package diagnose

import (
	"math"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

const (
	// strangerWeight is the frequency of "something else", a cause that the
	// book does not know and that makes every answer equally likely.
	strangerWeight = 0.35
	// slip is the chance that an answer is a mistake and says nothing. It
	// keeps one wrong answer from deciding for good.
	slip = 0.08
)

// Model is a problem made ready for reasoning. It is immutable.
type Model struct {
	Problem *book.Problem
	base    *logic.Base
	facts   []book.Fact
	prior   []float64 // log, one for each cause and last for something else
	asks    []ask     // the facts that signs speak of
	joint   []joint   // signs over several facts
}

// ask is one fact with what each cause expects of it.
type ask struct {
	fact   logic.FactID
	effort float64
	cells  []cell
	touch  []int // the joint signs that mention the fact
}

// cell is one answer, or one stretch of numbers between thresholds.
type cell struct {
	value logic.Value // one that lies in it
	point bool        // a threshold itself: never drawn, has no width
	logR  []float64   // log ratio for each cause, the chance of a slip mixed in
	r     []float64   // the ratio itself
	clean []float64   // the ratio without slips: what a careful maker answers
}

// joint is a sign over several facts.
type joint struct {
	when  logic.Cond
	cause int
	logR  float64
}

// effortCost is what a question costs, in units of a look.
var effortCost = [...]float64{book.Look: 1, book.Touch: 1.2, book.Measure: 1.8, book.Test: 2.5}

// Models makes every problem of the book ready, in the book's order.
func Models(b *book.Book) []*Model {
	scratch := b.Base.NewState()
	models := make([]*Model, len(b.Problems))
	for i, p := range b.Problems {
		models[i] = newModel(b, p, scratch)
	}
	return models
}

func newModel(b *book.Book, p *book.Problem, scratch *logic.State) *Model {
	m := &Model{Problem: p, base: b.Base, facts: b.Facts}
	total := strangerWeight
	for _, c := range p.Causes {
		total += book.OftenWeight[c.Often]
	}
	for _, c := range p.Causes {
		m.prior = append(m.prior, math.Log(book.OftenWeight[c.Often]/total))
	}
	m.prior = append(m.prior, math.Log(strangerWeight/total))
	m.collect(scratch)
	return m
}

// single is a sign over one fact, gathered by fact.
type single struct {
	cause int
	when  logic.Cond
	logR  float64
}

func (m *Model) collect(scratch *logic.State) {
	byFact := map[logic.FactID][]single{}
	var order []logic.FactID
	note := func(f logic.FactID) {
		if _, seen := byFact[f]; !seen {
			byFact[f] = nil
			order = append(order, f)
		}
	}
	for i, c := range m.Problem.Causes {
		for _, s := range c.Signs {
			logR := book.PointsDecibans[s.Points] / 10 * math.Ln10
			facts := m.base.Mentions(s.When)
			for _, f := range facts {
				note(f)
			}
			if len(facts) == 1 {
				byFact[facts[0]] = append(byFact[facts[0]], single{i, s.When, logR})
			} else {
				m.joint = append(m.joint, joint{s.When, i, logR})
			}
		}
	}
	for _, f := range order {
		m.asks = append(m.asks, m.newAsk(f, byFact[f], scratch))
	}
}

func (m *Model) newAsk(f logic.FactID, signs []single, scratch *logic.State) ask {
	a := ask{fact: f, effort: effortCost[m.facts[f].Effort]}
	for i, j := range m.joint {
		for _, g := range m.base.Mentions(j.when) {
			if g == f {
				a.touch = append(a.touch, i)
			}
		}
	}
	a.cells = m.cells(f, signs)
	n := len(m.Problem.Causes)
	for i := range a.cells {
		a.cells[i].logR = make([]float64, n)
		scratch.Reset()
		if err := scratch.Set(f, a.cells[i].value); err != nil {
			continue // can't be: the value was made for this fact
		}
		for _, s := range signs {
			if scratch.Truth(s.when) == logic.True {
				a.cells[i].logR[s.cause] += s.logR
			}
		}
	}
	scratch.Reset()
	a.normalise(n)
	return a
}

// normalise makes each cause's ratios average to one over the answers, and
// mixes in the chance of a slip.
func (a *ask) normalise(causes int) {
	for i := range a.cells {
		a.cells[i].r = make([]float64, causes)
		a.cells[i].clean = make([]float64, causes)
	}
	for c := range causes {
		var sum, n float64
		for _, cell := range a.cells {
			if !cell.point {
				sum += math.Exp(cell.logR[c])
				n++
			}
		}
		for i := range a.cells {
			clean := math.Exp(a.cells[i].logR[c]) * n / sum
			r := (1-slip)*clean + slip
			a.cells[i].clean[c], a.cells[i].r[c] = clean, r
			a.cells[i].logR[c] = math.Log(r)
		}
	}
}

// cells lists a fact's answers; a number's are the stretches between the
// thresholds of its signs, and the thresholds themselves.
func (m *Model) cells(f logic.FactID, signs []single) []cell {
	fact := &m.facts[f]
	switch fact.Kind {
	case logic.YesNo:
		return []cell{{value: logic.Yes(true)}, {value: logic.Yes(false)}}
	case logic.Choice:
		out := make([]cell, len(fact.Options))
		for i := range out {
			out[i].value = logic.Option(i)
		}
		return out
	}
	conds := make([]logic.Cond, 0, len(signs))
	for _, s := range signs {
		conds = append(conds, s.when)
	}
	for _, j := range m.joint {
		conds = append(conds, j.when)
	}
	var cuts []float64
	if len(conds) > 0 {
		cuts = m.base.Cuts(f, conds...)
	}
	return stretches(cuts, fact.Low, fact.High)
}

func stretches(cuts []float64, low, high float64) []cell {
	if len(cuts) == 0 {
		return []cell{{value: logic.Num(low)}}
	}
	first, last := cuts[0], cuts[len(cuts)-1]
	if low >= first {
		low = first - 2
	}
	if high <= last {
		high = last + 2
	}
	out := []cell{{value: logic.Num((low + first) / 2)}}
	for i, c := range cuts {
		next := high
		if i+1 < len(cuts) {
			next = cuts[i+1]
		}
		out = append(out, cell{value: logic.Num(c), point: true}, cell{value: logic.Num((c + next) / 2)})
	}
	return out
}

// cellOf finds the cell of an answer.
func (a *ask) cellOf(v logic.Value) *cell {
	if v.Kind() != logic.Number {
		for i := range a.cells {
			if a.cells[i].value == v {
				return &a.cells[i]
			}
		}
		return nil
	}
	x := v.Number()
	at := 0 // points stand at odd places, in rising order
	for at+2 < len(a.cells) && x > a.cells[at+1].value.Number() {
		at += 2
	}
	if at+1 < len(a.cells) && x == a.cells[at+1].value.Number() {
		at++
	}
	return &a.cells[at]
}
