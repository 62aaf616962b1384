package voice

import (
	"encoding/json"
	"errors"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// standInServer answers as the speech servers do that are made with Kaldi's
// recognisers (the messages: alphacep/vosk-server, README.md and
// websocket/asr_server.py): partial to each message of sound, final at the end.
// It notes what it was sent.
type standInServer struct {
	partial, final string
	hangUp, mute   bool

	mu     sync.Mutex
	config string
	bytes  int
}

// note keeps what a connection sent.
func (s *standInServer) note(config string, bytes int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.config, s.bytes = s.config+config, s.bytes+bytes
}

func (s *standInServer) start(t *testing.T) *Remote {
	t.Helper()
	web := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		conn, err := new(websocket.Upgrader).Upgrade(w, r, nil)
		if err != nil {
			return // who called has gone
		}
		defer conn.Close()
		for {
			kind, data, err := conn.ReadMessage()
			switch {
			case err != nil || s.hangUp:
				return
			case kind == websocket.BinaryMessage:
				s.note("", len(data))
				err = conn.WriteMessage(websocket.TextMessage, []byte(s.partial))
			case strings.Contains(string(data), "config"):
				s.note(string(data), 0)
			case strings.Contains(string(data), "eof") && !s.mute:
				err = conn.WriteMessage(websocket.TextMessage, []byte(s.final))
			}
			if err != nil {
				return
			}
		}
	}))
	t.Cleanup(web.Close)
	r, err := NewRemote("ws" + strings.TrimPrefix(web.URL, "http"))
	if err != nil {
		t.Fatal(err)
	}
	r.patience = 2 * time.Second
	return r
}

var numbers = Expected{Number: true, High: 600, Units: []string{"millimetres"}, Commands: []string{"repeat that"}, Alarms: []string{"i'm bleeding"}}

func TestRemoteHears(t *testing.T) {
	for _, c := range []struct {
		final string
		want  Heard
	}{
		{`{"text": "fifty millimetres", "result": [{"word": "fifty", "conf": 0.6}, {"word": "millimetres", "conf": 1}]}`, Heard{Words: "fifty millimetres", Sure: 0.6}},
		{`{"text": "50 millimetres."}`, Heard{Words: "fifty millimetres", Sure: unratedExpected}},
		{`{"text": "Repeat that!", "result": [{"conf": 3}, {"conf": 1}]}`, Heard{Words: "repeat that", Sure: 1}},
		{`{"text": "water comes out below", "result": [{"conf": 1}, {"conf": 1}, {"conf": 0.5}, {"conf": 0.5}]}`, Heard{Words: "water comes out below", Sure: 0.75, Free: true}},
		{`{"text": ""}`, Heard{}},
	} {
		s := &standInServer{partial: `{"partial": ""}`, final: c.final}
		u, err := s.start(t).Listen(t.Context(), numbers)
		if err != nil {
			t.Fatal(err)
		}
		for range 10 {
			if over, err := u.Write(make([]int16, 320), true); over || err != nil {
				t.Fatal("over:", over, err)
			}
		}
		got, err := u.End()
		if err != nil || got.Words != c.want.Words || got.Sure != c.want.Sure || got.Free != c.want.Free {
			t.Errorf("%s: %+v (%v), want %+v", c.final, got, err, c.want)
		}
		s.mu.Lock()
		var told struct{ Config struct{ Sample_rate int } }
		if err := json.Unmarshal([]byte(s.config), &told); err != nil || told.Config.Sample_rate != Rate || s.bytes != 6400 {
			t.Errorf("the server was told %s and sent %d bytes (%v)", s.config, s.bytes, err)
		}
		s.mu.Unlock()
	}
}

// A phrase that is whole ends sooner than the longest pause, once the server has
// made it out.
func TestRemoteEndsWithThePhrase(t *testing.T) {
	for partial, want := range map[string]bool{"repeat that": true, "repeat": false} {
		u, err := (&standInServer{partial: `{"partial": "` + partial + `"}`, final: `{"text": "repeat that"}`}).start(t).Listen(t.Context(), numbers)
		if err != nil {
			t.Fatal(err)
		}
		ended := false
		for n := 0; n < 30 && !ended; n++ {
			if ended, err = u.Write(make([]int16, 320), n < 5); err != nil {
				t.Fatal(err)
			}
			time.Sleep(10 * time.Millisecond)
		}
		if ended != want {
			t.Errorf("%q: over %v after 500 ms of silence", partial, ended)
		}
		if said := u.SoFar(); said != partial {
			t.Errorf("so far %q", said)
		}
		u.Drop()
	}
}

// What goes wrong is one sentence that says what to do, and the next utterance
// is listened to.
func TestRemoteFaults(t *testing.T) {
	nobody, err := NewRemote("ws://127.0.0.1:1")
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		remote *Remote
		says   string
	}{
		"nobody there": {nobody, "does not answer"},
		"hangs up":     {(&standInServer{hangUp: true}).start(t), "hung up"},
		"not JSON":     {(&standInServer{partial: "what?", final: "what?"}).start(t), "DEVELOPERS.md"},
		"other JSON":   {(&standInServer{partial: `{"words": 1}`, final: `{}`}).start(t), "DEVELOPERS.md"},
		"never ends":   {(&standInServer{partial: `{"partial": ""}`, mute: true}).start(t), ErrStuck.Error()},
	} {
		for range remoteMost + 1 {
			u, err := c.remote.Listen(t.Context(), numbers)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			_, _ = u.Write(make([]int16, 320), true)
			if _, err = u.End(); err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%s: %v", name, err)
			}
			<-u.(*remoteUtterance).over
			if name == "never ends" {
				break // that takes long
			}
			for len(c.remote.most) > 0 { // it is given back last of all
				time.Sleep(time.Millisecond)
			}
		}
	}
}

func TestRemoteListensToFewAtOnce(t *testing.T) {
	r := (&standInServer{partial: `{"partial": ""}`, final: `{"text": ""}`}).start(t)
	for range remoteMost {
		u, err := r.Listen(t.Context(), numbers)
		if err != nil {
			t.Fatal(err)
		}
		defer u.Drop()
	}
	if _, err := r.Listen(t.Context(), numbers); !errors.Is(err, ErrBusy) {
		t.Errorf("one too many: %v", err)
	}
}

// While a reply is spoken only what is sure is taken, and any alarm.
func TestRemoteIsCautious(t *testing.T) {
	for said, want := range map[string]string{"repeat that": "", "i'm bleeding": "i'm bleeding"} {
		e := numbers
		e.Cautious = true
		u, err := (&standInServer{final: `{"text": "` + said + `", "result": [{"conf": 0.6}]}`}).start(t).Listen(t.Context(), e)
		if err != nil {
			t.Fatal(err)
		}
		if h, err := u.End(); err != nil || h.Words != want {
			t.Errorf("%q: %+v (%v)", said, h, err)
		}
	}
}

func TestRemoteAddress(t *testing.T) {
	for address, beyond := range map[string]bool{"ws://127.0.0.1:2700": false, "ws://localhost": false, "ws://[::1]:2700/": false, "wss://bench.local/ears": true, "ws://192.168.1.7:2700": true} {
		r, err := NewRemote(address)
		if err != nil || r.Beyond() != beyond {
			t.Errorf("%s: beyond this machine %v (%v)", address, r.Beyond(), err)
		}
	}
	for _, address := range []string{"http://127.0.0.1:2700", "127.0.0.1:2700", "here", "ws://", "ws:/x"} {
		if _, err := NewRemote(address); err == nil || !strings.Contains(err.Error(), "ws://") {
			t.Errorf("%s: %v", address, err)
		}
	}
}
