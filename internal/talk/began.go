package talk

import (
	"fmt"

	"sparehand/internal/book"
	"sparehand/internal/phrase"
)

// beganAt gives the step at which a cause was brought about, nil where that is
// the step at which the trouble shows.
func (s *state) beganAt(c *book.Cause) *book.Step {
	if c.Began == nil || c.Began == s.problem.Step {
		return nil
	}
	return c.Began
}

// beganSpoken says at which step of the job the likeliest cause began, where
// that was earlier.
func (s *state) beganSpoken(together []int) string {
	step := s.beganAt(s.problem.Causes[together[0]])
	if step == nil {
		return ""
	}
	return "It began earlier, at " + step.Title
}

// showBegan points to the pages about what the causes were before they came to
// this.
func (s *state) showBegan(r *Reply, together []int) {
	for _, i := range together {
		c := s.problem.Causes[i]
		if step := s.beganAt(c); step != nil && i != together[0] {
			r.Show = append(r.Show, fmt.Sprintf("%s: that began at %s.", c.Title, step.Title))
		}
		if c.See != nil {
			r.Show = append(r.Show, fmt.Sprintf("For the next one there is a page about it: %s.", phrase.Lower(c.See.Title)))
		}
	}
}
