package journal

import (
	"path/filepath"
	"testing"
	"time"
)

// BenchmarkAppend is one durable turn in a file, with its wait for the disk.
func BenchmarkAppend(b *testing.B) {
	j := opened(b, filepath.Join(b.TempDir(), "notebook.db"))
	ok(b, j.Begin(b.Context(), "t", noon))
	n := 0
	for b.Loop() {
		n++
		ok(b, j.Append(b.Context(), "t", turn(n), time.Time{}, nil))
	}
}
