package serve

import (
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"sparehand/internal/talk"
)

// conversation is one talk and the connections that follow it. Its turns are
// taken one at a time, under mu, which guards everything below it.
type conversation struct {
	id string

	mu        sync.Mutex
	session   Session      // nil while asleep
	edition   int          // of the book that session goes by
	events    []talk.Event // while asleep
	asked     *asked       // by the last turn; nil before the first
	log       []LogLine    // one line for each event
	refs      refs
	followers []*conn
	used      time.Time // last turn, or last leaving of a follower
	opened    time.Time
	begun     bool      // the store knows it
	due       time.Time // when its next timer warns or rings; zero for never
	gone      bool      // forgotten: no one may join any more
}

// brokenTurn is what a maker hears when the assistant itself failed. The
// cause is for the log.
type brokenTurn struct {
	cause any
	stack []byte
}

func (brokenTurn) Error() string {
	return "something broke while working that out: the talk is as it was"
}

// awake gives the session, built again from its events where it slept or the
// book has changed.
func (t *conversation) awake(a *edition) Session {
	if t.session != nil && t.edition != a.number {
		t.sleep()
	}
	if t.session == nil {
		t.session, t.edition = a.Resume(t.events), a.number
		t.events = nil
	}
	return t.session
}

// taken are the events so far, whether the session is awake or not.
func (t *conversation) taken() []talk.Event {
	if t.session != nil {
		return t.session.Events()
	}
	return t.events
}

// sleep drops the session to its events.
func (t *conversation) sleep() {
	if t.session != nil {
		t.events = slices.Clip(t.session.Events())
		t.session = nil
	}
}

// rewind goes back to how the talk was with these events.
func (t *conversation) rewind(events []talk.Event) {
	t.session, t.events = nil, slices.Clone(events)
	t.log = t.log[:min(len(t.log), len(events))]
}

// take takes a turn and gives its message, encoded. If the session panics,
// or its reply cannot be encoded, the talk is rewound to the turns before.
func (t *conversation) take(a *edition, r Request, at time.Time) (f *frame, err error) {
	s := t.awake(a)
	before := s.Events()
	defer func() {
		if p := recover(); p != nil {
			t.rewind(before)
			f, err = nil, brokenTurn{p, debug.Stack()}
		}
	}()
	reply, err := act(s, r, at)
	if err != nil {
		return nil, err
	}
	if len(s.Events()) == len(before) {
		return nil, errUnheard
	}
	t.used = at
	t.note(s.Events(), reply)
	f, err = encode(t.turnMessage(r.Ref, reply))
	if err != nil {
		t.rewind(before)
		return nil, brokenTurn{cause: err}
	}
	t.asked = askedBy(a, reply)
	return f, nil
}

func act(s Session, r Request, at time.Time) (talk.Reply, error) {
	switch r.Kind {
	case "say":
		return s.Hear(r.Text, at), nil
	case "listen", "spoken":
		return s.Listen(r.spoken, at), nil
	case "pick":
		return s.Pick(r.N, at)
	case "correct":
		return s.Correct(r.Fact, r.Value, at)
	default:
		return s.Undo(at), nil
	}
}

// note adds to the log the events that it does not have yet.
func (t *conversation) note(events []talk.Event, reply talk.Reply) {
	for _, e := range events[min(len(t.log), len(events)):] {
		t.log = append(t.log, LogLine{
			Turn: len(t.log) + 1, Said: saidOf(e), Say: reply.Say, Title: reply.Title,
		})
	}
}

// turn is the number of the last turn, 0 for a talk just opened.
func (t *conversation) turn() int { return len(t.log) }

// since gives the log after a turn.
func (t *conversation) since(turn int) []LogLine {
	return t.log[min(max(turn, 0), len(t.log)):]
}

// turnMessage is the message of the turn that was taken last.
func (t *conversation) turnMessage(ref string, reply talk.Reply) Message {
	m := Message{Kind: "turn", Ref: ref, Turn: t.turn(), Reply: &reply}
	if n := t.turn(); n > 0 {
		m.Said = t.log[n-1].Said
	}
	return m
}

// again is the message of an earlier turn. The reply is worked out afresh
// from the events up to it: same events, same reply.
func (t *conversation) again(a *edition, u usedRef) Message {
	reply := t.upTo(a, u.turn).Reply()
	return Message{Kind: "turn", Ref: u.ref, Turn: u.turn, Said: t.log[u.turn-1].Said, Reply: &reply}
}

// upTo is the session as it was after a turn.
func (t *conversation) upTo(a *edition, turn int) Session {
	s := t.awake(a)
	if turn < t.turn() {
		return a.Resume(slices.Clone(s.Events()[:turn]))
	}
	return s
}

// ring takes the next thing that is due as a turn. If the session panics, the
// talk is rewound.
func (t *conversation) ring(a *edition, now time.Time) (m Message, ref string, rang bool, err error) {
	before := t.taken()
	defer func() {
		if p := recover(); p != nil {
			t.rewind(before)
			t.due, rang, err = time.Time{}, false, brokenTurn{p, debug.Stack()}
		}
	}()
	s := t.awake(a)
	reply, ref, rang := s.Ring(now)
	if !rang {
		t.due = s.Due()
		return m, "", false, nil
	}
	t.note(s.Events(), reply)
	t.asked = askedBy(a, reply)
	return t.turnMessage("", reply), ref, true, nil
}

func (t *conversation) leave(c *conn, now time.Time) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.followers = slices.DeleteFunc(t.followers, func(f *conn) bool { return f == c })
	t.used = now
}
