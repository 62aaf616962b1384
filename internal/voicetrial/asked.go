package voicetrial

import (
	"math/rand/v2"
	"slices"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/talk"
)

// start is when every talk of a trial takes place.
var start = time.Date(2026, 3, 7, 10, 0, 0, 0, time.UTC)

// asking finds talks in which something may be said: the events up to a question
// for a fact, by the fact's name, and up to a phase of a talk, by the phase's.
// Each problem, sum and build is opened, and its questions are answered with "not
// sure" and at random.
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
	for _, e := range b.Emergencies {
		first = append(first, e.Sayings[0])
	}
	for _, text := range first {
		for n := range walks {
			walk(a, b, text, n, found)
		}
	}
	return found
}

// walks is how many ways each talk is gone: the first by "not sure" alone.
const walks = 8

func walk(a *talk.Assistant, b *book.Book, opening string, n int, found map[string][]talk.Event) {
	chance := rand.New(rand.NewPCG(uint64(n), uint64(len(opening))))
	s := a.Open()
	r := s.Hear(opening, start)
	for range 40 {
		if _, known := found[r.Phase]; !known {
			found[r.Phase] = slices.Clone(s.Events())
		}
		q := r.Question
		if q == nil {
			return
		}
		if _, known := found[q.Fact]; !known && b.FactByName(q.Fact) != nil {
			found[q.Fact] = slices.Clone(s.Events())
		}
		pick := 0
		if n > 0 && len(q.Options) > 0 {
			pick = chance.IntN(len(q.Options) + 1)
		}
		next, err := s.Pick(pick, start)
		if err != nil {
			return
		}
		r = next
	}
}
