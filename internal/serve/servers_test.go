package serve

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"sync"
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

// sharedPostgres is that of all tests but those that stop it; TestMain ends it.
var sharedPostgres = sync.OnceValues(func() (*pgtest.Server, error) {
	s, err := pgtest.New()
	if err == nil {
		endPostgres = s.Close
	}
	return s, err
})

var endPostgres = func() error { return nil }

// stores are the stores that a test runs on, by name.
func stores(t *testing.T, run func(t *testing.T, where string)) {
	t.Run("sqlite", func(t *testing.T) { run(t, filepath.Join(t.TempDir(), "notebook.db")) })
	t.Run("postgres", func(t *testing.T) {
		s, err := sharedPostgres()
		pgtest.Needed(t, err)
		run(t, s.URL(t))
	})
}

// longTalk is a talk of over a hundred turns: words, picks, corrections, steps
// back, a build and timers.
func longTalk() []Request {
	words := []string{"guide me through a barnacle cheek", "never, my first", "the call is in four days", "cheek", "60 mm", "45 mm", "12 mm", "oil",
		"tell me in twenty minutes to wet the sponge", "is it ready", "done", "no allergy known", "yes", "no", "worn before", "done", "my clay is cracking"}
	later := []string{"will I make it", "plaster is running out under the wall", "that did it", "what comes next", "not sure"}
	var script []Request
	for i := range 125 {
		r := Request{Kind: "pick", N: i % 3}
		switch {
		case i < len(words):
			r = Request{Kind: "say", Text: words[i]}
		case i%7 == 3:
			r = Request{Kind: "undo"}
		case i%7 == 5:
			r = Request{Kind: "correct", Fact: "piece_height_mm", Value: fmt.Sprintf("%d mm", 8+i%9)}
		case i%7 == 6:
			r = Request{Kind: "say", Text: later[i%5]}
		}
		r.Ref = fmt.Sprintf("ref-%d", i)
		script = append(script, r)
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

// together makes two servers of one store and one clock, whose timers ring when
// the test says so.
func together(t *testing.T, where string) (a, b *place) {
	t.Helper()
	byHand := limited(Limits{Ring: time.Hour})
	a = serving(t, realTalks(t), byHand, withStore(t, where))
	return a, serving(t, realTalks(t), byHand, withStore(t, where), by(a.clock))
}

// A talk that moves between two servers of one store at every turn equals the
// same talk on one server that keeps nothing. A client that stays connected is
// also shown what was taken at the other server.
func TestTalkMovesBetweenServers(t *testing.T) {
	script := longTalk()
	want := talkAlone(t, script)
	stores(t, func(t *testing.T, where string) {
		t.Run("reconnecting", func(t *testing.T) {
			a, b := together(t, where)
			_, opened := a.join(t, "", 0)
			talkAtBoth(t, script, want, a.clock, func(i, seen int) (*place, *client, func()) {
				at := []*place{a, b}[i%2]
				c, again := at.join(t, opened.Talk, seen)
				if again.Talk != opened.Talk {
					t.Fatalf("request %d: the other server opens %q: %s", i, again.Talk, again.Fault)
				}
				return at, c, func() { c.ws.Close() }
			})
		})
		t.Run("connected to both", func(t *testing.T) {
			a, b := together(t, where)
			here, opened := a.join(t, "", 0)
			there, _ := b.join(t, opened.Talk, 0)
			talkAtBoth(t, script, want, a.clock, func(i, _ int) (*place, *client, func()) {
				return []*place{a, b}[i%2], []*client{here, there}[i%2], func() {}
			})
		})
	})
}

// talkAlone gives what a talk brings on one server that keeps nothing: the
// answer to each request, and the rings after every tenth.
func talkAlone(t *testing.T, script []Request) (answers []string) {
	t.Helper()
	p := serving(t, realTalks(t), limited(Limits{Ring: time.Hour}))
	c, opened := p.join(t, "", 0)
	rings := 0
	for i, r := range script {
		answers = append(answers, replyText(c.ask(r)))
		p.clock.forward(90 * time.Second)
		if i%10 == 9 {
			told := rung(t, p, c)
			answers, rings = append(answers, told...), rings+len(told)
		}
	}
	_, end := p.join(t, opened.Talk, 0)
	if end.Turn < 100 || rings == 0 || end.Reply.Build == nil {
		t.Fatalf("a talk of %d turns, %d rings, build %v shows too little", end.Turn, rings, end.Reply.Build != nil)
	}
	return answers
}

// talkAtBoth sends request i where at says, and wants the answers of talkAlone.
func talkAtBoth(t *testing.T, script []Request, want []string, clock *clock, at func(i, seen int) (*place, *client, func())) {
	t.Helper()
	n := 0
	byTurn := map[int]string{} // what was answered, by turn
	check := func(r Request, got string) {
		t.Helper()
		if n == len(want) || got != want[n] {
			t.Fatalf("answer %d (%s %s) differs:\n%s", n+1, r.Kind, r.Text, firstDifference(got, want[min(n, len(want)-1)]))
		}
		n++
	}
	for i, r := range script {
		p, c, leave := at(i, len(byTurn))
		m := c.ask(r)
		for ; m.Ref != r.Ref; m = c.read() { // taken at the other server meanwhile
			if got := replyText(m); got != byTurn[m.Turn] {
				t.Fatalf("turn %d is shown differently:\n%s", m.Turn, firstDifference(got, byTurn[m.Turn]))
			}
		}
		check(r, replyText(m))
		if m.Kind == "turn" {
			byTurn[m.Turn] = replyText(m)
		}
		clock.forward(90 * time.Second)
		if i%10 == 9 {
			for _, told := range rung(t, p, c) {
				check(r, told)
				byTurn[len(byTurn)+1] = told
			}
		}
		leave()
	}
	if n != len(want) {
		t.Errorf("%d answers came, and %d on one server", n, len(want))
	}
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

// Who follows a talk at one server sees what is said at another at its next
// look, and it looks at least every two seconds.
func TestFollowAtAnotherServer(t *testing.T) {
	if every := (Limits{}).orDefaults().Ring; every > 2*time.Second {
		t.Errorf("a server looks every %v only", every)
	}
	stores(t, func(t *testing.T, where string) {
		a, b := serving(t, limited(Limits{Ring: time.Hour}), withStore(t, where)), serving(t, withStore(t, where))
		here, opened := a.join(t, "", 0)
		there, again := b.join(t, opened.Talk, 0)
		if again.Talk != opened.Talk {
			t.Fatalf("the other server opens %s", show(again))
		}
		there.say("1", "the crust curls")
		there.say("2", "at the brow")
		if err := a.follow(); err != nil {
			t.Fatal(err)
		}
		wantTurn(t, here.read(), 1, "the crust curls")
		wantTurn(t, here.read(), 2, "at the brow")
		here.say("3", "and the nose")
		wantTurn(t, there.read(), 3, "and the nose") // by a look of its own
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
