package voicetrial

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"sparehand/internal/serve"
	"sparehand/internal/talk"
	"sparehand/internal/voice"
	"sparehand/internal/voicetrial/maker"
)

// caller talks over the wire, by voice alone.
type caller struct {
	t     testing.TB
	ws    *websocket.Conn
	voice Voice
	said  int
	reply talk.Reply
}

// call opens a talk at a server with real ears.
func call(t testing.TB, v Voice) *caller {
	t.Helper()
	s := serve.New(serve.Config{Assistant: serve.Talks(talk.New(realBook(t))), Ears: ears(t), Now: func() time.Time { return start }})
	h := httptest.NewServer(s.Handler())
	t.Cleanup(func() {
		h.Close()
		if err := s.Shutdown(t.Context()); err != nil && t.Context().Err() == nil {
			t.Error(err)
		}
	})
	ws, _, err := websocket.DefaultDialer.Dial("ws"+strings.TrimPrefix(h.URL, "http")+"/ws", nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { ws.Close() })
	c := &caller{t: t, ws: ws, voice: v}
	c.send(serve.Request{Kind: "open"})
	c.read("opened")
	return c
}

func (c *caller) send(r serve.Request) {
	c.t.Helper()
	r.V = serve.Version
	if err := c.ws.WriteJSON(r); err != nil {
		c.t.Fatal(err)
	}
}

// read reads up to a message of one of the kinds.
func (c *caller) read(kinds ...string) serve.Message {
	c.t.Helper()
	for {
		_ = c.ws.SetReadDeadline(time.Now().Add(time.Minute))
		_, text, err := c.ws.ReadMessage()
		if err != nil {
			c.t.Fatal(err)
		}
		var m serve.Message
		if err := json.Unmarshal(text, &m); err != nil {
			c.t.Fatal(err)
		}
		for _, kind := range kinds {
			if m.Kind == kind {
				if m.Reply != nil {
					c.reply = *m.Reply
				}
				return m
			}
		}
		if m.Kind == "fault" {
			c.t.Fatalf("fault: %s", m.Fault)
		}
	}
}

// says speaks, twice as fast as people do, and gives what came of it.
func (c *caller) says(text string) serve.Message {
	c.t.Helper()
	c.said++
	pcm := InRoom(say(c.t, c.voice, text), math.Inf(1), edge, voice.Rate, rand.New(rand.NewPCG(1, uint64(c.said))))
	c.send(serve.Request{Kind: "listen", Ref: fmt.Sprint("utterance ", c.said)})
	const frame = voice.Rate / 50
	tick := time.NewTicker(10 * time.Millisecond)
	defer tick.Stop()
	for at := 0; at < len(pcm); at += frame {
		<-tick.C
		c.sound(pcm[at:min(at+frame, len(pcm))], at < len(pcm)-voice.Rate)
	}
	m := c.read("turn", "unheard")
	c.t.Logf("%s: %q was heard as %q: %s", c.voice.Name, text, m.Said, c.reply.Say)
	return m
}

func (c *caller) sound(pcm []int16, speech bool) {
	frame := make([]byte, 1, 1+2*len(pcm))
	if speech {
		frame[0] = 1
	}
	for _, s := range pcm {
		frame = append(frame, byte(s), byte(uint16(s)>>8))
	}
	if err := c.ws.WriteMessage(websocket.BinaryMessage, frame); err != nil {
		c.t.Fatal(err)
	}
}

// A whole diagnosis, spoken only: from the first sentence to a remedy.
func TestLeakingDamSpoken(t *testing.T) {
	for _, v := range []Voice{Scored[1], Scored[2], Tuning[3]} {
		t.Run(v.Name, func(t *testing.T) {
			c, m := call(t, v), maker.Leaking{}
			for c.said < 40 && len(c.reply.Remedies) == 0 {
				c.says(m.Says(c.reply))
			}
			if c.reply.Problem != "dam-leaks" || len(c.reply.Remedies) == 0 {
				t.Fatalf("after %d utterances it is at %q, with %d remedies: %s", c.said, c.reply.Problem, len(c.reply.Remedies), c.reply.Say)
			}
		})
	}
}

// A timer is set by voice, and read back.
func TestTimerSpoken(t *testing.T) {
	c := call(t, Scored[1])
	c.says("set a timer for ten minutes")
	if len(c.reply.Timers) == 0 && c.reply.Question != nil && c.reply.Question.Fact == "meaning" {
		c.says("yes") // it asked whether that was said
	}
	if len(c.reply.Timers) != 1 || !c.reply.Timers[0].Due.Equal(start.Add(10*time.Minute)) {
		t.Errorf("timers are %+v: %s", c.reply.Timers, c.reply.Say)
	}
}

// In a build the step is said again when that is asked for.
func TestStepRepeatedSpoken(t *testing.T) {
	c := call(t, Scored[1])
	c.send(serve.Request{Kind: "say", Ref: "typed", Text: "guide me through a barnacle cheek"})
	c.read("turn")
	asked := c.reply.Question
	c.says("repeat that")
	if asked == nil || c.reply.Question == nil || c.reply.Question.Fact != asked.Fact || !strings.Contains(c.reply.Say, asked.Text) {
		t.Errorf("asked to repeat it says %q, and had asked %v", c.reply.Say, asked)
	}
}
