package serve

import (
	"errors"
	"hash/fnv"
	"time"

	"sparehand/internal/journal"
)

// mostDue is how many talks with something due are looked at in one go.
const mostDue = 200

// ringing rings the timers of all talks until the server goes down. With a
// store that is all talks there, whoever began them; a ref of its own makes each
// ring once, however many servers there are and however often they fell.
func (s *Server) ringing() {
	tick := time.NewTicker(s.limits.Ring)
	defer tick.Stop()
	failed := time.Time{} // when the store last failed; it is left alone for a while
	for {
		select {
		case <-s.stop:
			return
		case <-tick.C:
		}
		if now := time.Now(); now.Sub(failed) > s.limits.Rest {
			if err := errors.Join(s.ringDue(), s.follow()); err != nil {
				failed = now
				s.logger.Error("timers have to wait", "why", err)
			}
		}
	}
}

// ringDue rings all that is due.
func (s *Server) ringDue() error {
	now := s.now()
	if s.store == nil {
		for _, t := range s.held() {
			t.mu.Lock()
			if !t.due.IsZero() && !t.due.After(now) {
				s.ring(t, now)
			}
			t.mu.Unlock()
		}
		return nil
	}
	ctx, done := within()
	defer done()
	ids, err := s.store.Due(ctx, now, mostDue)
	if err != nil {
		return err
	}
	for _, id := range ids {
		t, err := s.findOrLoad(id)
		if err != nil {
			return err
		}
		t.mu.Lock()
		err = s.ring(t, now)
		t.mu.Unlock()
		if err != nil {
			return err
		}
	}
	return nil
}

// ring rings what is due in a talk, which is locked. A defect of one talk is
// logged and keeps no other from ringing.
func (s *Server) ring(t *conversation, now time.Time) error {
	for !t.gone {
		if err := s.catchUp(t); err != nil {
			return err
		}
		rang, err := s.ringOnce(t, now)
		var defect brokenTurn
		switch {
		case errors.As(err, &defect):
			s.logger.Error("timer broke", "cause", defect.cause, "stack", string(defect.stack))
			return nil
		case errors.Is(err, journal.ErrBehind), errors.Is(err, journal.ErrUsed):
			continue // another server was quicker
		case err != nil || !rang:
			return err
		}
	}
	return nil
}

func (s *Server) ringOnce(t *conversation, now time.Time) (rang bool, err error) {
	book := s.shelf.Load()
	before := t.taken()
	m, ref, rang, err := t.ring(book, now)
	if err != nil || !rang {
		return false, err
	}
	if err := s.keepTurn(t, before, ref, sumOf(ref)); err != nil {
		return false, err
	}
	t.refs.add(usedRef{ref, sumOf(ref), t.turn()}, s.limits.Refs)
	return true, s.show(t, m, nil)
}

func sumOf(ref string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(ref))
	return h.Sum64()
}

// follow takes in what other servers have added to talks that are followed here.
func (s *Server) follow() error {
	if s.store == nil {
		return nil
	}
	turns := map[string]int{}
	for _, t := range s.held() {
		if t.mu.TryLock() {
			if len(t.followers) > 0 && t.begun {
				turns[t.id] = t.turn()
			}
			t.mu.Unlock()
		}
	}
	if len(turns) == 0 {
		return nil
	}
	ctx, done := within()
	defer done()
	ids, err := s.store.Newer(ctx, turns)
	if err != nil {
		return err
	}
	for _, id := range ids {
		if t := s.find(id); t != nil {
			t.mu.Lock()
			err = errors.Join(err, s.catchUp(t))
			t.mu.Unlock()
		}
	}
	return err
}
