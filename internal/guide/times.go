package guide

import (
	"time"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// Times gives the minutes of a step as things are: with the hands on it, and
// waiting after that.
func Times(k Known, s *book.Step) (hands, wait Range) {
	g := s.Guide
	hands, wait = Range(g.Hands), Range(g.Wait)
	o := others(k, s)
	if o != nil && o.Hands != nil {
		hands = Range(*o.Hands)
	}
	if o != nil && o.Wait != nil {
		return hands, Range(*o.Wait)
	}
	if g.WaitSum != nil {
		if r, ok := k.Minutes(g.WaitSum); ok {
			wait = r
		}
	}
	return hands, wait
}

// others are the other times that hold, or nil.
func others(k Known, s *book.Step) *book.OtherTimes {
	for i := range s.Guide.Others {
		if o := &s.Guide.Others[i]; k.Truth(o.When) == logic.True {
			return o
		}
	}
	return nil
}

// Because says what makes the minutes of a step's hands part, or of its wait,
// differ from the usual; "" for nothing.
func Because(k Known, s *book.Step, wait bool) string {
	o := others(k, s)
	if o == nil || wait && o.Wait == nil || !wait && o.Hands == nil {
		return ""
	}
	return o.Because
}

// Ready gives the moments between which a step that waits will be ready.
func (b *Build) Ready(k Known, s *book.Step) (from, mostly, to time.Time) {
	p := b.done[s.Index]
	_, wait := Times(k, s)
	from, mostly, to = after(p.Waits, wait.From), after(p.Waits, wait.Mostly), after(p.Waits, wait.To)
	if p.Until.After(from) { // it was looked at, and was not ready
		from = p.Until
	}
	return from, later(mostly, from), later(to, from)
}

func after(t time.Time, minutes float64) time.Time {
	return t.Add(time.Duration(minutes * float64(time.Minute)))
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}

// Verdict gives what follows from what was seen, nil where that is not known.
func Verdict(k Known, s *book.Step) *book.Verdict {
	for i := range s.Guide.Verdicts {
		if v := &s.Guide.Verdicts[i]; k.Truth(v.When) == logic.True {
			return v
		}
	}
	return nil
}

// Doing lists what to do at a step, as things are.
func Doing(k Known, s *book.Step) []string {
	var list []string
	for _, d := range s.Guide.Do {
		if !d.HasWhen || k.Truth(d.When) != logic.False {
			list = append(list, d.Say)
		}
	}
	return list
}

// TimersFrom lists the timers that begin at a moment of a step: start or hands.
func TimersFrom(k Known, s *book.Step, moment string) []book.StepTimer {
	var list []book.StepTimer
	for _, t := range s.Guide.Timers {
		if t.From == moment && (!t.HasWhen || k.Truth(t.When) != logic.False) {
			list = append(list, t)
		}
	}
	return list
}
