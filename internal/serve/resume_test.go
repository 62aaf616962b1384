package serve

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// turnsOf looks into the server: how many turns a talk has had.
func (p *place) turnsOf(id string) int {
	t := p.find(id)
	if t == nil {
		return -1
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.turn()
}

// cut breaks the TCP connection without a word.
func (c *client) cut() { c.ws.NetConn().Close() }

func TestResumeAfterLostAnswer(t *testing.T) {
	p := serving(t)
	c, opened := p.join(t, "", 0)
	wantTurn(t, c.say("1", "the crust curls"), 1, "the crust curls")
	lost := Request{Kind: "say", Ref: "2", Text: "at the brow"}
	c.send(lost)
	eventually(t, "the turn", func() bool { return p.turnsOf(opened.Talk) == 2 })
	c.cut() // its answer was never read

	c, again := p.join(t, opened.Talk, 1)
	if again.Talk != opened.Talk || again.Turn != 2 || again.Fault != "" {
		t.Fatalf("resumed with %s", show(again))
	}
	wantSaid(t, again.Log, "at the brow")
	if again.Log[0].Turn != 2 || again.Log[0].Say != "2: at the brow" || again.Log[0].Title != "The ferryman's barnacles" {
		t.Errorf("log line is %+v", again.Log[0])
	}
	if again.Reply.Say != "2: at the brow" {
		t.Errorf("reply in force says %q", again.Reply.Say)
	}
	wantTurn(t, c.ask(lost), 2, "at the brow")
	wantTurn(t, c.say("3", "and the nose"), 3, "and the nose")
	if got := p.turnsOf(opened.Talk); got != 3 {
		t.Errorf("talk has %d turns, want 3", got)
	}
}

// A ref sent again brings its own turn again, to the byte, however many turns
// have passed, and whether the session was asleep or not.
func TestRefSentAgain(t *testing.T) {
	p := serving(t, limited(Limits{Refs: 3}))
	c, _ := p.join(t, "", 0)
	var first [][]byte
	ask := func(i int) []byte {
		c.send(Request{Kind: "say", Ref: fmt.Sprint("ref ", i), Text: fmt.Sprint("crust ", i)})
		text, err := c.readText()
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	for i := range 5 {
		first = append(first, ask(i))
	}
	for i := 2; i < 5; i++ {
		if got := ask(i); string(got) != string(first[i]) {
			t.Errorf("ref %d first brought\n%s\nthen\n%s", i, first[i], got)
		}
	}
	p.idle(p.clock.forward(3 * time.Minute))
	if got := ask(2); string(got) != string(first[2]) {
		t.Errorf("after sleep ref 2 brings\n%s", got)
	}
	wantFault(t, c.say("ref 4", "something else"), "used for something else")
	var m Message // the oldest ref is known no longer, so it is a new turn
	if err := json.Unmarshal(ask(1), &m); err != nil {
		t.Fatal(err)
	}
	wantTurn(t, m, 6, "crust 1")
}

func TestUnknownTalk(t *testing.T) {
	p := serving(t)
	c, m := p.join(t, "AAAAAAAAAAAAAAAAAAAAAA", 7)
	if m.Kind != "opened" || m.Fault != "that talk is no longer here, so this is a new one" ||
		m.Talk == "" || m.Talk == "AAAAAAAAAAAAAAAAAAAAAA" || m.Turn != 0 || len(m.Log) != 0 {
		t.Fatalf("opened is %s", show(m))
	}
	wantTurn(t, c.say("1", "crust"), 1, "crust")
}

func TestLogSince(t *testing.T) {
	p := serving(t)
	c, opened := p.join(t, "", 0)
	c.say("1", "one")
	c.say("2", "two")
	for seen, want := range map[int][]string{0: {"one", "two"}, 1: {"two"}, 2: nil, 9: nil, -4: {"one", "two"}} {
		_, m := p.join(t, opened.Talk, seen)
		if got := said(m.Log); !slices.Equal(got, want) || m.Turn != 2 {
			t.Errorf("after %d: %q at turn %d, want %q at 2", seen, got, m.Turn, want)
		}
	}
}

// maker is a client that keeps to protocol.go: it shows a turn only once, and
// sends again what was not answered.
type maker struct {
	p       *place
	c       *client
	id      string
	shown   []string // what was said, as shown
	pending *Request
}

func (m *maker) show(turn int, said string) {
	if turn > len(m.shown) {
		m.shown = append(m.shown, said)
	}
}

func (m *maker) connect(t testing.TB) {
	var opened Message
	m.c, opened = m.p.join(t, m.id, len(m.shown))
	m.id = opened.Talk
	for _, line := range opened.Log {
		m.show(line.Turn, line.Said)
	}
	if m.pending != nil {
		m.c.send(*m.pending)
	}
}

// settle reads until nothing is pending.
func (m *maker) settle() {
	for m.pending != nil {
		got := m.c.read()
		m.show(got.Turn, got.Said)
		if got.Ref == m.pending.Ref {
			m.pending = nil
		}
	}
}

// Wherever the connection is cut, every utterance is taken once, shown once,
// and in order; and idle talks sleep in between.
func TestCutsLoseNothing(t *testing.T) {
	p := serving(t)
	rapid.Check(t, func(r *rapid.T) {
		m := &maker{p: p}
		m.connect(t)
		var want []string
		for i := range rapid.IntRange(1, 8).Draw(r, "turns") {
			words := fmt.Sprint("turn ", i)
			want = append(want, words)
			m.pending = &Request{Kind: "say", Ref: rapid.StringMatching(`[a-z]{12}`).Draw(r, "ref") + fmt.Sprint(i), Text: words}
			switch rapid.SampledFrom([]string{"none", "before", "after", "taken"}).Draw(r, "cut") {
			case "none":
				m.c.send(*m.pending)
			case "before":
				m.c.cut()
				m.connect(t)
			case "after":
				m.c.send(*m.pending)
				m.c.cut()
				m.connect(t)
			case "taken":
				m.c.send(*m.pending)
				eventually(t, "the turn", func() bool { return p.turnsOf(m.id) == i+1 })
				m.c.cut()
				p.look(p.clock.forward(3 * time.Minute))
				m.connect(t)
			}
			m.settle()
		}
		m.c.ws.Close()
		if !slices.Equal(m.shown, want) {
			r.Fatalf("shown %q, said %q", m.shown, want)
		}
		_, all := p.join(t, m.id, 0)
		if got := said(all.Log); !slices.Equal(got, want) {
			r.Fatalf("talk has %q, said %q", got, want)
		}
	})
}
