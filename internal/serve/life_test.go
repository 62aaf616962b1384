package serve

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

func TestShutdown(t *testing.T) {
	p := serving(t)
	var clients []*client
	for range 20 {
		c, _ := p.join(t, "", 0)
		clients = append(clients, c)
	}
	silent := p.dial(t) // never opened a talk, never reads
	done := make(chan error, 1)
	go func() {
		ctx, cancel := context.WithTimeout(context.Background(), patience)
		defer cancel()
		done <- p.Shutdown(ctx)
	}()
	for _, c := range clients {
		c.wantClosed(reason{code: 1001, text: "going down, come back"})
	}
	if err := <-done; err != nil {
		t.Errorf("shutdown: %v", err)
	}
	silent.wantClosed(goingDown)
	_, response, err := websocket.DefaultDialer.Dial(p.address(), nil)
	if err == nil || response == nil || response.StatusCode != http.StatusServiceUnavailable {
		t.Errorf("dial after shutdown: %v, %v", response, err)
	}
	if got := p.get(t, "/health"); got.StatusCode != http.StatusServiceUnavailable {
		t.Errorf("health after shutdown: %s", got.Status)
	}
	if got := len(p.connections()); got != 0 {
		t.Errorf("%d connections left", got)
	}
}

// A turn that does not end in time is cut off, and Shutdown says so.
func TestShutdownDeadline(t *testing.T) {
	p := serving(t)
	c, opened := p.join(t, "", 0)
	defer close(p.fake.wait)
	c.send(Request{Kind: "say", Ref: "1", Text: "wait"})
	eventually(t, "the turn to begin", func() bool {
		talk := p.find(opened.Talk)
		free := talk.mu.TryLock()
		if free {
			talk.mu.Unlock()
		}
		return !free
	})
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := p.Shutdown(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("shutdown: %v", err)
	}
}

func (p *place) asleep(id string) bool {
	t := p.find(id)
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.session == nil
}

// A defect that no turn can be blamed for ends one connection, and leaves the
// talk to be opened again.
func TestDefectEndsOneConnection(t *testing.T) {
	p := serving(t)
	c, opened := p.join(t, "", 0)
	wantTurn(t, c.say("1", "crust"), 1, "crust")
	p.idle(p.clock.forward(3 * time.Minute))
	p.fake.broken.Store(true)
	other := p.dial(t)
	other.send(Request{Kind: "open", Talk: opened.Talk})
	other.wantClosed(broken)
	fresh := p.dial(t)
	fresh.send(Request{Kind: "open"})
	fresh.wantClosed(broken)
	p.fake.broken.Store(false)
	wantTurn(t, c.say("2", "rope"), 2, "rope")
}

// After two minutes a talk is its events, and goes on from them.
func TestIdleTalkSleepsAndWakes(t *testing.T) {
	p := serving(t)
	c, opened := p.join(t, "", 0)
	wantTurn(t, c.say("1", "crust"), 1, "crust")
	p.idle(p.clock.forward(2 * time.Minute))
	if p.asleep(opened.Talk) {
		t.Error("asleep after two minutes exactly")
	}
	p.idle(p.clock.forward(time.Second))
	if !p.asleep(opened.Talk) {
		t.Fatal("awake after more than two minutes")
	}
	wantTurn(t, c.say("2", "rope"), 2, "rope")
	if got := p.fake.resumed.Load(); got != 1 {
		t.Errorf("resumed %d times, want 1", got)
	}
	p.idle(p.clock.forward(time.Minute))
	if p.asleep(opened.Talk) {
		t.Error("asleep a minute after a turn")
	}
}

// After 24 hours without a follower a talk is forgotten; a follower keeps it.
func TestIdleTalkIsForgotten(t *testing.T) {
	p := serving(t)
	c, opened := p.join(t, "", 0)
	c.say("1", "crust")
	p.look(p.clock.forward(25 * time.Hour))
	if p.find(opened.Talk) == nil {
		t.Fatal("forgotten while it was followed")
	}
	c.ws.Close()
	eventually(t, "the client to leave", func() bool { return p.followersOf(opened.Talk) == 0 })
	p.look(p.clock.forward(24 * time.Hour))
	if p.find(opened.Talk) == nil {
		t.Fatal("forgotten 24 hours after its follower left")
	}
	p.look(p.clock.forward(time.Second))
	if p.find(opened.Talk) != nil {
		t.Fatal("held for more than 24 hours")
	}
	_, m := p.join(t, opened.Talk, 1)
	if m.Fault == "" || m.Talk == opened.Talk {
		t.Errorf("opened is %s", show(m))
	}
}

// A client that answers pings stays; one that has not been heard of for over
// a minute is closed, and so is one that opened no talk.
func TestQuietClients(t *testing.T) {
	p := serving(t)
	alive, opened := p.join(t, "", 0)
	go func() { // reading is what answers pings
		for {
			if _, _, err := alive.ws.ReadMessage(); err != nil {
				return
			}
		}
	}()
	dead, _ := p.join(t, "", 0)
	idler := p.dial(t)
	eventually(t, "three connections", func() bool { return len(p.connections()) == 3 })

	mine := p.find(opened.Talk).followers[0]
	for range 3 {
		eventually(t, "the last write to end", mine.out.idle) // or the ping would be left out
		now := p.clock.forward(25 * time.Second)
		p.look(now)
		eventually(t, "the pong", func() bool { return mine.heard.Load() == now.UnixNano() })
	}
	dead.wantClosed(goneQuiet)
	idler.wantClosed(neverOpened)
	eventually(t, "two to be gone", func() bool { return slices.Equal(p.connections(), []*conn{mine}) })
}

// idle reports whether nothing is being sent.
func (o *outbox) idle() bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	return !o.sending
}

func TestLimits(t *testing.T) {
	p := serving(t, limited(Limits{Talks: 2, Followers: 2, Turns: 3, Connections: 4}))
	a, first := p.join(t, "", 0)
	_, m := p.join(t, first.Talk, 0)
	if m.Kind != "opened" {
		t.Fatalf("second follower gets %s", show(m))
	}
	c, m := p.join(t, first.Talk, 0)
	wantFault(t, m, "2 devices follow this talk")
	if m := c.ask(Request{Kind: "open"}); m.Kind != "opened" {
		t.Fatalf("the second talk gives %s", show(m))
	}
	d, m := p.join(t, "", 0)
	wantFault(t, m, "no room for another talk")
	wantFault(t, d.ask(Request{Kind: "open", Talk: "nobody's"}), "no room for another talk")

	_, response, err := websocket.DefaultDialer.Dial(p.address(), nil)
	if err == nil || response == nil || response.StatusCode != http.StatusServiceUnavailable || response.Header.Get("Retry-After") == "" {
		t.Errorf("fifth connection: %v, %v", response, err)
	}
	for i := range 3 {
		wantTurn(t, a.say(fmt.Sprint(i), "crust"), i+1, "crust")
	}
	wantFault(t, a.say("4", "crust"), "3 turns, which is the most")
	d.ws.Close()
	eventually(t, "room for a connection", func() bool { return len(p.connections()) == 3 })
	p.dial(t)
}
