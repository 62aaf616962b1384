package voice

import (
	"context"
	"encoding/gob"
	"errors"
	"os"
	"testing"
	"time"
)

// deafVariable makes this test binary a recogniser's process that misbehaves.
const deafVariable = "SPAREHAND_TEST_DEAF"

func TestMain(m *testing.M) {
	switch os.Getenv(deafVariable) {
	case "stuck": // takes everything and never answers
		var o order
		for in := gob.NewDecoder(os.Stdin); in.Decode(&o) == nil; {
			if o.Look {
				select {}
			}
		}
	case "dead": // ends at once
	case "fault", "well":
		well()
	default:
		os.Exit(m.Run())
	}
}

// well answers each look with what the variable says.
func well() {
	in, out := gob.NewDecoder(os.Stdin), gob.NewEncoder(os.Stdout)
	samples := 0
	for {
		var o order
		if in.Decode(&o) != nil {
			return
		}
		if o.Setup != nil {
			samples = 0
		}
		samples += len(o.Sound)
		f := finding{Samples: samples, Frames: samples / 160, Best: "yes", Sound: -100000, Loop: -500000, Noise: -900000}
		if os.Getenv(deafVariable) == "fault" {
			f = finding{Samples: samples, Fault: "no room for the grammar"}
		}
		if (o.Look || o.Weigh) && out.Encode(f) != nil {
			return
		}
	}
}

// deaf is a local recogniser over such a process.
func deaf(t *testing.T, how string, most int) *Local {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	patience := time.Minute
	if how == "stuck" {
		patience = 300 * time.Millisecond
	}
	l := &Local{
		config: LocalConfig{Command: []string{self}, Env: []string{deafVariable + "=" + how}, Most: most, Patience: patience, Idle: time.Minute},
		models: &models{dictionary: smallDictionary(t), loop: loopOf().text()}, dir: t.TempDir(),
	}
	t.Cleanup(func() {
		if err := l.Close(); err != nil {
			t.Error(err)
		}
	})
	return l
}

func listen(t *testing.T, l *Local) Utterance {
	t.Helper()
	u, err := l.Listen(context.Background(), Expected{Answers: []string{"a", "cup"}})
	if err != nil {
		t.Fatal(err)
	}
	return u
}

func speak(u Utterance, frames int) error {
	for range frames {
		if _, err := u.Write(make([]int16, Rate/50), true); err != nil {
			return err
		}
	}
	return nil
}

// A recogniser that gets stuck, ends or finds a fault costs its utterance, and
// nothing after it.
func TestBrokenEars(t *testing.T) {
	for how, want := range map[string]string{"stuck": ErrStuck.Error(), "dead": ErrStuck.Error(), "fault": "no room for the grammar"} {
		l := deaf(t, how, 1)
		for range 2 {
			u := listen(t, l)
			_ = speak(u, 10) // a dead one may be found out here already
			if _, err := u.End(); err == nil || err.Error() != want {
				t.Errorf("%s: %v, want %s", how, err, want)
			}
		}
		if l.busy != 0 || len(l.idle) != 0 {
			t.Errorf("%s: %d are busy and %d idle", how, l.busy, len(l.idle))
		}
	}
}

func TestAProcessIsUsedAgain(t *testing.T) {
	l := deaf(t, "well", 2)
	first := listen(t, l)
	second := listen(t, l)
	if _, err := l.Listen(context.Background(), Expected{}); !errors.Is(err, ErrBusy) {
		t.Errorf("a third of two gives %v", err)
	}
	for _, u := range []Utterance{first, second} {
		if err := speak(u, 10); err != nil {
			t.Fatal(err)
		}
		if h, err := u.End(); err != nil || h.Words != "yes" {
			t.Errorf("it hears %+v, %v", h, err)
		}
	}
	was := map[*process]bool{l.idle[0]: true, l.idle[1]: true}
	third := listen(t, l).(*localUtterance)
	if !was[third.p] {
		t.Error("a new process was started")
	}
	third.Drop()
	if l.busy != 0 || len(l.idle) != 1 {
		t.Errorf("after one was dropped %d are busy and %d idle", l.busy, len(l.idle))
	}
}

func TestTooLong(t *testing.T) {
	l := deaf(t, "well", 1)
	u := listen(t, l)
	over := false
	for n := 0; !over; n++ {
		var err error
		if over, err = u.Write(make([]int16, Rate/10), true); err != nil {
			t.Fatal(err)
		}
		if n > 10*int(LongestUtterance.Seconds()) {
			t.Fatal("it listens for ever")
		}
	}
	if _, err := u.End(); err != nil {
		t.Error(err)
	}
}

func TestClosedEars(t *testing.T) {
	l := deaf(t, "well", 1)
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := l.Listen(context.Background(), Expected{}); !errors.Is(err, ErrClosed) {
		t.Errorf("closed ears give %v", err)
	}
}
