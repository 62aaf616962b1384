package hear

// The shares from which each half of a line tells of a trouble of its own. A
// half says less than a whole line, so it is more than clearly; and more still
// where the whole line is not torn between the two.
const (
	bothClearly = 0.70
	bothSurely  = 0.90

	torn   = 0.10 // the share of the second trouble of a line that is torn
	hinted = 0.01 // and the least that it has where two are told
)

// both hears two troubles in one breath: "the wall leaks and my gelatin has
// gone lumpy". The one said first is the problem, the other comes after it.
//
// The whole line has to be torn between the two: a second half often only says
// more of the first, as in "the plaster is hard but it crumbles".
func (h *Hearing) both(c Context, l *line, ranked []Candidate, m *Meaning) {
	if c.Problem != nil || m.Command != "" || m.Elsewhere != "" || len(l.words) < 4 {
		return
	}
	if own := h.said[stemKey(l.tokens)]; own.id != "" {
		return
	}
	whole, _ := h.troubles(c, l, ranked)
	announced := changesSubject(l)
	if len(whole) < 2 || whole[1].Share < hinted && !announced {
		return
	}
	need := bothSurely
	if whole[1].Share >= torn || announced {
		need = bothClearly
	}
	pair := func(id string) bool { return announced || isOneOf(id, whole[0].ID, whole[1].ID) }
	best := 0.0
	for _, i := range l.cuts() {
		left, right := h.half(c, l.tokens[:i], l), h.half(c, l.tokens[i:], l)
		if left.ID == "" || right.ID == "" || left.ID == right.ID || !pair(left.ID) || !pair(right.ID) {
			continue
		}
		if share := min(left.Share, right.Share); share >= need && share > best {
			best = share
			m.Problem, m.Also = left.ID, right.ID
		}
	}
}

// joins are the words between two things that are told.
func joins(word string) bool {
	return isOneOf(word, "and", "also", "plus", "but", "then", "while")
}

// cuts lists the tokens at which a line may be cut in two: after a comma or a
// stop, and at a word that joins.
func (l *line) cuts() []int {
	var list []int
	for i := 1; i < len(l.tokens); i++ {
		if l.cutAt(i) {
			list = append(list, i)
		}
	}
	return list
}

func (l *line) cutAt(i int) bool { return l.tokens[i-1].ends || joins(l.tokens[i].word) }

// half gives the trouble that a part of the line tells of clearly.
func (h *Hearing) half(c Context, tokens []token, whole *line) Candidate {
	part := newLine(whole.text, tokens)
	if len(part.words) < 2 || h.telling(part) < 1 || !h.tells(part) {
		return Candidate{}
	}
	troubles, talk := h.troubles(c, part, h.rank(part))
	if len(troubles) == 0 || talk > partlyTalk || troubles[0].Share < bothClearly || h.book.ProblemByID(troubles[0].ID) == nil {
		return Candidate{}
	}
	return troubles[0]
}

// afterAnswer hears a trouble behind the answer to whether a cure has helped, or
// which trouble it is: "ok, patched. now the texture has gone mushy".
func (h *Hearing) afterAnswer(c Context, l *line, m *Meaning) {
	rest := l.besides(l.claimed)
	if len(rest.words) < leastTold {
		return
	}
	t := h.half(c, rest.tokens, l)
	if t.ID == "" || c.Problem != nil && (t.ID == c.Problem.ID || h.tellsOfOpen(c, rest, h.matches(rest)) >= 0.5) {
		return
	}
	m.Problem = t.ID
}

// besideAlarm gives the trouble that is told in the same breath as an emergency,
// to be looked at once that is over, or as what is answered at once; or "".
func (h *Hearing) besideAlarm(c Context, l *line) string {
	best := Candidate{Share: bothSurely}
	for _, i := range l.cuts() {
		for _, tokens := range [][]token{l.tokens[:i], l.tokens[i:]} {
			part := newLine(l.text, tokens)
			if certain, maybe := h.alarm(part); certain+maybe != "" || h.hurts(part) > 0 {
				continue
			}
			if t := h.half(c, tokens, l); t.Share > best.Share {
				best = t
			}
		}
	}
	return best.ID
}
