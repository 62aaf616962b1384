package hear

// SaysWithin reports whether one of the phrases of a command, of two words or
// more, stands anywhere in the words: "it's rinsed and we're safe, but ...".
func (h *Hearing) SaysWithin(command, text string) bool {
	tokens := h.listen(text).tokens
	for _, c := range h.book.Commands {
		if c.ID != command {
			continue
		}
		for _, say := range c.Says {
			phrase := plainWords(h.read(say))
			if len(phrase) < 2 {
				continue
			}
			for i := range tokens {
				if wordsAt(tokens, i, phrase) > 0 {
					return true
				}
			}
		}
	}
	return false
}

// Opens reports whether the words begin with a yes (first 1) or a no (first 2),
// other than as a filler such as "ok"; 0 is neither.
func (h *Hearing) Opens(text string) int {
	tokens := h.listen(text).tokens
	i := 0
	for i < len(tokens) && (startsTurn[tokens[i].word] && !isOneOf(tokens[i].word, "no", "yes") || isOneOf(tokens[i].word, "god", "what", "of", "course")) {
		i++
	}
	switch {
	case i == len(tokens):
		return 0
	case isOneOf(tokens[i].word, "yes", "yeah", "yep", "yup", "yea", "aye"):
		return 1
	case isOneOf(tokens[i].word, "no", "nope", "nah", "not", "wrong", "nobody"):
		return 2
	}
	return 0
}

// Nearest gives the place in a list of sentences of the one that shares the
// most words of meaning with the words said, or -1 where none shares any.
func (h *Hearing) Nearest(text string, list []string) int {
	said := make(map[string]bool)
	for _, w := range h.listen(text).words {
		if !w.negate {
			said[w.stem] = true
		}
	}
	best, most := -1, 0
	for i, sentence := range list {
		n := 0
		for _, w := range newLine("", h.read(sentence)).words {
			if said[w.stem] {
				n++
			}
		}
		if n > most {
			best, most = i, n
		}
	}
	return best
}
