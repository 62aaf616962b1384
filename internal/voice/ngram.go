package voice

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// bigrams counts words and their neighbours in sentences.
type bigrams struct {
	words   map[string]int
	pairs   map[[2]string]int
	follow  map[string]int // how many different words follow
	history map[string]int // how often a word is followed
	total   int
}

const (
	sentenceStart = "<s>"
	sentenceEnd   = "</s>"
)

func countBigrams(sentences [][]string) *bigrams {
	b := &bigrams{words: map[string]int{}, pairs: map[[2]string]int{}, follow: map[string]int{}, history: map[string]int{}}
	for _, s := range sentences {
		before := sentenceStart
		for _, w := range append(slices.Clip(s), sentenceEnd) {
			b.words[w]++
			b.total++
			if b.pairs[[2]string{before, w}]++; b.pairs[[2]string{before, w}] == 1 {
				b.follow[before]++
			}
			b.history[before]++
			before = w
		}
	}
	return b
}

// unigram is a word's chance, with one added to each count.
func (b *bigrams) unigram(w string) float64 {
	return float64(b.words[w]+1) / float64(b.total+len(b.words)+1)
}

// pair is the chance of a word after another, by interpolation with the
// chance of the word alone as weighed by Witten and Bell (IEEE Transactions
// on Information Theory 37(4), 1991, method C).
func (b *bigrams) pair(before, w string) float64 {
	types, seen := float64(b.follow[before]), float64(b.history[before])
	return (float64(b.pairs[[2]string{before, w}]) + types*b.unigram(w)) / (seen + types)
}

// arpa writes the model in the ARPA format for n-grams.
func (b *bigrams) arpa() string {
	words := make([]string, 0, len(b.words)+1)
	for w := range b.words {
		words = append(words, w)
	}
	words = append(words, sentenceStart)
	slices.Sort(words)
	pairs := make([][2]string, 0, len(b.pairs))
	for p := range b.pairs {
		pairs = append(pairs, p)
	}
	slices.SortFunc(pairs, func(x, y [2]string) int {
		return strings.Compare(x[0]+" "+x[1], y[0]+" "+y[1])
	})
	var t strings.Builder
	fmt.Fprintf(&t, "\\data\\\nngram 1=%d\nngram 2=%d\n\n\\1-grams:\n", len(words), len(pairs))
	for _, w := range words {
		p := -99.0
		if w != sentenceStart {
			p = math.Log10(b.unigram(w))
		}
		backoff := 0.0
		if b.history[w] > 0 {
			types, seen := float64(b.follow[w]), float64(b.history[w])
			backoff = math.Log10(types / (seen + types))
		}
		fmt.Fprintf(&t, "%.4f %s %.4f\n", p, w, backoff)
	}
	t.WriteString("\n\\2-grams:\n")
	for _, p := range pairs {
		fmt.Fprintf(&t, "%.4f %s %s\n", math.Log10(b.pair(p[0], p[1])), p[0], p[1])
	}
	t.WriteString("\n\\end\\\n")
	return t.String()
}
