package serve

import (
	"time"

	"sparehand/internal/talk"
)

// Assistant opens sessions, and builds them again from their events. It is
// used from many goroutines at once.
type Assistant interface {
	Open() Session
	Resume(events []talk.Event) Session
}

// Session is one talk with the assistant. A session is used by one goroutine
// at a time.
type Session interface {
	// Hear, Listen, Pick, Correct and Undo take one turn each. An error says,
	// in words for the maker, why it could not be taken; the session is then
	// as it was. Listen takes none where nothing is to come of what was spoken.
	Hear(text string, at time.Time) talk.Reply
	Listen(s talk.Spoken, at time.Time) talk.Reply
	Pick(n int, at time.Time) (talk.Reply, error)
	Correct(fact, value string, at time.Time) (talk.Reply, error)
	Undo(at time.Time) talk.Reply

	// Ring takes the next timer that is due as a turn; ok is false where none
	// is. ref names it, the same on every server. Due is when the next one is.
	Ring(now time.Time) (r talk.Reply, ref string, ok bool)
	Due() time.Time

	// Notes is what the talk leaves in the notebook so far.
	Notes() []talk.Note

	// Paper makes something to print or keep, and takes no turn.
	Paper(what string, now time.Time) (talk.Paper, error)

	// Expect is what may be said now.
	Expect() talk.Expected

	// Reply is the reply in force; for a new session, the opening words.
	Reply() talk.Reply

	// Events are the turns taken so far; the caller does not change them.
	Events() []talk.Event
}

// Talks makes an Assistant of anything that opens sessions of one type, such
// as a *talk.Assistant.
func Talks[S Session](of interface {
	Open() S
	Resume(events []talk.Event) S
}) Assistant {
	return talks[S]{of.Open, of.Resume}
}

type talks[S Session] struct {
	open   func() S
	resume func([]talk.Event) S
}

func (t talks[S]) Open() Session                      { return t.open() }
func (t talks[S]) Resume(events []talk.Event) Session { return t.resume(events) }
