package hear

import "slices"

// buildNouns finds what is asked for by its name alone: plaster in "how much
// plaster".
func (h *Hearing) buildNouns() {
	h.nouns = make(map[string]*sum)
	for i := range h.sums {
		s := &h.sums[i]
		if s.amounts != nil && s.manner == openHow && len(s.words) == 3 && s.words[1] == "much" {
			h.nouns[s.words[2]] = s
		}
	}
}

// impliedSum hears a request in another order of words than the book's: a name
// with "how much" behind it, "I need" before it, or "for" and sizes after it.
// It gives nil where there is none.
func (h *Hearing) impliedSum(c Context, l *line, list []amount) *asking {
	if l.asksHowMuch() {
		if at := h.nounApart(l, list); at >= 0 {
			return h.asksForNoun(l, at)
		}
	}
	if at := h.enoughAsked(l, list); at >= 0 {
		return h.asksForNoun(l, at)
	}
	if c.Asked != nil {
		return nil
	}
	for i, t := range l.tokens {
		needs := isOneOf(t.word, "need", "needs", "want") && wordAt(l.tokens, i+1) != "to" && !l.inverted(max(0, i-3), i)
		if at := h.nounAfter(l, list, i+1); needs && at >= 0 && (len(list) > 0 || wordAt(l.tokens, at+1) == "for") {
			return h.asksForNoun(l, at)
		}
	}
	if at := h.nounAfter(l, list, 0); at >= 0 && (h.nounsFor(l, at, list) || h.endsSizes(l, at, list)) {
		return h.asksForNoun(l, at)
	}
	return l.asksForTheJob()
}

// asksForTheJob hears a request that names no sum: "what do I need for 3 scars".
func (l *line) asksForTheJob() *asking {
	for i, t := range l.tokens {
		what := t.word == "what" && askingVerbs[wordAt(l.tokens, i+1)] && isOneOf(wordAt(l.tokens, i+2), "i", "we", "you")
		if what && wordAt(l.tokens, i+3) == "need" && wordAt(l.tokens, i+4) == "for" {
			return &asking{sum: &sum{words: []string{"need"}}, tokens: []int{i + 3}}
		}
	}
	return nil
}

func (h *Hearing) asksForNoun(l *line, at int) *asking {
	return &asking{sum: h.nouns[l.tokens[at].stem], tokens: []int{at}}
}

// asksHowMuch reports whether the line asks "how much" or "how much of each" of
// what it names elsewhere.
func (l *line) asksHowMuch() bool {
	for i, t := range l.tokens {
		if t.word != "how" || !isOneOf(wordAt(l.tokens, i+1), "much", "many") {
			continue
		}
		last := i+2 >= len(l.tokens) || l.tokens[i+1].ends
		ofEach := wordAt(l.tokens, i+2) == "of" && isOneOf(wordAt(l.tokens, i+3), "each", "everything", "that", "it")
		needed := isOneOf(wordAt(l.tokens, i+2), "do", "would", "will", "should", "is") &&
			l.saysAny(i+3, i+6, "need", "needed", "use", "take", "weigh", "mix", "want", "buy")
		if last || ofEach || needed || wordAt(l.tokens, i+2) == "for" || l.tokens[i+2].digits {
			return true
		}
	}
	return false
}

// nounApart gives the token of the name in the line that no amount is told of,
// else of one that an amount is told of, or -1. Of names in a row the last is
// what is meant: mix in "gelatin glycerin mix".
func (h *Hearing) nounApart(l *line, list []amount) int {
	of := -1
	for i, t := range l.tokens {
		next := i + 1
		if h.nouns[t.stem] == nil || isOneOf(wordAt(l.tokens, i-1), "with", "without", "using") || next < len(l.tokens) && !t.ends && h.nouns[l.tokens[next].stem] != nil {
			continue
		}
		first := i
		for first > 0 && h.nouns[l.tokens[first-1].stem] != nil {
			first--
		}
		if slices.ContainsFunc(list, func(a amount) bool {
			return len(a.units) > 0 && weighed(a.units[0]) && (a.to == first || a.to == first-1 && wordAt(l.tokens, a.to) == "of")
		}) {
			of = i
			continue
		}
		return i
	}
	return of
}

// needed are words that may stand between "I need" and what is needed, or
// before all of a request.
var needed = wordSet("liquid dry fresh new more some enough bit plain hurry quick quickly fast urgent")

// nounAfter gives the token of the name that follows token i with nothing but
// small words and amounts between, or -1.
func (h *Hearing) nounAfter(l *line, list []amount, i int) int {
	for i < len(l.tokens) {
		if at := slices.IndexFunc(list, func(a amount) bool { return a.from == i }); at >= 0 {
			i = list[at].to
			continue
		}
		if h.nouns[l.tokens[i].stem] != nil {
			for i+1 < len(l.tokens) && !l.tokens[i].ends && h.nouns[l.tokens[i+1].stem] != nil {
				i++
			}
			return i
		}
		if !light[l.tokens[i].word] && !needed[l.tokens[i].word] && !courtesies[l.tokens[i].word] {
			return -1
		}
		i++
	}
	return -1
}

// nounsFor reports whether the names that begin with token at are "for"
// something of a size or a number: "plaster for a nose piece, 60 by 40 mm". The
// sizes may follow at once: "plaster 110 80 18".
func (h *Hearing) nounsFor(l *line, at int, list []amount) bool {
	for at < len(l.tokens) && (h.nouns[l.tokens[at].stem] != nil || isOneOf(l.tokens[at].word, "and", "the", "some")) {
		at++
	}
	counts := slices.ContainsFunc(list, func(a amount) bool {
		return a.chain > 0 || len(a.units) == 0 && a.value >= 1 && l.isPluralAt(a.to)
	})
	bareSizes := slices.ContainsFunc(list, func(a amount) bool { return a.from == at && a.chain == 1 })
	return wordAt(l.tokens, at) == "for" && counts || bareSizes
}

// endsSizes reports whether a request of a few words ends with the name at token
// at, after all three sizes: "100 by 80 by 20 mm plaster".
func (h *Hearing) endsSizes(l *line, at int, list []amount) bool {
	sized := slices.ContainsFunc(list, func(a amount) bool { return a.chain == 3 && a.to == at })
	rest := l.tokens[at+1:]
	return sized && !slices.ContainsFunc(rest, func(t token) bool { return !courtesies[t.word] && !needed[t.word] })
}

func (l *line) isPluralAt(i int) bool { return i < len(l.tokens) && l.isPlural(i) }

func insideAmounts(l *line, list []amount) []bool {
	inside := make([]bool, len(l.tokens))
	for _, a := range list {
		for i := a.from; i < a.to; i++ {
			inside[i] = true
		}
	}
	return inside
}
