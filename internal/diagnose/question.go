package diagnose

import (
	"math"

	"sparehand/internal/logic"
)

const (
	// sure is the share of belief at which asking stops.
	sure = 0.94
	// worthwhile is the least drop in entropy, in bits, that is worth a
	// question.
	worthwhile = 0.03
	// idle is the least where no answer can change the leading cause.
	idle = 0.15
)

// Question is a fact worth asking for.
type Question struct {
	Fact logic.FactID
	Bits float64 // expected drop in entropy
}

// Next chooses the question with the greatest expected drop in entropy for
// the effort of answering it (Shannon). It returns false when the leading
// cause is sure enough or nothing that may be asked could change the advice.
// open says whether a fact may be asked at all.
func (m *Model) Next(s *logic.State, b Beliefs, open func(logic.FactID) bool) (Question, bool) {
	if m.Sure(b) {
		return Question{}, false
	}
	var best Question
	var bestWorth float64
	for i := range m.asks {
		a := &m.asks[i]
		if _, known := s.Value(a.fact); known || !open(a.fact) {
			continue
		}
		bits, moves := m.gain(s, b, a)
		if bits < worthwhile || !moves && bits < idle {
			continue
		}
		if worth := bits / a.effort; worth > bestWorth+1e-12 {
			best, bestWorth = Question{a.fact, bits}, worth
		}
	}
	return best, bestWorth > 0
}

// Sure reports whether the leading cause is sure enough to stop asking.
func (m *Model) Sure(b Beliefs) bool { return b[b.Leading()] >= sure }

// gain is the expected drop in entropy from asking, and whether any answer
// would change the leading cause.
func (m *Model) gain(s *logic.State, b Beliefs, a *ask) (bits float64, moves bool) {
	before, lead := b.Bits(), b.Leading()
	var after float64
	post := make(Beliefs, len(b))
	for i := range a.cells {
		if a.cells[i].point {
			continue
		}
		p := m.posterior(s, b, a, &a.cells[i], post)
		if p <= 0 {
			continue
		}
		after += p * post.Bits()
		moves = moves || post.Leading() != lead
	}
	return before - after, moves
}

// posterior fills post with the beliefs after an answer, and returns the
// chance of that answer.
func (m *Model) posterior(s *logic.State, b Beliefs, a *ask, c *cell, post Beliefs) float64 {
	n := len(b) - 1
	for i := range n {
		post[i] = b[i] * c.r[i]
	}
	post[n] = b[n]
	var plain float64
	for _, p := range post {
		plain += p
	}
	if len(a.touch) > 0 {
		m.withJoint(s, a, c, post)
	}
	var sum float64
	for _, p := range post {
		sum += p
	}
	if sum <= 0 {
		return 0
	}
	for i := range post {
		post[i] /= sum
	}
	return plain / float64(a.width())
}

// width counts the answers that can be drawn.
func (a *ask) width() int {
	n := 0
	for i := range a.cells {
		if !a.cells[i].point {
			n++
		}
	}
	return n
}

// withJoint multiplies in the signs over several facts that the answer would
// make true.
func (m *Model) withJoint(s *logic.State, a *ask, c *cell, post Beliefs) {
	if s.Set(a.fact, c.value) != nil {
		return
	}
	for _, i := range a.touch {
		if j := m.joint[i]; s.Truth(j.when) == logic.True {
			post[j.cause] *= math.Exp(j.logR)
		}
	}
	s.Undo()
}

// Facts lists the facts that the problem's signs speak of.
func (m *Model) Facts() []logic.FactID {
	out := make([]logic.FactID, len(m.asks))
	for i := range m.asks {
		out[i] = m.asks[i].fact
	}
	return out
}
