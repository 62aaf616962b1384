package serve

import (
	"net/http"
	"sync"

	"github.com/gorilla/websocket"
)

// newUpgrader keeps idle connections small: a read buffer of 1 KiB, and write
// buffers that are borrowed while a message is written. Those hold a whole
// usual reply, so that it leaves in one packet.
func newUpgrader() websocket.Upgrader {
	return websocket.Upgrader{
		ReadBufferSize:  1024,
		WriteBufferSize: 4096,
		WriteBufferPool: new(sync.Pool),
		CheckOrigin:     sameOrigin,
	}
}

// upgrade turns a request into a connection with a goroutine of its own and
// returns at once: while a handler runs, net/http keeps its buffers.
func (s *Server) upgrade(w http.ResponseWriter, r *http.Request) {
	if refusal := s.refusal(); refusal != "" {
		w.Header().Set("Retry-After", "2") // seconds
		http.Error(w, refusal, http.StatusServiceUnavailable)
		return
	}
	ws, err := s.upgrader.Upgrade(w, r, nil)
	if err != nil {
		s.logger.Debug("upgrade refused", "error", err, "remote", r.RemoteAddr)
		return // the upgrader has answered
	}
	c := &conn{server: s, ws: ws}
	c.alive()
	if !s.admit(c) {
		c.out.claimIdle()
		c.sayWhy(&goingDown)
		c.drain()
		return
	}
	go c.serve()
}

// refusal says why no connection is taken now, or "".
func (s *Server) refusal() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case s.down:
		return goingDown.text
	case len(s.conns) >= s.limits.Connections:
		return "too many connections, come back later"
	}
	return ""
}

// admit counts the connection in, unless the server has gone down since.
func (s *Server) admit(c *conn) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.down {
		return false
	}
	s.conns[c] = struct{}{}
	s.running.Add(1)
	return true
}

// forget counts a connection out that has ended.
func (s *Server) forget(c *conn) {
	if c.talk != nil {
		c.talk.leave(c, s.now())
	}
	s.mu.Lock()
	delete(s.conns, c)
	s.mu.Unlock()
	s.running.Done()
}
