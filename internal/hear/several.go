package hear

import "slices"

// othersAsked gives the further sums asked for in one breath: the names in a
// row with the one asked for, what else it is "for", and other questions.
func (h *Hearing) othersAsked(l *line, s *asking, list []amount) []*asking {
	var others []*asking
	others = append(others, h.alsoFor(l, s, list)...)
	others = append(others, h.otherQuestions(l, s)...)
	for _, o := range others {
		o.mark(l)
	}
	for _, at := range h.nounRow(l, s) { // not marked, for they may name the mix too
		others = append(others, h.asksForNoun(l, at))
	}
	return others
}

// alsoFor gives the sums of what else something is asked for: "how much clay for
// the sculpt and for the wall".
func (h *Hearing) alsoFor(l *line, s *asking, list []amount) []*asking {
	at := slices.IndexFunc(l.words, func(w word) bool { return w.at == s.tokens[0] })
	if at < 0 || len(s.words) < 4 || !l.saysAny(s.tokens[0], len(l.tokens), "and") {
		return nil
	}
	var others []*asking
	inside := insideAmounts(l, list)
	for i := range h.sums {
		o := &h.sums[i]
		if o.amounts == nil || len(o.words) < 4 || slices.Equal(o.words, s.words) || !slices.Equal(o.words[:3], s.words[:3]) {
			continue
		}
		found, ok := o.at(l, at, inside)
		if !ok {
			continue
		}
		last := found.tokens[len(found.tokens)-1]
		if last > s.tokens[2] && l.saysAny(max(0, last-2), last, "for", "and") && l.saysAny(s.tokens[2], last, "for") {
			others = append(others, found)
		}
	}
	return others
}

// nounRow gives the tokens of the names that stand in a row with the last word
// of a request: plaster, glue in "how much gelatin, plaster and glue". Water
// goes into any of them.
func (h *Hearing) nounRow(l *line, s *asking) []int {
	last := s.tokens[len(s.tokens)-1]
	if h.nouns[l.tokens[last].stem] == nil {
		return nil
	}
	var row []int
	parted := l.tokens[last].ends
	for i := last + 1; i < len(l.tokens); i++ {
		t := l.tokens[i]
		switch {
		case h.nouns[t.stem] != nil && parted:
			if t.word != "water" {
				row = append(row, i)
			}
			parted = t.ends
		case isOneOf(t.word, "and", "plus", "how", "much", "the", "some", "also"):
			parted = true
		default:
			return row
		}
	}
	return row
}

// otherQuestions gives the sums of the questions before and after the one that
// was found: "how much gelatin, and how long until it sets".
func (h *Hearing) otherQuestions(l *line, s *asking) []*asking {
	var others []*asking
	first, last := s.tokens[0], s.tokens[len(s.tokens)-1]
	from := 0
	for i := 1; i <= len(l.tokens); i++ {
		opens := i < len(l.tokens) && isOneOf(l.tokens[i].word, "how", "what", "when", "will") && (l.tokens[i-1].ends || l.tokens[i-1].word == "and")
		if !opens && i < len(l.tokens) {
			continue
		}
		if i <= first || from > last {
			if o := h.askedWithin(l, from, i); o != nil {
				others = append(others, o)
			}
		}
		from = i
	}
	return others
}

// askedWithin gives the sum that tokens from to to-1 ask for, or nil.
func (h *Hearing) askedWithin(l *line, from, to int) *asking {
	part := newLine(l.text, l.tokens[from:to])
	found := h.sumAsked(part, readAmounts(part))
	if found == nil || found.amounts == nil || len(found.words) < 3 {
		return nil
	}
	moved := &asking{sum: found.sum, loose: found.loose}
	for _, at := range found.tokens {
		moved.tokens = append(moved.tokens, at+from)
	}
	return moved
}
