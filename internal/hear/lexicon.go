package hear

import (
	"slices"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// phrase is a way to say something, by its words of meaning.
type phrase struct {
	words  []string // stems
	fact   logic.FactID
	option int // of a choice; yes is 0 and no is 1; quantity for a number's name
	length int // letters of its longest word
	common bool
	part   bool     // a part of a label: says the option only to its question
	tail   string   // the last word as said: "for" in "recipe calls for"
	whole  []string // all words of a number's name that counts only with its small ones: "water was at"
}

// quantity marks a phrase that names a number.
const quantity = -1

// lexicon holds the phrases of the facts, by the first word.
type lexicon struct {
	phrases []phrase
	first   map[string][]int32
	pairs   map[pair][]int32 // names of numbers of two words, either way round
}

// phraseOf reduces a saying to its words of meaning; nil when none is left.
func (h *Hearing) phraseOf(saying string) []string {
	l := newLine("", h.read(saying))
	stems := make([]string, len(l.words))
	for i, w := range l.words {
		stems[i] = w.stem
	}
	return stems
}

func (h *Hearing) buildLexicon(b *book.Book) {
	h.lexicon.first = make(map[string][]int32)
	h.lexicon.pairs = make(map[pair][]int32)
	h.owned = make(map[logic.FactID][]ownedWord, len(b.Facts))
	for i := range b.Facts {
		f := &b.Facts[i]
		for o, option := range f.Options {
			for _, saying := range sayings(f, option) {
				h.addPhrase(saying, f.ID, o)
				h.own(f, o, saying)
			}
			h.addParts(f, o)
		}
		for _, saying := range f.Says {
			h.addPhrase(saying, f.ID, quantity)
		}
	}
}

// leads are small words that a number follows.
var leads = wordSet("at to in of on by for from")

// sayings gives the ways to say an option. The labels of a yes/no fact are
// the words yes and no, which say nothing by themselves.
func sayings(f *book.Fact, o book.Option) []string {
	if f.Kind == logic.YesNo {
		return o.Says
	}
	return append([]string{o.Label}, o.Says...)
}

func (h *Hearing) addPhrase(saying string, fact logic.FactID, option int) {
	words := h.phraseOf(saying)
	if len(words) == 0 || len(words) > 12 || option == quantity && len(words) == 1 && words[0] == "not" {
		return
	}
	p := phrase{words: words, fact: fact, option: option}
	tokens := h.read(saying)
	p.tail = tokens[len(tokens)-1].word
	if option == quantity && len(words) == 1 && (leads[tokens[len(tokens)-1].word] || isOneOf(tokens[0].word, "from", "it")) {
		p.whole = plainWords(tokens)
	}
	for _, w := range words {
		p.length = max(p.length, len(w))
	}
	p.common = !slices.ContainsFunc(words, func(w string) bool { return len(w) > 3 && !h.common(w) })
	id := int32(len(h.lexicon.phrases))
	h.lexicon.phrases = append(h.lexicon.phrases, p)
	h.lexicon.first[words[0]] = append(h.lexicon.first[words[0]], id)
	if option == quantity && len(words) == 2 {
		for _, two := range []pair{{words[0], words[1]}, {words[1], words[0]}} {
			h.lexicon.pairs[two] = append(h.lexicon.pairs[two], id)
		}
	}
}

// addParts lets each part of a label such as "oil, grease or release" answer
// the question.
func (h *Hearing) addParts(f *book.Fact, option int) {
	parts := strings.Split(strings.ReplaceAll(f.Options[option].Label, " or ", ","), ",")
	if f.Kind != logic.Choice || len(parts) < 2 {
		return
	}
	for _, part := range parts {
		if before := len(h.lexicon.phrases); strings.TrimSpace(part) != "" {
			h.addPhrase(part, f.ID, option)
			for i := before; i < len(h.lexicon.phrases); i++ {
				h.lexicon.phrases[i].part = true
			}
		}
	}
}

// common reports whether a word is said of so many things that alone it tells
// nothing.
func (h *Hearing) common(stem string) bool {
	return h.spread[stem] >= max(4, len(h.classes)/4)
}

// match is a phrase found in words from to to-1 of a line.
type match struct {
	phrase   *phrase
	from, to int
	denied   bool
}

// matches finds every phrase of the lexicon in the line, in order.
func (h *Hearing) matches(l *line) []match {
	var found []match
	for i := range l.words {
		for _, id := range h.lexicon.first[l.words[i].stem] {
			p := &h.lexicon.phrases[id]
			if to, ok := fits(l, i, p.words); ok {
				found = append(found, match{p, i, to, l.denied(i)})
			}
		}
	}
	return found
}

// fits matches a phrase from word at on. Between two words of the phrase one
// other word may stand, but no "not" and no end of a clause.
func fits(l *line, at int, phrase []string) (to int, ok bool) {
	j := at
	for k, want := range phrase {
		if k > 0 && j+1 < len(l.words) && l.words[j].stem != want && !l.words[j].negate {
			j++
			if l.words[j].clause != l.words[j-2].clause {
				return 0, false
			}
		}
		if j >= len(l.words) || l.words[j].stem != want {
			return 0, false
		}
		j++
	}
	return j, true
}
