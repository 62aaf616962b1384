package serve

import (
	"context"
	"slices"
	"testing"

	"github.com/gorilla/websocket"

	"sparehand/internal/voice"
)

// fakeEars hears an utterance's samples as the number of a phrase, and takes
// the first silence for its end.
type fakeEars struct {
	expected  []voice.Expected
	refuse    error
	stuck     bool
	listening int // utterances begun and neither ended nor dropped
}

var fakePhrases = []string{"", "like paper", "like card"}

func (f *fakeEars) Name() string { return "a shell held to the ear" }
func (f *fakeEars) Close() error { return nil }
func (f *fakeEars) Listen(_ context.Context, e voice.Expected) (voice.Utterance, error) {
	if f.refuse != nil {
		return nil, f.refuse
	}
	f.expected = append(f.expected, e)
	f.listening++
	return &fakeUtterance{ears: f}, nil
}

type fakeUtterance struct {
	ears    *fakeEars
	samples []int16
}

func (u *fakeUtterance) Write(pcm []int16, speech bool) (bool, error) {
	u.samples = append(u.samples, pcm...)
	return !speech, nil
}

func (u *fakeUtterance) SoFar() string { return fakePhrases[u.samples[0]] }

func (u *fakeUtterance) End() (voice.Heard, error) {
	u.ears.listening--
	if u.ears.stuck {
		return voice.Heard{}, voice.ErrStuck
	}
	return voice.Heard{Words: fakePhrases[u.samples[0]], Sure: 0.9}, nil
}

func (u *fakeUtterance) Drop() { u.ears.listening-- }

// sound sends a frame: a flag and samples.
func (c *client) sound(speech bool, pcm ...int16) {
	c.t.Helper()
	frame := []byte{0}
	if speech {
		frame[0] = 1
	}
	for _, s := range pcm {
		frame = append(frame, byte(s), byte(uint16(s)>>8))
	}
	if err := c.ws.WriteMessage(websocket.BinaryMessage, frame); err != nil {
		c.t.Fatal(err)
	}
}

func listeningPlace(t *testing.T) (*place, *fakeEars, *client) {
	t.Helper()
	ears := &fakeEars{}
	p := serving(t, func(c *Config) { c.Ears, c.Voice = ears, Voice{Ears: ears.Name()} })
	c, opened := p.join(t, "", 0)
	if opened.Voice == nil || opened.Voice.Ears != ears.Name() {
		t.Errorf("opened tells of voice %v", opened.Voice)
	}
	return p, ears, c
}

func TestAnUtteranceIsATurn(t *testing.T) {
	_, ears, c := listeningPlace(t)
	c.sound(true, 1) // of no utterance: dropped
	c.send(Request{Kind: "listen", Ref: "a", During: true})
	c.sound(true, 1, 7)
	if m := c.read(); m.Kind != "hearing" || m.Ref != "a" || m.Said != "like paper" {
		t.Errorf("while it is spoken comes %s", show(m))
	}
	c.sound(false, 7)
	wantTurn(t, c.read(), 1, "like paper")
	c.sound(false, 7) // after its end: dropped
	wantTurn(t, c.say("b", "rope"), 2, "rope")
	if e := ears.expected[0]; !e.Cautious || !slices.Equal(e.Answers, []string{"like paper", "like card"}) {
		t.Errorf("expected was %+v", e)
	}
}

func TestNothingMadeOutIsNoTurn(t *testing.T) {
	_, _, c := listeningPlace(t)
	c.send(Request{Kind: "listen", Ref: "a"})
	c.sound(false, 0)
	if m := c.read(); m.Kind != "unheard" || m.Ref != "a" || m.Fault != "" {
		t.Errorf("it answers %s", show(m))
	}
	wantTurn(t, c.say("b", "rope"), 1, "rope")
}

// Of two utterances begun at once the first is dropped, and so is one of a
// connection that ends or hushes.
func TestUtterancesAreLetGo(t *testing.T) {
	p, ears, c := listeningPlace(t)
	c.send(Request{Kind: "listen", Ref: "a"})
	c.send(Request{Kind: "listen", Ref: "b"})
	c.send(Request{Kind: "hush", Ref: "b"})
	c.sound(false, 1)
	c.send(Request{Kind: "listen", Ref: "c"})
	c.sound(false, 2)
	wantTurn(t, c.read(), 1, "like card")
	c.send(Request{Kind: "listen", Ref: "d"})
	wantTurn(t, c.say("e", "rope"), 2, "rope")
	c.ws.Close()
	eventually(t, "the connection to end", func() bool { return len(p.connections()) == 0 })
	if len(ears.expected) != 4 || ears.listening != 0 {
		t.Errorf("%d utterances were begun, and %d are still listened to", len(ears.expected), ears.listening)
	}
}

func TestEarsThatFail(t *testing.T) {
	_, ears, c := listeningPlace(t)
	ears.refuse = voice.ErrBusy
	if m := c.ask(Request{Kind: "listen", Ref: "a"}); m.Kind != "fault" || m.Fault != voice.ErrBusy.Error() {
		t.Errorf("busy ears answer %s", show(m))
	}
	ears.refuse, ears.stuck = nil, true
	c.send(Request{Kind: "listen", Ref: "b"})
	c.sound(false, 1)
	if m := c.read(); m.Kind != "fault" || m.Ref != "b" || m.Fault != voice.ErrStuck.Error() {
		t.Errorf("stuck ears answer %s", show(m))
	}
	ears.stuck = false
	wantTurn(t, c.say("c", "rope"), 1, "rope")
}

func TestNoEars(t *testing.T) {
	const missing = "No ears here: sew some on."
	p := serving(t, func(c *Config) { c.Voice = Voice{Missing: missing} })
	c, opened := p.join(t, "", 0)
	if opened.Voice == nil || opened.Voice.Missing != missing {
		t.Errorf("opened tells of voice %v", opened.Voice)
	}
	if m := c.ask(Request{Kind: "listen", Ref: "a"}); m.Kind != "fault" || m.Fault != missing {
		t.Errorf("it answers %s", show(m))
	}
}

// What the browser's own recogniser made out is taken like what ours did.
func TestSpokenByTheClientsOwnEars(t *testing.T) {
	p := serving(t)
	c, _ := p.join(t, "", 0)
	wantTurn(t, c.ask(Request{Kind: "spoken", Ref: "a", Text: "like card", Sure: 0.7, Others: []string{"like cart"}}), 1, "like card")
	for what, r := range map[string]Request{
		"too sure":          {Kind: "spoken", Ref: "b", Text: "rope", Sure: 1.1},
		"too many readings": {Kind: "spoken", Ref: "b", Text: "rope", Others: []string{"a", "b", "c", "d"}},
		"empty reading":     {Kind: "spoken", Ref: "b", Text: "rope", Others: []string{""}},
		"no words":          {Kind: "spoken", Ref: "b"},
	} {
		if m := c.ask(r); m.Kind != "fault" {
			t.Errorf("%s: %s", what, show(m))
		}
	}
}
