package talk

import (
	"slices"

	"sparehand/internal/hear"
	"sparehand/internal/logic"
)

// Expected is what may be said now, for a recogniser's grammar. All strings are
// lower case words, without digits or marks but the apostrophe.
type Expected struct {
	Answers   []string // to the question in force, in full
	Number    bool     // a number is asked
	Units     []string // in which it may be told, its own first; none for a count
	Clock     bool     // a time of day will do as well
	Low, High float64  // what is believable, in the first unit; both 0 when open
	Commands  []string
	Timers    []string // what a timer may be for
	Alarms    []string // emergencies, and what is refused or answered at once
	Openings  []string // troubles as makers tell them
	Steps     []string // that may be gone to, bare and after "go to"

	// Means gives the same word for phrases that mean the same, "" where it
	// can't tell. It may be called at any time, from anywhere.
	Means func(phrase string) string
}

// Expect gives what may be said now. What does not depend on the state is the
// same slice every time, so it is not to be changed.
func (s *Session) Expect() Expected {
	st, y := s.state, s.a.sayable
	e := Expected{Commands: y.always, Timers: y.timers, Alarms: y.alarms, Openings: y.openings}
	var options map[string]string
	if st.build != nil {
		e.Commands, e.Steps = y.building, y.steps
	}
	q := st.question()
	switch {
	case st.hurt != nil:
		e.Commands = y.hurt
	case q == nil:
	case q.fact != nil:
		e.Answers, options = y.facts[q.fact], y.options[q.fact]
		if f := q.fact; f.Kind == logic.Number {
			e.Number, e.Units, e.Low, e.High = true, unitsOf(f.Unit), f.Low, f.High
			e.Clock = f.Name == hear.LeftFact
		}
	default:
		e.Answers = st.answersTo(q)
	}
	e.Means = func(phrase string) string {
		if option, ok := options[phrase]; ok {
			return option
		}
		return y.means[phrase]
	}
	if again := s.correctable(); len(again) > 0 && st.hurt == nil {
		e.Commands = slices.Concat(e.Commands, again)
	}
	return e
}

// correctable gives the ways to put the last answer right where it was a choice.
func (s *Session) correctable() []string {
	last := lastChange(s.events)
	if last == nil {
		return nil
	}
	for _, act := range last.Acts {
		f := s.a.book.FactByName(act.Fact)
		if act.Do != doTell || f == nil || f.Kind != logic.Choice {
			continue
		}
		var list []string
		for _, o := range f.Options {
			list = append(list, "no i said "+o.Label)
		}
		return addInWords(nil, list...)
	}
	return nil
}

// answersTo gives what may be answered to a question that is not about a fact.
func (s *state) answersTo(q *openQuestion) []string {
	y := s.a.sayable
	var list []string
	switch {
	case s.maybeHurt != nil:
		list = slices.Concat(y.yes, y.no, y.hurt)
	case q.remedy != nil:
		list = slices.Concat(y.yes, y.no, y.helped, y.failed)
	case q.shown.Kind == "yesno":
		list = slices.Concat(y.yes, y.no)
	}
	if q.shown.Kind == "choice" {
		for _, o := range q.shown.Options {
			list = addInWords(list, o.Label)
		}
		list = addInWords(list, numbersOf(len(q.shown.Options))...)
	}
	if q.problems != nil || q.stages != nil {
		list = addInWords(list, y.unsure...)
	}
	return addInWords(nil, list...)
}
