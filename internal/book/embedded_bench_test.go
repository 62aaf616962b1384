package book_test

import (
	"testing"

	"sparehand/internal/book"
	"sparehand/rules"
)

// BenchmarkLoadEmbedded loads the book that sparehand comes with, as for a
// talk.
func BenchmarkLoadEmbedded(b *testing.B) {
	for b.Loop() {
		if _, err := book.LoadWithoutCases(rules.Files); err != nil {
			b.Fatal(err)
		}
	}
}
