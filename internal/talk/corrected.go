package talk

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"sparehand/internal/hear"
	"sparehand/internal/logic"
)

// How people put right what was heard wrong: with the answer, which then stands
// in place of the last one, or without.
var (
	insists = regexp.MustCompile(`(?i)^\W*(?:(?:no|nope|nah|wrong|sorry|oops|oh|well|but|that'?s (?:wrong|not right)|that is wrong)\W+)*(?:i|we) (?:said|meant|told you)\W+(.+)$`)
	denies  = regexp.MustCompile(`(?i)^\W*(?:no|nope|nah|wrong|that'?s wrong|that is wrong)\W+(.+)$`)
	wrong   = regexp.MustCompile(`(?i)^\W*(?:no\W+)*(?:that'?s wrong|that is wrong|that was wrong|wrong|that'?s not what i said|that is not what i said|i (?:didn'?t|did not|never) say that|you heard wrong|you heard me wrong)\W*$`)
)

// corrected gives the acts of words that put the last answer right, whatever is
// asked now; none where they don't.
func (s *Session) corrected(text string, at time.Time) []Act {
	st := s.state
	if st.hurt != nil || st.maybeHurt != nil {
		return nil
	}
	text = strings.ReplaceAll(text, "’", "'")
	if wrong.MatchString(text) {
		if st.doubt != nil {
			return st.doubt.choices[len(st.doubt.choices)-1].Acts
		}
		return []Act{{Do: doUndo}}
	}
	insisted := true
	found := insists.FindStringSubmatch(text)
	if found == nil {
		insisted, found = false, denies.FindStringSubmatch(text)
	}
	if found == nil {
		return nil
	}
	rest := found[1]
	if st.doubt != nil {
		return st.insteadOfDoubt(rest, at)
	}
	last := lastChange(s.events)
	if last == nil || !insisted && st.answersToo(text, rest, at) {
		return nil
	}
	was := s.a.fold(takenBack(s.events))
	if acts := was.answersAs(last, rest, insisted, at); len(acts) > 0 {
		return append([]Act{{Do: doInstead}}, acts...)
	}
	if insisted {
		return st.retold(rest)
	}
	return nil
}

// answersToo reports whether words that begin with a no answer what is asked now:
// a choice all together, a yes/no question by what follows the no.
func (s *state) answersToo(text, rest string, at time.Time) bool {
	if takesBack.MatchString(rest) { // "no wait, ..." is heard as ever
		return true
	}
	q := s.question()
	switch {
	case q == nil || q.fact == nil || q.fact.Kind == logic.Number:
		return false
	case q.fact.Kind == logic.YesNo:
		return tells(s.meaningOf(rest, at), q.fact.ID)
	}
	return tells(s.meaningOf(text, at), q.fact.ID)
}

func tells(m hear.Meaning, id logic.FactID) bool {
	return slices.ContainsFunc(m.Facts, func(h hear.Heard) bool { return h.Fact == id })
}

// insteadOfDoubt is what was said in place of what a doubt asks about.
func (s *state) insteadOfDoubt(rest string, at time.Time) []Act {
	c := s.doubt
	s.doubt = nil
	defer func() { s.doubt = c }()
	return s.answer(rest, at)
}

// answersAs gives the acts of words as an answer like the last one, in the state
// before that.
func (s *state) answersAs(last *Event, rest string, insisted bool, at time.Time) []Act {
	if last.does(doTimer) {
		return s.otherTime(last, rest, at)
	}
	q := s.question()
	switch {
	case q == nil && !insisted,
		q == nil && !last.does(doOpen) && !last.does(doChoose) && !last.does(doWhichStep) && !last.does(doElsewhere),
		q != nil && q.fact != nil && !last.tells(q.fact.Name) && !last.does(doMean):
		return nil
	}
	acts := s.answer(rest, at)
	if !insisted && sameActs(acts, last.Acts) {
		return nil
	}
	return acts
}

// answer gives the acts of words where they answer what is asked or, where
// nothing is, tell of a trouble.
func (s *state) answer(words string, at time.Time) []Act {
	m := s.meaningOf(words, at)
	if m.Emergency+m.MaybeEmergency != "" {
		return nil
	}
	acts, _ := s.understand(words, m, at)
	q := s.question()
	e := Event{Acts: acts}
	switch {
	case q == nil && (e.does(doOpen) || e.does(doChoose) || e.does(doWhichStep)),
		q != nil && q.fact != nil && (e.tells(q.fact.Name) || e.does(doMean)),
		q != nil && q.fact == nil && m.Pick > 0:
		return acts
	}
	return nil
}

// tells reports whether an event answers the question about a fact.
func (e Event) tells(fact string) bool {
	return slices.ContainsFunc(e.Acts, func(a Act) bool { return (a.Do == doTell || a.Do == doUnsure) && a.Fact == fact })
}

// otherTime sets the timer that was set last to another time.
func (s *state) otherTime(last *Event, rest string, at time.Time) []Act {
	for _, words := range []string{"set a timer for " + rest, "set a timer for " + rest + " minutes"} {
		w := s.meaningOf(words, at).Timer
		if w == nil || w.Stop || w.More {
			continue
		}
		if acts, note := s.timerActs(w, at); note == "" {
			for _, act := range last.Acts {
				if act.Do == doTimer && act.Say != "" && w.Name == "" {
					acts[0].Name, acts[0].Say = act.Name, act.Say
				}
			}
			return acts
		}
	}
	return nil
}

// goesToStep takes the bare name of a step for a wish to go to it.
func (s *state) goesToStep(text string) []Act {
	if !s.making() || s.doubt != nil {
		return nil
	}
	if m := s.a.hearing.Hear(hear.Context{}, "go to "+text); m.GoTo != "" {
		return []Act{{Do: doGoTo, ID: m.GoTo}}
	}
	return nil
}
