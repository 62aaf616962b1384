package hear

import (
	"slices"
	"strings"
)

// How makers say at which step of the job they are, or want to be.
var goTo = phraseList(`i am at|i am on|i am on to|i am up to|i am back at|i am now at|i am now on|i am ready for|we are at|we are on|we are up to|we are now at|we are now on|
we are back at|we are ready for|skip to|skip ahead to|skip forward to|skip on to|go to|go on to|go on with|go back to|go ahead to|go forward to|go straight to|let us go to|
let us go back to|let us do|let us start|let us skip to|let us move on to|let us get to|back to|jump to|jump back to|jump ahead to|take me to|
take me back to|take us to|bring me to|bring me back to|move to|move on to|move back to|on to|onto|start at|start with|start from|
begin at|begin with|continue with|continue at|continue from|carry on with|carry on at|i have got to|i have got as far as|i have got up to|
i have reached|i have come to|return to|now for|next is|i want to go to|i want to go back to|i want to do|i would like to go to|i would like to do|
i need to go back to|walk me through|take me through|talk me through|guide me through|put me at|put me on`)

// hearGoTo hears that the walk is to go to a step: such words, the name of a
// step, and nothing else.
func (h *Hearing) hearGoTo(l *line, m *Meaning) bool {
	r := &reader{l, 0, len(l.tokens)}
	if r.courtesies(); r.end < len(l.tokens) || !r.takes(goTo) {
		return false
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
// that a theatre has another sense for; the id stands before "step".
func (h *Hearing) stepCalled(words []token) string {
	words = withoutArticles(words)
	named := len(words) > 1 && words[len(words)-1].word == "step"
	if named {
		words = words[:len(words)-1]
	}
	if len(words) == 0 || !named && len(words) == 1 && isOneOf(words[0].word, "set", "stage") {
		return ""
	}
	for _, exact := range []bool{true, false} {
		for _, s := range h.book.Steps {
			names := append([]string{s.Title}, s.Says...)
			if named {
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
