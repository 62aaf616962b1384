package hear

import "testing"

// BenchmarkTrain builds a Hearing from the whole book.
func BenchmarkTrain(b *testing.B) {
	rules := realBook(b)
	for b.Loop() {
		New(rules)
	}
}

var heardSink Meaning

// BenchmarkHear hears short, long and misheard lines, with and without a
// question.
func BenchmarkHear(b *testing.B) {
	rules := realBook(b)
	h := New(rules)
	lines := []string{
		"plaster is running out under the wall", "no it came through a join", "about thirty percent",
		"my edges curl and it's really dry in here", "the piece is 6 by 4 inches and an inch high",
		"i dumped all the gelitin in at once and now it's clods", "sore bit all and glisten in", "why do you ask",
	}
	asked := Context{Problem: rules.Problems[0], Asked: &Asked{Fact: &rules.Facts[0], Kind: rules.Facts[0].Kind}}
	for _, c := range []struct {
		name string
		Context
	}{{"open", Context{}}, {"asked", asked}} {
		b.Run(c.name, func(b *testing.B) {
			i := 0
			for b.Loop() {
				heardSink = h.Hear(c.Context, lines[i%len(lines)])
				i++
			}
		})
	}
}
