package talk

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
	"sparehand/internal/sums"
)

// understand turns what was heard into acts. The note says what could not be
// taken, in one sentence.
func (s *state) understand(text string, m hear.Meaning, at time.Time) (acts []Act, note string) {
	switch {
	case text == "":
		return nil, "I heard nothing."
	case text == "0" && s.hurt == nil && !s.asksNumber(): // the card's number for it
		return s.unsure(at), ""
	case m.Emergency != "" && !(s.hurt != nil && s.over(text, m)):
		return append([]Act{{Do: doHurt, ID: m.Emergency}}, later(m)...), ""
	case mannerSaid[m.Command] != "":
		return []Act{{Do: doManner, Value: m.Command}}, ""
	case s.hurt != nil:
		return s.whileHurt(text, m), ""
	case s.maybeHurt != nil && len(s.answersHurt(text, m)) > 0:
		return s.answersHurt(text, m), ""
	case m.MaybeEmergency != "":
		return append(append(s.alongside(m), s.sumActs(m)...), Act{Do: doMaybeHurt, ID: m.MaybeEmergency}), ""
	}
	if s.refused != nil && m.Elsewhere == "" && s.refused.LiftedBy(text) {
		if s.liftsWordForWord(text) {
			return []Act{{Do: doLift}}, "" // "it is clay on a plate" is no clay that lifts off it
		}
		acts := append([]Act{{Do: doLift}}, s.alongside(m)...)
		return append(acts, s.sumActs(m)...), m.Complaint
	}
	if s.making() && asksIfReady.MatchString(text) {
		return s.askReady(text, at), ""
	}
	if q := s.question(); q != nil && q.fact == nil {
		news := q.remedy != nil && m.Pick == 2 && s.news(m) // "no wait, it came through a join"
		if m.Pick >= 1 && m.Pick <= len(q.shown.Options) && !news {
			return s.goOn(s.picked(q, m.Pick, at), m), ""
		}
		if q.remedy != nil && m.Problem == s.problem.ID && len(m.Facts) == 0 { // "still leaking"
			return s.picked(q, 2, at), ""
		}
	}
	if acts, note, ok := s.buildActs(text, m, at, s.a.desk); ok {
		return acts, note
	}
	if len(m.Readings) > 0 {
		return []Act{{Do: doMean, Choices: s.choices(m)}}, ""
	}
	if m.Convert != nil {
		return s.convertActs(m.Convert), ""
	}
	if say := s.inPassing(m); say != "" {
		return append(s.alongside(m), s.sumActs(m)...), say
	}
	if acts = append(s.alongside(m), s.sumActs(m)...); len(acts) > 0 {
		return acts, m.Complaint
	}
	if acts = s.command(m, at); len(acts) > 0 {
		return acts, ""
	}
	if m.Puzzling && (s.problem == nil || s.closed) && s.question() == nil {
		return []Act{{Do: doWhichStep, ID: text}}, ""
	}
	return nil, s.notCaught(text, m)
}

// liftsWordForWord reports whether words are just what a refusal asks for.
func (s *state) liftsWordForWord(text string) bool {
	said := strings.Trim(text, " .!,")
	return slices.ContainsFunc(s.refused.Lifts, func(lift string) bool { return strings.EqualFold(lift, said) })
}

func (s *state) asksNumber() bool {
	q := s.question()
	return q == nil || q.shown.Kind == "number"
}

// alongside gathers the problem and the facts of an utterance.
func (s *state) alongside(m hear.Meaning) []Act {
	var acts []Act
	switch {
	case m.Problem != "" && (s.problem == nil || m.Problem != s.problem.ID || s.closed):
		acts = append(acts, Act{Do: doOpen, ID: m.Problem})
		acts = append(acts, later(m)...)
	case m.Elsewhere != "" && s.inPassing(m) == "":
		acts = append(acts, Act{Do: doElsewhere, ID: m.Elsewhere})
	}
	for _, h := range m.Facts {
		acts = append(acts, s.a.tellAct(h))
	}
	acts = append(acts, s.onlyOtherAnswer(m)...)
	if m.Problem == "" && m.Elsewhere == "" && len(m.Alternatives) > 1 && (s.problem == nil || len(acts) == 0) && !(s.making() && s.lacking() != nil) {
		choose := Act{Do: doChoose}
		for _, c := range m.Alternatives {
			if s.a.book.ProblemByID(c.ID) != nil {
				choose.IDs = append(choose.IDs, c.ID)
			}
		}
		if len(choose.IDs) > 0 {
			acts = append(acts, choose)
		}
	}
	return acts
}

// inPassing gives what is said to something that is answered at once while a
// trouble is open, which stays open: a cut, a glue that is not for skin.
func (s *state) inPassing(m hear.Meaning) string {
	e := s.a.elsewhereByID(m.Elsewhere)
	idle := (s.problem == nil || s.closed) && s.build == nil
	if e == nil || len(e.Lifts) > 0 || idle && m.Problem == "" {
		return ""
	}
	return e.Say
}

func (a *Assistant) tellAct(h hear.Heard) Act {
	f := &a.book.Facts[h.Fact]
	return Act{Do: doTell, Fact: f.Name, Value: f.Show(h.Value)}
}

// onlyOtherAnswer takes 'not under the wall' for an answer where the asked
// fact has only one other.
func (s *state) onlyOtherAnswer(m hear.Meaning) []Act {
	q := s.question()
	if q == nil || q.fact == nil || q.fact.Kind != logic.Choice || len(m.Facts) > 0 {
		return nil
	}
	var left []book.Option
	denied := false
	for i, o := range q.fact.Options {
		if slices.ContainsFunc(m.Denied, func(d hear.Denied) bool { return d.Fact == q.fact.ID && d.Value == logic.Option(i) }) {
			denied = true
			continue
		}
		left = append(left, o)
	}
	if !denied || len(left) != 1 {
		return nil
	}
	return []Act{{Do: doTell, Fact: q.fact.Name, Value: left[0].Value}}
}

// choices are the readings to pick from, each with the sum asked for along.
func (s *state) choices(m hear.Meaning) []Choice {
	var out []Choice
	for _, r := range m.Readings {
		c := Choice{Label: r.Label}
		for _, h := range r.Facts {
			c.Acts = append(c.Acts, s.a.tellAct(h))
		}
		with := m
		with.Facts = append(slices.Clone(m.Facts), r.Facts...)
		c.Acts = append(c.Acts, s.sumActs(with)...)
		out = append(out, c)
	}
	return out
}

// command turns a command into acts; none where it has no sense now.
func (s *state) command(m hear.Meaning, at time.Time) []Act {
	q := s.question()
	switch m.Command {
	case "back":
		return []Act{{Do: doUndo}}
	case "repeat", "why", "others", "help":
		return []Act{{Do: doShow, ID: m.Command}}
	case "start-again":
		if s.build != nil && s.problem != nil && !s.closed {
			return []Act{{Do: doFixed}} // the trouble is left, and not the build
		}
		return []Act{{Do: doReset}}
	case "safe":
		return []Act{{Do: doSafe}}
	case "advise":
		if q != nil && q.fact != nil && s.problem != nil {
			return []Act{{Do: doEnough}}
		}
		return []Act{{Do: doShow, ID: "repeat"}}
	case "fixed":
		return s.fixed(q)
	case "next":
		if q != nil && q.remedy != nil {
			return []Act{{Do: doPass, ID: q.remedy.ID}}
		}
		return s.unsure(at)
	case "not-sure", "skip":
		return s.unsure(at)
	}
	if m.NotSure || m.Skip {
		return s.unsure(at)
	}
	return nil
}

func (s *state) fixed(q *openQuestion) []Act {
	switch {
	case q != nil && q.remedy != nil:
		return s.thenLater(Act{Do: doHelped, ID: q.remedy.ID})
	case s.problem != nil && !s.closed:
		return s.thenLater(Act{Do: doFixed})
	case s.problem != nil:
		return []Act{{Do: doFixed}}
	}
	return nil
}

// speaksOfHurt finds words of hurt in what nothing else has understood. It
// only adds a sentence, so it may be wrong.
var speaksOfHurt = regexp.MustCompile(`(?i)\b(bleed\w*|blood (from|on) (my|his|her)|hurts? (me|him|her|my)|injur\w+|stabbed|cut (my|his|her|off)|faint\w*|dizzy|unconscious|collapsed|rash|hives|poison\w*|toxic)\b`)

// notCaught says why words were not taken; one of the sentences of uncaught where
// there is nothing to say of them.
func (s *state) notCaught(text string, m hear.Meaning) string {
	q := s.question()
	switch {
	case m.Complaint != "":
		return m.Complaint
	case speaksOfHurt.MatchString(text):
		return "If somebody is hurt, stop the work and see to them first; call the local emergency number if it is bad or you are not sure. I have no page on that hurt."
	case q != nil && q.fact != nil && slices.ContainsFunc(m.Denied, func(d hear.Denied) bool { return d.Fact == q.fact.ID }):
		return "Not that, then."
	}
	switch {
	case q != nil:
		return noAnswer
	case s.problem == nil:
		return noTrouble
	default:
		return nothingCaught
	}
}

const (
	noAnswer      = "I did not catch an answer in that."
	noTrouble     = "I did not catch what is going wrong."
	nothingCaught = "I did not catch that."
)

// uncaught reports whether a note only says that nothing was caught.
func uncaught(note string) bool {
	return note == noAnswer || note == noTrouble || note == nothingCaught
}

// news reports whether an utterance tells a fact that was not known, or not
// so.
func (s *state) news(m hear.Meaning) bool {
	return slices.ContainsFunc(m.Facts, func(h hear.Heard) bool {
		now, known := s.known.Value(h.Fact)
		return !known || now != h.Value
	})
}

// takesBack is how people begin when they put right what they said.
var takesBack = regexp.MustCompile(`(?i)^\W*(no\W+|oh\W+|hang on\W+|sorry\W+)*(wait|actually|sorry|hang on|i mean|i meant|correction|rather|no)\b`)

// mostCorrected is how many of the last answers a correction may be about.
const mostCorrected = 4

// correctedBy reads words that begin like a correction and answer nothing that
// is asked as another answer to what was asked before, the last first.
func (s *state) correctedBy(text string) []Act {
	if !takesBack.MatchString(text) || s.hurt != nil {
		return nil
	}
	return s.retold(takesBack.ReplaceAllString(text, ""))
}

// retold reads words as another answer to one of the last questions.
func (s *state) retold(text string) []Act {
	for i := len(s.told) - 1; i >= max(0, len(s.told)-mostCorrected); i-- {
		f := &s.a.book.Facts[s.told[i]]
		asked := &hear.Asked{Fact: f, Kind: f.Kind, Options: f.Options}
		m := s.a.hearing.Hear(hear.Context{Asked: asked, Problem: s.problem}, text)
		now, _ := s.known.Value(f.ID)
		for _, h := range m.Facts {
			if h.Fact == f.ID && h.Value != now && f.Kind != logic.YesNo {
				return []Act{s.a.tellAct(h)}
			}
		}
	}
	return nil
}

// correction reads a new value of a fact, as its value or in words.
func (a *Assistant) correction(f *book.Fact, value string) ([]Act, error) {
	if v, fault := f.Parse(value); fault == "" {
		if f.Kind == logic.Number && f.High > f.Low && (v.Number() < f.Low || v.Number() > f.High) {
			return nil, fmt.Errorf("%s of %s is outside %s to %s", sums.Subject(f), a.label(f, v), a.label(f, logic.Num(f.Low)), a.label(f, logic.Num(f.High)))
		}
		return []Act{{Do: doTell, Fact: f.Name, Value: f.Show(v)}}, nil
	}
	m := a.hearing.Hear(hear.Context{Asked: &hear.Asked{Fact: f, Kind: f.Kind, Options: f.Options}}, value)
	for _, h := range m.Facts {
		if h.Fact == f.ID {
			return []Act{a.tellAct(h)}, nil
		}
	}
	if m.Complaint != "" {
		return nil, fmt.Errorf("%s", strings.TrimSuffix(m.Complaint, "."))
	}
	if len(m.Readings) > 0 {
		labels := make([]string, len(m.Readings))
		for i, r := range m.Readings {
			labels[i] = r.Label
		}
		return nil, fmt.Errorf("%q could be %s: say which", value, phrase.Or(labels))
	}
	return nil, fmt.Errorf("%q is not an answer to: %s", value, f.Ask)
}
