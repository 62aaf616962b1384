// Package serve lets browsers and programs talk with the assistant: the page
// and a websocket, over HTTP. It knows talks and their turns, and no rules.
//
// protocol.go holds the messages. A talk outlives its connections: a client
// that lost its connection opens another, says which talk it was in and which
// turn it has seen, and goes on.
package serve

import (
	"context"
	"crypto/rand"
	"encoding/base64"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"github.com/gorilla/websocket"

	"sparehand/internal/voice"
)

// Config is what a server is made of.
type Config struct {
	Assistant Assistant        // needed; see Talks
	Assets    fs.FS            // the page: index.html and what it loads; nil for none
	Store     Store            // keeps the talks; nil for memory alone
	Ears      voice.Recogniser // listens; nil for nothing
	Speaker   Speaker          // speaks; nil for nothing
	Voice     Voice            // what clients are told of both
	Logger    *slog.Logger     // nil for silence; the makers' words and the ids of talks are never logged
	Now       func() time.Time // nil for time.Now

	// Hosts are the names and addresses, without port, under which the
	// server may be called, besides localhost and loopback addresses. To be
	// reached by a phone, give this machine's name or address here.
	Hosts []string

	Limits Limits
}

// Server holds the talks. It is an http.Handler maker, not a listener: the
// caller runs an http.Server with Handler.
type Server struct {
	shelf    atomic.Pointer[edition]
	store    Store
	ears     voice.Recogniser
	speaker  Speaker
	voice    Voice
	logger   *slog.Logger
	now      func() time.Time
	limits   Limits
	hosts    map[string]bool
	page     map[string]asset
	upgrader websocket.Upgrader

	stop    chan struct{}  // closed by Shutdown
	running sync.WaitGroup // the connections and the keeper

	mu    sync.Mutex // never taken while a conversation is locked
	talks map[string]*conversation
	conns map[*conn]struct{}
	down  bool
}

// New makes a server and starts its two goroutines: one pings clients and puts
// idle talks to sleep, the other rings timers. Shutdown ends them.
func New(c Config) *Server {
	s := &Server{
		store:   c.Store,
		ears:    c.Ears,
		speaker: c.Speaker,
		voice:   c.Voice,
		logger:  c.Logger,
		now:     c.Now,
		limits:  c.Limits.orDefaults(),
		hosts:   hostSet(c.Hosts),
		stop:    make(chan struct{}),
		talks:   map[string]*conversation{},
		conns:   map[*conn]struct{}{},
	}
	s.Use(c.Assistant)
	if s.logger == nil {
		s.logger = slog.New(slog.DiscardHandler)
	}
	if s.now == nil {
		s.now = time.Now
	}
	s.page = loadPage(c.Assets, s.logger)
	s.upgrader = newUpgrader()
	s.running.Go(s.keep)
	s.running.Go(s.ringing)
	return s
}

// Handler serves the page at /, the websocket at /ws, speech at /aloud and, for
// watchdogs, /health, which says ok, or 503 when the server is going down.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /ws", s.upgrade)
	mux.HandleFunc("GET /health", s.health)
	mux.HandleFunc("POST /aloud", s.aloud)
	mux.HandleFunc("GET /", s.servePage)
	return s.guard(mux)
}

func (s *Server) health(w http.ResponseWriter, _ *http.Request) {
	if s.isDown() {
		http.Error(w, goingDown.text, http.StatusServiceUnavailable)
		return
	}
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	fmt.Fprintln(w, "ok")
}

// Shutdown refuses new connections with 503, tells every client that the
// server is going down, and waits for the connections to end. When ctx ends
// first, what is left is cut off, and the error says so. The listener is the
// caller's to close: http.Server.Shutdown does that, and leaves websockets be.
func (s *Server) Shutdown(ctx context.Context) error {
	if s.setDown() {
		close(s.stop)
	}
	for _, c := range s.connections() {
		c.close(&goingDown)
	}
	done := make(chan struct{})
	go func() {
		s.running.Wait()
		close(done)
	}()
	select {
	case <-done:
		return nil
	case <-ctx.Done():
	}
	left := s.connections()
	for _, c := range left {
		c.ws.Close()
	}
	return fmt.Errorf("%d connections had to be cut off: %w", len(left), context.Cause(ctx))
}

func (s *Server) isDown() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.down
}

// setDown reports whether the server was up before.
func (s *Server) setDown() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	was := s.down
	s.down = true
	return !was
}

func (s *Server) connections() []*conn {
	s.mu.Lock()
	defer s.mu.Unlock()
	all := make([]*conn, 0, len(s.conns))
	for c := range s.conns {
		all = append(all, c)
	}
	return all
}

// find gives nil for a talk that is not held.
func (s *Server) find(id string) *conversation {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.talks[id]
}

// findOrLoad gives a talk that is held or in the store; errGone where it is
// neither.
func (s *Server) findOrLoad(id string) (*conversation, error) {
	if t := s.find(id); t != nil {
		return t, nil
	}
	return s.load(id)
}

// errFull is for the maker.
var errFull = errors.New("there is no room for another talk just now: try again later")

// begin opens a talk. Its error is for the maker. A store that can't be reached
// is no reason to turn anybody away: it is tried again with the first turn.
func (s *Server) begin() (*conversation, error) {
	now := s.shelf.Load()
	t := &conversation{id: newID(), session: now.Open(), edition: now.number, used: s.now(), opened: s.now()}
	if s.store != nil {
		ctx, done := within()
		defer done()
		if err := s.store.Begin(ctx, t.id, t.opened); err != nil {
			s.logger.Error("talk not kept yet", "why", err)
		} else {
			t.begun = true
		}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.talks) >= s.limits.Talks {
		return nil, errFull
	}
	s.talks[t.id] = t
	return t, nil
}

// newID gives 128 random bits: whoever has the id may join the talk.
func newID() string {
	var b [16]byte
	_, _ = rand.Read(b[:]) // never fails, says its documentation
	return base64.RawURLEncoding.EncodeToString(b[:])
}
