package hear

import (
	"slices"
	"strings"
)

// How makers say at which step of the job they are, or want to be, and what
// they say before it.
var (
	letUs = phraseList(`let us|can we|can i|could we|could i|shall we|shall i|i want to|we want to|i would like to|i need to|we need to|we should|we|i`)
	goTo  = phraseList(`i am at|i am on|i am on to|i am up to|i am back at|i am now at|i am now on|i am ready for|we are at|we are on|we are up to|
we are now at|we are now on|we are back at|we are ready for|i have got to|i have got as far as|i have got up to|i have reached|i have come to|we have got to|
we have got as far as|we have reached|skip to|skip ahead to|skip forward to|skip on to|go to|go on to|go on with|go back to|go ahead to|go forward to|
go straight to|back to|jump to|jump back to|jump ahead to|take me to|take me back to|take us to|bring me to|bring me back to|move to|move on to|move back to|
get to|on to|onto|return to|start at|start with|start from|begin at|begin with|continue with|continue at|continue from|carry on with|carry on at|
do|start|now for|walk me through|take me through|talk me through|guide me through|put me at|put me on`)
)

// hearGoTo hears that the walk is to go to a step: such words, the name of a
// step, and nothing else.
func (h *Hearing) hearGoTo(l *line, m *Meaning) bool {
	r := &reader{l, 0, len(l.tokens)}
	if r.courtesies(); r.end < len(l.tokens) {
		return false
	}
	if !r.takes(goTo) {
		if r.takes(letUs); !r.takes(goTo) {
			return false
		}
	}
	if lead := wordAt(l.tokens, r.at-1); isOneOf(lead, "do", "start") && !isOneOf(r.word(), "the", "my") {
		return false // "start setting" is no wish
	}
	from, to := l.trimmed(r.at, r.end)
	for from < to && isOneOf(l.tokens[to-1].word, "already", "straight", "away", "bit", "part", "stage") {
		_, to = l.trimmed(from, to-1)
	}
	m.GoTo = h.stepCalled(l.tokens[from:to])
	return m.GoTo != ""
}

// stepCalled gives the id of the step that goes by all of the words, or "". One
// word may be any form of the step's, "gluing" or "the glue", but for those
// that a theatre has another sense for. The id is a name before "step", and after
// "the".
func (h *Hearing) stepCalled(words []token) string {
	byID := len(words) == 2 && words[0].word == "the"
	words = withoutArticles(words)
	if n := len(words); n > 1 && words[n-1].word == "step" {
		words, byID = words[:n-1], true
	} else if n == 0 || n == 1 && isOneOf(words[0].word, "set", "stage", "cast") {
		return ""
	}
	for _, exact := range []bool{true, false} {
		for _, s := range h.book.Steps {
			names := append([]string{s.Title}, s.Says...)
			if byID {
				names = append(names, s.ID)
			}
			for _, name := range names {
				own := withoutArticles(h.read(name))
				if slices.EqualFunc(own, words, func(a, b token) bool {
					return a.word == b.word || !exact && len(own) == 1 && a.stem == b.stem
				}) {
					return s.ID
				}
			}
		}
	}
	if len(words) == 1 && strings.HasSuffix(words[0].word, "ing") {
		return h.stepOpening(words[0].word)
	}
	return ""
}

// stepOpening gives the id of the one step whose title begins with the word:
// "the drying"; or "".
func (h *Hearing) stepOpening(word string) string {
	id := ""
	for _, s := range h.book.Steps {
		if own := withoutArticles(h.read(s.Title)); wordAt(own, 0) == word {
			if id != "" {
				return ""
			}
			id = s.ID
		}
	}
	return id
}

func withoutArticles(words []token) []token {
	return slices.DeleteFunc(slices.Clone(words), func(t token) bool { return isOneOf(t.word, "the", "a", "an", "my", "our") })
}
