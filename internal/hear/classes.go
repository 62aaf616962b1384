package hear

import (
	"strings"

	"sparehand/internal/book"
)

// kind is what sort of thing a class of sayings is about.
type kind uint8

const (
	isProblem kind = iota
	isElsewhere
	isEmergency
	isTalk
)

// ShopTalk is the id under which Rank lists talk that is about none of them.
const ShopTalk = "shop-talk"

type class struct {
	kind kind
	id   string
}

// samples lists the book's sayings by class, in the order of the book.
func (h *Hearing) samples(b *book.Book) []sample {
	var list []sample
	add := func(k kind, id string, sayings ...string) {
		if len(sayings) == 0 {
			return
		}
		h.classes = append(h.classes, class{k, id})
		for _, s := range sayings {
			list = append(list, sample{len(h.classes) - 1, h.read(s)})
		}
	}
	for _, p := range b.Problems {
		add(isProblem, p.ID, append([]string{p.Title, p.Meaning}, p.Sayings...)...)
	}
	for _, e := range b.Elsewhere {
		add(isElsewhere, e.ID, append([]string{e.Title}, e.Sayings...)...)
	}
	for _, e := range b.Emergencies {
		add(isEmergency, e.ID, e.Sayings...)
	}
	add(isTalk, ShopTalk, b.ShopTalk...)
	return list
}

// learnWords fills the speller from the sayings, and counts in how many
// classes each word is said.
func (h *Hearing) learnWords(list []sample) {
	last := make(map[string]int, 4096)
	for _, s := range list {
		for _, t := range s.words {
			if t.digits || len(t.word) > 24 || !onlyLetters(t.word) {
				continue
			}
			h.spell.learn(t.word, false)
			if before, ok := last[t.stem]; !ok || before != s.class {
				last[t.stem] = s.class
				h.spread[t.stem]++
			}
		}
	}
}

func onlyLetters(word string) bool {
	return word != "" && strings.Trim(word, "abcdefghijklmnopqrstuvwxyz") == ""
}

// materials are heard in any book, however few of its answers name them.
const materials = "gelatin . glycerin . sorbitol . plaster . mould . clay . alginate . silicone"

// learnAnswers fills the speller with the words of labels and answers.
func (h *Hearing) learnAnswers(b *book.Book) {
	h.learnText(materials, true)
	for i := range b.Facts {
		f := &b.Facts[i]
		h.learnText(f.Ask, false)
		for _, o := range f.Options {
			for _, s := range sayings(f, o) {
				h.learnText(s, true)
			}
		}
		for _, s := range f.Says {
			h.learnText(s, true)
		}
	}
	for _, set := range []map[string]bool{somebody, flesh} {
		for word := range set {
			h.spell.learn(word, false)
		}
	}
	for _, e := range b.Emergencies {
		for _, group := range e.Harms {
			h.learnTexts(group)
		}
		for _, p := range append(e.Certain[:len(e.Certain):len(e.Certain)], e.Maybe...) {
			for _, group := range p.All {
				h.learnTexts(group)
			}
		}
	}
	for _, c := range b.Commands {
		h.learnTexts(c.Says)
	}
	for _, a := range b.Amounts {
		h.learnTexts(a.Says)
	}
	for _, m := range b.Materials {
		h.learnTexts(m.Says)
	}
}

func (h *Hearing) learnTexts(list []string) {
	for _, text := range list {
		h.learnText(text, false)
	}
}

// pair is two stems side by side.
type pair [2]string

func (h *Hearing) learnText(text string, trade bool) {
	tokens := h.read(text)
	for i, t := range tokens {
		if i > 0 {
			h.pairs[pair{tokens[i-1].stem, t.stem}] = true
		}
		if !t.digits && onlyLetters(t.word) {
			h.spell.learn(t.word, trade)
		}
	}
}

// findAlarming keeps the words that emergencies are told with and that little
// else is: a large share of what is said with them is said in emergencies.
func (h *Hearing) findAlarming(list []sample) {
	h.alarmed = make(map[string]bool)
	alarming, calm := make(map[string]int), make(map[string]int)
	for _, s := range list {
		count := calm
		if h.classes[s.class].kind == isEmergency {
			count = alarming
		}
		for _, t := range s.words {
			if !light[t.word] && !isNegator(t.word) && len(t.word) > 2 {
				count[t.stem]++
			}
		}
	}
	for stem, n := range alarming {
		if n >= 2 && n >= 2*calm[stem] {
			h.alarmed[stem] = true
		}
	}
}
