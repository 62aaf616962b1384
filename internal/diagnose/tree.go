package diagnose

import (
	"cmp"
	"math"
	"slices"

	"sparehand/internal/logic"
)

// Cost is what a way of asking costs on average under the model, worked out
// over all answers, not by drawing lots.
type Cost struct {
	Questions float64 // mean number of questions until asking stops
	Right     float64 // chance that the leading cause is then the true one
}

// Trees compares ways of asking for one problem. All stop by the same rule.
type Trees struct {
	Ours  Cost // greatest drop in entropy for the effort
	Best  Cost // the tree with the fewest questions on average
	Whole bool // Best comes from an exhaustive search; else it tries the few most telling questions at each step
	Fixed Cost // the facts in the order in which the book's signs mention them
	Bits  float64
	Bound float64 // entropy of the causes over that of the richest question
}

// few is how many questions the search tries at each step where trying all
// would take too long.
const few = 3

// negligible is the chance of a set of answers below which nobody goes on
// asking in these walks. It is the same for every way of asking, since the
// chance of a set of answers does not depend on their order.
const negligible = 1e-4

// Trees works the comparison out. The search for the best tree is exhaustive
// where it meets at most limit states of knowledge; else it tries the few
// most telling questions at each step, which gives a tree at most as good.
func (m *Model) Trees(limit int) Trees {
	widest := 2
	for i := range m.asks {
		widest = max(widest, m.asks[i].width())
	}
	t := Trees{Bits: m.priorBeliefs().Bits()}
	t.Bound = t.Bits / math.Log2(float64(widest))
	t.Ours, _ = m.walk(greedy, 0)
	t.Fixed, _ = m.walk(inOrder, 0)
	if t.Best, t.Whole = m.walk(exhaustive, limit); !t.Whole {
		t.Best, _ = m.walk(telling, 0)
	}
	return t
}

func (m *Model) priorBeliefs() Beliefs { return m.Beliefs(m.base.NewState(), nil) }

type policy uint8

const (
	greedy policy = iota
	inOrder
	exhaustive
	telling
)

// walker goes through every state of knowledge that a policy can reach.
type walker struct {
	m      *Model
	policy policy
	s      *logic.State
	at     []byte // the answer to each ask, 255 for none
	memo   map[string]Cost
	limit  int // of states, 0 for none
}

// walk works out what a policy costs; whole is false where it met more states
// than the limit and gave up.
func (m *Model) walk(p policy, limit int) (c Cost, whole bool) {
	w := &walker{m: m, policy: p, limit: limit, s: m.base.NewState(), memo: map[string]Cost{}, at: make([]byte, len(m.asks))}
	for i := range w.at {
		w.at[i] = 255
	}
	c = w.cost(m.priorBeliefs(), 1)
	return c, !w.over()
}

func (w *walker) over() bool { return w.limit > 0 && len(w.memo) > w.limit }

func everyFact(logic.FactID) bool { return true }

func (w *walker) cost(b Beliefs, reach float64) Cost {
	if known, ok := w.memo[string(w.at)]; ok {
		return known
	}
	stop := Cost{Right: b[b.Leading()]}
	if w.over() || reach < negligible {
		return stop
	}
	best := stop
	for i, first := range w.candidates(b) {
		c := w.ask(b, reach, first)
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
	gains := map[int]float64{}
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
				gains[i] = bits
			}
		}
	}
	if w.policy == telling && len(out) > few {
		slices.SortStableFunc(out, func(i, j int) int { return cmp.Compare(gains[j], gains[i]) })
		out = out[:few]
	}
	return out
}

func (w *walker) ask(b Beliefs, reach float64, i int) Cost {
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
		c := w.cost(post, reach*p)
		w.at[i] = 255
		w.s.Clear(a.fact)
		total.Questions += p * c.Questions
		total.Right += p * c.Right
	}
	return total
}
