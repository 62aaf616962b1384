package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"time"

	"sparehand/internal/journal"
	"sparehand/internal/talk"
)

// keptTalk is a talk in the terminal, each turn of which is kept before its
// reply is shown, where there is a store.
type keptTalk struct {
	a       *talk.Assistant
	store   *journal.Journal // nil for none
	id      string
	session *talk.Session
	begun   bool
}

// resume opens a talk, or goes on with the one that on names.
func resume(a *talk.Assistant, store *journal.Journal, on string) (*keptTalk, error) {
	t := &keptTalk{a: a, store: store, id: rand.Text(), session: a.Open()}
	if on == "" {
		return t, nil
	}
	if store == nil {
		return nil, errors.New("no talk is kept without a store, so none can be gone on with")
	}
	ctx, done := context.WithTimeout(context.Background(), openTime)
	defer done()
	if on == "last" {
		list, err := store.Talks(ctx, 1)
		if err != nil {
			return nil, err
		}
		if len(list) == 0 {
			return nil, errors.New("no talk is kept yet")
		}
		on = list[0].ID
	}
	lines, err := store.Lines(ctx, on, 0)
	if errors.Is(err, journal.ErrNoTalk) {
		return nil, fmt.Errorf("no talk has the id %q: sparehand notes list --talks shows them", on)
	}
	if err != nil {
		return nil, err
	}
	events, err := journal.EventsOf(lines)
	if err != nil {
		return nil, err
	}
	t.id, t.begun, t.session = on, true, a.Resume(events)
	return t, nil
}

// kept reports whether there is anything to go on with.
func (t *keptTalk) kept() bool { return t.begun }

// hear takes an utterance. Where it can't be kept the talk is as it was.
func (t *keptTalk) hear(text string) (talk.Reply, error) {
	before := t.session.Events()
	reply := t.session.Hear(text, time.Now())
	return reply, t.keep(before, reply, "")
}

// ring rings the next timer that is due.
func (t *keptTalk) ring() (talk.Reply, bool) {
	before := t.session.Events()
	reply, ref, rang := t.session.Ring(time.Now())
	if !rang || t.keep(before, reply, ref) != nil {
		return reply, false
	}
	return reply, true
}

func (t *keptTalk) keep(before []talk.Event, reply talk.Reply, ref string) error {
	if t.store == nil {
		return nil
	}
	err := t.write(reply, ref)
	if err != nil {
		t.session = t.a.Resume(before)
		return fmt.Errorf("that was not taken, since it could not be kept: %w", err)
	}
	return nil
}

func (t *keptTalk) write(reply talk.Reply, ref string) error {
	line, err := journal.LineOf(t.session.Events(), reply.Say, reply.Title, ref, 0)
	if err != nil {
		return err
	}
	ctx, done := context.WithTimeout(context.Background(), openTime)
	defer done()
	if !t.begun {
		if err := t.store.Begin(ctx, t.id, line.At); err != nil {
			return err
		}
		t.begun = true
	}
	return t.store.Append(ctx, t.id, line, t.session.Due(), journal.NotesOf(t.id, t.session.Notes()))
}
