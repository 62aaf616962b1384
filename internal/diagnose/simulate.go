package diagnose

import (
	"math"
	"math/rand/v2"
	"slices"

	"sparehand/internal/logic"
)

// Noise says how a simulated maker answers.
type Noise struct {
	Wrong   float64 // chance of another answer than the true one
	NotSure float64 // chance of not being able to tell
}

// Tally is what a run of simulated makers came to.
type Tally struct {
	Makers    int
	Right     int // the true cause was first in the end
	Questions int
	Asked     map[logic.FactID]int // how many were asked each fact
	PerCause  []CauseTally         // in the problem's order
}

// CauseTally counts the makers with one true cause.
type CauseTally struct {
	Makers, Right int
	Led           []int // how often each cause led in the end, the last for something else
}

// TakenFor gives the cause that this one is most often taken for, and how
// often; the place after the last is something that the book does not know.
// It is -1 where it was never taken for another.
func (t *CauseTally) TakenFor(self int) (cause, times int) {
	cause = -1
	for c, n := range t.Led {
		if c != self && n > times {
			cause, times = c, n
		}
	}
	return cause, times
}

// Simulate asks n makers whose cause and answers are drawn from the book's
// own model, and counts how often the true cause leads in the end.
func (m *Model) Simulate(n int, noise Noise, random *rand.Rand) Tally {
	t := Tally{Makers: n, PerCause: make([]CauseTally, len(m.Problem.Causes)), Asked: map[logic.FactID]int{}}
	for c := range t.PerCause {
		t.PerCause[c].Led = make([]int, len(t.PerCause)+1)
	}
	for range n {
		cause := m.drawCause(random)
		asked, lead := m.interview(cause, noise, random, t.Asked)
		t.Questions += asked
		t.PerCause[cause].Makers++
		t.PerCause[cause].Led[lead]++
		if lead == cause {
			t.Right++
			t.PerCause[cause].Right++
		}
	}
	return t
}

func (m *Model) drawCause(random *rand.Rand) int {
	weights := make([]float64, len(m.Problem.Causes))
	for i := range weights {
		weights[i] = math.Exp(m.prior[i])
	}
	return draw(weights, random)
}

// draw picks an index with the chance that its weight gives it.
func draw(weights []float64, random *rand.Rand) int {
	var sum float64
	for _, w := range weights {
		sum += w
	}
	x := random.Float64() * sum
	for i, w := range weights {
		if x -= w; x < 0 {
			return i
		}
	}
	return len(weights) - 1
}

func (m *Model) interview(cause int, noise Noise, random *rand.Rand, all map[logic.FactID]int) (asked, lead int) {
	s := m.base.NewState()
	var unsure []logic.FactID
	open := func(f logic.FactID) bool { return !slices.Contains(unsure, f) }
	for {
		b := m.Beliefs(s, nil)
		q, more := m.Next(s, b, open)
		if !more {
			return asked, b.Leading()
		}
		asked++
		all[q.Fact]++
		if random.Float64() < noise.NotSure {
			unsure = append(unsure, q.Fact)
			continue
		}
		v, ok := m.answer(s, q.Fact, cause, noise, random)
		if !ok || s.Set(q.Fact, v) != nil {
			unsure = append(unsure, q.Fact)
		}
	}
}

// answer draws what a maker with this cause sees.
func (m *Model) answer(s *logic.State, f logic.FactID, cause int, noise Noise, random *rand.Rand) (logic.Value, bool) {
	for i := range m.asks {
		a := &m.asks[i]
		if a.fact != f {
			continue
		}
		weights := make([]float64, len(a.cells))
		for k := range a.cells {
			if !a.cells[k].point {
				weights[k] = a.cells[k].clean[cause] * m.jointRatio(s, a, &a.cells[k], cause)
			}
		}
		k := draw(weights, random)
		if random.Float64() < noise.Wrong {
			k = otherCell(a, k, random)
		}
		return a.cells[k].value, true
	}
	return logic.Value{}, false
}

func (m *Model) jointRatio(s *logic.State, a *ask, c *cell, cause int) float64 {
	if len(a.touch) == 0 || s.Set(a.fact, c.value) != nil {
		return 1
	}
	defer s.Undo()
	ratio := 1.0
	for _, i := range a.touch {
		if j := m.joint[i]; j.cause == cause && s.Truth(j.when) == logic.True {
			ratio *= math.Exp(j.logR)
		}
	}
	return ratio
}

func otherCell(a *ask, k int, random *rand.Rand) int {
	var others []int
	for i := range a.cells {
		if i != k && !a.cells[i].point {
			others = append(others, i)
		}
	}
	if len(others) == 0 {
		return k
	}
	return others[random.IntN(len(others))]
}
