package hear

import (
	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// answer reads the words as an answer to the question that was asked, and
// reports whether they are one.
func (h *Hearing) answer(c Context, l *line, found []match, m *Meaning) bool {
	a := c.Asked
	if a == nil || len(l.tokens) == 0 {
		return false
	}
	if h.isPass(l) {
		m.Skip = true
		l.claim(0, len(l.tokens))
		return true
	}
	switch {
	case a.Fact == nil:
		return h.answerSpecial(a, l, m)
	case a.Fact.Kind == logic.YesNo:
		return h.answerYesNo(a.Fact, l, found, m)
	case a.Fact.Kind == logic.Choice:
		return h.answerChoice(a, l, found, m)
	}
	return h.answerNumber(c, l, found, m)
}

// isPass: the whole line asks to skip the question.
func (h *Hearing) isPass(l *line) bool {
	from, to := find(l.tokens, h.replies.pass)
	if from < 0 {
		return false
	}
	for i, t := range l.tokens {
		if (i < from || i >= to) && !courtesies[t.word] && !light[t.word] {
			return false
		}
	}
	return true
}

func (m *Meaning) tell(fact logic.FactID, value logic.Value, words string) {
	for i := range m.Facts {
		if m.Facts[i].Fact == fact {
			return
		}
	}
	m.Facts = append(m.Facts, Heard{fact, value, words})
}

// answerYesNo reads an answer to a yes/no fact: its own phrases first, since
// "no, it is not sticky" says more than no.
func (h *Hearing) answerYesNo(f *book.Fact, l *line, found []match, m *Meaning) bool {
	if own := longest(found, f.ID); own != nil {
		from, to := l.span(own)
		m.tell(f.ID, logic.Yes((own.phrase.option == 0) != own.denied), l.said(from, to))
		l.claim(0, to)
		return true
	}
	if n := index(l, 2); n > 0 { // the numbers on the card
		m.tell(f.ID, logic.Yes(n == 1), l.said(0, len(l.tokens)))
		l.claim(0, len(l.tokens))
		return true
	}
	doubtFrom, doubtTo := h.doubts(l)
	said, from, to := h.answersWith(l)
	if doubtFrom >= 0 {
		said = silent
	}
	if said == silent && doubtFrom < 0 {
		said, from, to = h.answersLast(l)
	}
	if said == silent || !h.stands(f, l, found, said, from, to) {
		said, from, to = h.echoes(f, l)
	}
	switch {
	case said != silent:
		m.tell(f.ID, logic.Yes(said == agrees), l.said(from, to))
		l.claim(from, to)
		return true
	case doubtFrom >= 0:
		m.NotSure = true
		l.claim(doubtFrom, doubtTo)
		return true
	}
	return false
}

// longest gives the match of a fact with the most words, or nil.
func longest(found []match, fact logic.FactID) *match {
	var best *match
	for i := range found {
		m := &found[i]
		if m.phrase.fact == fact && m.phrase.option != quantity && (best == nil || m.to-m.from > best.to-best.from) {
			best = m
		}
	}
	return best
}

// span gives the tokens of a match.
func (l *line) span(m *match) (from, to int) {
	return l.words[m.from].at, l.words[m.to-1].at + 1
}

// stands reports whether a yes or no answers the question of f, rather than
// opening a statement about something else.
func (h *Hearing) stands(f *book.Fact, l *line, found []match, said response, from, to int) bool {
	if said == refuses {
		for i := range found {
			if found[i].denied && found[i].phrase.fact != f.ID && found[i].phrase.option != quantity {
				return false // "no, it is not sticky" speaks of stickiness
			}
		}
	}
	if to-from == 1 || to == len(l.tokens) || l.tokens[to-1].ends {
		return true
	}
	// "it is sticky" only opens with "it is"
	return l.tokens[from].word == "not" || l.tokens[from].word == "no"
}

// answersLast reads a yes or no that is the whole of the last clause.
func (h *Hearing) answersLast(l *line) (response, int, int) {
	for i := len(l.tokens) - 1; i > 0 && i > len(l.tokens)-5; i-- {
		if !l.tokens[i-1].ends {
			continue
		}
		if n := longestAt(l.tokens, i, h.replies.refuse); n == len(l.tokens)-i {
			return refuses, i, i + n
		}
		if n := longestAt(l.tokens, i, h.replies.agree); n == len(l.tokens)-i {
			return agrees, i, i + n
		}
	}
	return silent, 0, 0
}

// echoes reads an answer that repeats the words of the question: "I pressed
// it down" to "did you press the wall down hard?". At most one word of
// meaning may be foreign to the question.
func (h *Hearing) echoes(f *book.Fact, l *line) (response, int, int) {
	asked := map[string]bool{}
	for _, w := range h.phraseOf(f.Ask) {
		asked[w] = true
	}
	same, foreign, at := 0, 0, -1
	for i, w := range l.words {
		switch {
		case w.negate:
		case asked[w.stem]:
			same++
			at = i
		default:
			foreign++
		}
	}
	if same == 0 || foreign > 1 || foreign == 1 && same < 2 {
		return silent, 0, 0
	}
	if l.denied(at) {
		return refuses, 0, len(l.tokens)
	}
	return agrees, 0, len(l.tokens)
}

// answerSpecial reads an answer to a question that is not about a fact.
func (h *Hearing) answerSpecial(a *Asked, l *line, m *Meaning) bool {
	if a.Kind == logic.YesNo {
		return h.pickYesNo(a, l, m)
	}
	if n := first(h.pickUnit(a.Options, l), h.pickOption(a.Options, l)); n > 0 {
		m.Pick = n
		l.claim(0, len(l.tokens))
		return true
	}
	if from, _ := h.doubts(l); from >= 0 || isNone(l) {
		m.NotSure = true
		return true
	}
	return false
}

func (h *Hearing) pickYesNo(a *Asked, l *line, m *Meaning) bool {
	if n := index(l, 2); n > 0 {
		m.Pick = n
		l.claim(0, len(l.tokens))
		return true
	}
	for i, o := range a.Options {
		for _, s := range o.Says {
			if words := h.phraseOf(s); len(words) > 0 && len(words) == len(l.words) {
				if _, ok := fits(l, 0, words); ok {
					m.Pick = i + 1
					return true
				}
			}
		}
	}
	doubt, _ := h.doubts(l)
	said, from, to := h.answersWith(l)
	if said == silent || doubt >= 0 {
		said, from, to = h.answersLast(l)
	}
	if to-from > 1 && to < len(l.tokens) && !l.tokens[to-1].ends && said == agrees {
		said = silent
	}
	switch {
	case said == agrees:
		m.Pick = 1
	case said == refuses:
		m.Pick = 2
	case doubt >= 0:
		m.NotSure = true
	default:
		return false
	}
	l.claim(from, to)
	return true
}
