// Package maker answers, for tests, as somebody does whose wall leaks.
package maker

import (
	"strings"

	"sparehand/internal/talk"
)

// Leaking is a maker whose wall of clay leaks at its foot.
type Leaking struct {
	told int
}

var descriptions = []string{"plaster is leaking out under the wall", "the plaster runs out under the wall", "my wall is leaking plaster"}

// Says gives what the maker says to a reply: yes to what is so, the first answer
// where it does not matter.
func (m *Leaking) Says(r talk.Reply) string {
	q := r.Question
	switch {
	case q == nil: // who was not understood says it in other words
		m.told++
		return descriptions[(m.told-1)%len(descriptions)]
	case q.Kind == "yesno" && q.Fact == "meaning":
		if strings.Contains(q.Text, "leak") || strings.Contains(q.Text, "number one") || strings.Contains(q.Text, "not sure") {
			return "yes"
		}
		return "no"
	case q.Fact == "emergency":
		return "no"
	case q.Fact == "problem":
		for _, o := range q.Options {
			if strings.Contains(o.Label, "leak") {
				return "number " + []string{"one", "two", "three", "four", "five"}[o.N-1]
			}
		}
		return "none of these"
	case q.Kind == "yesno":
		return "no"
	case q.Kind == "number":
		return "not sure"
	case r.Voice != nil && r.Voice.Words == "": // in words, then, if they are words alone
		if label := strings.ToLower(q.Options[0].Label); !strings.ContainsAny(label, ",0123456789") {
			return label
		}
	}
	return "number one"
}
