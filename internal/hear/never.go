package hear

import (
	"slices"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// never gives what the book answers at once whatever else is said, or "".
// While a sum of plaster is under way "for my foot" is said of plaster.
func (h *Hearing) never(c Context, l *line) string {
	if len(h.nevers) == 0 {
		return ""
	}
	under := h.ofPlaster(c.Sums)
	tokens := withoutFeet(l)
	if under {
		tokens = h.withoutAnswer(c, l, tokens)
	}
	var hits []int16
	for _, n := range h.nevers {
		if n.bodies != nil && h.ontoBody(l, tokens, *n.bodies, under) {
			return n.id
		}
		for _, p := range n.certain {
			if !slices.ContainsFunc(p.groups, func(group []int32) bool { return !h.saysOne(tokens, group) }) {
				if hits == nil {
					hits = h.alarmHits(l)
				}
				if judge(l, hits, p) != misses {
					return n.id
				}
			}
		}
	}
	return ""
}

// inBodyWords gives the tokens of a line with the words of the vocabulary of
// bodies as they were said, where they were mended to others of the book, and
// unknown words as the parts of a body that they are slips of: no "butocks" is
// lost for its likeness to a bucket.
func (h *Hearing) inBodyWords(l *line, tokens []token, p pattern) []token {
	if !slices.ContainsFunc(tokens, func(t token) bool { return t.slip || !t.digits && !t.known && len(t.word) > 3 }) {
		return tokens
	}
	var kept []token
	for _, t := range tokens {
		said := []token{t}
		if t.slip && l.asSaid != nil {
			said = nil
			for _, raw := range l.asSaid.tokens {
				if raw.from >= t.from && raw.to <= t.to {
					said = append(said, raw)
				}
			}
		}
		if slices.ContainsFunc(said, func(raw token) bool { return h.inVocabulary(raw.stem, p) }) {
			kept = append(kept, said...)
			continue
		}
		if len(said) == 1 && len(said[0].word) > 3 && (t.slip || !h.spell.isWord(t.word)) && !t.digits {
			if stem := h.slipOfBody(said[0].word, p); stem != "" {
				t = said[0]
				t.stem = stem
			}
		}
		kept = append(kept, t)
	}
	return kept
}

// inVocabulary reports whether a stem is a word of the vocabulary of bodies.
func (h *Hearing) inVocabulary(stem string, p pattern) bool {
	return slices.ContainsFunc(h.heard.first[stem], func(id int32) bool {
		return len(h.heard.phrases[id]) == 1 && slices.ContainsFunc(p.groups, func(group []int32) bool { return slices.Contains(group, id) })
	})
}

// slipOfBody gives the stem of the part of a body that an unknown word is a
// slip of, unless it is as near to another word; or "".
func (h *Hearing) slipOfBody(word string, p pattern) string {
	limit := max(1, slack(len(word)))
	if other := h.spell.nearest(word); other != "" {
		limit = min(limit, distance(word, other)-1)
	}
	stem := h.stem(word)
	for _, id := range p.groups[bodyParts] {
		if phrase := h.heard.phrases[id]; len(phrase) == 1 && len(phrase[0]) > 3 && phrase[0][0] == word[0] && limit > 0 && closeTo(stem, phrase[0], limit) {
			return phrase[0]
		}
	}
	return ""
}

// withoutAnswer gives the tokens of the line without those that answer a
// question with choices: "on the face" tells then where the holes are. "On my
// face" does not, unless an answer of the book says so.
func (h *Hearing) withoutAnswer(c Context, l *line, tokens []token) []token {
	if c.Asked == nil || c.Asked.Fact == nil || c.Asked.Fact.Kind != logic.Choice {
		return tokens
	}
	tokens = slices.Clone(tokens)
	for _, v := range h.matches(l) {
		if v.phrase.fact != c.Asked.Fact.ID || v.phrase.option == quantity {
			continue
		}
		from, to := l.span(&v)
		whose := max(0, from-1)
		for whose < to && !owner(l.tokens, whose) {
			whose++
		}
		if whose < to && !saysIn(c.Asked.Fact, l.said(whose, to)) {
			continue
		}
		for i := from; i < to; i++ {
			tokens[i].word, tokens[i].stem = "", ""
		}
	}
	return tokens
}

// saysIn reports whether words stand in an answer to the question of f.
func saysIn(f *book.Fact, words string) bool {
	return slices.ContainsFunc(f.Options, func(o book.Option) bool {
		return slices.ContainsFunc(o.Says, func(say string) bool { return strings.Contains(strings.ToLower(say), words) })
	})
}

const plaster = "plaster"

func (h *Hearing) ofPlaster(list []*book.Amount) bool {
	return slices.ContainsFunc(list, func(a *book.Amount) bool {
		return slices.ContainsFunc(h.read(a.Title), func(t token) bool { return t.word == plaster })
	})
}

// withoutFeet gives the tokens of the line without the feet that are units:
// "a foot long", "2 feet by 1".
func withoutFeet(l *line) []token {
	if !slices.ContainsFunc(l.tokens, func(t token) bool { return isOneOf(t.word, "foot", "feet") }) {
		return l.tokens
	}
	tokens := slices.Clone(l.tokens)
	for _, a := range readAmounts(l) {
		if a.article && a.chain == 0 && !sizeWord(wordAt(l.tokens, a.to)) {
			continue // "plaster for a foot"
		}
		for i := a.from; i < a.to; i++ {
			if isOneOf(tokens[i].word, "foot", "feet") {
				tokens[i].word, tokens[i].stem = "", ""
			}
		}
	}
	return tokens
}
