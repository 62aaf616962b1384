package serve

import "sparehand/internal/talk"

// edition is an assistant with the number of its book, counted up with every
// change.
type edition struct {
	Assistant
	number int
}

// Use goes on with another assistant, such as one with a changed book. Talks
// are built again from their events at their next turn; none is dropped.
func (s *Server) Use(a Assistant) {
	for {
		old := s.shelf.Load()
		next := &edition{Assistant: a}
		if old != nil {
			next.number = old.number + 1
		}
		if s.shelf.CompareAndSwap(old, next) {
			return
		}
	}
}

// staleQuestion is a number picked from a question that the changed book no
// longer asks like that. It carries the reply in force now.
type staleQuestion struct{ reply talk.Reply }

func (staleQuestion) Error() string {
	return "the book was changed meanwhile, so look at the question again and answer it as it is now"
}

// asked is what a client was asked last, and by which book.
type asked struct {
	edition  int
	question *talk.Question // nil when nothing was asked
	remedy   string         // the one to do first, which "did it work" is about, or ""
}

func askedBy(a *edition, r talk.Reply) *asked {
	now := &asked{edition: a.number}
	if r.Question != nil {
		q := *r.Question // a copy: the session's own would keep parts of its book from being let go
		now.question = &q
	}
	if len(r.Remedies) > 0 {
		now.remedy = r.Remedies[0].ID
	}
	return now
}

// sameAnswer reports whether answer n means the same in both. Words count as
// well as ids: a question turned round wants the other answer.
func (a *asked) sameAnswer(b *asked, n int) bool {
	was, is := a.question, b.question
	switch {
	case was == nil || is == nil:
		return was == is
	case was.Fact != is.Fact || was.Text != is.Text || a.remedy != b.remedy:
		return false
	case n == 0:
		return true
	}
	had, has := n <= len(was.Options), n <= len(is.Options)
	if !had || !has {
		return had == has // what neither has is for the session to refuse
	}
	return was.Options[n-1] == is.Options[n-1]
}

// stale refuses a pick that means something else by the book in use than by
// the one that asked this client. The refusal brings the reply in force, so
// from then on the client is asked by that. The talk is locked.
func (c *conn) stale(a *edition, r Request) error {
	if r.Kind != "pick" || c.asked.edition == a.number {
		return nil
	}
	reply := c.talk.awake(a).Reply()
	now := askedBy(a, reply)
	if c.asked.sameAnswer(now, r.N) {
		return nil
	}
	c.asked = now
	return staleQuestion{reply}
}
