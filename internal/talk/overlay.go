package talk

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
	"sparehand/internal/sums"
)

// heard says in plain words what an event was taken to mean.
func (s *state) heard(e Event) string {
	var parts []string
	for _, act := range e.Acts {
		switch act.Do {
		case doOpen:
			if p := s.a.book.ProblemByID(act.ID); p != nil {
				parts = append(parts, phrase.Lower(p.Title))
			}
		case doTell:
			if f := s.a.book.FactByName(act.Fact); f != nil {
				if v, fault := f.Parse(act.Value); fault == "" && f.Name == hear.LeftFact {
					at := e.At.Add(time.Duration(v.Number()) * time.Minute)
					parts = append(parts, fmt.Sprintf("the call at %s, in %s", at.Format("15:04"), minutes(v.Number())))
				} else if fault == "" {
					parts = append(parts, sums.Subject(f)+": "+s.a.label(f, v))
				}
			}
		case doUnsure:
			parts = append(parts, "not sure")
		}
	}
	return strings.Join(parts, "; ")
}

// changed says what a correction or an undo did to the advice.
func (s *state) changed(e Event, before glance) string {
	if e.Kind != "undo" && e.Kind != "correct" && !e.Over {
		return ""
	}
	if e.Note != "" {
		return "" // nothing was there to take back
	}
	did := "Changed."
	if e.Kind == "undo" {
		did = "Taken back."
	}
	if s.problem == nil || s.closed || before.problem != s.problem {
		return did
	}
	v := s.view()
	lead := s.leadTitle(v)
	switch {
	case lead != before.lead && before.lead != "":
		return fmt.Sprintf("%s Likeliest now: %s; before it was: %s.", did, phrase.Lower(lead), phrase.Lower(before.lead))
	case v.asking:
		return did + " The likeliest cause stays the same."
	case s.offered() != before.remedy || s.hurried() != before.hurried:
		return did + " The likeliest cause stays the same, but the advice changes."
	default:
		return did + " The advice stays the same."
	}
}

// overlay puts before the core of the reply what the last words call for: a
// complaint, a change, an answer to why, and so on.
func (s *state) overlay(r *Reply, e Event, before glance, core string) string {
	for _, act := range e.Acts {
		if act.Do == doShow {
			if say := s.buildSaid(act.ID, e.At); say != "" {
				return say
			}
			if act.ID == showRecalled {
				return recalledSpoken(act.Notes, act.Value, e.At)
			}
			if say := s.shown(act.ID, r, core); say != "" {
				return say
			}
		}
	}
	if say := s.timersSaid(e); say != "" && !s.making() {
		if s.problem == nil && r.Question == nil {
			return phrase.Speech(e.Note, say)
		}
		core = phrase.Speech(say, core)
	}
	if e.does(doLeave) {
		core = phrase.Speech("The build is left. What it made stays in the notebook", core)
	}
	var parts []string
	if e.Note != "" {
		parts = append(parts, e.Note)
	}
	if r.Changed != "" {
		parts = append(parts, r.Changed)
	}
	if s.problem == nil && r.Heard != "" && r.Question == nil && s.elsewhere == nil && s.refused == nil && len(r.Amounts) == 0 {
		parts = append(parts, "Noted: "+r.Heard)
	}
	if s.sumsAnswered(r, e, before) && s.problem != nil {
		parts = append(parts, s.amounts().spoken())
	}
	return phrase.Speech(append(parts, core)...)
}

// sumsAnswered reports whether amounts that were asked for can be said now:
// when they are asked for, and when something told changes them.
func (s *state) sumsAnswered(r *Reply, e Event, before glance) bool {
	if len(s.sums) == 0 || len(r.Amounts) == 0 {
		return false
	}
	asked := slices.ContainsFunc(e.Acts, func(a Act) bool { return a.Do == doSums })
	return asked || s.tellsSums(e) || before.sums < len(r.Amounts)
}

// tellsSums reports whether an event tells something that the wanted sums go
// by, or what the maker measures with.
func (s *state) tellsSums(e Event) bool {
	for _, act := range e.Acts {
		f := s.a.book.FactByName(act.Fact)
		if act.Do != doTell || f == nil {
			continue
		}
		if f.Name == sums.MeasureFact || f.Name == sums.OwnMeasureFact {
			return true
		}
		for _, am := range s.sums {
			if slices.Contains(s.a.book.Reach(am), f.ID) || s.isStock(am, f) {
				return true
			}
		}
	}
	return false
}

// isStock reports whether a fact tells what there is of something that a sum
// weighs out.
func (s *state) isStock(am *book.Amount, f *book.Fact) bool {
	return slices.ContainsFunc(s.work(am).Lines, func(l sums.Line) bool {
		if l.Material == nil || l.Material.Have == nil {
			return false
		}
		have := l.Material.Have
		return have == f || slices.ContainsFunc(have.Ways, func(way *logic.Formula) bool { return slices.Contains(way.Facts(), f.ID) })
	})
}

// shown answers a request to be told something.
func (s *state) shown(id string, r *Reply, core string) string {
	switch id {
	case "why":
		return s.why(r, core)
	case "others":
		return s.others(r, core)
	case "help":
		return s.help(r, core)
	case showSafe:
		return "Did you say no? Say it once more, and I go on."
	case "wait":
		return "Take your time. Do the steps, then tell me yes or no."
	}
	return ""
}

// why explains the question from what it tells apart, or the advice from the
// answers given.
func (s *state) why(r *Reply, core string) string {
	if s.problem == nil && len(r.Amounts) > 0 {
		return whySums(r.Amounts)
	}
	if s.problem == nil || len(r.Causes) == 0 {
		return phrase.Speech("I ask only what the advice hangs on", core)
	}
	top := r.Causes[0]
	reasons := "nothing told so far speaks for one cause more than how often it happens"
	if len(top.Because) > 0 {
		reasons = fmt.Sprintf("the likeliest is this: %s, because %s", phrase.Lower(top.Title), phrase.And(top.Because))
	}
	for _, c := range r.Causes {
		if len(c.Because) > 0 {
			r.Show = append(r.Show, fmt.Sprintf("%s (%.0f %%): %s.", c.Title, 100*c.Share, strings.Join(c.Because, "; ")))
		}
	}
	if r.Phase == asking && r.Question != nil {
		return phrase.Speech(r.Question.Why, "So far, "+reasons, spokenQuestion(r.Question))
	}
	why := ""
	for _, c := range s.problem.Causes {
		if c.ID == top.ID {
			why = c.Why
			for _, src := range c.Sources {
				r.Show = append(r.Show, "Source: "+src+".")
			}
		}
	}
	return phrase.Speech(reasons, why)
}

func (s *state) others(r *Reply, core string) string {
	if s.problem == nil && len(r.Amounts) > 0 {
		return howSure(r.Amounts)
	}
	if len(r.Causes) < 2 {
		return core
	}
	var list []string
	for _, c := range r.Causes[1:min(3, len(r.Causes))] {
		list = append(list, fmt.Sprintf("%s, %s", phrase.Lower(c.Title), odds(c.Share)))
	}
	for _, c := range r.Causes {
		r.Show = append(r.Show, fmt.Sprintf("%s: %.0f %%.", c.Title, 100*c.Share))
	}
	next := ""
	if r.Question != nil {
		next = r.Question.Text
	}
	return phrase.Speech("Other causes: "+strings.Join(list, "; "), next)
}

// odds says a share in words.
func odds(share float64) string {
	switch {
	case share >= 0.005:
		return fmt.Sprintf("%.0f %%", math.Max(1, 100*share))
	default:
		return "hardly likely"
	}
}

func (s *state) help(r *Reply, core string) string {
	r.Show = append(r.Show,
		"Say what you see, or answer by the words or the number on the card.",
		"'Not sure' is always an answer.",
		"Also: repeat, back, why, what else could it be, next, how much, that did it, start again.",
		"Whenever somebody is hurt, say so first.")
	return phrase.Speech("Answer in your own words or by number; say not sure, why, back, next, how much, or start again", core)
}

// spokenQuestion is a question with its answers, where they are few enough to
// be kept in mind.
func spokenQuestion(q *Question) string {
	if q.Kind == "choice" && len(q.Options) <= 5 {
		return spokenChoice(q)
	}
	return q.Text
}

func spokenChoice(q *Question) string {
	labels := make([]string, len(q.Options))
	between := ", "
	for i, o := range q.Options {
		labels[i] = phrase.Lower(o.Label)
		if strings.Contains(o.Label, ",") || strings.Contains(o.Label, " or ") {
			between = "; "
		}
	}
	last := len(labels) - 1
	return q.Text + " " + sentenceAs(strings.Join(labels[:last], between)+between+"or "+labels[last], "?")
}

func sentenceAs(s, end string) string {
	return strings.TrimSuffix(phrase.Sentence(s), ".") + end
}

// firstCaution speaks the first sentence of the gravest warning alone: a
// figure is waited for. The rest stands on the card.
func firstCaution(list []*book.Caution) string {
	for _, level := range levels[:2] {
		for _, c := range list {
			if c.Level == level {
				return phrase.First(c.Text)
			}
		}
	}
	return ""
}

// spokenCautions speaks the first sentence of the gravest warnings: all that
// say stop, else the first that says take care.
func spokenCautions(list []*book.Caution) string {
	var say []string
	for _, level := range []string{"stop", "care"} {
		for _, c := range list {
			if line := phrase.First(c.Text); c.Level == level && !slices.Contains(say, line) && len(say) < 2 {
				say = append(say, line)
			}
		}
		if len(say) > 0 {
			break
		}
	}
	return strings.Join(say, " ")
}

// InWords says a count of a measure: "2 1/2 cups".
func InWords(m MeasureShown) string {
	word := m.Measure
	if m.Count > 1 {
		word += "s"
	}
	return craft.FormatCount(m.Count) + " " + word
}

// whySums says what sums take for granted.
func whySums(list []AmountShown) string {
	if len(list[0].Assumes) == 0 {
		return "It all follows from what you told me, with nothing taken for granted."
	}
	return phrase.Speech("I took this for granted: "+strings.Join(list[0].Assumes, "; "), list[0].Narrow)
}

// howSure says between which figures the first line of the sums lies.
func howSure(list []AmountShown) string {
	a := list[0]
	if a.Low >= a.High {
		return "As sure as what you told me."
	}
	return phrase.Speech(phrase.Lower(a.Name)+": "+sums.RangeInUnit(a.Low, a.High, a.Unit), a.Narrow)
}
