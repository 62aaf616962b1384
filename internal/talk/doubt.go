package talk

import (
	"encoding/json"
	"slices"
	"strings"
	"time"

	"sparehand/internal/phrase"
)

// doubt is a question whether something was said, or is really meant. The last
// of its choices is that it was not.
type doubt struct {
	say     string
	choices []Choice
}

const (
	yesOrNo = "Yes or no."
	neither = "neither"
)

// question is the doubt as it is asked: yes or no where one thing is asked about.
func (d *doubt) question() *openQuestion {
	q := &openQuestion{choices: d.choices, shown: Question{Fact: askMeaning, Text: d.say, Kind: "choice",
		HowToCheck: "Say which, or say it again in other words.", Why: "I was not sure that I heard you right."}}
	if len(d.choices) == 2 {
		q.shown.Kind, q.shown.Options = "yesno", yesNo
		return q
	}
	for i, o := range d.choices {
		q.shown.Options = append(q.shown.Options, OptionShown{i + 1, o.Label, o.Label})
	}
	return q
}

// composedDoubt puts the doubt, where there is one, in place of what is asked
// otherwise; the rest of the card stays.
func (s *state) composedDoubt(e Event, before glance) Reply {
	d := s.doubt
	if d == nil || s.hurt != nil || s.maybeHurt != nil {
		return s.composed(e, before)
	}
	s.doubt = nil
	r := s.composed(e, before)
	s.doubt = d
	r.Question, r.Phase, r.Done = &d.question().shown, choosing, false
	switch missed := missedNow(e); {
	case e.Kind == "timer", manner(e) != "":
	case missed > 0:
		r.Say = s.missedSaid(r.Question, missed)
	case e.does(doShow) && !e.shows("repeat"):
		r.Say = phrase.Speech(r.Say, d.say)
	default:
		r.Say = d.say
	}
	return r
}

// notSaid is what ends a doubt without more.
func notSaid() []Act { return []Act{{Do: doAgain}} }

// asks gives the act that asks whether a reading was said: yes or no for one,
// else by number.
func asks(list []Choice) []Act {
	labels := make([]string, len(list))
	for i, c := range list {
		labels[i] = c.Label
	}
	say := "Did you say " + strings.Join(labels, ", ") + "?"
	if n := len(labels); n > 1 {
		say = "Did you say " + strings.Join(labels[:n-1], ", ") + ", or " + labels[n-1] + "?"
	}
	no := neither
	if len(list) == 1 {
		no = "no"
	}
	return []Act{{Do: doMean, Say: say, Choices: append(list, Choice{no, notSaid()})}}
}

// losing says what acts throw away, as a question; "" for nothing.
func losing(acts []Act) string {
	stopped := 0
	for _, act := range acts {
		switch act.Do {
		case doReset:
			return "Start again?"
		case doStopTimer:
			stopped++
		}
	}
	switch {
	case slices.ContainsFunc(acts, func(a Act) bool { return a.Do == doLeave }):
		return "Stop the build?"
	case stopped > 1:
		return "Stop all the timers?"
	}
	return ""
}

// answersDoubt reads words as an answer to the doubt, else as said before it.
func (s *state) answersDoubt(text string, at time.Time) ([]Act, string) {
	q := s.doubt.question()
	m := s.meaningOf(text, at)
	if m.Emergency+m.MaybeEmergency != "" || s.maybeHurt != nil {
		return s.understand(text, m, at)
	}
	if len(q.choices) > 2 { // "two" may be the first of "two, or three"
		for _, c := range q.choices {
			if strings.EqualFold(c.Label, strings.Trim(text, " .,!?")) {
				return c.Acts, ""
			}
		}
	}
	said, note := s.withoutDoubt(text, at)
	if i := q.choosing(said); i >= 0 {
		return q.choices[i].Acts, ""
	}
	switch {
	case m.Pick >= 1 && m.Pick <= len(q.choices):
		return q.choices[m.Pick-1].Acts, ""
	case m.NotSure, m.Skip:
		return notSaid(), ""
	case m.Command == "back":
		return []Act{{Do: doUndo}}, ""
	}
	return said, note
}

// withoutDoubt is what words mean but for the doubt.
func (s *state) withoutDoubt(text string, at time.Time) ([]Act, string) {
	c := s.doubt
	s.doubt = nil
	defer func() { s.doubt = c }()
	return s.hears(text, at)
}

// choosing gives the place of the choice with these acts, or -1.
func (q *openQuestion) choosing(acts []Act) int {
	if len(acts) == 0 {
		return -1
	}
	return slices.IndexFunc(q.choices, func(c Choice) bool { return sameActs(c.Acts, acts) })
}

// sameActs compares acts as they are kept, so that it is the same for a talk that
// is resumed.
func sameActs(a, b []Act) bool {
	one, err := json.Marshal(a)
	other, fault := json.Marshal(b)
	return err == nil && fault == nil && string(one) == string(other)
}

// soundsLike asks whether a trouble is the one that was described, and what is
// next to ask if not.
func (s *state) soundsLike(id string, next Act) []Act {
	p := s.a.book.ProblemByID(id)
	return []Act{{Do: doMean, Say: phrase.Speech("It sounds like this: "+phrase.Lower(p.Title), "Is that it?"), Choices: []Choice{
		{p.Title, []Act{{Do: doOpen, ID: id}}},
		{"no", []Act{next}},
	}}}
}
