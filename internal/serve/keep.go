package serve

import "time"

// keep looks after connections and talks until the server goes down.
func (s *Server) keep() {
	tick := time.NewTicker(s.limits.Ping)
	defer tick.Stop()
	for {
		select {
		case <-s.stop:
			return
		case <-tick.C:
			s.look(s.now())
		}
	}
}

// look pings every connection, ends those that have gone quiet, and drops
// what is idle.
func (s *Server) look(now time.Time) {
	for _, c := range s.connections() {
		c.look(now)
	}
	for _, t := range s.idle(now) {
		s.mu.Lock()
		delete(s.talks, t.id)
		s.mu.Unlock()
	}
}

func (c *conn) look(now time.Time) {
	quiet := now.Sub(time.Unix(0, c.heard.Load()))
	switch {
	case quiet > c.server.limits.Quiet && c.opened.Load():
		c.close(&goneQuiet)
	case quiet > c.server.limits.Quiet:
		c.close(&neverOpened)
	default:
		c.ping()
	}
}

// idle puts idle talks to sleep and gives those that are to be forgotten. A
// talk in the middle of a turn is left for the next look.
func (s *Server) idle(now time.Time) []*conversation {
	var gone []*conversation
	for _, t := range s.held() {
		if !t.mu.TryLock() {
			continue
		}
		idle := now.Sub(t.used)
		if idle > s.limits.Sleep {
			t.sleep()
		}
		if idle > s.letGo(t) && len(t.followers) == 0 {
			t.gone = true
			gone = append(gone, t)
		}
		t.mu.Unlock()
	}
	return gone
}

func (s *Server) held() []*conversation {
	s.mu.Lock()
	defer s.mu.Unlock()
	all := make([]*conversation, 0, len(s.talks))
	for _, t := range s.talks {
		all = append(all, t)
	}
	return all
}

// letGo is how long an idle talk is held: one that is in the store can be read
// again at any time.
func (s *Server) letGo(t *conversation) time.Duration {
	if s.store != nil && t.begun {
		return s.limits.Sleep
	}
	return s.limits.Forget
}
