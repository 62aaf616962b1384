package diagnose

import (
	"math"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// Beliefs are the shares of the causes in the problem's order, which add up
// to one together with the last: something else, which the book doesn't know.
type Beliefs []float64

// Beliefs weighs what is known. Each remedy of failed was tried and did not
// help, which speaks against the causes it would have helped.
func (m *Model) Beliefs(s *logic.State, failed []*book.Remedy) Beliefs {
	logs := make([]float64, len(m.prior))
	copy(logs, m.prior)
	for i := range m.asks {
		v, known := s.Value(m.asks[i].fact)
		if !known {
			continue
		}
		if cell := m.asks[i].cellOf(v); cell != nil {
			for c, logR := range cell.logR {
				logs[c] += logR
			}
		}
	}
	for _, j := range m.joint {
		if s.Truth(j.when) == logic.True {
			logs[j.cause] += j.logR
		}
	}
	for _, r := range failed {
		for c := range m.Problem.Causes {
			logs[c] += math.Log(1 - works(r, c))
		}
	}
	return shares(logs)
}

// shares turns logs into shares that add up to one, in place.
func shares(logs []float64) Beliefs {
	top := math.Inf(-1)
	for _, l := range logs {
		top = max(top, l)
	}
	var sum float64
	for i, l := range logs {
		logs[i] = math.Exp(l - top)
		sum += logs[i]
	}
	for i := range logs {
		logs[i] /= sum
	}
	return logs
}

// Leading returns the index of the likeliest cause, the number of causes
// where it is something else. Of equals it is the first.
func (b Beliefs) Leading() int {
	lead := 0
	for i, p := range b {
		if p > b[lead] {
			lead = i
		}
	}
	return lead
}

// Stranger reports whether something else is the likeliest.
func (b Beliefs) Stranger() bool { return b.Leading() == len(b)-1 }

// Bits is the Shannon entropy of the beliefs.
func (b Beliefs) Bits() float64 {
	var h float64
	for _, p := range b {
		if p > 0 {
			h -= p * math.Log2(p)
		}
	}
	return h
}

// works is the chance that a remedy works where the cause is the true one.
func works(r *book.Remedy, cause int) float64 {
	if r.Cause.Index == cause {
		return book.WorksChance[r.Works]
	}
	for _, also := range r.AlsoHelps {
		if also.Cause.Index == cause {
			return book.WorksChance[also.Works]
		}
	}
	return 0
}

// Reasons lists the true signs that speak for a cause, strongest first within
// the book's order kept for equals.
func (m *Model) Reasons(s *logic.State, cause int) []*book.Sign {
	var out []*book.Sign
	signs := m.Problem.Causes[cause].Signs
	for i := range signs {
		if book.PointsDecibans[signs[i].Points] > 0 && s.Truth(signs[i].When) == logic.True {
			out = append(out, &signs[i])
		}
	}
	return out
}
