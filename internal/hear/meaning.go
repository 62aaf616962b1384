package hear

import (
	"strings"

	"sparehand/internal/logic"
)

// Hear gives the meaning of words in the state of the talk. It is pure: the
// same words in the same context always mean the same. Text longer than 4 KiB
// is cut at a word.
//
// An emergency comes before everything; then the answer to the question; then
// a command; then a problem with the facts told in passing; then facts alone.
func (h *Hearing) Hear(c Context, text string) Meaning {
	var m Meaning
	l := h.listen(text)
	if len(l.tokens) == 0 {
		return m
	}
	ranked := h.rank(l)
	if m.Emergency, m.MaybeEmergency = h.emergency(l, ranked); m.Emergency != "" {
		return m
	}
	found := h.matches(l)
	if h.understand(c, l, found, ranked, &m) {
		m.Spare = h.spare(l)
	} else {
		m.Spare = strings.Join(strings.Fields(l.text), " ")
	}
	return m
}

// understand fills the meaning in, and reports whether there was any.
func (h *Hearing) understand(c Context, l *line, found []match, ranked []Candidate, m *Meaning) bool {
	id := h.command(l)
	if id != "" && !answersFirst(c, id) && !h.isOption(c, l, found) {
		h.obey(c, l, id, m)
		return true
	}
	answered := h.answer(c, l, found, m)
	if id != "" && !answered {
		h.obey(c, l, id, m)
		return true
	}
	if sum := h.sumAsked(l); sum != "" && !answered {
		m.Command, m.Amount = "amounts", sum
	}
	h.volunteerAmounts(c, l, found, m)
	if m.Command == "" && !(answered && c.Asked.Fact == nil) {
		h.hearTrouble(c, l, ranked, answered, m)
	}
	if m.Problem != "" {
		c.Problem = h.book.ProblemByID(m.Problem)
		h.volunteerAmounts(c, l, found, m)
	}
	h.volunteer(c, l, found, answered, m)
	if m.tells() && l.unclaimed() < 2 && m.unlikely() {
		m.Alternatives, m.Elsewhere = nil, "" // facts alone
	}
	return answered || m.Command != "" || m.Problem != "" || m.Elsewhere != "" || len(m.Alternatives) > 0 ||
		m.tells() || m.MaybeEmergency != ""
}

// hearTrouble listens for a problem. Beside an answer only words that change
// the subject, well outside the answer, can name another.
func (h *Hearing) hearTrouble(c Context, l *line, ranked []Candidate, answered bool, m *Meaning) {
	if answered && (!changesSubject(l) || l.unclaimed() < 3) || m.tells() && l.unclaimed() < 2 {
		return
	}
	h.hearProblem(c, l, ranked, m)
	if answered && m.Problem == "" {
		m.Alternatives, m.Elsewhere = nil, ""
	}
}

// unlikely reports whether no problem is likely enough to be meant beside
// facts.
func (m *Meaning) unlikely() bool {
	return m.Problem == "" && (len(m.Alternatives) == 0 || m.Alternatives[0].Share < beside)
}

// tells reports whether the meaning holds facts or readings of them.
func (m *Meaning) tells() bool {
	return len(m.Facts) > 0 || len(m.Readings) > 0 || len(m.Denied) > 0 || m.Complaint != ""
}

// unclaimed counts the words of meaning that nothing has understood yet.
func (l *line) unclaimed() int {
	n := 0
	for _, w := range l.words {
		if !l.claimed[w.at] {
			n++
		}
	}
	return n
}

// isOption reports whether the line is the wording of an option asked about,
// which then is an answer even if a command is called the same.
func (h *Hearing) isOption(c Context, l *line, found []match) bool {
	if c.Asked == nil || c.Asked.Fact == nil {
		return false
	}
	for i := range found {
		v := &found[i]
		if v.phrase.fact == c.Asked.Fact.ID && v.phrase.option != quantity && v.to-v.from == len(l.words) {
			return true
		}
	}
	return false
}

// answersFirst reports whether a request may be an answer to the question,
// which then goes before it: "yes", "skip", "I did that already".
func answersFirst(c Context, id string) bool {
	if c.Asked == nil {
		return false
	}
	switch id {
	case sayYes, sayNo, sayNotSure, saySkip:
		return true
	case "next", "fixed", "safe":
		return c.Asked.Fact != nil && c.Asked.Fact.Kind == logic.YesNo
	}
	return false
}

// obey takes a command. "Not sure" and "skip" are no requests; "that did it"
// and "what else" also answer whether the remedy did it, and "we are safe"
// whether somebody is hurt.
func (h *Hearing) obey(c Context, l *line, id string, m *Meaning) {
	l.claim(0, len(l.tokens))
	special := ""
	if c.Asked != nil && c.Asked.Fact == nil {
		special = c.Asked.Special
	}
	switch {
	case id == sayNotSure:
		m.NotSure = true
		return
	case id == saySkip:
		m.Skip = true
		return
	case special == AskDidItWork && id == "fixed":
		m.Pick = 1
	case special == AskDidItWork && id == "next", special == AskEmergency && id == "safe":
		m.Pick = 2
	}
	m.Command = id
}

// spare gives the words of meaning that were not understood and that no
// saying of the book holds.
func (h *Hearing) spare(l *line) string {
	var list []string
	for _, w := range l.words {
		t := l.tokens[w.at]
		if !l.claimed[w.at] && h.spread[w.stem] == 0 && !w.negate {
			list = append(list, t.word)
		}
	}
	return strings.Join(list, " ")
}
