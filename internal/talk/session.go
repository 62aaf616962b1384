// Package talk is the conversation: words come in, a Reply goes out. A
// session is a list of events and its state is the fold over their acts, so
// that the same book and the same events always give the same replies.
package talk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/diagnose"
	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/sums"
)

// Assistant holds what all sessions share. It is safe for concurrent use.
type Assistant struct {
	book    *book.Book
	models  []*diagnose.Model // by Problem.Index
	hearing *hear.Hearing
	index   index
	sayable *sayable
	desk    Desk // nil where there is none
}

// New makes a book ready to talk.
func New(b *book.Book) *Assistant {
	return &Assistant{book: b, models: diagnose.Models(b), hearing: hear.New(b), index: newIndex(b), sayable: newSayable(b)}
}

// At gives the same assistant at the desk of a workshop, with its notebook.
func (a *Assistant) At(desk Desk) *Assistant {
	b := *a
	b.desk = desk
	return &b
}

// Session is one talk. It is not safe for concurrent use.
type Session struct {
	a      *Assistant
	events []Event
	state  *state
	reply  Reply
}

// Open starts a talk.
func (a *Assistant) Open() *Session { return a.Resume(nil) }

// Resume goes on with a talk where its events left it.
func (a *Assistant) Resume(events []Event) *Session {
	s := &Session{a: a, events: events}
	s.state = a.fold(events)
	var last Event
	before := glance{}
	if n := len(events); n > 0 {
		last = events[n-1]
		before = a.fold(events[:n-1]).glance()
	}
	s.reply = s.state.compose(last, before)
	return s
}

// Reply is the reply in force; a new session's opening words.
func (s *Session) Reply() Reply { return s.reply }

// Events are what happened so far. The slice is not to be changed.
func (s *Session) Events() []Event { return s.events }

// Hear takes an utterance that was typed.
func (s *Session) Hear(text string, at time.Time) Reply {
	text = strings.TrimSpace(text)
	e := Event{At: at, Kind: "say", Text: text}
	e.Acts, e.Note = s.understood(text, at)
	return s.take(e)
}

// understood turns words into acts, whether typed or spoken.
func (s *Session) understood(text string, at time.Time) (acts []Act, note string) {
	if acts = s.corrected(text, at); len(acts) > 0 {
		return acts, ""
	}
	if s.state.doubt != nil {
		return s.state.answersDoubt(text, at)
	}
	return s.state.hears(text, at)
}

// hears turns words into acts, with nothing said before but what the state is.
func (s *state) hears(text string, at time.Time) (acts []Act, note string) {
	acts, note = s.understand(text, s.meaningOf(text, at), at)
	if len(acts) > 0 {
		return acts, note
	}
	if acts = s.correctedBy(text); len(acts) > 0 {
		return acts, ""
	}
	if acts = s.goesToStep(text); len(acts) > 0 {
		return acts, ""
	}
	return nil, note
}

// meaningOf is what words mean in this state.
func (s *state) meaningOf(text string, at time.Time) hear.Meaning {
	m := s.a.hearing.Hear(s.context(s.asked()), text)
	if f := s.a.book.FactByName(hear.LeftFact); m.Call != nil && f != nil {
		m.Facts = append(m.Facts, hear.Heard{Fact: f.ID, Value: logic.Num(minutesTo(*m.Call, at))})
	}
	return m
}

// context is what the talk is about, for the hearing. A trouble that is over
// only makes others of its stage likelier.
func (s *state) context(asked *hear.Asked) hear.Context {
	c := hear.Context{Asked: asked, Problem: s.problem, Last: s.last, Sums: s.sums, LastUnit: s.lengths}
	if s.closed {
		c.Problem = nil
	}
	return c
}

// Pick takes the numbered answer n of the question in force, 0 for not sure.
func (s *Session) Pick(n int, at time.Time) (Reply, error) {
	q := s.state.question()
	if q == nil {
		return s.reply, fmt.Errorf("nothing is asked at the moment, so there is no answer %d to pick", n)
	}
	if n == 0 {
		return s.take(Event{At: at, Kind: "pick", Text: "not sure", Acts: s.state.unsure(at)}), nil
	}
	if n < 1 || n > len(q.shown.Options) {
		return s.reply, fmt.Errorf("there is no answer %d: pick one from 1 to %d", n, len(q.shown.Options))
	}
	return s.take(Event{At: at, Kind: "pick", Text: q.shown.Options[n-1].Label, Acts: s.state.picked(q, n, at)}), nil
}

// Correct changes what was told of a fact: an option's value, yes, no, or
// words such as "30 mm". An empty value forgets it.
func (s *Session) Correct(fact, value string, at time.Time) (Reply, error) {
	f := s.a.book.FactByName(fact)
	if f == nil {
		return s.reply, fmt.Errorf("no fact is called %q", fact)
	}
	e := Event{At: at, Kind: "correct", Text: sums.Subject(f) + ": " + value}
	switch value = strings.TrimSpace(value); value {
	case "":
		e.Text = sums.Subject(f) + ": forget it"
		e.Acts = []Act{{Do: doForget, Fact: fact}}
	case "not sure":
		e.Acts = []Act{{Do: doUnsure, Fact: fact}}
	default:
		acts, err := s.a.correction(f, value)
		if err != nil {
			return s.reply, err
		}
		e.Acts = acts
	}
	return s.take(e), nil
}

// Undo takes the last change back.
func (s *Session) Undo(at time.Time) Reply {
	return s.take(Event{At: at, Kind: "undo", Text: "back"})
}

// take adds an event and works out the reply to it.
func (s *Session) take(e Event) Reply {
	before := s.state.glance()
	if len(e.Acts) == 1 && e.Acts[0].Do == doUndo {
		if e.Kind = "undo"; e.Acts[0].ID == "" {
			e.Acts = nil
		}
	}
	from := s.state
	if e.does(doInstead) {
		from = s.a.fold(takenBack(s.events))
	}
	e.Over = e.does(doInstead) || from.overrules(e.Acts)
	e.Acts = from.following(e, s.a.desk)
	nameTimers(e.Acts, len(s.events)+1)
	if e.Kind == "undo" && lastChange(s.events) == nil {
		e.Note = "There is nothing to take back."
	}
	s.events = append(s.events, e)
	if e.Kind == "undo" || e.does(doInstead) {
		s.state = s.a.fold(s.events)
	} else {
		s.state.apply(e)
	}
	s.reply = s.state.compose(e, before)
	return s.reply
}

// takenBack gives events with the last change taken back.
func takenBack(events []Event) []Event {
	return append(slices.Clip(events), Event{Kind: "undo", Acts: []Act{{Do: doUndo}}})
}
