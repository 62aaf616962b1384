package hear

import (
	"sparehand/internal/book"
)

// guess finds the option of a choice that is meant by part of its words or by
// a slip of them. Only a short line is an answer of this kind.
func (h *Hearing) guess(f *book.Fact, l *line) []optionMatch {
	if len(l.words) == 0 || len(l.words) > 6 {
		return nil
	}
	owners := h.owners(f)
	for _, same := range []func(a, b string) bool{sameWord, nearlySame} {
		scores := make([]int, len(f.Options))
		from, to := len(l.tokens), 0
		for i, w := range l.words {
			if w.negate || l.denied(i) {
				continue
			}
			if o, at, end := owner(owners, l, w, same); o >= 0 {
				scores[o]++
				from, to = min(from, at), max(to, end)
			}
		}
		if best := bestOptions(scores); len(best) > 0 {
			list := make([]optionMatch, len(best))
			for i, o := range best {
				list[i] = optionMatch{o, from, to}
			}
			return list
		}
	}
	return nil
}

// owners maps each word of the options to the one option that uses it, or -1
// for a word that several use.
func (h *Hearing) owners(f *book.Fact) []ownedWord {
	var list []ownedWord
	index := make(map[string]int)
	for o, option := range f.Options {
		for _, s := range sayings(f, option) {
			for _, t := range tokenise(fold(s), h.stem) {
				if light[t.word] || isNegator(t.word) {
					continue
				}
				i, ok := index[t.stem]
				if !ok {
					i = len(list)
					index[t.stem] = i
					list = append(list, ownedWord{t.word, t.stem, o})
				}
				if list[i].option != o {
					list[i].option = -1
				}
			}
		}
	}
	return list
}

type ownedWord struct {
	word, stem string
	option     int
}

func owner(owners []ownedWord, l *line, w word, same func(a, b string) bool) (option, from, to int) {
	t := l.tokens[w.at]
	for n := 1; n <= 4 && w.at+n <= len(l.tokens); n++ {
		joined := t.word
		for _, more := range l.tokens[w.at+1 : w.at+n] {
			joined += more.word
		}
		for _, o := range owners {
			if o.option < 0 {
				continue
			}
			if n == 1 && o.stem == w.stem || same(joined, o.word) {
				return o.option, w.at, w.at + n
			}
		}
	}
	return -1, 0, 0
}

func sameWord(a, b string) bool { return a == b }

// nearlySame allows an edit or two by length, and words that sound alike.
func nearlySame(a, b string) bool {
	if len(b) < 4 || len(a) < 3 {
		return false
	}
	limit := 1
	if len(b) >= 7 {
		limit = 2
	}
	if closeTo(a, b, limit) {
		return true
	}
	one, two := sound(a), sound(b)
	if len(two) < 3 || one == "" || one[0] != two[0] {
		return false
	}
	d := distance(one, two)
	return d == 0 || len(two) >= 5 && 4*d <= len(two) && consonants(one) == consonants(two)
}

// bestOptions gives the options with the most words, at most three.
func bestOptions(scores []int) []int {
	best := 0
	for _, s := range scores {
		best = max(best, s)
	}
	var list []int
	for o, s := range scores {
		if s == best && best > 0 {
			list = append(list, o)
		}
	}
	if len(list) > 3 {
		return nil
	}
	return list
}
