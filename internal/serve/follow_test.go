package serve

import (
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"
)

func TestTwoFollowers(t *testing.T) {
	p := serving(t)
	phone, opened := p.join(t, "", 0)
	laptop, joined := p.join(t, opened.Talk, 0)
	if joined.Talk != opened.Talk {
		t.Fatalf("laptop is in %q, phone in %q", joined.Talk, opened.Talk)
	}
	phone.send(Request{Kind: "say", Ref: "p1", Text: "the crust tore"})
	here, err := phone.readText()
	if err != nil {
		t.Fatal(err)
	}
	there, err := laptop.readText()
	if err != nil {
		t.Fatal(err)
	}
	if string(here) != string(there) {
		t.Errorf("phone gets\n%s\nlaptop gets\n%s", here, there)
	}
	wantTurn(t, laptop.say("l1", "at the edge"), 2, "at the edge")
	m := phone.read()
	wantTurn(t, m, 2, "at the edge")
	if m.Ref != "l1" {
		t.Errorf("ref is %q, want l1", m.Ref)
	}

	wantFault(t, phone.ask(Request{Kind: "pick", Ref: "p2", N: 9}), "no answer 9") // for the phone alone
	wantTurn(t, phone.ask(Request{Kind: "say", Ref: "p1", Text: "the crust tore"}), 1, "the crust tore")
	wantTurn(t, phone.say("p3", "only now"), 3, "only now")
	wantTurn(t, laptop.read(), 3, "only now")

	laptop.ws.Close()
	eventually(t, "the laptop to leave", func() bool { return p.followersOf(opened.Talk) == 1 })
	wantTurn(t, phone.say("p4", "alone"), 4, "alone")
}

func (p *place) followersOf(id string) int {
	t := p.find(id)
	t.mu.Lock()
	defer t.mu.Unlock()
	return len(t.followers)
}

// However the turns of four followers fall, all see the same ones in the same
// order, numbered without a gap.
func TestFollowersSeeOneOrder(t *testing.T) {
	const devices, turns = 4, 25
	p := serving(t, limited(Limits{Queue: devices * turns}))
	first, opened := p.join(t, "", 0)
	clients := []*client{first}
	for range devices - 1 {
		c, _ := p.join(t, opened.Talk, 0)
		clients = append(clients, c)
	}
	seen := make([][]string, devices)
	var wait sync.WaitGroup
	for d, c := range clients {
		wait.Go(func() {
			for i := range turns {
				c.send(Request{Kind: "say", Ref: fmt.Sprint(d, " ", i), Text: fmt.Sprint(d, " says ", i)})
			}
			for i := range devices * turns {
				m := c.read()
				if m.Turn != i+1 {
					t.Errorf("device %d gets turn %d after %d", d, m.Turn, i)
				}
				seen[d] = append(seen[d], m.Said)
			}
		})
	}
	wait.Wait()
	for d := range devices {
		if !slices.Equal(seen[d], seen[0]) {
			t.Errorf("device %d sees another order than device 0", d)
		}
	}
}

// A client that does not read is closed by name while the other goes on, and
// finds everything when it comes back.
func TestSlowClient(t *testing.T) {
	p := serving(t, limited(Limits{Queue: 4}))
	slow, opened := p.join(t, "", 0)
	quick, _ := p.join(t, opened.Talk, 0)
	turns := 0
	eventually(t, "the slow client's queue to fill", func() bool {
		turns++
		wantTurn(t, quick.say(fmt.Sprint(turns), "long"), turns, "long")
		return p.isEnding(opened.Talk)
	})
	seen := 0
	for {
		text, err := slow.readText()
		if err != nil {
			wantTooSlow(t, err)
			break
		}
		if len(text) < 256<<10 {
			t.Fatalf("a message of %d bytes", len(text))
		}
		seen++
	}
	if seen == 0 || seen >= turns {
		t.Errorf("the slow client saw %d of %d turns", seen, turns)
	}
	_, again := p.join(t, opened.Talk, seen)
	if again.Turn != turns || len(again.Log) != turns-seen {
		t.Errorf("it comes back to turn %d and misses %d, want %d and %d", again.Turn, len(again.Log), turns, turns-seen)
	}
}

func wantTooSlow(t *testing.T, err error) {
	t.Helper()
	if want := "websocket: close 4008: too slow, come back"; err.Error() != want {
		t.Errorf("slow client gets %v, want %s", err, want)
	}
}

// isEnding reports whether a follower of the talk is being closed.
func (p *place) isEnding(id string) bool {
	t := p.find(id)
	t.mu.Lock()
	defer t.mu.Unlock()
	return slices.ContainsFunc(t.followers, func(c *conn) bool { return c.out.ending() })
}

// A client that never reads again is cut off by the write deadline, and holds
// up nobody.
func TestDeadClient(t *testing.T) {
	p := serving(t, limited(Limits{Queue: 4, Write: time.Second}))
	_, opened := p.join(t, "", 0)
	quick, _ := p.join(t, opened.Talk, 0)
	turns := 0
	eventually(t, "the dead client to hold something up", func() bool {
		turns++
		wantTurn(t, quick.say(fmt.Sprint(turns), "long"), turns, "long")
		return p.isEnding(opened.Talk) || p.followersOf(opened.Talk) == 1
	})
	eventually(t, "the dead client to be cut off", func() bool { return p.followersOf(opened.Talk) == 1 })
	wantTurn(t, quick.say("last", "crust"), turns+1, "crust")
}
