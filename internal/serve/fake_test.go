package serve

import (
	"fmt"
	"math"
	"strings"
	"sync/atomic"
	"time"

	"sparehand/internal/talk"
)

// fake is an assistant that repeats what it hears. Like the real one it works
// its reply out from its events alone. Some words make it misbehave.
type fake struct {
	opened, resumed atomic.Int32
	wait            chan struct{} // "wait" blocks until it is closed
	broken          atomic.Bool   // Open and Resume panic
}

func (f *fake) Open() *fakeSession {
	f.opened.Add(1)
	f.check()
	return &fakeSession{fake: f}
}

func (f *fake) Resume(events []talk.Event) *fakeSession {
	f.resumed.Add(1)
	f.check()
	return &fakeSession{fake: f, events: events}
}

func (f *fake) check() {
	if f.broken.Load() {
		panic("the boat has no bottom")
	}
}

type fakeSession struct {
	fake   *fake
	events []talk.Event
}

func (s *fakeSession) Events() []talk.Event { return s.events }

func (s *fakeSession) take(kind, text string, at time.Time) talk.Reply {
	s.events = append(s.events, talk.Event{At: at, Kind: kind, Text: text})
	if text == "panic" {
		panic("the ferryman fell over the rope")
	}
	if text == "wait" {
		<-s.fake.wait
	}
	return s.Reply()
}

// Listen takes no turn where nothing was made out.
func (s *fakeSession) Listen(sp talk.Spoken, at time.Time) talk.Reply {
	if sp.Words == "" {
		return s.Reply()
	}
	return s.take("spoken", sp.Words, at)
}

func (s *fakeSession) Expect() talk.Expected {
	return talk.Expected{Answers: []string{"like paper", "like card"}}
}

func (s *fakeSession) Hear(text string, at time.Time) talk.Reply { return s.take("say", text, at) }

func (s *fakeSession) Pick(n int, at time.Time) (talk.Reply, error) {
	if n > 3 {
		return talk.Reply{}, fmt.Errorf("there is no answer %d: pick one from 1 to 3", n)
	}
	return s.take("pick", fmt.Sprintf("answer %d", n), at), nil
}

func (s *fakeSession) Correct(fact, value string, at time.Time) (talk.Reply, error) {
	if fact != "thickness" {
		return talk.Reply{}, fmt.Errorf("no fact is called %q", fact)
	}
	return s.take("correct", fact+": "+value, at), nil
}

func (s *fakeSession) Undo(at time.Time) talk.Reply { return s.take("undo", "back", at) }

// Reply is about as large as a real one. "nan" makes it impossible to encode,
// and "long" makes it half a mebibyte.
func (s *fakeSession) Reply() talk.Reply {
	r := talk.Reply{
		Say: "What do you see?", Title: "The ferryman's barnacles", Phase: "listening",
		Facts: map[string]any{"turns": len(s.events), "thickness": 3.5},
	}
	n := len(s.events)
	if n == 0 {
		return r
	}
	last := s.events[n-1]
	r.Say = fmt.Sprintf("%d: %s", n, last.Text)
	r.Question = &talk.Question{Fact: "thickness", Text: "How thick is the crust at its edge?", Kind: "choice"}
	for i, label := range []string{"like paper", "like card", "thicker than card"} {
		r.Question.Options = append(r.Question.Options, talk.OptionShown{N: i + 1, Value: strings.ReplaceAll(label, " ", "-"), Label: label})
	}
	for i, title := range []string{"the rope scar was pulled off warm", "the mould was too cold", "the mix was thin"} {
		r.Causes = append(r.Causes, talk.CauseShown{
			ID: strings.ReplaceAll(title, " ", "-"), Title: title, Share: 0.5 / float64(i+1),
			Because: []string{"the edge is like paper", "the plaster was cold to the back of the hand"},
		})
	}
	r.Cautions = []talk.CautionShown{{ID: "hot", Level: "stop", Text: "Test it on your own wrist before it goes near anybody's face."}}
	switch last.Text {
	case "nan":
		r.Causes[0].Share = math.NaN()
	case "long":
		r.Show = []string{strings.Repeat("the tide comes in. ", 512<<10/19)}
	}
	return r
}

// Ring, Due, Notes and Paper: the fake has neither timers nor a notebook.
func (s *fakeSession) Ring(time.Time) (talk.Reply, string, bool) { return s.Reply(), "", false }
func (s *fakeSession) Due() time.Time                            { return time.Time{} }
func (s *fakeSession) Notes() []talk.Note                        { return nil }
func (s *fakeSession) Paper(string, time.Time) (talk.Paper, error) {
	return talk.Paper{}, nil
}
