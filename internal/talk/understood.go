package talk

import (
	"fmt"

	"sparehand/internal/hear"
)

// Understood is what words are taken to mean with nothing said before. Its
// JSON is a contract: fields are added, never renamed or removed.
type Understood struct {
	Emergency    string         `json:"emergency"`
	Possible     string         `json:"possible_emergency"`
	Problem      string         `json:"problem"`
	Alternatives []string       `json:"alternatives"` // likely problems, best first
	Also         string         `json:"also"`         // a second problem told in the same breath, or ""
	Call         string         `json:"call"`         // when the piece has to be ready, "19:30", or ""
	Elsewhere    string         `json:"elsewhere"`
	Command      string         `json:"command"`
	Facts        map[string]any `json:"facts"`
	Amount       string         `json:"amount"`  // the sum asked for; command is then amounts
	Convert      string         `json:"convert"` // a question about units: "3 tablespoon to millilitre", or ""
}

// Understood hears words outside of any talk.
func (a *Assistant) Understood(text string) Understood {
	m := a.hearing.Hear(hear.Context{}, text)
	u := Understood{
		Emergency: m.Emergency, Possible: m.MaybeEmergency, Problem: m.Problem, Also: m.Also, Elsewhere: m.Elsewhere,
		Command: m.Command, Amount: m.Amount, Alternatives: []string{}, Facts: map[string]any{},
	}
	if c := m.Convert; c != nil {
		u.Convert = fmt.Sprintf("%g %s to %s", c.Value, c.From[0].Name, c.To.Name)
	}
	if m.Call != nil {
		u.Call = fmt.Sprintf("%02d:%02d", m.Call.Minute/60, m.Call.Minute%60)
	}
	for _, c := range m.Alternatives {
		u.Alternatives = append(u.Alternatives, c.ID)
	}
	for _, h := range m.Facts {
		f := &a.book.Facts[h.Fact]
		u.Facts[f.Name] = plain(f, h.Value)
	}
	return u
}
