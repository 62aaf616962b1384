// Package guide walks a maker through a build: which step is at hand, how long
// it takes, whether it is ready, and the schedule back from the call. It knows
// the book, and nothing of words or talks.
package guide

import (
	"slices"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// Known is what is known of the piece and the room.
type Known interface {
	Truth(c logic.Cond) logic.Truth

	// Minutes works out an amount in minutes; ok is false where it lacks
	// something.
	Minutes(a *book.Amount) (r Range, ok bool)
}

// Stage says how far one step is.
type Stage uint8

// The stages of a step.
const (
	Todo    Stage = iota
	Waiting       // the hands are done; it sets, dries or soaks
	Over
)

// Progress is how far one step has come.
type Progress struct {
	Stage   Stage
	Shown   bool      // it has come to hand
	Begun   time.Time // when it did, or its clock began
	Started bool      // its clock was begun by a word
	Waits   time.Time // when the hands part was over
	Until   time.Time // not ready before, as was seen; zero where nothing was
	Over    time.Time
}

// Build is one piece on its way. It is not safe for concurrent use.
type Build struct {
	Name  string
	Begun time.Time
	steps []book.Step
	done  []Progress
}

// Begin begins a build of a book that has guides; nil where it has none.
func Begin(b *book.Book, name string, at time.Time) *Build {
	if len(b.Steps) == 0 || b.Steps[0].Guide == nil {
		return nil
	}
	return &Build{Name: name, Begun: at, steps: b.Steps, done: make([]Progress, len(b.Steps))}
}

// Progress gives how far a step is.
func (b *Build) Progress(s *book.Step) Progress { return b.done[s.Index] }

// Applies reports whether a step belongs to the job, as far as is known.
func Applies(k Known, s *book.Step) bool {
	return !s.Guide.HasOnlyIf || k.Truth(s.Guide.OnlyIf) != logic.False
}

// Steps lists the steps that belong to the job, in order.
func (b *Build) Steps(k Known) []*book.Step {
	var list []*book.Step
	for i := range b.steps {
		if s := &b.steps[i]; Applies(k, s) {
			list = append(list, s)
		}
	}
	return list
}

// passed reports whether nothing stands in the way of what comes after a step:
// it is over or, where it does not apply, all before it are.
func (b *Build) passed(k Known, s *book.Step) bool {
	if b.done[s.Index].Stage == Over {
		return true
	}
	return !Applies(k, s) && b.open(k, s)
}

// open reports whether a step can be begun.
func (b *Build) open(k Known, s *book.Step) bool {
	for _, before := range s.Guide.After {
		if !b.passed(k, before) {
			return false
		}
	}
	return true
}

// AtHand is the step to do now: the first that can be begun, or else the one
// that waits and is ready soonest; nil where all is over.
func (b *Build) AtHand(k Known) *book.Step {
	for _, s := range b.Steps(k) {
		if b.done[s.Index].Stage == Todo && b.open(k, s) {
			return s
		}
	}
	if waiting := b.Waiting(k); len(waiting) > 0 {
		return waiting[0]
	}
	return nil
}

// Waiting lists the steps that wait, those first that are ready soonest.
func (b *Build) Waiting(k Known) []*book.Step {
	var list []*book.Step
	for _, s := range b.Steps(k) {
		if b.done[s.Index].Stage == Waiting {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(x, y *book.Step) int {
		_, mine, _ := b.Ready(k, x)
		_, other, _ := b.Ready(k, y)
		return mine.Compare(other)
	})
	return list
}

// Next lists the steps to come after the one at hand.
func (b *Build) Next(k Known) []*book.Step {
	at := b.AtHand(k)
	var list []*book.Step
	for _, s := range b.Steps(k) {
		if s != at && b.done[s.Index].Stage == Todo {
			list = append(list, s)
		}
	}
	return list
}

// Show notes that a step has come to hand.
func (b *Build) Show(s *book.Step, at time.Time) {
	if p := &b.done[s.Index]; !p.Shown {
		p.Shown, p.Begun = true, at
	}
}

// Start begins the clock of a step.
func (b *Build) Start(s *book.Step, at time.Time) {
	p := &b.done[s.Index]
	p.Shown, p.Begun, p.Started = true, at, true
}

// HandsOff ends the hands part of a step: it waits now, or is over.
func (b *Build) HandsOff(k Known, s *book.Step, at time.Time) {
	b.Show(s, at)
	if _, wait := Times(k, s); wait.To > 0 {
		b.done[s.Index].Stage, b.done[s.Index].Waits = Waiting, at
		return
	}
	b.Finish(s, at)
}

// Finish ends a step altogether.
func (b *Build) Finish(s *book.Step, at time.Time) {
	b.Show(s, at)
	p := &b.done[s.Index]
	p.Stage, p.Over = Over, at
}

// Wait notes that a step that waits will not be ready before a moment.
func (b *Build) Wait(s *book.Step, until time.Time) { b.done[s.Index].Until = until }

// Again goes back to a step: it and all that rests on it are to be done again,
// as far as they were. It reports whether anything was.
func (b *Build) Again(k Known, s *book.Step, at time.Time) bool {
	if !b.done[s.Index].Shown {
		return false
	}
	for _, rests := range b.RestsOn(s) {
		b.done[rests.Index] = Progress{}
	}
	b.Show(s, at)
	return true
}

// RestsOn lists a step and all that come after it, directly or through others.
func (b *Build) RestsOn(s *book.Step) []*book.Step {
	list := []*book.Step{s}
	for i := s.Index + 1; i < len(b.steps); i++ {
		if slices.ContainsFunc(b.steps[i].Guide.After, func(before *book.Step) bool { return slices.Contains(list, before) }) {
			list = append(list, &b.steps[i])
		}
	}
	return list
}

// GoTo makes a step the one at hand: all before it count as over, and it and
// all after it as still to be done, but for those that nothing of it touches.
func (b *Build) GoTo(s *book.Step, at time.Time) {
	for i := range b.steps {
		switch {
		case i >= s.Index:
			b.done[i] = Progress{}
		case b.done[i].Stage != Over && !b.GoesOn(&b.steps[i], s):
			b.Finish(&b.steps[i], at)
		}
	}
	b.Show(s, at)
}

// GoesOn reports whether a step that waits goes on waiting when the build goes to
// another: it stands before that, and that does not rest on it. A patch test
// goes on while the plaster is poured.
func (b *Build) GoesOn(waits, to *book.Step) bool {
	return b.done[waits.Index].Stage == Waiting && waits.Index < to.Index && !slices.Contains(b.RestsOn(waits), to)
}
