// Package maker answers, for tests, as somebody does whose wall leaks.
package maker

import (
	"strings"

	"sparehand/internal/talk"
)

// Leaking is a maker whose wall of clay leaks at its foot.
type Leaking struct {
	told  int
	asked string // the question that was answered last
	tries int    // and how often in a row
	last  string // what was said last but for yes and no
}

var descriptions = []string{"plaster is leaking out under the wall", "the plaster runs out under the wall", "my wall is leaking plaster"}

// Says gives what the maker says to a reply: yes to what is so, the first answer
// where it does not matter. Who was not understood says it another way.
func (m *Leaking) Says(r talk.Reply) string {
	say := m.says(r.Question)
	if say != "yes" && say != "no" {
		m.last = say
	}
	return say
}

func (m *Leaking) says(q *talk.Question) string {
	if q == nil {
		m.told++
		return descriptions[(m.told-1)%len(descriptions)]
	}
	if q.Fact != m.asked {
		m.asked, m.tries = q.Fact, 0
	}
	m.tries++
	switch {
	case q.Kind == "yesno" && q.Fact == "meaning":
		asked := strings.TrimSuffix(strings.TrimPrefix(q.Text, "Did you say "), "?")
		return yesIf(strings.Contains(q.Text, "leak") || strings.Contains(m.last, asked))
	case q.Fact == "problem":
		return m.option(q, "leak", "none of these")
	case q.Fact == "step":
		return m.option(q, "wall", "not sure")
	case q.Kind == "yesno":
		return "no"
	case q.Kind == "number":
		return "not sure"
	}
	return m.nth(q, 1)
}

func yesIf(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

// option says the answer that a word is in.
func (m *Leaking) option(q *talk.Question, word, otherwise string) string {
	for _, o := range q.Options {
		if strings.Contains(strings.ToLower(o.Label), word) {
			return m.nth(q, o.N)
		}
	}
	return otherwise
}

var numbers = strings.Fields("one two three four five six")

// nth says an answer in its words where it is words alone, then by its number,
// and gives up in the end.
func (m *Leaking) nth(q *talk.Question, n int) string {
	label := strings.ToLower(q.Options[n-1].Label)
	switch {
	case m.tries%3 == 1 && !strings.ContainsAny(label, ",.;0123456789"):
		return label
	case m.tries%3 != 0:
		return "number " + numbers[n-1]
	}
	return "not sure"
}
