package talk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"sparehand/internal/hear"
)

// timerActs turns a wish for a timer into acts, or a note that says what is
// missing.
func (s *state) timerActs(w *hear.Timer, at time.Time) (acts []Act, note string) {
	switch {
	case w.Stop:
		return s.stopTimers(w)
	case w.More:
		return s.moreTime(w, at)
	case len(s.running()) >= mostTimers:
		return nil, fmt.Sprintf("%d timers run already, and that is the most: stop one first.", mostTimers)
	}
	wait := w.Minutes
	if w.Clock != nil {
		wait = minutesTo(*w.Clock, at)
	}
	if wait <= 0 {
		return nil, "For how long? Say it as: tell me in ten minutes to stir."
	}
	if wait > 7*24*60 {
		return nil, "A timer runs for a week at most."
	}
	name := w.Name
	if name == "" {
		name = minutes(wait)
	}
	return []Act{{Do: doTimer, Name: name, Due: at.Add(time.Duration(wait * float64(time.Minute))), Say: asOrder(w.Name)}}, ""
}

// asOrder says what a timer is for when it rings.
func asOrder(name string) string {
	if name == "" {
		return ""
	}
	return "Time is up: " + name
}

func (s *state) stopTimers(w *hear.Timer) (acts []Act, note string) {
	list := s.named(w.Name)
	if len(list) == 0 {
		if w.Name != "" && len(s.running()) > 0 {
			return nil, fmt.Sprintf("No timer is called %s.", w.Name)
		}
		return nil, "No timer is running."
	}
	if !w.All && w.Name == "" {
		slices.SortStableFunc(list, func(a, b *timer) int { return b.set.Compare(a.set) }) // the last one set
		list = list[:1]
	}
	for _, t := range list {
		acts = append(acts, Act{Do: doStopTimer, ID: t.id})
	}
	return acts, ""
}

// moreTime sets a timer again that rang, or puts one off that runs.
func (s *state) moreTime(w *hear.Timer, at time.Time) (acts []Act, note string) {
	var of *timer
	for i := range s.timers {
		t := &s.timers[i]
		if !t.stopped && (t.rung || t.runs()) && (w.Name == "" || about(t.name, w.Name)) && (of == nil || t.due.After(of.due) == t.rung) {
			of = t
		}
	}
	if of == nil {
		return nil, "No timer is running."
	}
	from := at
	if of.runs() {
		acts = append(acts, Act{Do: doStopTimer, ID: of.id})
		from = of.due
	}
	return append(acts, Act{Do: doTimer, Name: of.name, Step: of.step, Due: from.Add(time.Duration(w.Minutes * float64(time.Minute))), Say: of.say}), ""
}

// named lists the running timers that a name is about: just those called so,
// where there are any; all for no name.
func (s *state) named(name string) []*timer {
	list := s.running()
	if name == "" {
		return list
	}
	exact := slices.DeleteFunc(slices.Clone(list), func(t *timer) bool { return !strings.EqualFold(t.name, name) })
	if len(exact) > 0 {
		return exact
	}
	return slices.DeleteFunc(list, func(t *timer) bool { return !about(t.name, name) })
}

// about reports whether two names share a word that means something.
func about(a, b string) bool {
	words := strings.Fields(strings.ToLower(a))
	for _, w := range strings.Fields(strings.ToLower(b)) {
		if len(w) > 2 && w != "the" && slices.ContainsFunc(words, func(v string) bool { return stemOf(v) == stemOf(w) }) {
			return true
		}
	}
	return false
}

// stemOf takes the endings off that tell "stir" from "stirring".
func stemOf(w string) string {
	for _, end := range []string{"ring", "ping", "ting", "ing", "s"} {
		if rest, ok := strings.CutSuffix(w, end); ok && len(rest) > 2 {
			return strings.TrimSuffix(rest, "e")
		}
	}
	return strings.TrimSuffix(w, "e")
}
