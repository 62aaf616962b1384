package talk

import (
	"encoding/json"
	"fmt"
	"testing"

	"sparehand/internal/book"
	"sparehand/internal/book/booktest"
)

// BenchmarkTurn is a whole turn: hear an answer, decide, choose the next
// question, and the reply as JSON. The embedded book first, then made-up ones.
func BenchmarkTurn(b *testing.B) {
	b.Run("embedded", func(b *testing.B) {
		turns(b, assistant(b), "plaster is running out under the wall", []string{"not sure", "back"})
	})
	for _, n := range []int{1000, 10000} {
		made, err := book.Load(booktest.Files(n, 1))
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprintf("rules=%d", n), func(b *testing.B) {
			turns(b, New(made), "thing 3 went wrong", []string{"2", "not sure", "3"})
		})
	}
}

func turns(b *testing.B, a *Assistant, first string, texts []string) {
	s := a.Open()
	if r := say(s, first); r.Question == nil || r.Problem == "" {
		b.Fatalf("%q opens no problem: %s", first, asJSON(r))
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if i%16 == 0 { // a talk of ordinary length
			s = a.Open()
			say(s, first)
		}
		if _, err := json.Marshal(s.Hear(texts[i%len(texts)], noon)); err != nil {
			b.Fatal(err)
		}
	}
}
