package hear

import (
	"fmt"
	"testing"
	"time"

	"sparehand/internal/book"
	"sparehand/rules"
)

func TestReal(t *testing.T) {
	b, err := book.Load(rules.Files)
	fmt.Println(err)
	if err != nil {
		t.Skip()
	}
	st := time.Now()
	h := New(b)
	fmt.Println(time.Since(st), len(h.classes), len(h.spell.words), len(h.lexicon.phrases))
}
