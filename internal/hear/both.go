package hear

// bothClearly is the share from which each half of a line tells of a trouble of
// its own. A half says less than a whole line, so it is more than clearly.
const bothClearly = 0.70

// both hears two troubles in one breath: "the wall leaks and my gelatin has
// gone lumpy". The one said first is the problem, the other comes after it.
func (h *Hearing) both(c Context, l *line, m *Meaning) {
	if c.Problem != nil || m.Command != "" || m.Elsewhere != "" || len(l.words) < 4 {
		return
	}
	best := 0.0
	for i := 1; i < len(l.tokens); i++ {
		if !l.tokens[i-1].ends && !joins(l.tokens[i].word) {
			continue
		}
		left, right := h.half(c, l.tokens[:i], l), h.half(c, l.tokens[i:], l)
		if left.ID == "" || right.ID == "" || left.ID == right.ID {
			continue
		}
		if share := min(left.Share, right.Share); share > best {
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
