package serve

import (
	"context"
	"errors"

	"sparehand/internal/talk"
	"sparehand/internal/voice"
)

// Voice tells a client what can be heard and spoken here.
type Voice struct {
	Ears         string `json:"ears"`          // what recognises speech, or ""
	Missing      string `json:"missing"`       // where nothing does: what to install, one sentence
	Mouth        string `json:"mouth"`         // what makes the sound of speech, or ""
	MouthMissing string `json:"mouth_missing"` // as Missing
}

// soundBytes bounds one frame of sound: its flag, and 100 ms of samples.
const soundBytes = 1 + voice.Rate/10*2

// utterance is one that a connection is in the middle of.
type utterance struct {
	ref   string
	sound voice.Utterance
	shown string // what the client was told of it
}

// listen begins an utterance. What is expected goes by the question that is
// in force when it begins.
func (c *conn) listen(r Request) {
	c.hush()
	if c.server.ears == nil {
		c.fault(r.Ref, errors.New(c.server.voice.Missing))
		return
	}
	e := c.expected()
	e.Cautious = r.During
	u, err := c.server.ears.Listen(context.Background(), e)
	if err != nil {
		c.fault(r.Ref, err)
		return
	}
	c.utterance = &utterance{ref: r.Ref, sound: u}
}

// expected is what may be said in this talk now.
func (c *conn) expected() voice.Expected {
	c.talk.mu.Lock()
	defer c.talk.mu.Unlock()
	return Expected(c.talk.awake(c.server.shelf.Load()).Expect())
}

// Expected is what a talk expects, for a recogniser.
func Expected(e talk.Expected) voice.Expected {
	return voice.Expected{
		Answers: e.Answers, Number: e.Number, Units: e.Units, Clock: e.Clock, High: e.High,
		Commands: e.Commands, Timers: e.Timers, Alarms: e.Alarms, Steps: e.Steps, Openings: e.Openings, Means: e.Means,
	}
}

// hush drops the utterance, if there is one.
func (c *conn) hush() {
	if c.utterance != nil {
		c.utterance.sound.Drop()
		c.utterance = nil
	}
}

// hear takes a frame of sound: a byte that is 1 where it was taken for speech,
// then samples, 16-bit little-endian. Sound outside an utterance is dropped.
func (c *conn) hear(frame []byte) {
	u := c.utterance
	if u == nil || len(frame) < 3 {
		return
	}
	pcm := make([]int16, (len(frame)-1)/2)
	for i := range pcm {
		pcm[i] = int16(uint16(frame[1+2*i]) | uint16(frame[2+2*i])<<8)
	}
	over, err := u.sound.Write(pcm, frame[0] == 1)
	if over || err != nil {
		c.heardOut(u)
		return
	}
	if words := u.sound.SoFar(); words != u.shown {
		u.shown = words
		c.tell(Message{Kind: "hearing", Ref: u.ref, Said: words})
	}
}

// heardOut ends an utterance, and takes what was heard as a turn.
func (c *conn) heardOut(u *utterance) {
	c.utterance = nil
	heard, err := u.sound.End()
	if err != nil {
		c.fault(u.ref, err)
		return
	}
	c.spoken(Request{Kind: "listen", Ref: u.ref}, talk.Spoken{Words: heard.Words, Sure: heard.Sure, Free: heard.Free, Others: heard.Others})
}

// spoken takes what was spoken as a turn, unless nothing is to come of it.
func (c *conn) spoken(r Request, s talk.Spoken) {
	r.spoken = s
	c.turn(r)
}

// errUnheard means that nothing was made of an utterance, and that no turn
// was taken.
var errUnheard = errors.New("nothing was made of that")
