package voice

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// All that can follow a word has chances that sum to one, and so have the
// words alone. (Witten and Bell's method C, worked out by hand for one pair.)
func TestBigrams(t *testing.T) {
	var sentences [][]string
	for _, s := range []string{"the wall leaks", "the wall cracks", "the clay cracks", "clay"} {
		sentences = append(sentences, strings.Fields(s))
	}
	b := countBigrams(sentences)
	before := []string{sentenceStart}
	for w := range b.words {
		before = append(before, w)
	}
	for _, h := range before {
		if h == sentenceEnd {
			continue
		}
		sum := 0.0
		for w := range b.words {
			sum += b.pair(h, w)
		}
		unseen := float64(b.follow[h]) / float64(b.follow[h]+b.history[h]) / float64(b.total+len(b.words)+1)
		if math.Abs(sum+unseen-1) > 1e-9 { // one more share is for words never seen
			t.Errorf("after %q they sum to %g", h, sum)
		}
	}
	// "wall" follows "the" 2 of 3 times, with 2 words that follow it; alone it
	// has 2 of 14 words, and 6 different ones: (2+1)/(14+6+1).
	if got, want := b.pair("the", "wall"), (2+2*3.0/21)/(3+2); math.Abs(got-want) > 1e-12 {
		t.Errorf("the wall has %g, want %g", got, want)
	}
}

// The ARPA form: counts first, then as many lines of each order.
func TestARPA(t *testing.T) {
	b := countBigrams([][]string{{"the", "wall"}, {"the", "clay"}})
	text := b.arpa()
	for n, want := range map[int]int{1: 5, 2: 5} {
		if !strings.Contains(text, fmt.Sprintf("ngram %d=%d\n", n, want)) {
			t.Errorf("%d-grams are not counted as %d in\n%s", n, want, text)
		}
		_, part, _ := strings.Cut(text, fmt.Sprintf("\\%d-grams:\n", n))
		part, _, _ = strings.Cut(part, "\n\n")
		if got := len(strings.Split(strings.TrimSpace(part), "\n")); got != want {
			t.Errorf("%d-grams have %d lines", n, got)
		}
	}
	if !strings.HasPrefix(text, "\\data\\\n") || !strings.HasSuffix(text, "\\end\\\n") {
		t.Errorf("it is\n%s", text)
	}
}
