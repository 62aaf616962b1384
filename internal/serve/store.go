package serve

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"sparehand/internal/journal"
	"sparehand/internal/talk"
)

// Store keeps talks beyond the life of a server. A turn is told to nobody
// before it is kept. Several servers may share one store.
type Store interface {
	Begin(ctx context.Context, id string, at time.Time) error
	Lines(ctx context.Context, id string, after int) ([]journal.Line, error)
	Append(ctx context.Context, id string, line journal.Line, due time.Time, notes []talk.Note) error
	Due(ctx context.Context, by time.Time, most int) ([]string, error)
	Newer(ctx context.Context, turns map[string]int) ([]string, error)
}

// storeTime bounds one call to the store.
const storeTime = 5 * time.Second

func within() (context.Context, context.CancelFunc) {
	return context.WithTimeout(context.Background(), storeTime)
}

// notKept is a turn that could not be kept: the talk is as it was.
type notKept struct{ cause error }

func (e notKept) Error() string {
	return fmt.Sprintf("that was not taken, since it could not be kept: %v", e.cause)
}

func (e notKept) Unwrap() error { return e.cause }

// load reads a talk that is not held. Its error is errGone where the store has
// no such talk.
func (s *Server) load(id string) (*conversation, error) {
	if s.store == nil || id == "" {
		return nil, errGone
	}
	ctx, done := within()
	defer done()
	lines, err := s.store.Lines(ctx, id, 0)
	switch {
	case errors.Is(err, journal.ErrNoTalk):
		return nil, errGone
	case err != nil:
		return nil, err
	}
	t := &conversation{id: id, used: s.now(), begun: true}
	if err := t.absorb(lines, s.limits.Refs); err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if other := s.talks[id]; other != nil {
		return other, nil // somebody was quicker
	}
	if len(s.talks) >= s.limits.Talks {
		return nil, errFull
	}
	s.talks[id] = t
	return t, nil
}

// absorb adds kept turns to the talk.
func (t *conversation) absorb(lines []journal.Line, refs int) error {
	events, err := journal.EventsOf(lines)
	if err != nil {
		return err
	}
	t.sleep()
	t.events = append(slices.Clip(t.events), events...)
	for i, line := range lines {
		t.log = append(t.log, LogLine{Turn: line.Turn, Said: saidOf(events[i]), Say: line.Say, Title: line.Title})
		if line.Ref != "" {
			t.refs.add(usedRef{line.Ref, line.Asks, line.Turn}, refs)
		}
	}
	return nil
}

// saidOf is what a maker said; a timer says nothing of theirs.
func saidOf(e talk.Event) string {
	if e.Kind == "timer" {
		return ""
	}
	return e.Text
}

// catchUp takes in the turns that other servers have taken meanwhile, and shows
// them to those who follow here. The talk is locked.
func (s *Server) catchUp(t *conversation) error {
	if s.store == nil || !t.begun {
		return nil
	}
	ctx, done := within()
	defer done()
	lines, err := s.store.Lines(ctx, t.id, t.turn())
	if err != nil || len(lines) == 0 {
		return err
	}
	if err := t.absorb(lines, s.limits.Refs); err != nil {
		return err
	}
	book := s.shelf.Load()
	for _, line := range lines[max(0, len(lines)-s.limits.Queue):] {
		reply := t.upTo(book, line.Turn).Reply()
		m := Message{Kind: "turn", Turn: line.Turn, Said: t.log[line.Turn-1].Said, Reply: &reply}
		if line.Turn == t.turn() {
			t.asked, t.due = askedBy(book, reply), t.session.Due()
		}
		if err := s.show(t, m, nil); err != nil {
			return err
		}
	}
	return nil
}

// show queues a message for all who follow a talk but one.
func (s *Server) show(t *conversation, m Message, but *conn) error {
	f, err := encode(m)
	if err != nil {
		return brokenTurn{cause: err}
	}
	defer f.release()
	s.spread(t, f, but)
	return nil
}

func (s *Server) spread(t *conversation, f *frame, but *conn) {
	for _, other := range t.followers {
		other.asked = t.asked
		if other != but && other.out.push(f, s.limits.Queue) {
			go other.flush()
		}
	}
}

// keepTurn keeps the turn that was taken last, or takes it back.
func (s *Server) keepTurn(t *conversation, before []talk.Event, ref string, asks uint64) error {
	t.due = t.session.Due()
	if s.store == nil {
		return nil
	}
	err := s.write(t, ref, asks)
	if err == nil {
		return nil
	}
	t.rewind(before)
	if errors.Is(err, journal.ErrBehind) || errors.Is(err, journal.ErrUsed) {
		return err
	}
	return notKept{err}
}

func (s *Server) write(t *conversation, ref string, asks uint64) error {
	entry := t.log[len(t.log)-1]
	line, err := journal.LineOf(t.session.Events(), entry.Say, entry.Title, ref, asks)
	if err != nil {
		return err
	}
	notes := journal.NotesOf(t.id, t.session.Notes())
	ctx, done := within()
	defer done()
	if !t.begun {
		if err := s.store.Begin(ctx, t.id, t.opened); err != nil && !errors.Is(err, journal.ErrBegun) {
			return err
		}
		t.begun = true
	}
	return s.store.Append(ctx, t.id, line, t.due, notes)
}
