package talk

import (
	"slices"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/guide"
	"sparehand/internal/phrase"
)

// What follows from an act by the book, the clock or the notebook is written
// down beside it, so that an event means the same ever after: a timer its
// moment, a mould its number, a trouble what this workshop knows of it.
func (s *state) following(e Event, desk Desk) []Act {
	acts := e.Acts
	for i := 0; i < len(acts); i++ { // what follows may have more follow
		acts = append(acts, s.followingFrom(acts[i], e.At, desk)...)
		if acts[i].Do == doOpen && acts[i].Seen == nil && desk != nil {
			acts[i].Seen = tally(desk, acts[i].ID)
		}
	}
	return acts
}

func (s *state) followingFrom(act Act, at time.Time, desk Desk) []Act {
	switch {
	case s.build == nil:
		return nil
	case act.Do == doTell && s.checking != nil:
		return s.judged(act, at)
	case act.Do == doHelped:
		return s.endUndone(act.ID)
	}
	step := s.a.stepCalled(act.ID)
	if step == nil || step.Guide == nil {
		return nil
	}
	switch act.Do {
	case doStarted:
		return s.stepTimers(step, "start", at)
	case doHands:
		acts := append(s.handsOff(step, at), s.stepTimers(step, "hands", at)...)
		return append(acts, s.numbers(step, desk)...)
	case doOver:
		acts := s.endPast(step)
		if s.build.Progress(step).Stage == guide.Todo { // it was ready before its wait had begun
			acts = append(acts, s.numbers(step, desk)...)
		}
		return acts
	case doGoTo:
		return s.endTimers(func(t *timer) bool {
			of := s.a.stepCalled(t.step)
			return of != nil && !s.build.GoesOn(of, step)
		})
	}
	return nil
}

// handsOff gives what follows from the hands part of a step being over: a look
// at it once it has mostly waited or, where it has no wait, its end.
func (s *state) handsOff(step *book.Step, at time.Time) []Act {
	_, wait := guide.Times(s, step)
	if wait.To <= 0 {
		return s.endPast(step)
	}
	look := s.lookTimer(step, at.Add(inMinutes(wait.Mostly)))
	if step.Guide.Starts != "" {
		return []Act{look}
	}
	return append(s.startedLate(step, at), look)
}

// stepTimers sets the timers of a step that run from a moment.
func (s *state) stepTimers(step *book.Step, moment string, at time.Time) []Act {
	var acts []Act
	for _, t := range guide.TimersFrom(s, step, moment) {
		act := Act{Do: doTimer, Name: t.Name, Step: step.ID, Due: at.Add(inMinutes(t.Minutes)), Say: t.Say, Warning: t.Warning}
		if t.Warn > 0 {
			act.Warn = act.Due.Add(-inMinutes(t.Warn))
		}
		acts = append(acts, act)
	}
	return acts
}

// startedLate sets the timers of a step whose clock began when it came to hand,
// as far as they are still to come once the hands part is over.
func (s *state) startedLate(step *book.Step, at time.Time) []Act {
	var acts []Act
	begun := s.build.Progress(step).Begun
	for _, act := range s.stepTimers(step, "start", begun) {
		if act.Due.After(at) && !begun.IsZero() {
			acts = append(acts, act)
		}
	}
	return acts
}

// lookTimer calls for a look at a step that waits.
func (s *state) lookTimer(step *book.Step, due time.Time) Act {
	return Act{Do: doTimer, Name: lookAt(step), Step: step.ID, Due: due,
		Say: phrase.Speech("Time to look at "+step.Title, step.Guide.Look)}
}

func lookAt(step *book.Step) string { return "look at " + step.Title }

// endTimers stops the running timers that are past.
func (s *state) endTimers(past func(*timer) bool) []Act {
	var acts []Act
	for _, t := range s.running() {
		if past(t) {
			acts = append(acts, Act{Do: doStopTimer, ID: t.id})
		}
	}
	return acts
}

// endPast stops what a step makes past by being over: its own timers, but for
// those that count from the end of its hands part (the jug cools on while the
// mould is oiled), and all of the steps that it comes after.
func (s *state) endPast(step *book.Step) []Act {
	lasting := guide.TimersFrom(s, step, "hands")
	return s.endTimers(func(t *timer) bool {
		if t.step == step.ID {
			return !slices.ContainsFunc(lasting, func(l book.StepTimer) bool { return l.Name == t.name })
		}
		return slices.ContainsFunc(step.Guide.After, func(before *book.Step) bool { return before.ID == t.step })
	})
}

// endUndone stops the timers of steps that are to be done again once a remedy
// has helped.
func (s *state) endUndone(remedy string) []Act {
	r := s.a.index.remedies[remedy]
	if r == nil || s.problem == nil {
		return nil
	}
	again := r.Again(s.problem)
	if again == nil || again.Guide == nil || !s.build.Progress(again).Shown {
		return nil
	}
	undone := s.build.RestsOn(again)
	return s.endTimers(func(t *timer) bool {
		return slices.ContainsFunc(undone, func(step *book.Step) bool { return step.ID == t.step })
	})
}

// judged gives what follows from what was seen of a step that was asked about.
func (s *state) judged(act Act, at time.Time) []Act {
	step := s.checking
	f := step.Guide.Check
	if f == nil || act.Fact != f.Name {
		return nil
	}
	v := s.verdictWith(step, f, act.Value)
	if v == nil {
		return nil
	}
	acts := []Act{{Do: doVerdict, ID: step.ID, Value: v.Is}}
	switch v.Is {
	case verdictReady:
		return append(acts, Act{Do: doOver, ID: step.ID})
	case verdictWait:
		acts[0].Due = at.Add(inMinutes(v.Minutes))
		if s.build.Progress(step).Stage == guide.Waiting {
			acts = append(acts, s.endTimers(func(t *timer) bool { return t.step == step.ID && t.name == lookAt(step) })...)
		}
		return append(acts, s.lookTimer(step, acts[0].Due))
	default:
		return append(acts, Act{Do: doOpen, ID: v.Problem.ID})
	}
}

// verdictWith works out the verdict with a fact as it is told now.
func (s *state) verdictWith(step *book.Step, f *book.Fact, value string) *book.Verdict {
	v, fault := f.Parse(value)
	if fault != "" {
		return nil
	}
	was, known := s.known.Value(f.ID)
	if s.known.Set(f.ID, v) != nil {
		return nil
	}
	verdict := guide.Verdict(s, step)
	if known {
		_ = s.known.Set(f.ID, was) // it was set before
	} else {
		s.known.Clear(f.ID)
	}
	return verdict
}

func inMinutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }
