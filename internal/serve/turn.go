package serve

import (
	"errors"
	"fmt"

	"sparehand/internal/journal"
	"sparehand/internal/talk"
)

// open makes the connection follow a talk: the one asked for, or a new one.
func (c *conn) open(r Request) {
	if c.talk != nil {
		c.fault(r.Ref, errors.New("this connection follows a talk already: another talk needs another connection"))
		return
	}
	m := Message{Kind: "opened", Ref: r.Ref}
	sender, err := c.joinKnown(r, m)
	if errors.Is(err, errGone) {
		if r.Talk != "" {
			m.Fault = "that talk is no longer here, so this is a new one"
		}
		var t *conversation
		if t, err = c.server.begin(); err == nil {
			sender, err = c.join(t, 0, m)
		}
	}
	if err != nil {
		c.fault(r.Ref, err)
	}
	if sender {
		c.flush()
	}
}

// joinKnown joins the talk that was asked for. One that is let go between being
// found and joined is looked for again.
func (c *conn) joinKnown(r Request, m Message) (sender bool, err error) {
	for range 3 {
		t, err := c.server.findOrLoad(r.Talk)
		if err != nil {
			return false, err
		}
		sender, err = c.join(t, r.Turn, m)
		if !errors.Is(err, errGone) {
			return sender, err
		}
	}
	return false, errGone
}

// errGone means a talk that is not here, or not any more.
var errGone = errors.New("that talk is no longer here")

// join makes the connection a follower and queues opened with the turns that
// the client has missed. It reports whether the caller has to flush.
func (c *conn) join(t *conversation, seen int, m Message) (sender bool, err error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.gone {
		return false, errGone
	}
	if err := c.server.catchUp(t); err != nil {
		return false, err
	}
	if most := c.server.limits.Followers; len(t.followers) >= most {
		return false, fmt.Errorf("%d devices follow this talk, and that is the most: close it on one of them", most)
	}
	book := c.server.shelf.Load()
	reply := t.awake(book).Reply()
	m.Talk, m.Turn, m.Log, m.Reply, m.Voice = t.id, t.turn(), t.since(seen), &reply, &c.server.voice
	f, err := encode(m)
	if err != nil {
		return false, brokenTurn{cause: err}
	}
	defer f.release()
	t.followers = append(t.followers, c)
	if c.asked = t.asked; seen < t.turn() || c.asked == nil { // or it goes on showing the last turn, and sends its pick again
		c.asked = askedBy(book, reply)
	}
	c.talk = t
	c.opened.Store(true)
	return c.out.push(f, c.server.limits.Queue), nil
}

// turn takes a turn and sends it to everyone who follows the talk; or sends
// one again, to this client alone, if its ref is known.
func (c *conn) turn(r Request) {
	sender, err := c.takeTurn(r)
	if sender {
		c.flush()
	}
	var defect brokenTurn
	if errors.Is(err, errUnheard) {
		c.tell(Message{Kind: "unheard", Ref: r.Ref})
		return
	}
	if errors.As(err, &defect) {
		c.server.logger.Error("turn broke", "kind", r.Kind, "cause", defect.cause, "stack", string(defect.stack))
	}
	if err != nil {
		c.fault(r.Ref, err)
	}
}

// mostTries is how often a turn is tried that other servers get before.
const mostTries = 8

// takeTurn queues the turn's message while the talk is locked, so that all
// followers get the turns in one order. It reports whether the caller has to
// flush this connection.
func (c *conn) takeTurn(r Request) (sender bool, err error) {
	t := c.talk
	t.mu.Lock()
	defer t.mu.Unlock()
	for range mostTries {
		if err := c.server.catchUp(t); err != nil {
			return false, notKept{err}
		}
		sender, err = c.tryTurn(r)
		if !errors.Is(err, journal.ErrBehind) && !errors.Is(err, journal.ErrUsed) {
			return sender, err
		}
	}
	if errors.Is(err, journal.ErrUsed) {
		return false, errors.New("that was answered long ago")
	}
	return false, errors.New("others answer in this talk at the same time: say it again")
}

func (c *conn) tryTurn(r Request) (sender bool, err error) {
	t, s := c.talk, c.server
	asks := r.asks()
	if u, used := t.refs.find(r.Ref); used {
		if u.asks != asks {
			return false, errors.New("that ref was used for something else in this talk")
		}
		return c.repeat(u)
	}
	if t.turn() >= s.limits.Turns {
		return false, fmt.Errorf("this talk has had %d turns, which is the most: open a new one", s.limits.Turns)
	}
	book := s.shelf.Load()
	if err := c.stale(book, r); err != nil {
		return false, err
	}
	before, asked := t.taken(), t.asked
	f, err := t.take(book, r, s.now())
	if err != nil {
		return false, err
	}
	defer f.release()
	if err := s.keepTurn(t, before, r.Ref, asks); err != nil {
		t.asked = asked
		return false, err
	}
	t.refs.add(usedRef{r.Ref, asks, t.turn()}, s.limits.Refs)
	s.spread(t, f, c)
	return c.out.push(f, s.limits.Queue), nil
}

// paper sends something to print or keep, to this client alone.
func (c *conn) paper(r Request) {
	t, s := c.talk, c.server
	t.mu.Lock()
	err := s.catchUp(t)
	var paper talk.Paper
	if err == nil {
		paper, err = t.awake(s.shelf.Load()).Paper(r.Text, s.now())
	}
	turn := t.turn()
	t.mu.Unlock()
	if err != nil {
		c.fault(r.Ref, err)
		return
	}
	c.tell(Message{Kind: "paper", Ref: r.Ref, Turn: turn, Paper: &paper})
}

// repeat queues an earlier turn for this client alone.
func (c *conn) repeat(u usedRef) (sender bool, err error) {
	f, err := encode(c.talk.again(c.server.shelf.Load(), u))
	if err != nil {
		return false, brokenTurn{cause: err}
	}
	defer f.release()
	return c.out.push(f, c.server.limits.Queue), nil
}
