package voicetrial

import (
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/talk"
)

// start is when every talk of a trial takes place.
var start = time.Date(2026, 3, 7, 10, 0, 0, 0, time.UTC)

// asking finds talks in which facts are asked for: the events up to the
// question, by the fact's name. Each problem, sum and build is opened, and each
// question of it is answered with "not sure".
func asking(a *talk.Assistant, b *book.Book) map[string][]talk.Event {
	found := map[string][]talk.Event{"-": nil}
	var first []string
	for _, p := range b.Problems {
		i := slices.IndexFunc(p.Sayings, func(text string) bool { return a.Open().Hear(text, start).Problem == p.ID })
		first = append(first, p.Sayings[max(i, 0)])
	}
	for _, sum := range b.Amounts {
		for _, text := range sum.Says {
			first = append(first, "how much "+text, text)
		}
	}
	first = append(first, "guide me through a barnacle cheek")
	for _, text := range first {
		s := a.Open()
		r := s.Hear(text, start)
		for range 40 {
			q := r.Question
			if q == nil {
				break
			}
			if _, known := found[q.Fact]; !known && b.FactByName(q.Fact) != nil {
				found[q.Fact] = slices.Clone(s.Events())
			}
			next, err := s.Pick(0, start)
			if err != nil {
				break
			}
			r = next
		}
	}
	return found
}

// acted tells whether a reply acts on something: facts told, a problem, an
// emergency, a build or timers.
func acted(before, after talk.Reply) bool {
	return before.Problem != after.Problem || before.Emergency != after.Emergency || len(before.Timers) != len(after.Timers) ||
		(before.Build == nil) != (after.Build == nil) || before.Done != after.Done || factsDiffer(before, after) ||
		before.Question != nil && after.Question != nil && before.Question.Fact != after.Question.Fact && !asksBack(after)
}

func factsDiffer(a, b talk.Reply) bool {
	if len(a.Facts) != len(b.Facts) {
		return true
	}
	for name, v := range a.Facts {
		if b.Facts[name] != v {
			return true
		}
	}
	return false
}

// asksBack tells whether a reply asks what was said, instead of acting.
func asksBack(r talk.Reply) bool {
	return r.Question != nil && (r.Question.Fact == "meaning" || r.Question.Fact == "problem" || r.Question.Fact == "emergency") ||
		strings.HasPrefix(r.Say, "I didn't catch that")
}
