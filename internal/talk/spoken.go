package talk

import (
	"math"
	"slices"
	"strings"
	"time"
)

// Spoken is what a recogniser made of one utterance.
type Spoken struct {
	Words  string   // "" where it was speech but nothing could be made out
	Sure   float64  // 0..1
	Free   bool     // not one of the expected phrases: a description, from a language model
	Others []string // other readings, likelier first, at most 3
}

// How sure a recogniser has to be, by the trial's tuning voices.
const (
	surely = 0.65 // from here on words count as if they were typed
	maybe  = 0.15 // and from here on they are asked about; below it they are missed
	enough = 0.45 // what changes nothing is done from here on, and else missed: "repeat" heard in a knock
)

// mostOthers is how many other readings are looked at.
const mostOthers = 3

// showSafe is the show that asks for "we are safe", or a no, once more.
const showSafe = "safe"

// Listen takes an utterance that was spoken. From the third miss in a row on it
// changes nothing: Events are as many as before, and the reply is the one in
// force, which need not be spoken again.
func (s *Session) Listen(sp Spoken, at time.Time) Reply {
	sp = sp.tidied()
	e := Event{At: at, Kind: "spoken", Text: sp.Words, Sure: sp.Sure, Others: sp.Others, Free: sp.Free}
	var madeOut bool
	if e.Acts, e.Note, madeOut = s.listened(sp, at); !madeOut {
		n := misses(s.events) + 1
		if n > mostMisses {
			return s.reply
		}
		e = Event{At: at, Kind: "spoken", Acts: []Act{{Do: doMissed, N: n}}}
	}
	return s.take(e)
}

func (sp Spoken) tidied() Spoken {
	sp.Words = strings.TrimSpace(sp.Words)
	if sp.Sure = min(max(sp.Sure, 0), 1); math.IsNaN(sp.Sure) {
		sp.Sure = 0
	}
	sp.Others = slices.DeleteFunc(slices.Clone(sp.Others), func(o string) bool {
		return strings.TrimSpace(o) == "" || strings.EqualFold(strings.TrimSpace(o), sp.Words)
	})
	sp.Others = sp.Others[:min(len(sp.Others), mostOthers)]
	return sp
}

// listened turns what was spoken into acts; false for a miss.
func (s *Session) listened(sp Spoken, at time.Time) (acts []Act, note string, madeOut bool) {
	st := s.state
	if acts, note, alarmed := s.alarmed(sp, at); alarmed {
		return acts, note, true
	}
	if sp.Words == "" || sp.Sure < maybe {
		return nil, "", false
	}
	if sp.Free && st.hurt == nil && st.maybeHurt == nil {
		return s.described(sp, at)
	}
	acts, note = s.understood(sp.Words, at)
	e := Event{Acts: acts}
	switch {
	case len(acts) == 0 && uncaught(note):
		return nil, "", false
	case !e.changes() && sp.Sure < enough && st.hurt == nil && st.maybeHurt == nil:
		return nil, "", false
	case !e.changes():
		return acts, note, true
	case st.hurt != nil || st.maybeHurt != nil:
		acts = s.calmly(sp, acts)
		return acts, note, true
	case st.doubt != nil && st.doubt.question().choosing(acts) >= 0:
		if losing(acts) != "" && sp.Sure < surely {
			return nil, "", false
		}
		return acts, note, true
	case sp.Sure < surely:
		return s.doubtful(sp, acts, at), "", true
	case losing(acts) != "":
		return []Act{{Do: doMean, Say: losing(acts) + " " + yesOrNo, Choices: []Choice{{"yes", acts}, {"no", notSaid()}}}}, "", true
	}
	return acts, note, true
}

// alarmed looks for an emergency in all that an utterance may well have been. Only
// one that is certain and was heard surely is acted on; any other is asked about
// at once, and none is missed.
func (s *Session) alarmed(sp Spoken, at time.Time) (acts []Act, note string, found bool) {
	st := s.state
	may := []string{sp.Words}
	if sp.Sure < surely || sp.Free {
		may = append(may, sp.Others...)
	}
	for i, text := range may {
		m := st.meaningOf(text, at)
		id := m.Emergency + m.MaybeEmergency
		if id == "" && i == 0 && sp.Free && st.hurt == nil && st.maybeHurt == nil {
			id = st.soundsLikeHurt(text)
		}
		switch {
		case i == 0 && id != "" && sp.Sure >= surely && !sp.Free:
			acts, note = s.understood(text, at)
			return acts, note, true
		case i == 0 && id == "" && st.maybeHurt != nil && sp.Sure >= maybe && len(st.answersHurt(text, m)) > 0:
			return nil, "", false // it answers whether somebody is hurt
		case id == "":
		case st.hurt != nil:
			return []Act{{Do: doShow, ID: "repeat"}}, "", true
		case st.maybeHurt != nil && st.maybeHurt.ID == id:
			return []Act{{Do: doHurt, ID: id}}, "", true // the same alarm again is a yes
		case i == 0 && sp.Free && st.build == nil: // "plaster is lick built up under the wall": which it may be as well
			return append([]Act{{Do: doMaybeHurt, ID: id}}, st.sounds(sp)...), "", true
		default:
			return []Act{{Do: doMaybeHurt, ID: id}}, "", true
		}
	}
	return nil, "", false
}

// calmly gives the acts of words in an emergency. Its end has to be heard surely,
// or twice; its card is not thrown away by a wish to start again.
func (s *Session) calmly(sp Spoken, acts []Act) []Act {
	e := Event{Acts: acts}
	again := len(s.events) > 0 && s.events[len(s.events)-1].shows(showSafe)
	switch {
	case e.does(doHurt), e.does(doSafe) && (again || sp.Sure >= surely && !sp.Free):
		return acts
	case e.does(doSafe):
		return []Act{{Do: doShow, ID: showSafe}}
	case e.does(doReset), sp.Free, sp.Sure < surely:
		return []Act{{Do: doShow, ID: "repeat"}}
	}
	return acts
}

// doubtful asks whether the words were said, or which of the readings that mean
// something else.
func (s *Session) doubtful(sp Spoken, acts []Act, at time.Time) []Act {
	if both := s.state.yesAndNo(acts, at); both != nil && s.a.hearing.Opens(sp.Words) != 0 {
		return asks(both)
	}
	list := []Choice{{quoted(sp.Words), confirmed(acts)}}
	for _, other := range sp.Others {
		acts, _ := s.understood(other, at)
		acts = confirmed(acts)
		if !(Event{Acts: acts}).changes() || slices.ContainsFunc(list, func(c Choice) bool { return sameActs(c.Acts, acts) }) {
			continue
		}
		if list = append(list, Choice{quoted(other), acts}); len(list) == mostReadings {
			break
		}
	}
	return asks(list)
}

// mostReadings is how many readings are asked about.
const mostReadings = 3

// yesAndNo gives both answers to a yes/no question that acts answer, else nil:
// "did you say no?" could not be answered.
func (s *state) yesAndNo(acts []Act, at time.Time) []Choice {
	q := s.question()
	if s.doubt != nil || q == nil || q.shown.Kind != "yesno" {
		return nil
	}
	yes, no := s.picked(q, 1, at), s.picked(q, 2, at)
	if !sameActs(acts, yes) && !sameActs(acts, no) {
		return nil
	}
	return []Choice{{"yes", yes}, {"no", no}}
}

// confirmed gives acts as they are done once it was asked whether they are meant.
func confirmed(acts []Act) []Act {
	if len(acts) == 1 && acts[0].Do == doUndo {
		return []Act{{Do: doUndo, ID: "said"}}
	}
	return acts
}

func quoted(words string) string { return strings.ToLower(strings.Trim(words, " .,;!?")) }

// shows reports whether an event asks to be shown something.
func (e Event) shows(id string) bool {
	return slices.ContainsFunc(e.Acts, func(a Act) bool { return a.Do == doShow && a.ID == id })
}
