package talk

import (
	"fmt"
	"math/rand/v2"

	"sparehand/internal/book"
	"sparehand/internal/diagnose"
	"sparehand/internal/logic"
)

// Coverage notes what the cases of a book reach.
type Coverage struct {
	book *book.Book
	seen map[string]bool // kind and id
}

// NewCoverage starts with nothing covered.
func NewCoverage(b *book.Book) *Coverage { return &Coverage{b, map[string]bool{}} }

// Add notes what a trial has reached: the causes that led in the end, the
// remedies offered, the cautions and the emergency shown, the facts asked for.
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
	for _, fact := range t.Asked {
		c.seen["fact "+fact] = true
	}
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

// interviewed is how many simulated makers a question gets the chance to be
// asked of. They often can't tell, so that questions come up that are not the
// first to be asked.
const interviewed = 400

// NeverAsked lists the facts of the wanted problems' signs that no case and no
// simulated maker is asked for, each once with its place: questions that never
// get asked.
func (c *Coverage) NeverAsked(wants func(problem string) bool) []string {
	for _, m := range diagnose.Models(c.book) {
		if wants(m.Problem.ID) {
			random := rand.New(rand.NewPCG(4, uint64(m.Problem.Index)))
			for id := range m.Simulate(interviewed, diagnose.Noise{Wrong: 0.1, NotSure: 0.4}, random).Asked {
				c.seen["fact "+c.book.Facts[id].Name] = true
			}
		}
	}
	var out []string
	listed := map[logic.FactID]bool{}
	for _, p := range c.book.Problems {
		if !wants(p.ID) {
			continue
		}
		for _, cause := range p.Causes {
			for _, sign := range cause.Signs {
				for _, id := range c.book.Base.Mentions(sign.When) {
					f := &c.book.Facts[id]
					if listed[id] || c.seen["fact "+f.Name] {
						continue
					}
					listed[id] = true
					out = append(out, fmt.Sprintf("%s: nobody is ever asked %s, which %s weighs", f.Place, f.Name, p.ID))
				}
			}
		}
	}
	return out
}
