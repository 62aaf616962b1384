package diagnose

import (
	"math"

	"sparehand/internal/logic"
)

// Cost is what a way of asking costs on average under the model, exactly,
// not by drawing lots.
type Cost struct {
	Questions float64 // mean number of questions until asking stops
	Right     float64 // chance that the leading cause is then the true one
}

// Trees compares ways of asking for one problem. All stop by the same rule.
type Trees struct {
	Ours  Cost // greatest drop in entropy for the effort
	Best  Cost // the tree with the fewest questions on average, by exhaustive search
	Fixed Cost // the facts in the order in which the book's signs mention them
	Bits  float64
	Bound float64 // entropy of the causes over that of the richest question
}

// Trees works the comparison out. A problem with more than limit states of
// knowledge is too large for the exhaustive search: Best is then zero.
func (m *Model) Trees(limit int) Trees {
	states := 1
	widest := 2
	for i := range m.asks {
		w := m.asks[i].width()
		widest = max(widest, w)
		states *= w + 1
	}
	t := Trees{Bits: m.priorBeliefs().Bits()}
	t.Bound = t.Bits / math.Log2(float64(widest))
	t.Ours = m.walk(greedy)
	t.Fixed = m.walk(inOrder)
	if states <= limit {
		t.Best = m.walk(exhaustive)
	}
	return t
}

func (m *Model) priorBeliefs() Beliefs { return m.Beliefs(m.base.NewState(), nil) }

type policy uint8

const (
	greedy policy = iota
	inOrder
	exhaustive
)

// walker goes through every state of knowledge that a policy can reach.
type walker struct {
	m      *Model
	policy policy
	s      *logic.State
	at     []byte // the answer to each ask, 255 for none
	memo   map[string]Cost
}

func (m *Model) walk(p policy) Cost {
	w := &walker{m: m, policy: p, s: m.base.NewState(), memo: map[string]Cost{}, at: make([]byte, len(m.asks))}
	for i := range w.at {
		w.at[i] = 255
	}
	return w.cost(m.priorBeliefs())
}

func everyFact(logic.FactID) bool { return true }

func (w *walker) cost(b Beliefs) Cost {
	if known, ok := w.memo[string(w.at)]; ok {
		return known
	}
	stop := Cost{Right: b[b.Leading()]}
	best := stop
	for i, first := range w.candidates(b) {
		c := w.ask(b, first)
		if i == 0 || c.Questions < best.Questions {
			best = c
		}
	}
	w.memo[string(w.at)] = best
	return best
}

// candidates lists the asks that the policy may go on with, none to stop.
func (w *walker) candidates(b Beliefs) []int {
	q, more := w.m.Next(w.s, b, everyFact)
	if !more {
		return nil
	}
	var out []int
	for i := range w.m.asks {
		a := &w.m.asks[i]
		if w.at[i] != 255 {
			continue
		}
		switch w.policy {
		case greedy:
			if a.fact == q.Fact {
				return []int{i}
			}
		case inOrder:
			return []int{i}
		default:
			if bits, moves := w.m.gain(w.s, b, a); bits >= worthwhile && (moves || bits >= idle) {
				out = append(out, i)
			}
		}
	}
	return out
}

func (w *walker) ask(b Beliefs, i int) Cost {
	a := &w.m.asks[i]
	total := Cost{Questions: 1}
	for k := range a.cells {
		if a.cells[k].point {
			continue
		}
		post := make(Beliefs, len(b))
		p := w.m.posterior(w.s, b, a, &a.cells[k], post)
		if p <= 0 || w.s.Set(a.fact, a.cells[k].value) != nil {
			continue
		}
		w.at[i] = byte(k)
		c := w.cost(post)
		w.at[i] = 255
		w.s.Clear(a.fact)
		total.Questions += p * c.Questions
		total.Right += p * c.Right
	}
	return total
}
