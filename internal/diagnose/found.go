package diagnose

import "math"

// priorFindings is how many findings of its own a workshop has to report before
// they weigh as much as the book's frequencies.
const priorFindings = 10.0

// Found gives the model with its frequencies moved by what was found in one
// workshop: how often each cause turned out to be the true one, by id. The
// book's frequencies stand for priorFindings findings, so the chance of a cause
// is the mean of the Dirichlet distribution that the counts make of them
// (Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 3.4). Without
// counts it is the same model; the book itself is never changed.
func (m *Model) Found(counts map[string]int) *Model {
	total := 0
	for _, c := range m.Problem.Causes {
		total += max(0, counts[c.ID])
	}
	if total == 0 {
		return m
	}
	moved := *m
	moved.prior = make([]float64, len(m.prior))
	for i, prior := range m.prior {
		n := 0.0
		if i < len(m.Problem.Causes) {
			n = float64(max(0, counts[m.Problem.Causes[i].ID]))
		}
		moved.prior[i] = math.Log((priorFindings*math.Exp(prior) + n) / (priorFindings + float64(total)))
	}
	return &moved
}

// Prior is the chance of each cause of the problem before anything is told, and
// last that of something else.
func (m *Model) Prior() []float64 {
	out := make([]float64, len(m.prior))
	for i, p := range m.prior {
		out[i] = math.Exp(p)
	}
	return out
}
