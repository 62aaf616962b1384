package talk

import (
	"slices"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/guide"
)

// BuildShown is the build: the step at hand and what lies round it.
type BuildShown struct {
	Name    string         `json:"name"` // what the maker calls the piece, or ""
	Step    string         `json:"step"` // id of the step at hand, "" where all is over
	Title   string         `json:"title"`
	State   string         `json:"state"` // asking, doing, waiting, checking or over
	N       int            `json:"n"`     // the step's place, from 1
	Of      int            `json:"of"`    // how many steps there are
	Do      []string       `json:"do"`    // what to do, in order
	Needs   []string       `json:"needs"` // at hand before it is begun
	Never   []string       `json:"never"` // what must not be done
	Look    string         `json:"look"`  // how it looks and feels when it is ready
	Starts  string         `json:"starts"`
	Minutes MinutesShown   `json:"minutes"` // with the hands on it; while it waits, of the wait
	Because string         `json:"because"` // what makes the minutes differ from the usual, or ""
	Since   time.Time      `json:"since"`   // when it came to hand, or began to wait
	Waiting []WaitingShown `json:"waiting"` // what waits meanwhile
	Next    []NextShown    `json:"next"`    // the steps to come
	Over    []string       `json:"over"`    // titles of the steps that are over
}

// MinutesShown is a range of minutes.
type MinutesShown struct {
	From   float64 `json:"from"`
	Mostly float64 `json:"mostly"`
	To     float64 `json:"to"`
}

// WaitingShown is a step that waits, and when it will be ready.
type WaitingShown struct {
	Step   string    `json:"step"`
	Title  string    `json:"title"`
	Since  time.Time `json:"since"`
	From   time.Time `json:"from"`
	Mostly time.Time `json:"mostly"`
	To     time.Time `json:"to"`
	Look   string    `json:"look"`
}

// NextShown is a step to come.
type NextShown struct {
	Step    string       `json:"step"`
	Title   string       `json:"title"`
	Minutes MinutesShown `json:"minutes"`
	Wait    MinutesShown `json:"wait"`  // after it, all 0 for none
	Needs   []string     `json:"needs"` // of the nearest only
}

// needsAhead is for how many steps to come it is said what they need.
const needsAhead = 3

// States of a step at hand.
const (
	stepAsking   = "asking"
	stepDoing    = "doing"
	stepWaiting  = "waiting"
	stepChecking = "checking"
	stepOver     = "over"
)

func (s *state) buildShown(now time.Time) *BuildShown {
	if s.build == nil {
		return nil
	}
	b := &BuildShown{Name: s.build.Name, State: stepOver, Do: []string{}, Needs: []string{}, Never: []string{},
		Waiting: []WaitingShown{}, Next: []NextShown{}, Over: []string{}}
	all := s.build.Steps(s)
	b.Of = len(all)
	b.N = b.Of
	for _, step := range all {
		if s.build.Progress(step).Stage == guide.Over {
			b.Over = append(b.Over, step.Title)
		}
	}
	for _, step := range s.build.Waiting(s) {
		w := WaitingShown{Step: step.ID, Title: step.Title, Since: s.build.Progress(step).Waits, Look: step.Guide.Look}
		w.From, w.Mostly, w.To = s.build.Ready(s, step)
		b.Waiting = append(b.Waiting, w)
	}
	for _, step := range s.build.Next(s) {
		hands, wait := guide.Times(s, step)
		next := NextShown{step.ID, step.Guide.Order, MinutesShown(hands), MinutesShown(wait), []string{}}
		if len(b.Next) < needsAhead {
			next.Needs = listOf(step.Guide.Needs)
		}
		b.Next = append(b.Next, next)
	}
	step := s.atHand()
	if s.checking != nil { // it may be another that is asked about
		step = s.checking
	}
	if step != nil {
		s.showStep(b, step, all)
	}
	return b
}

func (s *state) showStep(b *BuildShown, step *book.Step, all []*book.Step) {
	g := step.Guide
	hands, wait := guide.Times(s, step)
	p := s.build.Progress(step)
	b.Step, b.Title, b.State, b.N = step.ID, g.Order, stepDoing, slices.Index(all, step)+1
	b.Do, b.Needs, b.Never, b.Look = listOf(guide.Doing(s, step)), listOf(g.Needs), listOf(g.Never), g.Look
	b.Minutes, b.Because, b.Since = MinutesShown(hands), guide.Because(s, step, false), p.Begun
	switch {
	case s.checking == step:
		b.State = stepChecking
	case p.Stage == guide.Waiting:
		b.State, b.Since, b.Minutes, b.Because = stepWaiting, p.Waits, MinutesShown(wait), guide.Because(s, step, true)
	case s.pending(step) != nil:
		b.State = stepAsking
	case g.Starts != "" && !p.Started:
		b.Starts = g.Starts
	}
}

// listOf is a list that JSON shows as one, however empty.
func listOf(list []string) []string { return append([]string{}, list...) }
