package serve

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http/httptest"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/gorilla/websocket"
)

// patience bounds every wait of a test; a test that works never waits so long.
const patience = 20 * time.Second

// clock is a clock that a test moves by hand.
type clock struct {
	mu  sync.Mutex
	now time.Time
}

func newClock() *clock {
	return &clock{now: time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC)}
}

func (c *clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

func (c *clock) forward(d time.Duration) time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
	return c.now
}

// place is a server on loopback with its fake assistant and its clock.
type place struct {
	*Server
	fake  *fake
	clock *clock
	http  *httptest.Server
}

var testPage = fstest.MapFS{
	"index.html":     {Data: []byte("<!doctype html><title>bench</title>")},
	"css/bench.css":  {Data: []byte("body{}")},
	"js/bench.js":    {Data: []byte("export {}")},
	"icon.svg":       {Data: []byte("<svg xmlns='http://www.w3.org/2000/svg'/>")},
	"embed.go":       {Data: []byte("package web")},
	"js/.hidden":     {Data: []byte("x")},
	"js/notes.draft": {Data: []byte("x")},
}

// serving starts a place that ends with the test, and checks that no
// goroutine stays behind.
func serving(t testing.TB, change ...func(*Config)) *place {
	t.Helper()
	before := runtime.NumGoroutine()
	p := &place{fake: &fake{wait: make(chan struct{})}, clock: newClock()}
	config := Config{Assistant: Talks(p.fake), Assets: testPage, Now: p.clock.Now}
	for _, c := range change {
		c(&config)
	}
	p.Server = New(config)
	p.http = httptest.NewServer(p.Handler())
	t.Cleanup(func() {
		p.http.Close()
		ctx, cancel := context.WithTimeout(context.Background(), patience)
		defer cancel()
		if err := p.Shutdown(ctx); err != nil {
			t.Errorf("shutdown: %v", err)
		}
		if _, fuzzing := t.(*testing.F); fuzzing {
			return // fuzzing has goroutines of its own
		}
		eventually(t, "goroutines to end", func() bool { return runtime.NumGoroutine() <= before })
	})
	return p
}

func limited(l Limits) func(*Config) {
	return func(c *Config) { c.Limits = l }
}

// eventually waits for something that happens on another goroutine.
func eventually(t testing.TB, what string, done func() bool) {
	t.Helper()
	for end := time.Now().Add(patience); !done(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("waited in vain for %s", what)
		}
	}
}

// client is one connection of a test.
type client struct {
	t  testing.TB
	ws *websocket.Conn
}

func (p *place) address() string { return "ws" + strings.TrimPrefix(p.http.URL, "http") + "/ws" }

func (p *place) dial(t testing.TB) *client {
	t.Helper()
	ws, _, err := websocket.DefaultDialer.Dial(p.address(), nil)
	if err != nil {
		t.Fatalf("dial: %v", err)
	}
	t.Cleanup(func() { ws.Close() })
	return &client{t, ws}
}

// join dials and opens a talk, "" for a new one.
func (p *place) join(t testing.TB, id string, seen int) (*client, Message) {
	t.Helper()
	c := p.dial(t)
	return c, c.ask(Request{Kind: "open", Talk: id, Turn: seen})
}

func (c *client) send(r Request) {
	c.t.Helper()
	if r.V == 0 {
		r.V = Version
	}
	text, err := json.Marshal(r)
	if err != nil {
		c.t.Fatal(err)
	}
	c.sendText(string(text))
}

func (c *client) sendText(text string) {
	c.t.Helper()
	if err := c.ws.WriteMessage(websocket.TextMessage, []byte(text)); err != nil {
		c.t.Fatalf("write: %v", err)
	}
}

func (c *client) readText() ([]byte, error) {
	_ = c.ws.SetReadDeadline(time.Now().Add(patience))
	kind, text, err := c.ws.ReadMessage()
	if err == nil && kind != websocket.TextMessage {
		err = fmt.Errorf("a frame of type %d", kind)
	}
	return text, err
}

func (c *client) read() Message {
	c.t.Helper()
	text, err := c.readText()
	if err != nil {
		c.t.Fatalf("read: %v", err)
	}
	var m Message
	if err := json.Unmarshal(text, &m); err != nil {
		c.t.Fatalf("message %s: %v", text, err)
	}
	return m
}

func (c *client) ask(r Request) Message {
	c.t.Helper()
	c.send(r)
	return c.read()
}

func (c *client) say(ref, text string) Message {
	c.t.Helper()
	return c.ask(Request{Kind: "say", Ref: ref, Text: text})
}

// wantClosed reads to the end and checks why the server closed.
func (c *client) wantClosed(why reason) {
	c.t.Helper()
	for {
		_, err := c.readText()
		if err == nil {
			continue
		}
		var closed *websocket.CloseError
		if !errors.As(err, &closed) || closed.Code != why.code || closed.Text != why.text {
			c.t.Errorf("closed with %v, want %d %q", err, why.code, why.text)
		}
		return
	}
}

func wantTurn(t testing.TB, m Message, turn int, said string) {
	t.Helper()
	if m.V != Version || m.Kind != "turn" || m.Turn != turn || m.Said != said || m.Reply == nil {
		t.Fatalf("got %s, want turn %d, said %q", show(m), turn, said)
	}
	if want := fmt.Sprintf("%d: %s", turn, said); m.Reply.Say != want {
		t.Fatalf("reply says %q, want %q", m.Reply.Say, want)
	}
}

func wantFault(t testing.TB, m Message, part string) {
	t.Helper()
	if m.Kind != "fault" || !strings.Contains(m.Fault, part) || m.Reply != nil {
		t.Fatalf("got %s, want a fault with %q", show(m), part)
	}
}

func said(log []LogLine) []string {
	var all []string
	for _, line := range log {
		all = append(all, line.Said)
	}
	return all
}

func wantSaid(t testing.TB, log []LogLine, want ...string) {
	t.Helper()
	if got := said(log); !slices.Equal(got, want) {
		t.Fatalf("log has %q, want %q", got, want)
	}
}

func show(m Message) string {
	text, err := json.Marshal(m)
	if err != nil {
		return err.Error()
	}
	return string(text[:min(len(text), 300)])
}
