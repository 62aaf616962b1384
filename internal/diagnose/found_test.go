package diagnose

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// With ten findings the book and the bench weigh the same: the mean of a
// Dirichlet distribution, (alpha_i + n_i) / (A + N) (Gelman et al., Bayesian
// Data Analysis, 3rd ed. 2013, section 3.4).
func TestFound(t *testing.T) {
	m := Models(loadBook(t))[0]
	rapid.Check(t, func(r *rapid.T) {
		counts, total := map[string]int{}, 0
		for _, c := range m.Problem.Causes {
			n := rapid.IntRange(0, 40).Draw(r, c.ID)
			counts[c.ID] = n
			total += n
		}
		before, after := m.Prior(), m.Found(counts).Prior()
		sum := 0.0
		for i := range after {
			n := 0
			if i < len(m.Problem.Causes) {
				n = counts[m.Problem.Causes[i].ID]
			}
			want := (10*before[i] + float64(n)) / (10 + float64(total))
			if math.Abs(after[i]-want) > 1e-12 {
				r.Fatalf("chance %d is %v, want %v", i, after[i], want)
			}
			sum += after[i]
		}
		if math.Abs(sum-1) > 1e-9 {
			r.Fatalf("the chances add up to %v", sum)
		}
	})
}

func TestNothingFound(t *testing.T) {
	m := Models(loadBook(t))[0]
	for _, counts := range []map[string]int{nil, {}, {"no-such-cause": 5}, {m.Problem.Causes[0].ID: -3}} {
		if m.Found(counts) != m {
			t.Errorf("%v moves the book's frequencies", counts)
		}
	}
}
