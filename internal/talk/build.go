package talk

import (
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/guide"
	"sparehand/internal/logic"
)

// makes is the build of a talk.
type makes struct {
	build     *guide.Build
	checking  *book.Step    // asked whether it is ready
	judgement *book.Verdict // of the last event, or nil
	back      *book.Step    // the last event goes back to it, or nil
	kept      []kept        // for the notebook
	mould     int           // number of the mould that is used again, 0 for a new one
}

// Truth and Minutes are what the guide needs to know of a talk.
func (s *state) Truth(c logic.Cond) logic.Truth { return s.known.Truth(c) }

// Minutes works an amount in minutes out.
func (s *state) Minutes(a *book.Amount) (guide.Range, bool) {
	w := s.work(a)
	for _, line := range w.Lines {
		if line.Unit == "min" && w.Refused == "" && len(w.Lacks) == 0 {
			return guide.Range{From: line.Span.Low, Mostly: line.Span.Mid, To: line.Span.High}, true
		}
	}
	return guide.Range{}, false
}

// making reports whether the build is what the talk is about: nothing else is
// open, and nothing is refused that has to be cleared up first.
func (s *state) making() bool {
	return s.build != nil && (s.problem == nil || s.closed) && s.hurt == nil && s.refused == nil
}

// atHand is the step to do now, nil where there is none.
func (s *state) atHand() *book.Step {
	if s.build == nil {
		return nil
	}
	return s.build.AtHand(s)
}

// stepCalled finds a step by its id, or nil.
func (a *Assistant) stepCalled(id string) *book.Step {
	for i := range a.book.Steps {
		if a.book.Steps[i].ID == id {
			return &a.book.Steps[i]
		}
	}
	return nil
}

// make does what an act does to the build.
func (s *state) make(act Act, at time.Time) {
	step := s.a.stepCalled(act.ID)
	switch {
	case act.Do == doBegin:
		s.putAway()
		s.build = guide.Begin(s.a.book, act.Name, at)
		s.open(nil)
		return
	case act.Do == doLeave:
		s.putAway()
		s.sums = nil
		return
	case act.Do == doNumber:
		s.keep(act.ID, act.N, at)
		return
	case s.build == nil || step == nil:
		return
	}
	switch act.Do {
	case doGoTo:
		s.build.GoTo(step, at)
		s.checking, s.sums = nil, nil
	case doStarted:
		s.build.Start(step, at)
	case doHands:
		s.build.HandsOff(s, step, at)
		s.checking, s.sums = nil, nil
	case doOver:
		s.build.Finish(step, at)
		s.checking, s.sums = nil, nil
	case doCheck:
		s.check(step)
	case doVerdict:
		s.judge(step, act)
	}
}

// putAway ends a build; what it has brought about stays noted.
func (s *state) putAway() {
	if s.build != nil {
		s.past = append(s.past, s.buildNotes()...)
	}
	s.makes = makes{}
}

// check asks afresh whether a step is ready: what was seen before is past.
func (s *state) check(step *book.Step) {
	s.checking = step
	if f := step.Guide.Check; f != nil {
		s.tell(Act{Do: doForget, Fact: f.Name})
		s.unknown = slices.DeleteFunc(s.unknown, func(id logic.FactID) bool { return id == f.ID })
	}
}

func (s *state) judge(step *book.Step, act Act) {
	s.checking = nil
	s.judgement = guide.Verdict(s, step)
	if act.Value == verdictWait {
		s.build.Wait(step, act.Due)
	}
}

// Verdicts, as the book has them.
const (
	verdictReady   = "ready"
	verdictWait    = "wait"
	verdictTrouble = "trouble"
)

// goBack puts the build back to the step that is to be done again after a
// remedy that could not save it.
func (s *state) goBack(r *book.Remedy, at time.Time) {
	if s.build == nil {
		return
	}
	if step := r.Again(s.problem); step != nil && step.Guide != nil && s.build.Again(s, step, at) {
		s.back = step
	}
}

// pending is the fact that a step asks for before it is shown, nil for none.
func (s *state) pending(step *book.Step) *book.Fact {
	if step == nil || s.build.Progress(step).Stage != guide.Todo || s.build.Progress(step).Started {
		return nil
	}
	for _, f := range step.Guide.Asks {
		if _, known := s.known.Value(f.ID); !known && s.mayAsk(f.ID) {
			return f
		}
	}
	return nil
}

// settle notes that the step at hand is shown.
func (s *state) settle(at time.Time) {
	if !s.making() {
		return
	}
	if step := s.atHand(); step != nil && s.pending(step) == nil {
		s.build.Show(step, at)
	}
}

// lacking gives the fact that is asked for now on account of the build: of the
// step at hand, or of whether a step is ready.
func (s *state) lacking() *book.Fact {
	if !s.making() {
		return nil
	}
	if s.checking != nil {
		if f := s.checking.Guide.Check; f != nil && s.mayAsk(f.ID) {
			return f
		}
		return nil
	}
	return s.pending(s.atHand())
}

// asksReady is the step that "is it ready?" is about: the one that is named, the
// one that waits and is due, the one at hand, or the one that is ready soonest.
func (s *state) asksReady(words string, now time.Time) *book.Step {
	at := s.atHand()
	waiting := s.build.Waiting(s)
	for _, w := range waiting {
		if words != "" && about(w.Title+" "+strings.Join(w.Says, " "), words) {
			return w
		}
	}
	if s.checking != nil {
		return s.checking
	}
	for _, w := range waiting {
		if _, mostly, _ := s.build.Ready(s, w); !mostly.After(now) {
			return w
		}
	}
	switch {
	case at == nil:
		return nil
	case at.Guide.Check != nil || len(waiting) == 0:
		return at
	}
	return waiting[0]
}

// experienced reports whether the maker has done all this many times.
func (s *state) experienced() bool {
	f := s.a.book.FactByName(experienceFact)
	if f == nil {
		return false
	}
	v, known := s.known.Value(f.ID)
	return known && f.Kind == logic.Choice && v.Index() == len(f.Options)-1
}

// experienceFact tells how often a maker has done this; its last option is the
// most.
const experienceFact = "experience"

// stepAmounts are the sums of the step at hand that can be worked out.
func (s *state) stepAmounts() []*book.Amount {
	if !s.making() || s.atHand() == nil || s.pending(s.atHand()) != nil {
		return nil
	}
	return s.atHand().Guide.Amounts
}

func (s *state) canWork(am *book.Amount) bool {
	w := s.work(am)
	return s.applies(am) && w.Refused == "" && len(w.Lacks) == 0
}
