package hear

import "sparehand/internal/book"

// alarm is one emergency with its patterns made ready.
type alarm struct {
	id      string
	certain []pattern
	maybe   []pattern
}

type pattern struct {
	groups [][][]string // each group: phrases of stems
	unless [][]string
}

func (h *Hearing) buildAlarms(b *book.Book) {
	h.alarmed = make(map[string]bool)
	for _, e := range b.Emergencies {
		h.alarms = append(h.alarms, alarm{e.ID, h.patterns(e.Certain), h.patterns(e.Maybe)})
	}
}

func (h *Hearing) patterns(list []book.Pattern) []pattern {
	out := make([]pattern, 0, len(list))
	for _, p := range list {
		var ready pattern
		for i, group := range p.All {
			ready.groups = append(ready.groups, h.stemPhrases(group))
			if i == 0 {
				h.rememberAlarming(group)
			}
		}
		ready.unless = h.stemPhrases(p.Unless)
		if len(ready.groups) > 0 {
			out = append(out, ready)
		}
	}
	return out
}

func (h *Hearing) stemPhrases(list []string) [][]string {
	var out [][]string
	for _, text := range list {
		var stems []string
		for _, t := range tokenise(fold(text), h.stem) {
			stems = append(stems, t.stem)
		}
		if len(stems) > 0 {
			out = append(out, stems)
		}
	}
	return out
}

// rememberAlarming keeps the single words of a pattern's first group: the
// words that name the hurt.
func (h *Hearing) rememberAlarming(group []string) {
	for _, text := range group {
		if tokens := tokenise(fold(text), h.stem); len(tokens) == 1 && len(text) > 3 {
			h.alarmed[tokens[0].stem] = true
		}
	}
}

// emergency gives the emergency that the words tell of for certain, or the
// one to ask about.
func (h *Hearing) emergency(l *line, ranked []Candidate) (certain, maybe string) {
	for _, a := range h.alarms {
		for _, p := range a.certain {
			switch h.judge(l, p) {
			case strikes:
				return a.id, ""
			case isDenied:
				maybe = first(maybe, a.id)
			}
		}
	}
	if maybe != "" && h.calm(l) {
		maybe = ""
	}
	for _, a := range h.alarms {
		for _, p := range a.maybe {
			if maybe == "" && h.judge(l, p) == strikes {
				maybe = a.id
			}
		}
	}
	return h.suspect(l, ranked, maybe)
}

func first(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// suspect adds what the sayings of emergencies suggest.
func (h *Hearing) suspect(l *line, ranked []Candidate, maybe string) (string, string) {
	best, share := h.likelyEmergency(ranked)
	if best == "" || maybe != "" && best != maybe && share < surely {
		return "", maybe
	}
	alarming := h.speaksOfHurt(l)
	switch {
	case share >= surely && alarming && !h.calm(l):
		return best, ""
	case maybe == "" && !h.calm(l) && (share >= surely || share >= perhaps && alarming):
		return "", best
	}
	return "", maybe
}

// likelyEmergency gives the best emergency and the share of all of them
// together: which of them it is can be settled after the alarm.
func (h *Hearing) likelyEmergency(ranked []Candidate) (id string, share float64) {
	for _, c := range ranked {
		if h.book.EmergencyByID(c.ID) == nil {
			continue
		}
		if id == "" {
			id = c.ID
		}
		share += c.Share
	}
	return id, share
}

// speaksOfHurt reports whether a word of the first group of some pattern is
// said and not denied.
func (h *Hearing) speaksOfHurt(l *line) bool {
	for i, w := range l.words {
		if h.alarmed[w.stem] && !l.denied(i) {
			return true
		}
	}
	return false
}

// calm reports whether the words say that nobody is hurt: a word of hurt is
// denied, and none is said otherwise.
func (h *Hearing) calm(l *line) bool {
	calm := false
	for i, w := range l.words {
		if h.alarmed[w.stem] {
			if !l.denied(i) {
				return false
			}
			calm = true
		}
	}
	return calm
}

type verdict uint8

const (
	misses verdict = iota
	isDenied
	strikes
)

// judge reports whether every group of a pattern is hit and nothing speaks
// against it; isDenied when the first group is hit under a "not".
func (h *Hearing) judge(l *line, p pattern) verdict {
	for _, veto := range p.unless {
		if findStems(l.tokens, veto) >= 0 {
			return misses
		}
	}
	result := strikes
	for g, group := range p.groups {
		at := findAny(l.tokens, group)
		if at < 0 {
			return misses
		}
		if g == 0 && l.deniedToken(at) {
			result = isDenied
		}
	}
	return result
}

func findAny(tokens []token, group [][]string) int {
	for _, words := range group {
		if at := findStems(tokens, words); at >= 0 {
			return at
		}
	}
	return -1
}

// findStems gives where the stems stand in order among the tokens, with
// nothing but light words between them, or -1.
func findStems(tokens []token, stems []string) int {
	for i := range tokens {
		j, k := i, 0
		for j < len(tokens) && k < len(stems) {
			if alarmFits(tokens[j], stems[k]) {
				k++
			} else if k == 0 || !light[tokens[j].word] {
				break
			}
			j++
		}
		if k == len(stems) {
			return i
		}
	}
	return -1
}

// alarmFits compares a token with a word of a pattern. A mended misspelling
// counts only where it began with the same letter, so that harmless words do
// not turn alarming.
func alarmFits(t token, stem string) bool {
	return t.stem == stem && (!t.slip || t.first == stem[0])
}

// deniedToken is denied for a place among the tokens. A "not" inside a
// pattern's own phrase ("not breathing") stands at the place or after it, and
// so does not count.
func (l *line) deniedToken(at int) bool {
	for i, w := range l.words {
		if w.at >= at {
			return l.denied(i)
		}
	}
	return false
}
