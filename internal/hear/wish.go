package hear

import (
	"slices"

	"sparehand/internal/book"
)

// wish hears what is wished of the timers, the walk through a build and the
// notebook. Beside a timer something else may be told: what is left of the line
// is returned, as it is where nothing was wished.
func (h *Hearing) wish(c Context, l *line, found []match, m *Meaning) *line {
	if h.answersExactly(c, l, found) || h.never(c, l) != "" {
		return l
	}
	// What was said counts before what it was mended to: "ping me" is no slip.
	for _, said := range []*line{l.asSaid, l} {
		if said == nil || h.isOrder(said) {
			continue
		}
		if t, from, to := h.hearTimer(c, said); t != nil {
			m.Timer = t
			return said.without(from, to)
		}
		switch {
		case h.hearGoTo(said, m), h.hearPast(c, said, m), h.hearBegin(said, m):
			return said.without(0, len(said.tokens))
		}
	}
	return l
}

// without gives the line without tokens from to to-1.
func (l *line) without(from, to int) *line {
	return newLine(l.text, slices.Delete(slices.Clone(l.tokens), from, to))
}

// answersExactly reports whether the line is what an answer to the question is
// called.
func (h *Hearing) answersExactly(c Context, l *line, found []match) bool {
	switch {
	case c.Asked == nil:
		return false
	case c.Asked.Fact != nil:
		return h.wordForWord(c.Asked.Fact, l) >= 0 || h.isOption(c, l, found)
	}
	return slices.ContainsFunc(c.Asked.Options, func(o book.Option) bool {
		return slices.ContainsFunc(append([]string{o.Label}, o.Says...), func(s string) bool {
			return stemKey(h.read(s)) == stemKey(l.tokens)
		})
	})
}

// isOrder reports whether the line is a command of the book, all its words.
func (h *Hearing) isOrder(l *line) bool {
	said := stemsOf(l.tokens)
	return slices.ContainsFunc(h.orders, func(o order) bool { return slices.Equal(o.all, said) })
}

// Words that stand before a wish and after it, and say nothing.
var (
	polite = wordSet(`please pls plz ok okay right hey hi hello um er erm uh well now just then thanks thank so oh ah sorry alright and
also maybe yes yeah mate love can could would will you kindly quickly again after all today tonight next`)
	asksPolitely = phraseList(`i want you to|i need you to|i would like you to|would you mind|go ahead and|do me a favour and|be so kind as to`)
)

// reader reads a clause from its beginning.
type reader struct {
	l       *line
	at, end int // tokens
}

// openings gives a reader for each place at which a wish may begin: the line,
// and each clause after a comma, a stop or an "and". Courtesies are read.
func (l *line) openings() []*reader {
	var list []*reader
	for i := range l.tokens {
		if i > 0 && !l.cutAt(i) {
			continue
		}
		r := &reader{l, i, l.clauseEnd(i)}
		if r.courtesies(); r.at < r.end {
			list = append(list, r)
		}
	}
	return list
}

// clauseEnd gives the end of the clause that token i is in. The colon of 19:30
// ends none.
func (l *line) clauseEnd(i int) int {
	for i < len(l.tokens) && (!l.tokens[i].ends || l.tokens[i].digits && l.text[l.tokens[i].to] == ':') {
		i++
	}
	return min(i+1, len(l.tokens))
}

func (r *reader) word() string { return r.peek(0) }

func (r *reader) peek(n int) string {
	if r.at+n >= r.end {
		return ""
	}
	return r.l.tokens[r.at+n].word
}

// courtesies steps over what people put before a wish. A comma ends none of it.
func (r *reader) courtesies() {
	for r.at < len(r.l.tokens) {
		n := longestAt(r.l.tokens, r.at, asksPolitely)
		if n == 0 && polite[r.l.tokens[r.at].word] {
			n = 1
		}
		if n == 0 {
			break
		}
		r.at += n
	}
	r.end = r.l.clauseEnd(r.at)
}

// takes steps over the longest of the phrases that stands here.
func (r *reader) takes(list [][]string) bool {
	n := longestAt(r.l.tokens[:r.end], r.at, list)
	r.at += n
	return n > 0
}

// takesOne steps over one of the words.
func (r *reader) takesOne(words ...string) bool {
	if r.at >= r.end || !isOneOf(r.word(), words...) {
		return false
	}
	r.at++
	return true
}

// trimmed gives the tokens from to to-1 without courtesies at their end.
func (l *line) trimmed(from, to int) (int, int) {
	for to > from && (polite[l.tokens[to-1].word] || isOneOf(l.tokens[to-1].word, "me", "would", "will")) {
		to--
	}
	return from, to
}

// onlyPolite reports whether nothing but courtesies stands in tokens from to
// to-1.
func (l *line) onlyPolite(from, to int) bool {
	for _, t := range l.tokens[from:max(from, to)] {
		if !polite[t.word] {
			return false
		}
	}
	return true
}
