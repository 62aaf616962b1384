package talk

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"sparehand/internal/phrase"
)

// timer rings once, and may warn before.
type timer struct {
	id      string
	name    string
	step    string // that it belongs to, or ""
	set     time.Time
	due     time.Time
	warn    time.Time // zero for no warning
	say     string
	warning string
	warned  bool
	rung    bool
	stopped bool
}

func (t *timer) runs() bool { return !t.rung && !t.stopped }

// next is the moment at which the timer next does something.
func (t *timer) next() time.Time {
	if !t.warned && !t.warn.IsZero() {
		return t.warn
	}
	return t.due
}

// mostTimers bounds how many timers run in one talk.
const mostTimers = 20

// time does what an act does to the timers.
func (s *state) time(act Act, at time.Time) {
	if act.Do == doTimer {
		s.timers = append(s.timers, timer{id: act.ID, name: act.Name, step: act.Step, set: at, due: act.Due, warn: act.Warn, say: act.Say, warning: act.Warning})
		return
	}
	t := s.timer(act.ID)
	switch {
	case t == nil:
	case act.Do == doStopTimer:
		t.stopped = true
	case act.Do == doWarn:
		t.warned = true
	case act.Do == doRing:
		t.warned, t.rung = true, true
	}
}

// timer finds a timer by its id; nil where it was taken back.
func (s *state) timer(id string) *timer {
	for i := range s.timers {
		if s.timers[i].id == id {
			return &s.timers[i]
		}
	}
	return nil
}

// running lists the timers that run, those first that ring first.
func (s *state) running() []*timer {
	var list []*timer
	for i := range s.timers {
		if s.timers[i].runs() {
			list = append(list, &s.timers[i])
		}
	}
	slices.SortStableFunc(list, func(a, b *timer) int { return a.due.Compare(b.due) })
	return list
}

// Due is when the next timer of the talk warns or rings; zero for never.
func (s *Session) Due() time.Time {
	var first time.Time
	for _, t := range s.state.running() {
		if at := t.next(); first.IsZero() || at.Before(first) {
			first = at
		}
	}
	return first
}

// Ring takes the next thing that is due as an event, and gives its reply. ref
// names it: the same thing has the same ref, whoever rings it. ok is false
// where nothing is due.
func (s *Session) Ring(now time.Time) (r Reply, ref string, ok bool) {
	var first *timer
	for _, t := range s.state.running() {
		if at := t.next(); !at.After(now) && (first == nil || at.Before(first.next())) {
			first = t
		}
	}
	if first == nil {
		return s.reply, "", false
	}
	act := Act{Do: doRing, ID: first.id}
	if !first.warned && !first.warn.IsZero() && first.due.After(now) {
		act.Do = doWarn
	}
	e := Event{At: now, Kind: "timer", Text: first.name, Acts: []Act{act}}
	return s.take(e), "timer " + first.id + " " + act.Do, true
}

// lateBy is how late a timer may ring without a word about it.
const lateBy = 45 * time.Second

// rung says what a timer that warns or rings has to say; "" for other events.
func (s *state) rung(e Event) string {
	if e.Kind != "timer" || len(e.Acts) == 0 {
		return ""
	}
	t := s.timer(e.Acts[0].ID)
	if t == nil {
		return ""
	}
	if e.Acts[0].Do == doWarn {
		if t.warning != "" {
			return t.warning
		}
		return fmt.Sprintf("%s until this: %s", phrase.Sentence(minutes(t.due.Sub(e.At).Minutes())), t.name)
	}
	late := ""
	if by := e.At.Sub(t.due); by > lateBy {
		late = fmt.Sprintf("This was due %s ago", minutes(by.Minutes()))
	}
	say := t.say
	if say == "" {
		say = "Time is up"
		if t.name != "" {
			say += ": " + t.name
		}
	}
	return phrase.Speech(late, say)
}

// nameTimers gives each new timer of an event its id: the event's number, and
// its place in it. Numbers are never used again, even where a timer is taken
// back, so that nothing rings in the name of another.
func nameTimers(acts []Act, event int) {
	n := 0
	for i := range acts {
		if acts[i].Do == doTimer && acts[i].ID == "" {
			n++
			acts[i].ID = strconv.Itoa(event) + "." + strconv.Itoa(n)
		}
	}
}

// timersSaid says which timers an event has set and stopped.
func (s *state) timersSaid(e Event) string {
	var say []string
	for _, act := range e.Acts {
		if act.Do == doTimer || act.Do == doStopTimer {
			say = append(say, s.timerSaid(act, e))
		}
	}
	return phrase.Speech(say...)
}

// timerSaid is "" for what a step sets and stops by itself.
func (s *state) timerSaid(act Act, e Event) string {
	t := s.timer(act.ID)
	if t == nil || t.step != "" {
		return ""
	}
	putOff := slices.ContainsFunc(e.Acts, func(other Act) bool {
		o := s.timer(other.ID)
		return o != nil && o.name == t.name && other.Do != act.Do && (other.Do == doTimer || other.Do == doStopTimer)
	})
	switch {
	case act.Do == doTimer && putOff:
		return fmt.Sprintf("Put off: %s, to %s", t.name, clock(act.Due, e.At))
	case act.Do == doTimer:
		return fmt.Sprintf("Timer set: %s, at %s", t.name, clock(act.Due, e.At))
	case putOff:
		return ""
	}
	return "Timer stopped: " + t.name
}

// TimerShown is a timer as it stands.
type TimerShown struct {
	ID    string    `json:"id"`
	Name  string    `json:"name"`
	Due   time.Time `json:"due"`
	Warn  time.Time `json:"warn,omitzero"` // when it warns; left out where it does not, or has
	State string    `json:"state"`         // running, warned or rung: rung only in the reply that says so
}

func (s *state) timersShown(e Event) []TimerShown {
	list := []TimerShown{}
	if e.Kind == "timer" && len(e.Acts) > 0 && e.Acts[0].Do == doRing {
		if t := s.timer(e.Acts[0].ID); t != nil {
			list = append(list, TimerShown{ID: t.id, Name: t.name, Due: t.due, State: "rung"})
		}
	}
	for _, t := range s.running() {
		shown := TimerShown{ID: t.id, Name: t.name, Due: t.due, Warn: t.warn, State: "running"}
		if t.warned {
			shown.State, shown.Warn = "warned", time.Time{}
		}
		list = append(list, shown)
	}
	return list
}

// timersSpoken says which timers run, and for how long.
func (s *state) timersSpoken(now time.Time) string {
	list := s.running()
	if len(list) == 0 {
		return "No timer is running."
	}
	var say []string
	for _, t := range list[:min(len(list), 4)] {
		say = append(say, fmt.Sprintf("%s: %s", t.name, countdown(t.due.Sub(now))))
	}
	return phrase.Speech(strings.Join(say, "; "))
}

// countdown says how long there is still.
func countdown(d time.Duration) string {
	if d < 90*time.Second {
		return phrase.Plural(math.Max(1, math.Round(d.Seconds())), "second")
	}
	return minutes(d.Minutes())
}
