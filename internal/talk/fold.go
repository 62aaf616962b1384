package talk

import (
	"slices"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/diagnose"
	"sparehand/internal/logic"
	"sparehand/internal/sums"
)

// state is what a session's events come to.
type state struct {
	a         *Assistant
	known     *logic.State
	told      []logic.FactID // in the order of telling
	derived   []logic.FactID // worked out from others
	unknown   []logic.FactID // asked for, and not to be had
	problem   *book.Problem
	enough    bool            // no more questions about this problem
	answers   int             // given or not to be had since it was opened
	later     []*book.Problem // told along, to be looked at afterwards
	words     string          // that the problems to choose from were heard in, or ""
	puzzling  string          // words that told of some trouble, but not of which
	last      string          // id of the problem that was open before, or ""
	elsewhere *book.Elsewhere
	refused   *book.Elsewhere // no sums until it is lifted
	choosing  []*book.Problem
	denied    []string // problems that were none of those meant
	stage     string   // at which the trouble is, where that was told
	meaning   []Choice
	doubt     *doubt // whether something was said, which is asked before all but an emergency; or nil
	hurt      *book.Emergency
	maybeHurt *book.Emergency
	failed    []*book.Remedy // tried without success
	passed    []*book.Remedy // passed over
	helped    *book.Remedy
	sums      []*book.Amount // wanted
	due       time.Time      // when the piece has to be on, zero where that was not told
	convert   *sums.Conversion
	since     map[logic.FactID]int // when each fact was told last, counted up
	turns     int                  // tellings so far
	lengths   craft.Unit           // the unit of length that was said last, or none
	worked    map[*book.Amount]sums.Worked
	closed    bool
	seen      *view // worked out once a turn

	makes
	timers    []timer
	diagnoses []Note
	past      []Note         // of builds that are over
	noted     int            // things noted of builds so far, for their ids
	found     map[string]int // how often this workshop found each cause of the open problem, or nil
	planned   *scheduled     // worked out once a turn
}

// fold works out the state from the start, by the events that stand.
func (a *Assistant) fold(events []Event) *state {
	s := a.newState()
	for _, e := range standing(events) {
		s.apply(e)
	}
	return s
}

func (a *Assistant) newState() *state {
	return &state{a: a, known: a.book.Base.NewState(), since: map[logic.FactID]int{}}
}

func (s *state) apply(e Event) {
	if !e.changes() {
		return
	}
	s.fresh()
	// Nobody is hurt after all: what was asked beside that is asked now.
	calm := e.Kind == "timer" || e.does(doSafe) && s.maybeHurt != nil
	if !calm {
		s.doubt = nil
	}
	if !calm && !e.passes() {
		s.puzzling, s.choosing, s.meaning, s.convert = "", nil, nil, nil
		s.denied, s.stage = nil, ""
	}
	for _, act := range e.Acts {
		s.do(act, e.At)
	}
	if e.does(doSafe) && s.hurt == nil && s.problem == nil && len(s.later) > 0 {
		s.open(s.later[0]) // the wall that leaked over the hand that was burnt
	}
	if !e.passes() {
		s.keepWords(e)
	}
	s.noteCall(e)
	s.tick(e.At)
	s.derive()
	s.settle(e.At)
}

// keepWords keeps what later words go by: what the problems to choose from were
// heard in, and the unit of length said last.
func (s *state) keepWords(e Event) {
	if s.words = ""; (e.Kind == "say" || e.Kind == "spoken") && len(s.choosing) > 0 {
		s.words = e.Text
	}
	for _, act := range e.Acts {
		if act.Do == doChoose && act.ID != "" {
			s.words = act.ID // the step was told since
		}
	}
	if unit, said := s.a.hearing.LengthUnit(e.Text); said && e.Kind != "timer" {
		s.lengths = unit
	}
}

// fresh forgets what was worked out from the state as it was.
func (s *state) fresh() {
	s.seen, s.worked, s.planned, s.judgement, s.back = nil, nil, nil, nil, nil
}

func (s *state) do(act Act, at time.Time) {
	switch act.Do {
	case doOpen:
		s.open(s.a.book.ProblemByID(act.ID))
		s.found = act.Seen
	case doEnough:
		s.enough = true
	case doLater:
		if p := s.a.book.ProblemByID(act.ID); p != nil && !slices.Contains(s.later, p) {
			s.later = append(s.later, p)
		}
	case doWhichStep:
		s.puzzling, s.denied = act.ID, act.Not
	case doTell, doUnsure, doForget:
		s.tell(act)
	case doChoose:
		s.denied, s.stage = act.Not, act.Step
		for _, id := range act.IDs {
			if p := s.a.book.ProblemByID(id); p != nil {
				s.choosing = append(s.choosing, p)
			}
		}
	case doMean:
		if act.Say != "" {
			s.doubt = &doubt{act.Say, act.Choices}
		} else {
			s.meaning = act.Choices
		}
	case doHurt:
		s.hurt, s.maybeHurt = s.a.book.EmergencyByID(act.ID), nil
	case doMaybeHurt:
		s.maybeHurt = s.a.book.EmergencyByID(act.ID)
	case doSafe:
		s.hurt, s.maybeHurt = nil, nil
	case doFailed, doPass, doHelped:
		s.try(act, at)
	case doFixed:
		s.closed, s.sums = true, nil
	case doBegin, doLeave, doGoTo, doStarted, doHands, doOver, doCheck, doVerdict, doNumber:
		s.make(act, at)
	case doTimer, doStopTimer, doWarn, doRing:
		s.time(act, at)
	case doLike:
		for _, n := range act.Notes {
			s.like(n)
		}
	case doSums:
		s.sums = s.a.amountsByID(act.IDs)
	case doConvert:
		s.convert = s.a.conversion(act)
	case doReset: // a pot on the stove cares little for a new talk
		s.putAway()
		timers, diagnoses, past, noted := s.timers, s.diagnoses, s.past, s.noted
		*s = *s.a.newState()
		s.timers, s.diagnoses, s.past, s.noted = timers, diagnoses, past, noted
	case doElsewhere:
		wanted := s.sums
		s.open(nil)
		s.sums = wanted // a refusal withholds them; what is lifted goes on
		s.elsewhere = s.a.elsewhereByID(act.ID)
		if e := s.elsewhere; e != nil && len(e.Lifts) > 0 {
			s.refused = e
		}
	case doLift:
		s.refused, s.elsewhere = nil, nil
	}
}

// open begins a problem. What was told stays told; what could not be told
// may be asked again.
func (s *state) open(p *book.Problem) {
	if p != nil {
		s.last = p.ID
	}
	s.later = slices.DeleteFunc(s.later, func(o *book.Problem) bool { return o == p })
	s.problem, s.elsewhere = p, nil
	s.failed, s.passed, s.helped, s.sums, s.unknown = nil, nil, nil, nil, nil
	s.enough, s.answers = false, 0
	s.closed, s.checking, s.found = false, nil, nil
}

func (s *state) tell(act Act) {
	f := s.a.book.FactByName(act.Fact)
	if f == nil {
		return // an event of an older book
	}
	s.answers++
	drop := func(id logic.FactID) bool { return id == f.ID }
	s.unknown = slices.DeleteFunc(s.unknown, drop)
	if act.Do == doTell {
		v, fault := f.Parse(act.Value)
		if fault != "" || s.known.Set(f.ID, v) != nil {
			return
		}
		s.turns++
		s.since[f.ID] = s.turns
		s.derived = slices.DeleteFunc(s.derived, drop)
		if !slices.Contains(s.told, f.ID) {
			s.told = append(s.told, f.ID)
		}
		return
	}
	if slices.Contains(s.told, f.ID) {
		s.told = slices.DeleteFunc(s.told, drop)
		delete(s.since, f.ID)
		s.known.Clear(f.ID)
	}
	if act.Do == doUnsure {
		s.unknown = append(s.unknown, f.ID)
	}
}

func (s *state) try(act Act, at time.Time) {
	r := s.a.index.remedies[act.ID]
	if r == nil {
		return
	}
	switch act.Do {
	case doFailed:
		s.failed = append(s.failed, r)
	case doPass:
		s.passed = append(s.passed, r)
	case doHelped:
		s.helped, s.closed = r, true
		if s.problem != nil { // an event of an older book may name none of this one
			s.diagnosed(r, at)
			s.goBack(r, at)
		}
	}
}

// derive works out the facts that follow from others, until nothing more
// follows. A told fact is never overruled.
func (s *state) derive() {
	for _, id := range s.derived {
		s.known.Clear(id)
	}
	s.derived = nil
	for again, rounds := true, 0; again && rounds < 8; rounds++ {
		again = false
		for _, id := range s.a.index.following {
			if s.follow(&s.a.book.Facts[id]) {
				again = true
			}
		}
	}
}

func (s *state) follow(f *book.Fact) bool {
	if _, known := s.known.Value(f.ID); known {
		return false
	}
	for _, rule := range f.Follows {
		if s.known.Truth(rule.When) == logic.True && s.known.Set(f.ID, rule.Value) == nil {
			s.derived = append(s.derived, f.ID)
			return true
		}
	}
	return false
}

// overrules reports whether acts change something that was told before.
func (s *state) overrules(acts []Act) bool {
	for _, act := range acts {
		f := s.a.book.FactByName(act.Fact)
		if act.Do != doTell || f == nil || !slices.Contains(s.told, f.ID) {
			continue
		}
		if now, known := s.known.Value(f.ID); known && f.Show(now) != act.Value {
			return true
		}
	}
	return false
}

// view is what diagnosis says of the state.
type view struct {
	model    *diagnose.Model
	beliefs  diagnose.Beliefs
	next     diagnose.Question
	asking   bool
	order    []*book.Remedy
	together []int
}

func (s *state) view() *view {
	if s.problem == nil || s.seen != nil {
		return s.seen
	}
	v := &view{model: s.a.models[s.problem.Index].Found(s.found)}
	v.beliefs = v.model.Beliefs(s.known, s.failed)
	if v.next, v.asking = v.model.Next(s.known, v.beliefs, s.mayAsk); len(s.unknown) >= patience || s.enough || len(s.tried()) > 0 || s.answers >= fewAnswers && s.left() < soon {
		v.asking = false // who can't tell so much is helped more by something to try
	}
	v.order = v.model.Order(s.known, v.beliefs, s.tried(), s.within())
	var first *book.Remedy
	if len(v.order) > 0 {
		first = v.order[0]
	}
	v.together = v.model.Together(s.known, v.beliefs, first)
	s.seen = v
	return v
}

// tried lists the remedies that need not be offered again.
func (s *state) tried() []*book.Remedy { return slices.Concat(s.failed, s.passed) }

// With the call near, so few answers have to do.
const (
	soon       = 60 // minutes
	fewAnswers = 4
)

// patience is how many answers that can't be told are asked for in a problem.
const patience = 6

// mayAsk reports whether a fact may be asked: not one that the maker could
// not tell, nor one that does not apply.
func (s *state) mayAsk(id logic.FactID) bool {
	f := &s.a.book.Facts[id]
	return !slices.Contains(s.unknown, id) && !(f.HasOnlyIf && s.known.Truth(f.OnlyIf) == logic.False)
}
