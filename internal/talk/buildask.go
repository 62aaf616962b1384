package talk

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/guide"
	"sparehand/internal/hear"
)

// What can be answered to the card of a step.
const (
	saysStarted = "started"
	saysDone    = "done"
	saysReady   = "ready"
	saysHow     = "how"
	saysWrong   = "wrong"
	saysPlan    = "plan"
)

var stepAnswers = map[string]string{
	saysStarted: "started just now",
	saysDone:    "done, what is next?",
	saysReady:   "is it ready?",
	saysHow:     "how do I do that?",
	saysWrong:   "something is wrong",
	saysPlan:    "will I make it?",
}

// askBuild asks how the step at hand goes; nil where the build is over.
func (s *state) askBuild() *openQuestion {
	step := s.atHand()
	if step == nil {
		return nil
	}
	q := &openQuestion{step: step, shown: Question{Fact: askStepDone, Text: "How is it going?", Kind: "choice",
		HowToCheck: step.Guide.Look, Why: "I go on with you, or help where it goes wrong."}}
	for _, value := range s.answersAt(step) {
		q.shown.Options = append(q.shown.Options, OptionShown{len(q.shown.Options) + 1, value, stepAnswers[value]})
	}
	return q
}

func (s *state) answersAt(step *book.Step) []string {
	p := s.build.Progress(step)
	var list []string
	switch {
	case s.checking != nil: // nothing is asked of it but whether it looks so
		return []string{saysDone, saysWrong}
	case p.Stage == guide.Waiting:
		list = []string{saysReady, saysWrong}
	case step.Guide.Starts != "" && !p.Started:
		list = []string{saysStarted, saysHow, saysWrong}
	case step.Guide.Check != nil || len(s.build.Waiting(s)) > 0:
		list = []string{saysDone, saysReady, saysHow, saysWrong}
	default:
		list = []string{saysDone, saysHow, saysWrong}
	}
	return append(list, saysPlan)
}

// answered gives the acts of an answer to the card of a step.
func (s *state) answered(step *book.Step, value string, at time.Time) []Act {
	switch value {
	case saysStarted:
		return []Act{{Do: doStarted, ID: step.ID}}
	case saysDone:
		return s.stepDone()
	case saysReady:
		return s.askReady("", at)
	case saysWrong:
		return s.troubleAt(step)
	}
	return []Act{{Do: doShow, ID: value}}
}

// stepDone ends the step that is asked about, or the hands part of the one at
// hand. Of a wait it is asked first what is seen, however late it is.
func (s *state) stepDone() []Act {
	step := s.atHand()
	if s.checking != nil {
		step = s.checking
	}
	switch {
	case step == nil:
		return []Act{{Do: doShow, ID: showCard}}
	case s.build.Progress(step).Stage == guide.Waiting:
		if step.Guide.Check != nil && s.checking == nil {
			return []Act{{Do: doCheck, ID: step.ID}} // a look first: it may be an arm with a patch on it
		}
		return []Act{{Do: doOver, ID: step.ID}}
	}
	return []Act{{Do: doHands, ID: step.ID}}
}

// askReady looks into whether a step is ready; words may say which.
func (s *state) askReady(words string, at time.Time) []Act {
	if step := s.asksReady(words, at); step != nil {
		return []Act{{Do: doCheck, ID: step.ID}}
	}
	return []Act{{Do: doShow, ID: showCard}}
}

// troubleAt offers the troubles that show at a step, or asks where else it is.
func (s *state) troubleAt(step *book.Step) []Act {
	choose := Act{Do: doChoose}
	for _, p := range s.a.book.Problems {
		if p.Step == step && len(choose.IDs) < mostTroubles {
			choose.IDs = append(choose.IDs, p.ID)
		}
	}
	if len(choose.IDs) == 0 {
		return []Act{{Do: doWhichStep, ID: step.Title}}
	}
	return []Act{choose}
}

const mostTroubles = 7 // and "none of these" makes eight

// asksIfReady hears a question whether something that is named is ready. Only in
// a build it is about a step, and no trouble.
var asksIfReady = regexp.MustCompile(`(?i)^\W*(is|are|has|have) (the|my|it|that) ?(\w+ )*?(ready|set|dry|done|hard|melted|soaked|swollen|finished)( yet| now| enough| by now| through)*\W*$`)

// buildActs turns what was heard about a build, its timers, the schedule or the
// notebook into acts. ok is false where it was none of these.
func (s *state) buildActs(text string, m hear.Meaning, at time.Time, desk Desk) (acts []Act, note string, ok bool) {
	switch {
	case s.refused != nil && m.Timer == nil:
		return nil, "", false // nothing is built until that is cleared up
	case m.Timer != nil:
		acts, note = s.timerActs(m.Timer, at)
		return append(s.alongside(m), acts...), note, true // "the wall leaks, and set a timer"
	case m.Past != nil:
		acts, note = s.pastActs(m.Past, desk)
		return acts, note, true
	case m.Begin != nil:
		acts, note = s.beginActs(m.Begin)
		return acts, note, true
	case m.GoTo != "" && s.build != nil:
		if s.problem != nil && !s.closed {
			acts = append(acts, Act{Do: doFixed})
		}
		return append(acts, Act{Do: doGoTo, ID: m.GoTo}), "", true
	}
	if acts = s.buildCommand(text, m, at); len(acts) > 0 {
		return acts, "", true
	}
	if s.build == nil && s.question() == nil && (m.GoTo != "" || slices.Contains(onlyInBuilds, m.Command)) {
		return nil, "No build is on. Say guide me, and we begin one.", true
	}
	return nil, "", false
}

// onlyInBuilds are commands that have a sense in a build alone.
var onlyInBuilds = []string{"plan", "shorter", "upcoming", "is-it-ready", "started", "step-done", "stop-build", "resume-build"}

func (s *state) beginActs(b *hear.Begin) (acts []Act, note string) {
	if s.a.book.Steps == nil || s.a.book.Steps[0].Guide == nil {
		return nil, "This book has no pages to build by."
	}
	if s.build != nil && s.atHand() != nil {
		if b.Name == "" || bareName(b.Name) == s.build.Name {
			return []Act{{Do: doShow, ID: showCard}}, ""
		}
		return nil, "A build is on already. Say stop the build first, or go on with it."
	}
	return []Act{{Do: doBegin, Name: bareName(b.Name)}}, ""
}

// buildCommand turns a command into acts where a build is on; none where it has
// no sense for it.
func (s *state) buildCommand(text string, m hear.Meaning, at time.Time) []Act {
	if m.Command == "timers" {
		return []Act{{Do: doShow, ID: "timers"}}
	}
	if s.build == nil {
		return nil
	}
	switch m.Command {
	case "plan", "shorter", "upcoming":
		return []Act{{Do: doShow, ID: m.Command}}
	case "stop-build":
		return []Act{{Do: doLeave}}
	case "resume-build":
		if s.problem != nil && !s.closed {
			return []Act{{Do: doFixed}, {Do: doShow, ID: showCard}}
		}
		return []Act{{Do: doShow, ID: showCard}}
	}
	step := s.atHand()
	if !s.making() || step == nil {
		return nil
	}
	switch m.Command {
	case "started":
		if step.Guide.Starts != "" && !s.build.Progress(step).Started {
			return []Act{{Do: doStarted, ID: step.ID}}
		}
		return []Act{{Do: doShow, ID: showCard}}
	case "step-done", "fixed", "next":
		if s.lacking() != nil {
			return nil // what is asked may be an allergy: "done" is no answer to it
		}
		return s.stepDone()
	case "is-it-ready":
		return s.askReady(text, at)
	case "how", "advise", "repeat":
		return []Act{{Do: doShow, ID: saysHow}}
	case "trouble":
		return s.troubleAt(step)
	case "start-again":
		return []Act{{Do: doLeave}, {Do: doReset}}
	}
	return nil
}

// bareName is what a piece is called, without the small words before it.
func bareName(name string) string {
	first, rest, more := strings.Cut(name, " ")
	switch strings.ToLower(first) {
	case "a", "an", "the", "my", "our", "some", "another":
		if more {
			return rest
		}
	}
	return name
}
