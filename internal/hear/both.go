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
	for i := 1; i < len(l.tokens); i++ {
		if !l.tokens[i-1].ends && !joins(l.tokens[i].word) {
			continue
		}
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
