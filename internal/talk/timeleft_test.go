package talk

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"sparehand/internal/hear"
)

func TestMinutesTo(t *testing.T) {
	at := func(hour, minute int) time.Time { return time.Date(2026, 3, 14, hour, minute, 0, 0, time.UTC) }
	for _, c := range []struct {
		clock hear.Clock
		now   time.Time
		want  float64
	}{
		{hear.Clock{Minute: 7 * 60, Half: true}, at(16, 0), 3 * 60},                        // seven, said at four in the afternoon
		{hear.Clock{Minute: 7 * 60, Half: true}, at(6, 30), 30},                            // said at half past six in the morning
		{hear.Clock{Minute: 7 * 60, Half: true}, at(19, 0), 12 * 60},                       // it has just struck
		{hear.Clock{Minute: 19*60 + 30}, at(12, 0), 7*60 + 30},                             // a time of 24 hours
		{hear.Clock{Minute: 9 * 60}, at(12, 0), 21 * 60},                                   // gone by today
		{hear.Clock{Minute: 9 * 60, Tomorrow: true}, at(6, 0), 27 * 60},                    // tomorrow, though still to come today
		{hear.Clock{Minute: 12 * 60}, at(11, 59), 1},                                       // noon
		{hear.Clock{Minute: 0}, at(23, 0), 60},                                             // midnight
		{hear.Clock{Minute: 7*60 + 30, Half: true, Tomorrow: true}, at(20, 0), 11*60 + 30}, // in the morning
	} {
		if got := minutesTo(c.clock, c.now); got != c.want {
			t.Errorf("%+v at %s: %v minutes, want %v", c.clock, c.now.Format("15:04"), got, c.want)
		}
	}
}

// The time left runs down with the clock, weighs the remedies, and where none
// fits the reply says what is left to do.
func TestTimeLeft(t *testing.T) {
	a := assistant(t)
	s := a.Open()
	r := s.Hear("there are air bubbles in my plaster mould, the call is in 6 hours", noon)
	if r.Time == nil || r.Time.Left != 360 {
		t.Fatalf("the time is %+v, want 360 minutes left", r.Time)
	}
	now := noon
	for r.Question != nil && r.Question.Fact != askWorked {
		now = now.Add(time.Minute)
		var err error
		if r, err = s.Pick(0, now); err != nil {
			t.Fatal(err)
		}
	}
	if want := 360 - now.Sub(noon).Minutes(); r.Time.Left != want {
		t.Errorf("%v minutes left, want %v", r.Time.Left, want)
	}
	if !r.Time.Fits || len(r.Remedies) == 0 || !r.Remedies[0].Fits {
		t.Errorf("with hours left nothing fits: %+v", r.Time)
	}
	late := s.Hear("no wait, the call is in 30 minutes", now)
	if late.Time.Fits || late.Question != nil || late.Time.Hide != a.book.Unmade || late.Time.Hide == "" || late.Time.Drop != "" {
		t.Errorf("with half an hour to a cast and %v minutes of work after it: %+v", late.Time.After, late.Time)
	}
	for _, rem := range late.Remedies {
		if rem.Fits {
			t.Errorf("%s of %v minutes is said to fit", rem.ID, rem.Minutes)
		}
	}
	if !strings.Contains(late.Say, "the advice changes") {
		t.Errorf("it is not said that the advice has changed: %s", late.Say)
	}
	again := a.Resume(s.Events())
	if again.Reply().Say != late.Say {
		t.Errorf("resumed, it says %q, not %q", again.Reply().Say, late.Say)
	}
	if back := s.Hear("the call is in 8 hours", now); !back.Time.Fits || back.Question == nil {
		t.Errorf("with eight hours again: %+v", back.Time)
	}
}

// Where a piece can still be ready but no cure fits, each page says what to
// save, what to hide and what to leave out.
func TestWhatIsLeftToDo(t *testing.T) {
	a := assistant(t)
	n := 0
	for _, p := range a.book.Problems {
		if a.worn(p) {
			continue
		}
		st := a.newState()
		st.do(Act{Do: doTell, Fact: hear.LeftFact, Value: fmt.Sprint(a.after(p) + 2)}, time.Time{})
		st.due = noon.Add(time.Duration(a.after(p)+2) * time.Minute)
		st.open(p)
		st.enough = true
		if !st.hurried() {
			continue
		}
		n++
		got := st.timeShown()
		if got.Save != p.Hurry.Save || got.Hide != p.Hurry.Hide || got.Drop != p.Hurry.Drop || got.Hide == "" {
			t.Errorf("%s, with %v minutes left and %v of work after it: %+v", p.ID, got.Left, got.After, got)
		}
	}
	if n < 10 {
		t.Errorf("only %d problems were too long to cure", n)
	}
}

// Of two cures the one that fits comes first, whatever its worth.
func TestQuickCureFirst(t *testing.T) {
	a := assistant(t)
	for _, p := range a.book.Problems {
		if a.worn(p) || p.Step == nil {
			continue
		}
		st := a.newState()
		st.open(p)
		m := st.view().model
		b := m.Beliefs(st.known, nil)
		for _, within := range []float64{5, 30, 90} {
			fits := true
			for _, r := range m.Order(st.known, b, nil, within) {
				if r.Minutes <= within && !fits {
					t.Errorf("%s: %s of %v minutes comes after one that takes longer than %v", p.ID, r.ID, r.Minutes, within)
				}
				fits = r.Minutes <= within
			}
		}
	}
}

// Words that tell of some trouble lead to it in three answers, where none of
// those offered first is it: which step, then which of that step.
func TestWhichStep(t *testing.T) {
	s := assistant(t).Open()
	r := s.Hear("it went all wrong", noon)
	if r.Question == nil || r.Question.Fact != askProblem {
		t.Fatalf("asked %+v after words that could be anything", r.Question)
	}
	r, err := s.Pick(len(r.Question.Options), noon) // none of these
	if err != nil || r.Question == nil || r.Question.Fact != askStep {
		t.Fatalf("none of these leads to %+v (%v)", r.Question, err)
	}
	r, err = s.Pick(3, noon)
	if err != nil || r.Question == nil || r.Question.Fact != askProblem {
		t.Fatalf("then %+v (%v)", r.Question, err)
	}
	for _, o := range r.Question.Options[:len(r.Question.Options)-1] {
		if p := s.a.book.ProblemByID(o.Value); p == nil || p.Stage != "gelatin" {
			t.Errorf("at the gelatin it offers %s", o.Value)
		}
	}
	if r, _ = s.Pick(1, noon); r.Problem == "" {
		t.Errorf("no trouble is open after three answers: %q", r.Say)
	}
}

// "None of these" goes on to the next likely troubles of the step, each once,
// until the step has no more; then another step may be told.
func TestNoneOfTheseGoesOn(t *testing.T) {
	s := assistant(t).Open()
	s.Hear("it went all wrong", noon)
	tell(t, s, "none of these", spoke("the second one", 1)) // the wall, the plaster or the mould
	offered, lists := map[string]bool{}, 0
	for ; s.Reply().Question != nil && s.Reply().Question.Fact == askProblem; lists++ {
		for _, o := range s.Reply().Question.Options {
			if o.Value != "none" && offered[o.Value] {
				t.Errorf("%s is offered twice", o.Value)
			}
			offered[o.Value] = true
		}
		tell(t, s, spoke("none of these", 1))
	}
	if q := s.Reply().Question; q == nil || q.Fact != askStep || lists < 3 {
		t.Errorf("after %d lists it asks %+v", lists, q)
	}
}

// A second trouble told along is taken up when the first is over.
func TestTheOtherTrouble(t *testing.T) {
	s := assistant(t).Open()
	r := s.Hear("the wall leaks and my gelatin has gone lumpy", noon)
	if r.Problem != "dam-leaks" {
		t.Fatalf("first %q", r.Problem)
	}
	if r = s.Hear("that did it", noon); r.Problem != "gel-lumpy" || r.Question == nil {
		t.Errorf("after the first: %q, %q", r.Problem, r.Say)
	}
	if r = s.Hear("that did it", noon); r.Phase != closedDown {
		t.Errorf("after the second: %q, %q", r.Phase, r.Say)
	}
}
