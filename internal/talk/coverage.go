package talk

import (
	"fmt"

	"sparehand/internal/book"
)

// Coverage notes what the cases of a book reach.
type Coverage struct {
	book *book.Book
	seen map[string]bool // kind and id
}

// NewCoverage starts with nothing covered.
func NewCoverage(b *book.Book) *Coverage { return &Coverage{b, map[string]bool{}} }

// Add notes what a trial has reached: the causes that led in the end, the
// remedies offered, the cautions and the emergency shown.
func (c *Coverage) Add(t *Trial) {
	if len(t.Last.Causes) > 0 && len(t.Last.Remedies) > 0 {
		c.seen["cause "+t.Last.Causes[0].ID] = true
	}
	for _, id := range t.Case.Expect.Causes {
		c.seen["cause "+id] = true
	}
	for _, r := range t.Last.Remedies {
		c.seen["remedy "+r.ID] = true
	}
	for id := range t.sums {
		c.seen["amount "+id] = true
	}
	for id := range t.cautions {
		c.seen["caution "+id] = true
	}
	c.seen["emergency "+t.emergency] = true
}

// Missing lists what no case has reached, each with its place. Of a problem
// that is not wanted nothing is listed, and what belongs to no problem only
// where that is wanted as "".
func (c *Coverage) Missing(wants func(problem string) bool) []string {
	var out []string
	miss := func(kind, id string, at book.Place) {
		if !c.seen[kind+" "+id] {
			out = append(out, fmt.Sprintf("%s: no case reaches %s %s", at, kind, id))
		}
	}
	for _, p := range c.book.Problems {
		if !wants(p.ID) {
			continue
		}
		for _, cause := range p.Causes {
			miss("cause", cause.ID, cause.Place)
			for _, r := range cause.Remedies {
				miss("remedy", r.ID, r.Place)
			}
		}
	}
	if !wants("") {
		return out
	}
	for _, am := range c.book.Amounts {
		miss("amount", am.ID, am.Place)
	}
	for _, caution := range c.book.Cautions {
		miss("caution", caution.ID, caution.Place)
	}
	for i := range c.book.Emergencies {
		miss("emergency", c.book.Emergencies[i].ID, c.book.Emergencies[i].Place)
	}
	return out
}
