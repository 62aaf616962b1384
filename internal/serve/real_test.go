package serve

import (
	"encoding/json"
	"fmt"
	"sync"
	"testing"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/talk"
	"sparehand/rules"
)

// firstWords open the talk of an idle client.
const firstWords = "plaster is running out under the wall"

// realAssistant is the assistant over the book that sparehand comes with.
var realAssistant = sync.OnceValues(func() (Assistant, error) {
	b, err := book.Load(rules.Files)
	if err != nil {
		return nil, err
	}
	return Talks(talk.New(b)), nil
})

// realPlace is a server with the real book, and a script for it: some words,
// then the first answer to every question.
func realPlace(t testing.TB) (*place, []Request) {
	t.Helper()
	a, err := realAssistant()
	if err != nil {
		t.Fatal(err)
	}
	script := []Request{{Kind: "say", Text: firstWords}}
	s := a.Open()
	r := s.Hear(firstWords, newClock().Now())
	for len(script) < 8 && r.Question != nil && len(r.Question.Options) > 0 {
		if r, err = s.Pick(1, newClock().Now()); err != nil {
			t.Fatal(err)
		}
		script = append(script, Request{Kind: "pick", N: 1})
	}
	if len(script) < 3 {
		t.Fatalf("a talk of %d turns is no talk: it ends with %q", len(script), r.Say)
	}
	return serving(t, func(c *Config) { c.Assistant = a }), script
}

// The websocket carries the very replies of a session, also after the session
// was dropped and built again, and when a turn is sent again.
func TestRealTalk(t *testing.T) {
	p, script := realPlace(t)
	direct := p.shelf.Load().Open()
	c, opened := p.join(t, "", 0)
	wantReply(t, opened, direct.Reply())
	var replies []talk.Reply
	for i, r := range script {
		r.Ref = fmt.Sprint("ref ", i)
		reply, err := act(direct, r, p.clock.Now())
		if err != nil {
			t.Fatal(err)
		}
		wantReply(t, c.ask(r), reply)
		replies = append(replies, reply)
		p.idle(p.clock.forward(3 * time.Minute))
	}
	for i, r := range script {
		r.Ref = fmt.Sprint("ref ", i)
		m := c.ask(r)
		wantReply(t, m, replies[i])
		if m.Turn != i+1 {
			t.Errorf("ref %d brings turn %d", i, m.Turn)
		}
	}
	_, again := p.join(t, opened.Talk, 0)
	wantReply(t, again, replies[len(replies)-1])
	for i, line := range again.Log {
		if line.Say != replies[i].Say || line.Title != replies[i].Title || line.Said == "" {
			t.Errorf("log line %d is %+v", i, line)
		}
	}
	if len(again.Log) != len(script) {
		t.Errorf("log has %d lines, want %d", len(again.Log), len(script))
	}
}

func wantReply(t *testing.T, m Message, want talk.Reply) {
	t.Helper()
	got, err := json.Marshal(m.Reply)
	if err != nil {
		t.Fatal(err)
	}
	wanted, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(wanted) {
		t.Errorf("%s of turn %d brings\n%s\nwant\n%s", m.Kind, m.Turn, got, wanted)
	}
}
