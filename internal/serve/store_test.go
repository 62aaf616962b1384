package serve

import (
	"context"
	"errors"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"sparehand/internal/journal"
	"sparehand/internal/pgtest"
	"sparehand/internal/talk"
)

// failing is a store that fails when it is told to.
type failing struct {
	Store
	mu    sync.Mutex
	fault error
}

func (f *failing) fail(err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.fault = err
}

func (f *failing) failed() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.fault
}

func (f *failing) Append(ctx context.Context, id string, line journal.Line, due time.Time, notes []talk.Note) error {
	if err := f.failed(); err != nil {
		return err
	}
	return f.Store.Append(ctx, id, line, due, notes)
}

func (f *failing) Begin(ctx context.Context, id string, at time.Time) error {
	if err := f.failed(); err != nil {
		return err
	}
	return f.Store.Begin(ctx, id, at)
}

// What can't be kept is not taken: one sentence, and the talk as it was. The
// same request, sent again when there is room, is taken once.
func TestStoreFails(t *testing.T) {
	for _, fault := range []error{journal.ErrFull, journal.ErrReadOnly, journal.ErrUnreachable} {
		t.Run(fault.Error()[:24], func(t *testing.T) {
			j, err := journal.Open(t.Context(), filepath.Join(t.TempDir(), "notebook.db"))
			if err != nil {
				t.Fatal(err)
			}
			defer j.Close()
			store := &failing{Store: j}
			p := serving(t, realTalks(t), func(c *Config) { c.Store = store })
			c, opened := p.join(t, "", 0)
			before := c.ask(Request{Kind: "say", Ref: "1", Text: firstWords})

			store.fail(fault)
			m := c.ask(Request{Kind: "pick", Ref: "2", N: 1})
			if m.Kind != "fault" || !strings.Contains(m.Fault, fault.Error()) || strings.Contains(m.Fault, "\n") || m.Turn != 1 {
				t.Fatalf("a turn that can't be kept brings %s", show(m))
			}
			_, again := p.join(t, opened.Talk, 0)
			if again.Turn != 1 || replyText(Message{Reply: again.Reply}) != replyText(Message{Reply: before.Reply}) {
				t.Errorf("the talk is not as it was: %s", show(again))
			}

			store.fail(nil)
			if m := c.ask(Request{Kind: "pick", Ref: "2", N: 1}); m.Kind != "turn" || m.Turn != 2 {
				t.Errorf("sent again it brings %s", show(m))
			}
			if m := c.ask(Request{Kind: "pick", Ref: "2", N: 1}); m.Turn != 2 {
				t.Errorf("sent a third time it brings %s", show(m))
			}
		})
	}
}

// A talk can be begun while nothing can be kept, and is kept from the first turn
// that can.
func TestBegunWithoutStore(t *testing.T) {
	j, err := journal.Open(t.Context(), filepath.Join(t.TempDir(), "notebook.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	store := &failing{Store: j}
	store.fail(journal.ErrFull)
	p := serving(t, func(c *Config) { c.Store = store })
	c, opened := p.join(t, "", 0)
	if m := c.say("1", "the crust curls"); m.Kind != "fault" {
		t.Fatalf("with a full disk %s", show(m))
	}
	store.fail(nil)
	wantTurn(t, c.say("2", "the crust curls"), 1, "the crust curls")
	if lines, err := j.Lines(t.Context(), opened.Talk, 0); err != nil || len(lines) != 1 {
		t.Errorf("%d turns are kept, error %v", len(lines), err)
	}
}

// The database is gone for a while: sentences meanwhile, service afterwards,
// nothing lost, and a timer that fell due says how late it is.
func TestDatabaseGone(t *testing.T) {
	server := pgtest.Start(t)
	url := server.URL(t)
	p := serving(t, realTalks(t), withStore(t, url), limited(Limits{Rest: 100 * time.Millisecond}))
	c, opened := p.join(t, "", 0)
	c.tell(t, "1", "tell me in ten minutes to stir the barnacles")
	if err := server.Stop(); err != nil {
		t.Fatal(err)
	}
	p.clock.forward(time.Hour)
	for _, ref := range []string{"2", "3"} {
		if m := c.ask(Request{Kind: "say", Ref: ref, Text: firstWords}); m.Kind != "fault" || !strings.Contains(m.Fault, "can't be reached") {
			t.Fatalf("without its database %s", show(m))
		}
	}
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	m := c.read()
	for m.Kind != "turn" {
		m = c.read()
	}
	if m.Turn != 2 || !strings.Contains(m.Reply.Say, "This was due 50 minutes ago") {
		t.Errorf("the timer rings as %s", show(m))
	}
	if m := c.ask(Request{Kind: "say", Ref: "2", Text: firstWords}); m.Kind != "turn" || m.Turn != 3 {
		t.Errorf("afterwards %s", show(m))
	}
	j, err := journal.Open(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	if lines, err := j.Lines(t.Context(), opened.Talk, 0); err != nil || len(lines) != 3 {
		t.Errorf("%d turns are kept, error %v", len(lines), err)
	}
}

// tell says something that the real assistant hears.
func (c *client) tell(t testing.TB, ref, text string) Message {
	t.Helper()
	m := c.ask(Request{Kind: "say", Ref: ref, Text: text})
	if m.Kind != "turn" {
		t.Fatalf("%q brings %s", text, show(m))
	}
	return m
}

// A talk that nobody holds any more is read again, and its timers ring.
func TestLetGoAndReadAgain(t *testing.T) {
	where := filepath.Join(t.TempDir(), "notebook.db")
	p := serving(t, realTalks(t), withStore(t, where), limited(Limits{Ring: time.Hour}))
	c, opened := p.join(t, "", 0)
	c.tell(t, "1", "guide me through a barnacle cheek")
	last := c.tell(t, "2", "tell me in ten minutes to stir")
	c.ws.Close()
	eventually(t, "the talk to be let go", func() bool {
		p.look(p.clock.forward(time.Hour))
		return p.find(opened.Talk) == nil
	})
	if err := p.ringDue(); err != nil {
		t.Fatal(err)
	}
	again, m := p.join(t, opened.Talk, 0)
	if m.Talk != opened.Talk || m.Turn != 3 || len(m.Log) != 3 || m.Log[2].Said != "" || !strings.Contains(m.Log[2].Say, "ago") {
		t.Fatalf("read again it is %s", show(m))
	}
	if got := again.ask(Request{Kind: "say", Ref: "2", Text: "tell me in ten minutes to stir"}); replyText(got) != replyText(last) {
		t.Errorf("a request known again brings %s", show(got))
	}
}

// An act of a newer build is passed over.
func TestActOfANewerBuild(t *testing.T) {
	where := filepath.Join(t.TempDir(), "notebook.db")
	j, err := journal.Open(t.Context(), where)
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	at := newClock().Now()
	line := journal.Line{Turn: 1, Ref: "a", At: at, Say: "Up it goes.", Event: []byte(`{"at":"2026-03-01T18:00:00Z","kind":"wave","text":"x","acts":[{"do":"fly","id":"kite","wings":2}],"more":true}`)}
	if err := errors.Join(j.Begin(t.Context(), "newer", at), j.Append(t.Context(), "newer", line, time.Time{}, nil)); err != nil {
		t.Fatal(err)
	}
	p := serving(t, realTalks(t), withStore(t, where))
	c, m := p.join(t, "newer", 0)
	if m.Talk != "newer" || m.Turn != 1 {
		t.Fatalf("it opens as %s", show(m))
	}
	if m := c.tell(t, "b", firstWords); m.Turn != 2 || m.Reply.Problem != "dam-leaks" {
		t.Errorf("it goes on with %s", show(m))
	}
}
