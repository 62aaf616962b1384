package talk

import (
	"fmt"
	"strings"

	"sparehand/internal/phrase"
)

const notMadeOut = "I didn't catch that."

// mostMisses is how many misses in a row are answered. Who goes on talking after
// that talks to somebody else.
const mostMisses = 2

// misses counts the misses at the end of a talk.
func misses(events []Event) int {
	n := 0
	for i := len(events) - 1; i >= 0 && (events[i].Kind == "timer" || missedNow(events[i]) > 0); i-- {
		if events[i].Kind != "timer" {
			n++
		}
	}
	return n
}

// missedNow gives the how manieth miss in a row an event is, or 0.
func missedNow(e Event) int {
	for _, act := range e.Acts {
		if act.Do == doMissed {
			return act.N
		}
	}
	return 0
}

// missedSaid asks the question again with its answers numbered, and from the
// second miss on offers the other ways to answer.
func (s *state) missedSaid(q *Question, n int) string {
	if q == nil {
		ask, touch := "", ""
		if s.problem == nil && s.build == nil {
			ask = opening
		}
		if n > 1 {
			touch = "You can type it as well"
		}
		return phrase.Speech(notMadeOut, ask, touch)
	}
	answers, touch := "", ""
	switch q.Kind {
	case "number":
		answers = fmt.Sprintf("Say a number, such as %s", s.example(q))
		touch = "Or type it"
	case "yesno":
		answers = "Yes or no"
	default:
		answers = numbered(q.Options)
	}
	if n > 1 && touch == "" {
		touch = "Or touch an answer, or press its number"
	} else if n == 1 {
		touch = ""
	}
	return phrase.Speech(notMadeOut, strings.TrimSuffix(q.Text, " "+yesOrNo), answers, touch)
}

// numbered says answers with their numbers: "One, under the wall; two, ...".
func numbered(options []OptionShown) string {
	list := make([]string, len(options))
	for i, o := range options {
		list[i] = numberInWords(o.N) + ", " + phrase.Lower(o.Label)
	}
	return strings.Join(list, "; ")
}

// example is an answer to a question for a number that is believable.
func (s *state) example(q *Question) string {
	n := 40
	if f := s.a.book.FactByName(q.Fact); f != nil && f.High > f.Low {
		for _, n = range []int{40, 20, 70, 10, 5, 2, 1, 200, 1000, 5000, 0} {
			if float64(n) >= f.Low && float64(n) <= f.High {
				break
			}
		}
	}
	return strings.TrimSpace(numberInWords(n) + " " + unitName(q.Unit, float64(n)))
}
