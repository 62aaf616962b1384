package hear

import (
	"slices"

	"sparehand/internal/book"
)

// order is a command's phrase, by all its words and without courtesies.
type order struct {
	id         string
	all, words []string
	asks       bool // "is it ready", which "it is ready" is not
}

// courtesies are what people put around a request.
var courtesies = wordSet(`please ok okay right hey hi hello um er erm uh well now just then thanks thank you so can could
would we i us me let the a an to want oh ah sorry alright go ahead and do this that it my mate love again`)

func (h *Hearing) buildOrders(b *book.Book) {
	for _, c := range b.Commands {
		for _, s := range c.Says {
			tokens := h.read(s)
			h.orders = append(h.orders, order{c.ID, stemsOf(tokens), plainStems(tokens), isQuestion(tokens)})
		}
	}
}

// isQuestion reports whether the words are a question that a verb opens, courtesies
// aside, about anybody but the assistant.
func isQuestion(tokens []token) bool {
	for i, t := range tokens {
		next := wordAt(tokens, i+1)
		opens := askingVerbs[t.word] || isOneOf(t.word, "am", "have", "has")
		switch {
		case opens && askedAbout[next] && next != "you":
			return !askedAbout[wordAt(tokens, i-1)]
		case !courtesies[t.word]:
			return false
		}
	}
	return false
}

func stemsOf(tokens []token) []string {
	stems := make([]string, len(tokens))
	for i, t := range tokens {
		stems[i] = t.stem
	}
	return stems
}

// plainStems gives the stems of a request without its courtesies; with them
// where no more than a question word is left. "Start again" is no "start".
func plainStems(tokens []token) []string {
	var all, kept []string
	for _, t := range tokens {
		all = append(all, t.stem)
		if !courtesies[t.word] || t.word == "again" && len(kept) == 1 && isOneOf(kept[0], "start", "begin") {
			kept = append(kept, t.stem)
		}
	}
	if len(kept) == 0 || len(kept) == 1 && isOneOf(kept[0], "what", "how", "not") {
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
	all, said := stemsOf(l.tokens), plainStems(l.tokens)
	for _, o := range h.orders {
		if slices.Equal(all, o.all) {
			return o.id
		}
	}
	question := isQuestion(l.tokens)
	for edits := range 2 {
		for _, o := range h.orders {
			if (!o.asks || question) && (edits == 0 || len(o.words) > 1) && equalStems(said, o.words, edits) {
				return o.id
			}
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
