package talk

import (
	"strings"
	"testing"
	"time"
)

func TestTimerRingsOnce(t *testing.T) {
	s := assistant(t).Open()
	r := s.Hear("tell me in ten minutes to stir the gelatin", noon)
	if len(r.Timers) != 1 || !r.Timers[0].Due.Equal(noon.Add(10*time.Minute)) || !strings.Contains(r.Say, "12:10") {
		t.Fatalf("timers %+v: %s", r.Timers, r.Say)
	}
	if _, _, rang := s.Ring(noon.Add(10*time.Minute - time.Second)); rang {
		t.Error("it rings a second early")
	}
	r, ref, rang := s.Ring(noon.Add(10 * time.Minute))
	if !rang || ref == "" || !strings.Contains(r.Say, "stir the gelatin") || r.Timers[0].State != "rung" {
		t.Errorf("rang %v as %q: %s %+v", rang, ref, r.Say, r.Timers)
	}
	if _, _, rang := s.Ring(noon.Add(time.Hour)); rang || !s.Due().IsZero() {
		t.Error("it rings again")
	}
}

// After an outage a timer says how late it is, and does not warn any more.
func TestTimerAfterOutage(t *testing.T) {
	s := assistant(t).Open()
	s.Hear("tell me in ten minutes to stir", noon)
	r, _, _ := s.Ring(noon.Add(14 * time.Minute))
	if !strings.Contains(r.Say, "This was due 4 minutes ago") {
		t.Errorf("four minutes late it says: %s", r.Say)
	}
}

// A ring is not taken back, and what is taken back does not ring in the name of
// what comes after.
func TestUndoAndTimers(t *testing.T) {
	s := assistant(t).Open()
	s.Hear("tell me in one minute to stir", noon)
	_, first, _ := s.Ring(noon.Add(time.Minute))
	if r := s.Undo(noon.Add(2 * time.Minute)); len(r.Timers) != 0 {
		t.Errorf("after undo %+v", r.Timers)
	}
	if _, _, rang := s.Ring(noon.Add(3 * time.Minute)); rang {
		t.Error("a timer that was taken back rings")
	}
	s.Hear("tell me in one minute to pour", noon.Add(4*time.Minute))
	r, second, rang := s.Ring(noon.Add(5 * time.Minute))
	if !rang || second == first || !strings.Contains(r.Say, "pour") {
		t.Errorf("the next timer rang %v as %q, the first as %q: %s", rang, second, first, r.Say)
	}
}

func TestTimerWishes(t *testing.T) {
	for _, c := range []struct {
		says []string
		want string // the names of those that run
		say  string // words of the reply
	}{
		{[]string{"set a timer"}, "", "For how long"},
		{[]string{"stop the timer"}, "", "No timer is running"},
		{[]string{"timer ten minutes for the jug", "timer five minutes to stir", "stop the jug timer"}, "stir", "stopped"},
		{[]string{"timer ten minutes for the jug", "timer five minutes to stir", "stop all timers"}, "", "stopped"},
		{[]string{"timer ten minutes to look at the plaster", "timer five minutes for the plaster", "stop the timer for the plaster"}, "look at the plaster", "stopped"},
		{[]string{"tell me in ten minutes to stir", "how long is left on the timer"}, "stir", "minutes"},
	} {
		s := assistant(t).Open()
		var r Reply
		for _, text := range c.says {
			r = s.Hear(text, noon)
		}
		var names []string
		for _, timer := range r.Timers {
			names = append(names, timer.Name)
		}
		if got := strings.Join(names, " "); got != c.want || !strings.Contains(r.Say, c.say) {
			t.Errorf("%q leaves %q and says %q, want %q and %q", c.says, got, r.Say, c.want, c.say)
		}
	}
}

// A timer rings beside an emergency, which stays.
func TestTimerInDanger(t *testing.T) {
	s := assistant(t).Open()
	s.Hear("tell me in one minute to stir", noon)
	s.Hear("I burnt my hand on the hot gelatin", noon)
	r, _, rang := s.Ring(noon.Add(time.Minute))
	if !rang || r.Emergency == "" || !strings.Contains(r.Say, "stir") {
		t.Errorf("rang %v, emergency %q: %s", rang, r.Emergency, r.Say)
	}
}
