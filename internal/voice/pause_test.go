package voice

import (
	"testing"
	"time"
)

func TestPause(t *testing.T) {
	g := newGraph()
	g.phrases(g.start, g.end, 0, []string{"under the wall", "under", "yes"})
	const frame = Rate / 50
	for what, c := range map[string]struct {
		heard Heard
		ends  time.Duration
	}{
		"whole":                {Heard{Words: "yes", Sure: 0.9}, shortPause},
		"whole, but can go on": {Heard{Words: "under", Sure: 0.9}, middlePause},
		"not whole":            {Heard{Words: "under the", Sure: 0.9}, longPause},
		"unsure":               {Heard{Words: "yes", Sure: 0.3}, longPause},
		"a description":        {Heard{Words: "yes", Sure: 0.9, Free: true}, longPause},
		"not known yet":        {Heard{}, longPause},
	} {
		p := pause{}
		for range 50 {
			p.add(frame, true)
			if p.worthALook() || p.over(g, c.heard) {
				t.Fatalf("%s: it is over in the middle of speech", what)
			}
		}
		looks, silence := 0, 0
		for !p.over(g, c.heard) {
			p.add(frame, false)
			silence += frame
			if p.worthALook() {
				looks++
			}
		}
		if got := time.Duration(silence) * time.Second / Rate; got < c.ends || got > c.ends+20*time.Millisecond {
			t.Errorf("%s: it ends after %v of silence, want %v", what, got, c.ends)
		}
		if looks != 1 {
			t.Errorf("%s: it is looked at %d times", what, looks)
		}
	}
	p := pause{}
	for !p.over(g, Heard{}) {
		p.add(frame, true)
	}
	if p.total != samples(LongestUtterance) {
		t.Errorf("who talks on is heard for %d samples", p.total)
	}
}

func TestPauseThatGoesOn(t *testing.T) {
	p := pause{}
	for i := range 4 {
		p.add(samples(time.Second), true)
		p.add(samples(200*time.Millisecond), false)
		if !p.worthALook() || p.worthALook() {
			t.Errorf("pause %d is not worth just one look", i+1)
		}
	}
}
