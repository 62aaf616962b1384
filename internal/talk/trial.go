package talk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
)

// Trial is a case of the book as it went.
type Trial struct {
	Case   *book.Case
	Faults []string // what differs from what the case expects
	Last   Reply
	Asked  []string // facts asked for, in order
	Events []Event

	first     string // what was asked after the first words
	words     strings.Builder
	cautions  map[string]bool
	sums      map[string]bool // amounts worked out
	emergency string
}

// mostTurns bounds a trial whose answers are not understood.
const mostTurns = 40

// Try runs a case: what is said first, then an answer to every question, then
// what is said after the first remedy.
func (a *Assistant) Try(k *book.Case) *Trial {
	t := &Trial{Case: k, cautions: map[string]bool{}, sums: map[string]bool{}}
	s := a.Open()
	for _, text := range k.Say {
		t.hear(s, text)
	}
	if t.Last.Question != nil {
		t.first = t.Last.Question.Fact
	}
	t.answerAll(s)
	for _, text := range k.Then {
		t.hear(s, text)
		t.answerAll(s)
	}
	t.Events = s.Events()
	t.judge()
	return t
}

func (t *Trial) hear(s *Session, text string) {
	t.note(s.Hear(text, time.Time{}))
	for _, w := range s.state.amounts().worked {
		if w.Amount != nil {
			t.sums[w.Amount.ID] = true
		}
	}
}

func (t *Trial) note(r Reply) {
	t.Last = r
	t.hearWords(r)
	for _, c := range r.Cautions {
		t.cautions[c.ID] = true
	}
	if r.Emergency != "" {
		t.emergency = r.Emergency
	}
}

func (t *Trial) answerAll(s *Session) {
	for range mostTurns {
		q := t.Last.Question
		if q == nil || q.Fact == askWorked || q.Fact == askStepDone {
			return
		}
		before := *q
		t.hear(s, t.answer(q))
		if now := t.Last.Question; now != nil && now.Fact == before.Fact {
			t.Faults = append(t.Faults, fmt.Sprintf("%q was not taken for an answer to: %s", t.answer(&before), before.Text))
			return
		}
		t.Asked = append(t.Asked, before.Fact)
	}
	t.Faults = append(t.Faults, fmt.Sprintf("no end after %d turns", mostTurns))
}

// answer is what the maker of the case says to a question.
func (t *Trial) answer(q *Question) string {
	if words, ok := t.Case.Answers[q.Fact]; ok {
		return words
	}
	switch q.Fact {
	case askProblem:
		for _, o := range q.Options {
			if o.Value == t.Case.Expect.Problem {
				return o.Label
			}
		}
		return "none of these"
	case askEmergency:
		if t.Case.Expect.Emergency != "" {
			return "yes"
		}
		return "no"
	}
	return t.Case.Otherwise
}

func (t *Trial) fault(format string, args ...any) {
	t.Faults = append(t.Faults, fmt.Sprintf(format, args...))
}

// judge compares the end with what the case expects.
func (t *Trial) judge() {
	want, r := t.Case.Expect, t.Last
	if want.Problem != "" && r.Problem != want.Problem {
		t.fault("problem is %q, expected %q", r.Problem, want.Problem)
	}
	if want.Cause != "" && (len(r.Causes) == 0 || r.Causes[0].ID != want.Cause) {
		t.fault("leading cause is %s, expected %s", leadingOf(r), want.Cause)
	}
	t.judgeTogether()
	if want.Remedy != "" && (len(r.Remedies) == 0 || r.Remedies[0].ID != want.Remedy) {
		t.fault("first remedy is %s, expected %s", firstRemedy(r), want.Remedy)
	}
	for _, id := range want.Cautions {
		if !t.cautions[id] {
			t.fault("caution %s was not shown", id)
		}
	}
	if want.Emergency != t.emergency {
		t.fault("emergency is %q, expected %q", t.emergency, want.Emergency)
	}
	for name, value := range want.Facts {
		if got := fmt.Sprint(r.Facts[name]); got != value && !(got == "true" && value == "yes") && !(got == "false" && value == "no") {
			t.fault("%s is %s, expected %s", name, got, value)
		}
	}
	if want.Asks != "" && t.first != want.Asks {
		t.fault("%q is asked first, expected %q", t.first, want.Asks)
	}
	if want.Step != "" && (r.Build == nil || r.Build.Step != want.Step) {
		t.fault("the step at hand is %q, expected %q", stepOf(r), want.Step)
	}
	t.judgeAmounts()
	if want.Ends != "" && t.ends() != want.Ends {
		t.fault("it ends with %s, expected %s", t.ends(), want.Ends)
	}
	if n := t.questions(); want.Questions > 0 && n > want.Questions {
		t.fault("%d questions were asked (%s), expected at most %d", n, strings.Join(t.Asked, ", "), want.Questions)
	}
}

// judgeTogether: causes expected together have to be the first ones shown,
// each with a remedy of its own.
func (t *Trial) judgeTogether() {
	for i, id := range t.Case.Expect.Causes {
		first := t.Last.Causes[:min(len(t.Case.Expect.Causes), len(t.Last.Causes))]
		if !slices.ContainsFunc(first, func(c CauseShown) bool { return c.ID == id }) {
			t.fault("%s is not among the leading causes", id)
		}
		remedies := t.Last.Remedies[:min(len(t.Case.Expect.Causes), len(t.Last.Remedies))]
		if i < 2 && !slices.ContainsFunc(remedies, func(r RemedyShown) bool { return r.Cause == id }) {
			t.fault("no remedy for %s is among the first", id)
		}
	}
}

// questions counts the facts asked for.
func (t *Trial) questions() int {
	n := 0
	for _, f := range t.Asked {
		if f != askProblem && f != askEmergency && f != askMeaning {
			n++
		}
	}
	return n
}

func (t *Trial) ends() string {
	r := t.Last
	switch {
	case t.emergency != "":
		return "emergency"
	case r.Phase == building:
		return "building"
	case len(r.Remedies) > 0:
		return "remedy"
	case r.Problem == "" && len(r.Amounts) > 0 && r.Question == nil:
		return "amounts"
	case r.Problem != "" && r.Done:
		return "nothing-fits"
	case r.Done && r.Title != "":
		return "elsewhere"
	case r.Question != nil:
		return "question"
	}
	return "nothing"
}

func leadingOf(r Reply) string {
	if len(r.Causes) == 0 {
		return "none"
	}
	return fmt.Sprintf("%s at %.0f %%", r.Causes[0].ID, 100*r.Causes[0].Share)
}

func firstRemedy(r Reply) string {
	if len(r.Remedies) == 0 {
		return "none"
	}
	return r.Remedies[0].ID
}

func stepOf(r Reply) string {
	if r.Build == nil {
		return "none"
	}
	return r.Build.Step
}
