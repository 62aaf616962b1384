package hear

import (
	"math/bits"
	"strings"

	"github.com/hbollon/go-edlib"
)

// speller knows the words of the book and finds the one that a misspelt or
// misheard word stands for.
type speller struct {
	words  []spelling
	known  map[string]int     // word: index into words
	sounds map[string][]int32 // consonants, and those with one left out
}

type spelling struct {
	word  string
	sound string
	keys  string // consonants of the sound
	count int
	mask  uint32 // which letters it holds
	trade bool   // stands in an answer or a label
}

func newSpeller() *speller {
	return &speller{known: make(map[string]int, 4096), sounds: make(map[string][]int32, 8192)}
}

// learn counts a word of the book.
func (s *speller) learn(word string, trade bool) {
	i, ok := s.known[word]
	if !ok {
		i = len(s.words)
		s.known[word] = i
		s.words = append(s.words, spelling{word: word, mask: letterMask(word)})
	}
	s.words[i].count++
	s.words[i].trade = s.words[i].trade || trade
}

// index makes the sounds of words that a slip may stand for findable.
func (s *speller) index() {
	for i := range s.words {
		w := &s.words[i]
		if len(w.word) < 6 || !w.trade && w.count < 3 {
			continue
		}
		w.sound = sound(w.word)
		w.keys = consonants(w.sound)
		for _, key := range leftOut(w.keys) {
			s.sounds[key] = append(s.sounds[key], int32(i))
		}
	}
}

// leftOut gives a key, and where it is long enough the keys with one letter
// left out: two keys one change apart have one of these in common.
func leftOut(key string) []string {
	keys := []string{key}
	if len(key) < 5 {
		return keys
	}
	for i := 1; i < len(key); i++ {
		keys = append(keys, key[:i]+key[i+1:])
	}
	return keys
}

func letterMask(word string) uint32 {
	mask := uint32(0)
	for i := range len(word) {
		if c := word[i] - 'a'; c < 26 {
			mask |= 1 << c
		}
	}
	return mask
}

// distance is the optimal string alignment distance.
func distance(a, b string) int { return edlib.OSADamerauLevenshteinDistance(a, b) }

// slack is how many edits a word of this length is forgiven.
func slack(length int) int {
	switch {
	case length < 5:
		return 0
	case length < 8:
		return 1
	}
	return 2
}

// closeTo reports whether word is target give or take limit edits, at a small
// price for words that are far apart.
func closeTo(word, target string, limit int) bool {
	gap := len(word) - len(target)
	if gap > limit || -gap > limit {
		return false
	}
	if bits.OnesCount32(letterMask(word)^letterMask(target)) > 2*limit {
		return false
	}
	return word == target || distance(word, target) <= limit
}

// nearest gives the word of the book that an unknown word is a slip of, or
// "". Ties go to the same first letter, then to the more frequent word.
func (s *speller) nearest(word string) string {
	limit := slack(len(word))
	if limit == 0 || len(word) > 24 {
		return ""
	}
	mask, best, found := letterMask(word), 1<<20, ""
	for i := range s.words {
		w := &s.words[i]
		gap := len(word) - len(w.word)
		if gap > limit || -gap > limit || bits.OnesCount32(mask^w.mask) > 2*limit || len(w.word) < 4 {
			continue
		}
		d := distance(word, w.word)
		if d > limit {
			continue
		}
		cost := 1000 * d
		if w.word[0] != word[0] {
			cost += 800
		}
		if cost -= min(w.count, 500); cost < best {
			best, found = cost, w.word
		}
	}
	return found
}

// heardAs gives the word of the book that sounds like the joined words, or "".
func (s *speller) heardAs(joined string) string {
	if len(joined) < 5 || len(joined) > 20 {
		return ""
	}
	heard := sound(joined)
	keys := consonants(heard)
	best, found := 1<<20, ""
	for _, key := range leftOut(keys) {
		for _, i := range s.sounds[key] {
			w := &s.words[i]
			if w.keys[0] != keys[0] {
				continue
			}
			d := distance(heard, w.sound)
			if 4*d > len(w.sound) || d > 0 && len(w.sound) < 5 {
				continue
			}
			if cost := 1000*d - min(w.count, 500); cost < best {
				best, found = cost, w.word
			}
		}
	}
	return found
}

// everyday holds common words of English that the book may lack. They are
// never taken for a misspelling of something else. (From memory, no source.)
var everyday = everydaySet()

func everydaySet() map[string]bool {
	set := make(map[string]bool, 512)
	for _, word := range strings.Fields(everydayWords) {
		set[word] = true
	}
	return set
}

// isWord reports whether the book or everyday English knows the word.
func (s *speller) isWord(word string) bool {
	_, ok := s.known[word]
	return ok || everyday[word] || isNumberWord(word)
}
