package serve

import (
	"testing"
	"time"

	"sparehand/internal/talk"
)

func TestZZTime(t *testing.T) {
	for range 3 {
		s := time.Now()
		b, err := smallBook()
		if err != nil {
			t.Fatal(err)
		}
		l := time.Since(s)
		s = time.Now()
		talk.New(b)
		t.Log("small load", l, "small new", time.Since(s))
	}
}
