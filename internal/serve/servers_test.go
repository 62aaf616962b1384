package serve

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparehand/internal/journal"
	"sparehand/internal/pgtest"
)

// withStore gives a server the store at an address, opened for it alone.
func withStore(t testing.TB, where string) func(*Config) {
	t.Helper()
	j, err := journal.Open(context.Background(), where)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	return func(c *Config) { c.Store = j }
}

// by makes a server go by the clock of another.
func by(clock *clock) func(*Config) {
	return func(c *Config) { c.Now = clock.Now }
}

// realTalks makes a server talk by the real book.
func realTalks(t testing.TB) func(*Config) {
	t.Helper()
	a, err := realAssistant()
	if err != nil {
		t.Fatal(err)
	}
	return func(c *Config) { c.Assistant = a }
}

// stores are the stores that a test runs on, by name.
func stores(t *testing.T, run func(t *testing.T, where string)) {
	t.Run("sqlite", func(t *testing.T) { run(t, filepath.Join(t.TempDir(), "notebook.db")) })
	t.Run("postgres", func(t *testing.T) {
		server := pgtest.Start(t)
		run(t, server.URL(t))
	})
}

// hundredTurns is a talk with words, picks, corrections, steps back, a build and
// timers.
func hundredTurns() []Request {
	words := []string{"guide me through a barnacle cheek", "never, my first", "the call is in four days", "cheek", "60 mm", "45 mm", "12 mm", "oil",
		"tell me in twenty minutes to wet the sponge", "is it ready", "done", "no allergy known", "yes", "no", "worn before", "done", "my clay is cracking"}
	var script []Request
	for i := range 100 {
		switch {
		case i < len(words):
			script = append(script, Request{Kind: "say", Text: words[i]})
		case i%7 == 3:
			script = append(script, Request{Kind: "undo"})
		case i%7 == 5:
			script = append(script, Request{Kind: "correct", Fact: "piece_height_mm", Value: fmt.Sprintf("%d mm", 8+i%9)})
		case i%7 == 6:
			script = append(script, Request{Kind: "say", Text: []string{"will I make it", "plaster is running out under the wall", "that did it", "what comes next", "not sure"}[i%5]})
		default:
			script = append(script, Request{Kind: "pick", N: i % 3})
		}
	}
	for i := range script {
		script[i].Ref = fmt.Sprintf("ref-%d", i)
	}
	return script
}

// replyText is a message's reply as text, or its fault.
func replyText(m Message) string {
	if m.Reply == nil {
		return m.Kind + " " + m.Fault
	}
	text, err := json.Marshal(m.Reply)
	if err != nil {
		return err.Error()
	}
	return fmt.Sprintf("%s %d %s", m.Kind, m.Turn, text)
}

// A talk that moves between two servers of one store at every turn equals the
// same talk on one server that keeps nothing.
func TestTalkMovesBetweenServers(t *testing.T) {
	script := hundredTurns()
	byHand := limited(Limits{Ring: time.Hour}) // timers ring when the test says so
	alone := serving(t, realTalks(t), byHand)
	one, _ := alone.join(t, "", 0)
	var want []string
	for i, r := range script {
		want = append(want, replyText(one.ask(r)))
		alone.clock.forward(90 * time.Second)
		if i%10 == 9 {
			want = append(want, rung(t, alone, one)...)
		}
	}
	stores(t, func(t *testing.T, where string) {
		first := serving(t, realTalks(t), byHand, withStore(t, where))
		second := serving(t, realTalks(t), byHand, withStore(t, where), by(first.clock))
		n := 0
		check := func(r Request, got ...string) {
			for _, text := range got {
				if text != want[n] {
					t.Fatalf("turn %d (%s %s) differs:\n%s", n+1, r.Kind, r.Text, firstDifference(text, want[n]))
				}
				n++
			}
		}
		_, opened := first.join(t, "", 0)
		for i, r := range script {
			at := []*place{first, second}[i%2]
			c, again := at.join(t, opened.Talk, 0)
			if again.Talk != opened.Talk {
				t.Fatalf("turn %d: the other server opens %q: %s", i, again.Talk, again.Fault)
			}
			check(r, replyText(c.ask(r)))
			first.clock.forward(90 * time.Second)
			if i%10 == 9 {
				check(r, rung(t, at, c)...)
			}
			c.ws.Close()
		}
		if n != len(want) {
			t.Errorf("%d turns were taken, and %d on one server", n, len(want))
		}
	})
}

// rung rings what is due at a place, and gives what a client there is sent.
func rung(t testing.TB, p *place, c *client) (told []string) {
	t.Helper()
	talk := func() int {
		total := 0
		for _, held := range p.held() {
			held.mu.Lock()
			total += held.turn()
			held.mu.Unlock()
		}
		return total
	}
	before := talk()
	if err := p.ringDue(); err != nil {
		t.Fatal(err)
	}
	for range talk() - before {
		told = append(told, replyText(c.read()))
	}
	return told
}

func firstDifference(a, b string) string {
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	cut := func(s string) string { return s[max(0, i-120):min(len(s), i+120)] }
	return cut(a) + "\n---\n" + cut(b)
}

// Who follows a talk at one server sees what is said at another.
func TestFollowAtAnotherServer(t *testing.T) {
	stores(t, func(t *testing.T, where string) {
		a, b := serving(t, withStore(t, where)), serving(t, withStore(t, where))
		here, opened := a.join(t, "", 0)
		there, again := b.join(t, opened.Talk, 0)
		if again.Talk != opened.Talk {
			t.Fatalf("the other server opens %s", show(again))
		}
		there.say("1", "the crust curls")
		wantTurn(t, here.read(), 1, "the crust curls")
	})
}

// The same request sent to both servers is taken once.
func TestSentToBothServers(t *testing.T) {
	stores(t, func(t *testing.T, where string) {
		a, b := serving(t, withStore(t, where)), serving(t, withStore(t, where))
		here, opened := a.join(t, "", 0)
		there, _ := b.join(t, opened.Talk, 0)
		for i := range 20 {
			r := Request{Kind: "say", Ref: fmt.Sprint("r", i), Text: fmt.Sprint("barnacle ", i)}
			here.send(r)
			there.send(r)
			for _, c := range []*client{here, there} {
				m := c.read()
				for m.Ref == "" { // the same turn as the other's follower sees it
					m = c.read()
				}
				wantTurn(t, m, i+1, r.Text)
			}
		}
		eventually(t, "both to have 20 turns", func() bool { return a.turnsOf(opened.Talk) == 20 && b.turnsOf(opened.Talk) == 20 })
	})
}

// A timer rings once, though two servers watch it, and all who follow are told.
func TestTimerOfTwoServers(t *testing.T) {
	stores(t, func(t *testing.T, where string) {
		a := serving(t, realTalks(t), withStore(t, where))
		b := serving(t, realTalks(t), withStore(t, where), by(a.clock))
		here, opened := a.join(t, "", 0)
		there, _ := b.join(t, opened.Talk, 0)
		here.say("1", "tell me in ten minutes to stir the barnacles")
		there.read()
		a.clock.forward(14 * time.Minute)
		for _, c := range []*client{here, there} {
			m := c.read()
			if m.Kind != "turn" || m.Turn != 2 || m.Said != "" || !strings.Contains(m.Reply.Say, "due 4 minutes ago") {
				t.Errorf("the ring is %s", show(m))
			}
		}
		a.clock.forward(time.Hour)
		if m := here.say("2", "what timers are running"); m.Turn != 3 || !strings.Contains(m.Reply.Say, "No timer is running") {
			t.Errorf("after the ring %s", show(m))
		}
	})
}
