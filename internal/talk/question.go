package talk

import (
	"time"

	"sparehand/internal/book"
	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/sums"
)

// Questions that are not about a fact; they stand in Question.Fact.
const (
	askEmergency = "emergency"
	askMeaning   = "meaning"
	askProblem   = "problem"
	askWorked    = "did_it_work"
	askStep      = "step"
	askStepDone  = "step_done"
)

// openQuestion is the question in force.
type openQuestion struct {
	shown    Question
	fact     *book.Fact      // nil for the others
	problems []*book.Problem // askProblem
	choices  []Choice        // askMeaning
	stages   []string        // askStep
	remedy   *book.Remedy    // askWorked
	step     *book.Step      // askStepDone
}

var yesNo = []OptionShown{{1, "yes", "yes"}, {2, "no", "no"}}

// question works out what is asked now, nil where nothing is.
func (s *state) question() *openQuestion {
	switch {
	case s.hurt != nil:
		return nil
	case s.maybeHurt != nil:
		return &openQuestion{shown: Question{Fact: askEmergency, Text: s.maybeHurt.Ask, Kind: "yesno", Options: yesNo,
			HowToCheck: "Look at the person first; the work can wait.", Why: "If somebody is hurt, that comes before everything else."}}
	case s.doubt != nil:
		return s.doubt.question()
	case len(s.meaning) > 0:
		return s.askMeaning()
	case len(s.choosing) > 0:
		return s.askProblem()
	case s.puzzling != "":
		return s.askStep()
	}
	if f := s.missing(); f != nil {
		return factQuestion(f)
	}
	if s.making() {
		if f := s.lacking(); f != nil {
			return factQuestion(f)
		}
		return s.askBuild()
	}
	if s.closed || s.problem == nil {
		return nil
	}
	v := s.view()
	if v.asking {
		return factQuestion(&s.a.book.Facts[v.next.Fact])
	}
	if r := s.offered(); r != nil && !s.hurried() {
		return &openQuestion{remedy: r, shown: Question{Fact: askWorked, Text: "Did that do it?", Kind: "yesno", Options: yesNo,
			HowToCheck: "Do the steps first, then look again.", Why: "If it did not help, the cause is likely another one."}}
	}
	return nil
}

func (s *state) askMeaning() *openQuestion {
	q := &openQuestion{choices: s.meaning, shown: Question{Fact: askMeaning, Text: "Which do you mean?", Kind: "choice",
		HowToCheck: "Say the number or the words.", Why: "Your words can be taken in more than one way."}}
	for i, c := range s.meaning {
		q.shown.Options = append(q.shown.Options, OptionShown{i + 1, c.Label, c.Label})
	}
	return q
}

func (s *state) askProblem() *openQuestion {
	q := &openQuestion{problems: s.choosing, shown: Question{Fact: askProblem, Text: "Which of these is it?", Kind: "choice",
		HowToCheck: "Look at the piece and pick the nearest.", Why: "Your words fit more than one trouble."}}
	for i, p := range s.choosing {
		q.shown.Options = append(q.shown.Options, OptionShown{i + 1, p.ID, p.Title})
	}
	q.shown.Options = append(q.shown.Options, OptionShown{len(s.choosing) + 1, "none", "none of these"})
	return q
}

func factQuestion(f *book.Fact) *openQuestion {
	q := &openQuestion{fact: f, shown: Question{
		Fact: f.Name, Text: f.Ask, Kind: kindWord(f.Kind), Unit: f.Unit, HowToCheck: f.HowToCheck, Why: f.Why,
		Options: optionsOf(f),
	}}
	return q
}

func kindWord(k logic.Kind) string {
	switch k {
	case logic.Number:
		return "number"
	case logic.YesNo:
		return "yesno"
	default:
		return "choice"
	}
}

func optionsOf(f *book.Fact) []OptionShown {
	out := []OptionShown{}
	for i, o := range f.Options {
		out = append(out, OptionShown{i + 1, o.Value, o.Label})
	}
	return out
}

// asked is the question in force as the hearing needs it.
func (s *state) asked() *hear.Asked {
	q := s.question()
	if f := s.a.book.FactByName(sums.MeasureFact); q == nil && f != nil && s.problem == nil && len(s.sums) > 0 {
		return &hear.Asked{Fact: f, Kind: f.Kind, Options: f.Options} // "in cups", after the grams
	}
	if q == nil {
		return nil
	}
	if q.fact != nil {
		return &hear.Asked{Fact: q.fact, Kind: q.fact.Kind, Options: q.fact.Options}
	}
	a := &hear.Asked{Special: q.shown.Fact, Kind: logic.Choice}
	if q.shown.Kind == "yesno" {
		a.Kind = logic.YesNo
	}
	for i, o := range q.shown.Options {
		option := book.Option{Value: o.Value, Label: o.Label}
		if i < len(q.problems) {
			option.Says = []string{q.problems[i].Meaning}
		}
		a.Options = append(a.Options, option)
	}
	return a
}

// picked gives the acts of picking answer n, from 1.
func (s *state) picked(q *openQuestion, n int, at time.Time) []Act {
	yes := n == 1
	switch {
	case q.step != nil:
		return s.answered(q.step, q.shown.Options[n-1].Value, at)
	case q.fact != nil:
		return []Act{{Do: doTell, Fact: q.fact.Name, Value: q.fact.Options[n-1].Value}}
	case q.choices != nil:
		return q.choices[n-1].Acts
	case q.stages != nil && n <= len(q.stages):
		return []Act{s.chooseAt(q.stages[n-1], s.puzzling, s.denied)}
	case q.stages != nil:
		return []Act{{Do: doChoose}}
	case q.problems != nil && n <= len(q.problems):
		return []Act{{Do: doOpen, ID: q.problems[n-1].ID}}
	case q.problems != nil && s.words != "":
		return []Act{s.noneOfThese(q.problems)}
	case q.problems != nil:
		return []Act{{Do: doChoose}}
	case q.remedy != nil && yes:
		return s.thenLater(Act{Do: doHelped, ID: q.remedy.ID})
	case q.remedy != nil:
		return []Act{{Do: doFailed, ID: q.remedy.ID}}
	case yes:
		return []Act{{Do: doHurt, ID: s.maybeHurt.ID}}
	default:
		return []Act{{Do: doSafe}}
	}
}

// unsure gives the acts of not knowing the answer to the question in force.
func (s *state) unsure(at time.Time) []Act {
	q := s.question()
	switch {
	case q == nil:
		return []Act{{Do: doShow, ID: "help"}}
	case q.fact != nil:
		return []Act{{Do: doUnsure, Fact: q.fact.Name}}
	case q.remedy != nil:
		return []Act{{Do: doShow, ID: "wait"}}
	case q.step != nil:
		return []Act{{Do: doShow, ID: saysHow}}
	case q.problems != nil:
		return s.picked(q, len(q.problems)+1, at)
	case s.doubt != nil && s.maybeHurt == nil:
		return []Act{{Do: doAgain}}
	case q.choices != nil, q.stages != nil:
		return []Act{{Do: doChoose}}
	default: // not sure whether somebody is hurt: take it as if they were
		return []Act{{Do: doHurt, ID: s.maybeHurt.ID}}
	}
}

// offered is the remedy to do now, nil while something is asked or nothing is
// left.
func (s *state) offered() *book.Remedy {
	v := s.view()
	if v == nil || v.asking || s.closed || v.beliefs.Stranger() || len(v.order) == 0 {
		return nil
	}
	return v.order[0]
}
