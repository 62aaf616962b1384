package talk

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/guide"
	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
)

// card names what is at hand, so that a change of it is noticed.
func (s *state) card() string {
	step := s.atHand()
	if s.build == nil || step == nil {
		return ""
	}
	if s.pending(step) != nil {
		return step.ID + " asks"
	}
	return fmt.Sprint(step.ID, s.build.Progress(step).Stage)
}

// showCard is the show that brings the step at hand back.
const showCard = "card"

// composeBuild fills in the step at hand, and gives what is spoken of it.
func (s *state) composeBuild(r *Reply, e Event, did result, before glance) string {
	r.Phase, r.Title = building, s.pieceName()
	step := s.atHand()
	s.showClosed(r, e)
	if step == nil {
		r.Done = true
		r.Show = append(r.Show, "Say 'start again' for the next piece.")
		return phrase.Speech(s.lead(e), "That was the last step. What was made stands in the notebook")
	}
	if s.pending(step) == nil {
		r.Cautions = cautions(step.Guide.Cautions)
	}
	lead := s.lead(e)
	if e.does(doElsewhere) && s.elsewhere != nil {
		return phrase.Speech(lead, s.elsewhereSpoken(r))
	}
	asksSums := e.does(doSums) || s.missing() != nil
	switch {
	case asksSums && r.Question != nil && r.Question.Fact != askStepDone:
		return phrase.Speech(lead, spokenQuestion(r.Question))
	case asksSums:
		return phrase.Speech(lead, firstCaution(did.cautions), did.spoken())
	case s.checking != nil && s.lacking() != nil, s.pending(step) != nil:
		return phrase.Speech(lead, s.firstAsk(step, e, before), spokenQuestion(r.Question))
	case s.checking != nil:
		return phrase.Speech(lead, s.checking.Guide.Look, "Does it look so?")
	case s.card() != before.card || lead != "" && s.judgement == nil && e.Kind != "timer":
		return phrase.Speech(lead, s.cardSpoken(step, e.At))
	case lead != "" || e.Note != "":
		return lead
	case slices.ContainsFunc(e.Acts, func(a Act) bool { return a.Fact == hear.LeftFact }):
		return phrase.Speech("Noted: "+r.Heard, s.planSpoken(e.At))
	case r.Heard != "":
		return "Noted: " + r.Heard
	}
	return s.stepSpoken(step)
}

// pieceName is what the piece is called in headings.
func (s *state) pieceName() string {
	if s.build.Name == "" {
		return "A piece"
	}
	return phrase.Capital(s.build.Name)
}

// firstAsk says which step the questions of a step are about, before the first.
func (s *state) firstAsk(step *book.Step, e Event, before glance) string {
	if s.checking != nil || s.card() == before.card {
		return ""
	}
	return s.stepSpoken(step)
}

// stepSpoken names a step with its place in the job.
func (s *state) stepSpoken(step *book.Step) string {
	all := s.build.Steps(s)
	return fmt.Sprintf("Step %d of %d: %s", slices.Index(all, step)+1, len(all), phrase.Lower(step.Guide.Order))
}

// cardSpoken is a step as it is read out: what has to be at hand and how it
// begins. The rest is on the card, and is read out when asked for. Who has done
// it many times hears all of it in one sentence.
func (s *state) cardSpoken(step *book.Step, now time.Time) string {
	g := step.Guide
	p := s.build.Progress(step)
	if p.Stage == guide.Waiting {
		_, mostly, _ := s.build.Ready(s, step)
		return phrase.Speech(fmt.Sprintf("%s: ready at about %s", phrase.Capital(step.Title), clock(mostly, now)), g.Look)
	}
	needs := ""
	if len(g.Needs) > 0 {
		needs = "Have ready: " + phrase.And(g.Needs)
	}
	starts := ""
	if !p.Started {
		starts = g.Starts
	}
	if s.experienced() {
		return phrase.Speech(s.stepSpoken(step), spokenCautions(g.Cautions), needs, g.Brief, s.applying(step), starts)
	}
	first, more := "", ""
	if do := guide.Doing(s, step); len(do) > 0 {
		first = "First: " + phrase.Lower(do[0])
	}
	if step.Index < stepsWithHint {
		more = "Say how, and I read out the rest"
	}
	return phrase.Speech(s.stepSpoken(step), spokenCautions(g.Cautions), needs, first, more, starts)
}

// stepsWithHint is at how many steps it is said that there is more to be heard.
const stepsWithHint = 3

// applying are the things to do that are said on account of this piece or this
// wearer: nobody has done those often.
func (s *state) applying(step *book.Step) string {
	var say []string
	for _, d := range step.Guide.Do {
		if d.HasWhen && s.Truth(d.When) == logic.True {
			say = append(say, d.Say)
		}
	}
	return phrase.Speech(say...)
}

func (s *state) doingSpoken(step *book.Step) string {
	return phrase.Speech(guide.Doing(s, step)...)
}

// lead says what the last words did to the build, before the card.
func (s *state) lead(e Event) string {
	if say := s.rung(e); say != "" {
		return say
	}
	var say []string
	for _, act := range e.Acts {
		if step := s.a.stepCalled(act.ID); step != nil || act.Do == doHelped || act.Do == doFixed || act.Do == doTimer || act.Do == doStopTimer || act.Do == doBegin {
			say = append(say, s.leadOf(act, step, e))
		}
	}
	return phrase.Speech(slices.DeleteFunc(say, func(t string) bool { return t == "" })...)
}

func (s *state) leadOf(act Act, step *book.Step, e Event) string {
	switch act.Do {
	case doBegin:
		return "Good. I ask a little first"
	case doStarted:
		return "The clock runs"
	case doHands:
		if s.build.Progress(step).Stage != guide.Waiting || e.Kind == "undo" {
			return ""
		}
		_, wait := guide.Times(s, step)
		because := guide.Because(s, step, true)
		if because != "" {
			because = ", since " + because
		}
		return fmt.Sprintf("Now it needs %s, mostly %s%s. I tell you when to look", span(wait), rough(wait.Mostly), because)
	case doVerdict:
		if s.judgement != nil {
			return s.judgement.Say
		}
	case doTimer, doStopTimer:
		return s.timerSaid(act, e)
	case doHelped:
		return phrase.Speech("Good", s.backSpoken())
	case doFixed:
		return s.backSpoken()
	}
	return ""
}

// backSpoken says where the build goes on after a trouble.
func (s *state) backSpoken() string {
	if s.back != nil {
		return "That piece could not be saved, so we go back to " + s.back.Title
	}
	return "Back to the build"
}

// showClosed adds what to do otherwise next time, once a remedy has helped.
func (s *state) showClosed(r *Reply, e Event) {
	if !e.does(doHelped) || s.helped == nil {
		return
	}
	for _, next := range s.helped.NextTime {
		r.Show = append(r.Show, "Next time: "+next)
	}
}

// span says a range of minutes.
func span(r guide.Range) string {
	if r.From == r.To {
		return minutes(r.To)
	}
	if r.To < 90 {
		return fmt.Sprintf("%.0f to %.0f minutes", math.Round(r.From), math.Round(r.To))
	}
	return rough(r.From) + " to " + rough(r.To)
}

// upcomingSpoken says which steps come next.
func (s *state) upcomingSpoken() string {
	next := s.build.Next(s)
	if len(next) == 0 {
		return "Nothing comes after this."
	}
	var say []string
	for _, step := range next[:min(3, len(next))] {
		say = append(say, step.Title)
	}
	line := "Next comes " + say[0]
	if len(say) > 1 {
		line += ", then " + strings.Join(say[1:], ", then ")
	}
	needs := ""
	if len(next[0].Guide.Needs) > 0 {
		needs = "For that you need " + phrase.And(next[0].Guide.Needs)
	}
	return phrase.Speech(line, needs)
}

// buildSaid answers what was asked of a build; "" for anything else.
func (s *state) buildSaid(id string, now time.Time) string {
	if id == "timers" {
		return s.timersSpoken(now)
	}
	if s.build == nil || s.refused != nil {
		return ""
	}
	step := s.atHand()
	switch {
	case id == saysPlan:
		return s.planSpoken(now)
	case id == "shorter":
		return s.shorterAnswer(now)
	case id == "upcoming":
		return s.upcomingSpoken()
	case step == nil:
		return ""
	case s.pending(step) != nil && (id == saysHow || id == showCard): // what is asked comes first
		q := s.question()
		if id == saysHow {
			return phrase.Speech(q.shown.HowToCheck, spokenQuestion(&q.shown))
		}
		return phrase.Speech(s.stepSpoken(step), spokenQuestion(&q.shown))
	case id == saysHow:
		return phrase.Speech(spokenCautions(step.Guide.Cautions), s.doingSpoken(step), firstOf(step.Guide.Never))
	case id == showCard:
		return s.cardSpoken(step, now)
	}
	return ""
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}

func (s *state) shorterAnswer(now time.Time) string {
	if s.due.IsZero() {
		return "Tell me first when the call is, and I look where time can be saved."
	}
	if say := s.shorterSpoken(now); say != "" {
		return say
	}
	if p := s.plan(now); p != nil && p.odds.Chance >= likely {
		return "No need for it: there is time enough."
	}
	return "I know no shorter way from here."
}
