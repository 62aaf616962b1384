package talk

import (
	"strconv"
	"strings"

	"sparehand/internal/hear"
)

// showStep is the show that asks for a step of the emergency card.
const showStep = "step "

// over reports whether words say that nobody is hurt, or is any more, whatever
// else they say: "it's rinsed and we're safe, but the drain is still full".
func (s *state) over(text string, m hear.Meaning) bool {
	return m.Command == "safe" || m.Command == "fixed" || s.a.hearing.SaysWithin("safe", text) || s.a.hearing.Opens(text) == 2
}

// whileHurt: nothing but the emergency is talked about until it is over. What
// is asked of the card is answered by the step that speaks of it.
func (s *state) whileHurt(text string, m hear.Meaning) []Act {
	switch {
	case m.Command == "start-again":
		return []Act{{Do: doReset}}
	case s.over(text, m):
		return append([]Act{{Do: doSafe}}, s.alongside(m)...)
	}
	if i := s.a.hearing.Nearest(text, s.hurt.Do); i >= 0 && m.Command == "" {
		return []Act{{Do: doShow, ID: showStep + strconv.Itoa(i)}}
	}
	return []Act{{Do: doShow, ID: "repeat"}}
}

// answersHurt reads an answer to whether somebody is hurt: a yes with more
// behind it, the same alarm again, a no in other words. None where it is none.
func (s *state) answersHurt(text string, m hear.Meaning) []Act {
	opens := s.a.hearing.Opens(text)
	other := m.MaybeEmergency != "" && m.MaybeEmergency != s.maybeHurt.ID
	switch {
	case fillsIn(text):
		return []Act{{Do: doShow, ID: "repeat"}} // "ok" answers nothing when it is asked whether somebody is burnt
	case other: // "no, it's her eye"
		return []Act{{Do: doHurt, ID: m.MaybeEmergency}}
	case opens == 2 || m.Pick == 2 || m.Command == "safe" || s.a.hearing.SaysWithin("safe", text):
		return append([]Act{{Do: doSafe}}, s.alongside(m)...)
	case opens == 1 || m.Pick == 1 || m.MaybeEmergency != "": // the same alarm again is a yes
		return []Act{{Do: doHurt, ID: s.maybeHurt.ID}}
	}
	return nil
}

// fillsIn reports whether words are what people say while they think.
func fillsIn(text string) bool {
	switch strings.Trim(strings.ToLower(text), " .,!") {
	case "ok", "okay", "right", "sure", "so", "well", "a bit", "a little":
		return true
	}
	return false
}

// step gives the step of the emergency card that an event asks for, or "".
func (s *state) step(e Event) string {
	for _, act := range e.Acts {
		if n, ok := strings.CutPrefix(act.ID, showStep); ok && act.Do == doShow {
			if i, err := strconv.Atoi(n); err == nil && i < len(s.hurt.Do) {
				return s.hurt.Do[i]
			}
		}
	}
	return ""
}
