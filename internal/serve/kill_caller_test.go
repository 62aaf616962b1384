package serve

import (
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"github.com/gorilla/websocket"
)

// acked is a turn that a maker was told of.
type acked struct {
	turn  int
	ref   string
	said  string
	say   string
	reply string // of the last one only, as replyText
}

// caller is a maker who goes on saying things to a server that keeps falling.
type caller struct {
	n       int
	address string
	talk    string
	acks    []acked
	fault   error
}

// call says things until done, each again until it is answered.
func (c *caller) call(done <-chan struct{}) {
	var ws *websocket.Conn
	defer func() {
		if ws != nil {
			ws.Close()
		}
	}()
	for i := 0; c.fault == nil; {
		select {
		case <-done:
			return
		default:
		}
		if ws == nil {
			ws = c.dial()
			continue
		}
		r := Request{V: Version, Kind: "say", Ref: fmt.Sprintf("%d-%d", c.n, i), Text: c.words(i)}
		m, err := c.ask(ws, r)
		switch {
		case err != nil:
			ws.Close()
			ws = nil
		case m.Kind == "turn":
			c.acknowledged(r, m)
			i++
		case !strings.Contains(m.Fault, "could not be kept"):
			c.fault = fmt.Errorf("caller %d was told: %s", c.n, m.Fault)
		}
	}
}

func (c *caller) acknowledged(r Request, m Message) {
	if n := len(c.acks); n > 0 {
		c.acks[n-1].reply = ""
	}
	c.acks = append(c.acks, acked{m.Turn, r.Ref, r.Text, m.Reply.Say, replyText(m)})
}

// takesBack tells of a caller who sometimes says "back", which may take a timer
// back before it rings.
func (c *caller) takesBack() bool { return c.n%2 == 1 }

// words are those of turn i of a caller.
func (c *caller) words(i int) string {
	if i%9 == 4 {
		return fmt.Sprintf("tell me in two seconds to stir barnacle %d of crew %d", i, c.n)
	}
	words := []string{"plaster is running out under the wall", "clay strips", "it rocks when I touch it", "yes", "not sure", "what comes next", "how much plaster", "60 by 45 by 12 mm"}
	if c.takesBack() {
		words[5] = "back"
	}
	return words[(i+c.n)%8]
}

// dial connects and opens the caller's talk; nil where that fails just now.
func (c *caller) dial() *websocket.Conn {
	ws, _, err := websocket.DefaultDialer.Dial("ws://"+c.address+"/ws", nil)
	if err != nil {
		time.Sleep(5 * time.Millisecond)
		return nil
	}
	m, err := c.ask(ws, Request{V: Version, Kind: "open", Talk: c.talk})
	if err == nil && m.Kind == "opened" {
		if len(c.acks) == 0 || m.Talk == c.talk {
			c.talk = m.Talk
			return ws
		}
		c.fault = fmt.Errorf("caller %d had %d turns, and its talk is gone: %s", c.n, len(c.acks), m.Fault)
	}
	ws.Close()
	return nil
}

// ask gives the answer to a request, past what timers say meanwhile.
func (c *caller) ask(ws *websocket.Conn, r Request) (Message, error) {
	if err := ws.WriteJSON(r); err != nil {
		return Message{}, err
	}
	_ = ws.SetReadDeadline(time.Now().Add(patience))
	for {
		_, text, err := ws.ReadMessage()
		if err != nil {
			return Message{}, err
		}
		var m Message
		if err := json.Unmarshal(text, &m); err != nil {
			return Message{}, err
		}
		if m.Kind == "opened" || m.Ref == r.Ref {
			return m, nil
		}
	}
}
