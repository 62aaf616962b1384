package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// guess finds the option of a choice that is meant by part of its words or by
// a slip of them. Only a short line is an answer of this kind; whole asks for
// every word of it to speak for the option.
func (h *Hearing) guess(f *book.Fact, l *line, whole bool) []optionMatch {
	if len(l.words) == 0 || len(l.words) > 6 {
		return nil
	}
	short := len(l.words) <= 2
	inside := insideMeasured(l)
	for n, same := range []func(heard, *ownedWord) bool{sameWord, nearlySame} {
		scores := make([]int, len(f.Options))
		from, to := len(l.tokens), 0
		for i, w := range l.words {
			if w.negate || l.denied(i) || !short && h.common(w.stem) || inside[w.at] {
				continue
			}
			if _, axis := axisWords[l.tokens[w.at].word]; n > 0 && axis {
				continue // "the height is 20 mm" is no slip of "by weight"
			}
			if o, end := h.owner(f.ID, l, w, same); o >= 0 {
				scores[o]++
				from, to = min(from, w.at), max(to, end)
			}
		}
		best := bestOptions(scores)
		if len(best) > 0 && 3*scores[best[0]] >= len(l.words) && (!whole || scores[best[0]] == len(l.words)) {
			list := make([]optionMatch, len(best))
			for i, o := range best {
				list[i] = optionMatch{o, from, to}
			}
			return list
		}
	}
	return h.byFirstWord(f, l)
}

// byFirstWord takes a single word that begins just one label: "water" for
// "water-based", though other options speak of water too.
func (h *Hearing) byFirstWord(f *book.Fact, l *line) []optionMatch {
	if len(l.words) != 1 {
		return nil
	}
	var list []optionMatch
	for o, option := range f.Options {
		if words := h.phraseOf(option.Label); len(words) > 0 && words[0] == l.words[0].stem {
			list = append(list, optionMatch{o, l.words[0].at, l.words[0].at + 1})
		}
	}
	if len(list) != 1 {
		return nil
	}
	return list
}

// ownedWord is a word that only one option of its fact uses; option is -1
// while several do.
type ownedWord struct {
	word, stem string
	sound      string
	option     int
}

// own notes the words of one way to say an option.
func (h *Hearing) own(f *book.Fact, option int, saying string) {
	list := h.owned[f.ID]
	l := newLine("", h.read(saying))
	for at, w := range l.words {
		if w.negate || l.denied(at) {
			continue // "neither dry nor damp" is not called dry
		}
		t := l.tokens[w.at]
		i := slices.IndexFunc(list, func(o ownedWord) bool { return o.stem == t.stem })
		switch {
		case i < 0:
			list = append(list, ownedWord{t.word, t.stem, sound(t.word), option})
		case list[i].option != option:
			list[i].option = -1
		}
	}
	h.owned[f.ID] = list
}

// heard is a run of one to four words, written together.
type heard struct {
	word, sound string
	stem        string // of a single word
}

// owner gives the option whose word stands at w, perhaps cut in pieces, and
// the token after it; -1 when there is none.
func (h *Hearing) owner(fact logic.FactID, l *line, w word, same func(heard, *ownedWord) bool) (option, end int) {
	joined := ""
	for n := 1; n <= 4 && w.at+n <= len(l.tokens); n++ {
		joined += l.tokens[w.at+n-1].word
		run := heard{word: joined, sound: sound(joined)}
		if n == 1 {
			run.stem = w.stem
		}
		for i := range h.owned[fact] {
			if o := &h.owned[fact][i]; o.option >= 0 && same(run, o) {
				return o.option, w.at + n
			}
		}
	}
	return -1, 0
}

func sameWord(a heard, b *ownedWord) bool { return a.word == b.word || a.stem == b.stem }

// nearlySame allows an edit or two by length, and words that sound alike.
func nearlySame(a heard, b *ownedWord) bool {
	if len(b.word) < 4 || len(a.word) < 3 {
		return false
	}
	limit := 1
	if len(b.word) >= 7 {
		limit = 2
	}
	if closeTo(a.word, b.word, limit) {
		return true
	}
	if len(b.sound) < 3 || a.sound == "" || a.sound[0] != b.sound[0] {
		return false
	}
	if len(b.sound) < 5 {
		return a.sound == b.sound
	}
	return closeTo(a.sound, b.sound, len(b.sound)/4) && consonants(a.sound) == consonants(b.sound)
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
