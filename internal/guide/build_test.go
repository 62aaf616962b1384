package guide

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"sparehand/internal/book"
	"sparehand/internal/logic"
	"sparehand/rules"
)

// bench is what is known in a test.
type bench struct{ *logic.State }

func (bench) Minutes(*book.Amount) (Range, bool) { return Range{}, false }

func theBook(t testing.TB) *book.Book {
	t.Helper()
	b, err := book.LoadWithoutCases(rules.Files)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func (k bench) tell(t testing.TB, b *book.Book, fact, value string) {
	t.Helper()
	f := b.FactByName(fact)
	v, fault := f.Parse(value)
	if fault == "" {
		if err := k.Set(f.ID, v); err != nil {
			fault = err.Error()
		}
	}
	if fault != "" {
		t.Fatal(fault)
	}
}

func step(t testing.TB, b *book.Book, id string) *book.Step {
	t.Helper()
	for i := range b.Steps {
		if b.Steps[i].ID == id {
			return &b.Steps[i]
		}
	}
	t.Fatalf("no step is called %q", id)
	return nil
}

var morning = time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)

// Walking through a job shows every step that applies, once each, and none
// before what it comes after.
func TestWalk(t *testing.T) {
	b := theBook(t)
	for _, way := range []string{"mould", "flat"} {
		k := bench{b.Base.NewState()}
		k.tell(t, b, "build_way", way)
		w := Begin(b, "barnacle cheek", morning)
		var seen []string
		for now := morning; w.AtHand(k) != nil; now = now.Add(time.Hour) {
			s := w.AtHand(k)
			if w.Progress(s).Stage == Waiting {
				w.Finish(s, now)
				continue
			}
			for _, before := range s.Guide.After {
				if Applies(k, before) && w.Progress(before).Stage != Over {
					t.Errorf("%s: %s comes up before %s is over", way, s.ID, before.ID)
				}
			}
			if slices.Contains(seen, s.ID) {
				t.Fatalf("%s: %s comes up twice", way, s.ID)
			}
			seen = append(seen, s.ID)
			w.HandsOff(k, s, now)
		}
		if all := w.Steps(k); len(seen) != len(all) {
			t.Errorf("%s: %d steps came up, and %d apply", way, len(seen), len(all))
		}
	}
}

// While the plaster sets the hands are free for the gelatin: common practice, no
// source.
func TestHandsWorkWhilePlasterSets(t *testing.T) {
	b := theBook(t)
	k := bench{b.Base.NewState()}
	w := Begin(b, "", morning)
	w.GoTo(step(t, b, "plaster"), morning)
	w.HandsOff(k, step(t, b, "plaster"), morning)
	if at := w.AtHand(k); at.ID != "mix" {
		t.Errorf("%s is at hand while the plaster sets, want mix", at.ID)
	}
}

func TestAgain(t *testing.T) {
	b := theBook(t)
	k := bench{b.Base.NewState()}
	w := Begin(b, "", morning)
	if w.Again(k, step(t, b, "trim"), morning) {
		t.Error("a step that was never reached is to be done again")
	}
	w.GoTo(step(t, b, "demould"), morning)
	if !w.Again(k, step(t, b, "plaster"), morning) {
		t.Fatal("the plaster is not to be done again")
	}
	for _, want := range []struct {
		id    string
		stage Stage
	}{{"wall", Over}, {"plaster", Todo}, {"free", Todo}, {"dry", Todo}, {"cast", Todo}, {"sculpt", Over}} {
		if got := w.Progress(step(t, b, want.id)).Stage; got != want.stage {
			t.Errorf("%s is at stage %d, want %d", want.id, got, want.stage)
		}
	}
	if at := w.AtHand(k); at.ID != "plaster" {
		t.Errorf("%s is at hand, want plaster", at.ID)
	}
}

// A patch test goes on while the build is taken to another step.
func TestGoToLeavesThePatchTest(t *testing.T) {
	b := theBook(t)
	k := bench{b.Base.NewState()}
	w := Begin(b, "", morning)
	w.GoTo(step(t, b, "allergy"), morning)
	w.HandsOff(k, step(t, b, "allergy"), morning)
	w.GoTo(step(t, b, "cast"), morning.Add(time.Hour))
	if got := w.Progress(step(t, b, "allergy")).Stage; got != Waiting {
		t.Errorf("the patch test is at stage %d, want waiting", got)
	}
	if got := w.Progress(step(t, b, "plaster")).Stage; got != Over {
		t.Errorf("the plaster is at stage %d, want over", got)
	}
}

func TestColdRoomWaitsLonger(t *testing.T) {
	b := theBook(t)
	warm, cold := bench{b.Base.NewState()}, bench{b.Base.NewState()}
	cold.tell(t, b, "room_temperature", "10")
	_, usual := Times(warm, step(t, b, "plaster"))
	_, longer := Times(cold, step(t, b, "plaster"))
	if longer.Mostly <= usual.Mostly || Because(cold, step(t, b, "plaster"), true) == "" {
		t.Errorf("in a cold room the plaster waits %v, otherwise %v", longer, usual)
	}
}

// A maker who goes by the guide, and for whom everything takes what it mostly
// takes, is ready when the schedule says.
func TestScheduleIsWhatTheGuideLeadsTo(t *testing.T) {
	b := theBook(t)
	rapid.Check(t, func(r *rapid.T) {
		k := bench{b.Base.NewState()}
		k.tell(t, b, "experience", rapid.SampledFrom([]string{"first", "few", "many"}).Draw(r, "experience"))
		k.tell(t, b, "patch_tested", rapid.SampledFrom([]string{"yes", "not"}).Draw(r, "tested"))
		k.tell(t, b, "build_way", rapid.SampledFrom([]string{"mould", "flat"}).Draw(r, "way"))
		w := Begin(b, "", morning)
		now := walk(w, k, morning, rapid.IntRange(0, 20).Draw(r, "steps before"))
		tasks, _ := w.Tasks(k, now)
		plan, err := Schedule(tasks, 1e6)
		if err != nil {
			r.Fatal(err)
		}
		end := walk(w, k, now, len(b.Steps)*2)
		if got := end.Sub(now).Minutes(); len(tasks) > 0 && (got-plan.Finish > 1e-6 || plan.Finish-got > 1e-6) {
			r.Fatalf("the plan takes %v minutes, and going by the guide %v", plan.Finish, got)
		}
	})
}

// walk takes steps by the guide until the piece is worn, each for as long as it
// mostly takes. It gives the time at the end.
func walk(w *Build, k Known, now time.Time, most int) time.Time {
	for range most {
		now = w.rest(k, now)
		s := w.AtHand(k)
		if s == nil || s.ID == Worn {
			return now
		}
		hands, _ := Times(k, s)
		now = after(now, hands.Mostly)
		w.HandsOff(k, s, now)
	}
	return now
}

// rest ends the waits that are over by now and, where nothing else can be done,
// waits for the next.
func (b *Build) rest(k Known, now time.Time) time.Time {
	for {
		ended := false
		for _, s := range b.Waiting(k) {
			if _, mostly, _ := b.Ready(k, s); !mostly.After(now) {
				b.Finish(s, mostly)
				ended = true
			}
		}
		s := b.AtHand(k)
		if s != nil && b.Progress(s).Stage == Waiting {
			_, now, _ = b.Ready(k, s)
			continue
		}
		if !ended {
			return now
		}
	}
}
