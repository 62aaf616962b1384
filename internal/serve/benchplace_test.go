package serve

import (
	"sync"
	"testing"

	"sparehand/internal/book"
	"sparehand/internal/talk"
	"sparehand/rules"
)

// firstWords open the talk of an idle client.
const firstWords = "plaster is running out under the wall"

// realAssistant is the assistant over the book that sparehand comes with.
var realAssistant = sync.OnceValues(func() (Assistant, error) {
	b, err := book.Load(rules.Files)
	if err != nil {
		return nil, err
	}
	return Talks(talk.New(b)), nil
})

// benchPlace is the server that the benchmarks talk to, with the real book,
// and what they say: some words, then the first answer to every question.
func benchPlace(b *testing.B) (*place, []Request) {
	b.Helper()
	a, err := realAssistant()
	if err != nil {
		b.Fatal(err)
	}
	script := []Request{{Kind: "say", Text: firstWords}}
	s := a.Open()
	r := s.Hear(firstWords, newClock().Now())
	for len(script) < 8 && r.Question != nil && len(r.Question.Options) > 0 {
		if r, err = s.Pick(1, newClock().Now()); err != nil {
			b.Fatal(err)
		}
		script = append(script, Request{Kind: "pick", N: 1})
	}
	if len(script) < 3 {
		b.Fatalf("a talk of %d turns is no talk: it ends with %q", len(script), r.Say)
	}
	return serving(b, func(c *Config) { c.Assistant = a }), script
}
