package hear

import "sparehand/internal/book"

// order is a command's phrase, by its words without courtesies.
type order struct {
	id    string
	words []string
}

// sum is a way to ask for an amount.
type sum struct {
	id    string
	words []string
}

// courtesies are what people put around a request.
var courtesies = wordSet(`please ok okay right hey hi hello um er erm uh well now just then thanks thank you so can could
would we i us me let the a an to want oh ah sorry alright go ahead and do this that it my mate love again`)

func (h *Hearing) buildOrders(b *book.Book) {
	for _, c := range b.Commands {
		for _, s := range c.Says {
			h.orders = append(h.orders, order{c.ID, h.plain(s)})
		}
	}
	for _, a := range b.Amounts {
		for _, s := range a.Says {
			if words := h.phraseOf(s); len(words) > 0 {
				h.sums = append(h.sums, sum{a.ID, words})
			}
		}
	}
}

// plain gives the stems of a request without its courtesies; with them where
// nothing else is left.
func (h *Hearing) plain(text string) []string { return plainStems(tokenise(fold(text), h.stem)) }

func plainStems(tokens []token) []string {
	var all, kept []string
	for _, t := range tokens {
		all = append(all, t.stem)
		if !courtesies[t.word] {
			kept = append(kept, t.stem)
		}
	}
	if len(kept) == 0 {
		return all
	}
	return kept
}

// command gives the command that the line is, or "". Only the whole line
// counts: a request inside the tale of a trouble is part of the tale.
func (h *Hearing) command(l *line) string {
	if len(l.tokens) == 0 || len(l.tokens) > 14 {
		return ""
	}
	said := plainStems(l.tokens)
	for _, o := range h.orders {
		if equalStems(said, o.words, 0) {
			return o.id
		}
	}
	for _, o := range h.orders {
		if len(o.words) > 1 && equalStems(said, o.words, 1) {
			return o.id
		}
	}
	return ""
}

// equalStems compares two lists; each pair of longer words may be off by as
// many edits.
func equalStems(a, b []string, edits int) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] == b[i] {
			continue
		}
		if edits == 0 || len(b[i]) < 4 || !closeTo(a[i], b[i], edits) {
			return false
		}
	}
	return true
}

// sumAsked gives the amount that the line asks for, or "". The longest way of
// asking wins.
func (h *Hearing) sumAsked(l *line) string {
	best, found := 0, ""
	for _, s := range h.sums {
		if len(s.words) <= best {
			continue
		}
		for i := range l.words {
			if to, ok := fits(l, i, s.words); ok {
				best, found = len(s.words), s.id
				l.claim(l.words[i].at, l.words[to-1].at+1)
				break
			}
		}
	}
	return found
}
