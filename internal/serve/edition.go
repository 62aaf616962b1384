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

// sameAnswer reports whether answer n means the same in both questions.
func sameAnswer(a, b *talk.Question, n int) bool {
	if a == nil || b == nil || a.Fact != b.Fact {
		return false
	}
	if n == 0 {
		return true
	}
	return n <= len(a.Options) && n <= len(b.Options) && a.Options[n-1].Value == b.Options[n-1].Value
}
