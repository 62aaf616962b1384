package book

import (
	"testing"

	"sparehand/rules"
)

// BenchmarkWarnings is what `sparehand check` adds to loading and running the
// cases; BenchmarkLoad beside it is the measure.
func BenchmarkWarnings(b *testing.B) {
	book, err := Load(rules.Files)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		book.Warnings()
	}
}
