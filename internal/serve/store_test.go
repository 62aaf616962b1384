package serve

import (
	"context"
	"errors"
	"fmt"
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
		name, _, _ := strings.Cut(fault.Error(), ":")
		t.Run(name, func(t *testing.T) {
			p, store := failingPlace(t)
			c, opened := p.join(t, "", 0)
			first := c.ask(Request{Kind: "say", Ref: "1", Text: firstWords})
			second := c.ask(Request{Kind: "pick", Ref: "2", N: 1})

			store.fail(fault)
			for _, r := range []Request{{Kind: "pick", N: 1}, {Kind: "say", Text: "clay strips"}, {Kind: "correct", Fact: "wall_foot", Value: "pressed"}, {Kind: "undo"}} {
				r.Ref = "failed " + r.Kind
				m := c.ask(r)
				if m.Kind != "fault" || m.Ref != r.Ref || m.Turn != 2 || strings.Contains(m.Fault, "\n") ||
					!strings.HasPrefix(m.Fault, "that was not taken") || !strings.Contains(m.Fault, fault.Error()) {
					t.Fatalf("%s that can't be kept brings %s", r.Kind, show(m))
				}
				_, again := p.join(t, opened.Talk, 0)
				if again.Turn != 2 || replyText(Message{Reply: again.Reply}) != replyText(Message{Reply: second.Reply}) {
					t.Errorf("after %s the talk is not as it was: %s", r.Kind, show(again))
				}
			}

			store.fail(nil)
			for range 2 {
				if m := c.ask(Request{Kind: "pick", Ref: "failed pick", N: 1}); m.Kind != "turn" || m.Turn != 3 {
					t.Errorf("sent again it brings %s", show(m))
				}
			}
			for i, want := range []Message{second, first} {
				m := c.ask(Request{Kind: "undo", Ref: fmt.Sprint("undo ", i)})
				if m.Kind != "turn" || m.Turn != 4+i || m.Reply.Question == nil || m.Reply.Question.Fact != want.Reply.Question.Fact {
					t.Errorf("step back %d brings %s", i+1, show(m))
				}
			}
		})
	}
}

// Where a pick can't be kept, its next question was asked nobody: when the book
// changes meanwhile, picks are judged by the question that all were shown.
func TestPickAfterFailure(t *testing.T) {
	p, store := failingPlace(t)
	c, opened := p.join(t, "", 0)
	c.tell(t, "1", firstWords)
	store.fail(journal.ErrFull)
	wantFault(t, c.ask(Request{Kind: "pick", Ref: "2", N: 1}), "disk is full")
	other, _ := p.join(t, opened.Talk, 1) // it shows turn 1 already
	store.fail(nil)
	p.Use(p.shelf.Load().Assistant)
	if m := other.ask(Request{Kind: "pick", Ref: "3", N: 1}); m.Kind != "turn" || m.Turn != 2 {
		t.Fatalf("the other's pick brings %s", show(m))
	}
	_ = c.read()
	p.Use(p.shelf.Load().Assistant)
	if m := c.ask(Request{Kind: "pick", Ref: "4", N: 1}); m.Kind != "turn" || m.Turn != 3 {
		t.Errorf("the next pick brings %s", show(m))
	}
}

// failingPlace is a server with the real book and a file that can be made to
// fail.
func failingPlace(t *testing.T) (*place, *failing) {
	t.Helper()
	config := Config{}
	withStore(t, filepath.Join(t.TempDir(), "notebook.db"))(&config)
	store := &failing{Store: config.Store}
	return serving(t, realTalks(t), func(c *Config) { c.Store = store }), store
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
// nothing lost, and timers that fell due say how late they are, also in a talk
// that nobody holds.
func TestDatabaseGone(t *testing.T) {
	server := pgtest.Start(t)
	url := server.URL(t)
	p := serving(t, realTalks(t), withStore(t, url), limited(Limits{Rest: 100 * time.Millisecond, Quiet: 24 * time.Hour}))
	c, opened := p.join(t, "", 0)
	c.tell(t, "1", "tell me in ten minutes to stir the barnacles")
	left, unheld := p.join(t, "", 0)
	left.tell(t, "1", "tell me in twenty minutes to wet the sponge")
	left.ws.Close()
	eventually(t, "the follower to leave", func() bool { return p.followersOf(unheld.Talk) == 0 })
	if p.look(p.clock.forward(3 * time.Minute)); p.find(unheld.Talk) != nil {
		t.Error("a talk that nobody follows is held")
	}

	if err := server.Stop(); err != nil {
		t.Fatal(err)
	}
	p.clock.forward(time.Hour)
	for _, ref := range []string{"2", "3"} {
		wantFault(t, c.ask(Request{Kind: "say", Ref: ref, Text: firstWords}), "can't be reached")
	}
	for _, id := range []string{opened.Talk, unheld.Talk} {
		_, m := p.join(t, id, 0)
		wantFault(t, m, "can't be reached")
	}
	begun, meanwhile := p.join(t, "", 0)
	wantFault(t, begun.ask(Request{Kind: "say", Ref: "1", Text: firstWords}), "can't be reached")

	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	if m := c.read(); m.Kind != "turn" || m.Turn != 2 || !strings.Contains(m.Reply.Say, "This was due 53 minutes ago") {
		t.Errorf("the timer rings as %s", show(m))
	}
	if m := c.tell(t, "2", firstWords); m.Turn != 3 {
		t.Errorf("afterwards %s", show(m))
	}
	if m := begun.tell(t, "1", firstWords); m.Turn != 1 {
		t.Errorf("in the talk that was begun meanwhile %s", show(m))
	}
	eventually(t, "the other timer", func() bool { return p.keptTurns(t, unheld.Talk) == 2 })
	if _, again := p.join(t, unheld.Talk, 0); len(again.Log) != 2 || !strings.Contains(again.Log[1].Say, "This was due 43 minutes ago") {
		t.Errorf("the talk that nobody held is %s", show(again))
	}
	if here, new := p.keptTurns(t, opened.Talk), p.keptTurns(t, meanwhile.Talk); here != 3 || new != 1 {
		t.Errorf("%d and %d turns are kept, want 3 and 1", here, new)
	}
}

// keptTurns is how many turns of a talk the store has.
func (p *place) keptTurns(t testing.TB, id string) int {
	t.Helper()
	lines, err := p.store.Lines(context.Background(), id, 0)
	if err != nil {
		t.Fatal(err)
	}
	return len(lines)
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
