package talk

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"sparehand/internal/aloud"
	"sparehand/internal/book"
	"sparehand/internal/draw"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
	"sparehand/internal/sums"
)

// Phases of a talk, for the page.
const (
	listening  = "listening"
	choosing   = "choosing"
	asking     = "asking"
	advising   = "advising"
	building   = "building"
	inDanger   = "emergency"
	closedDown = "closed"
)

const opening = "Tell me what you see going wrong, in your own words."

// glance is what a change is measured against.
type glance struct {
	problem *book.Problem
	lead    string // title of the leading cause
	remedy  *book.Remedy
	sums    int // lines of amounts
	advised bool
	hurried bool   // no cure fitted
	card    string // the step at hand
	doubted bool   // it was asked whether something was said
}

func (s *state) glance() glance {
	g := glance{problem: s.problem, remedy: s.offered(), card: s.card(), doubted: s.doubt != nil}
	if v := s.view(); v != nil {
		g.lead, g.advised = s.leadTitle(v), !v.asking
		g.hurried = g.advised && s.hurried()
	}
	if len(s.sums) > 0 {
		g.sums = len(s.amounts().shown)
	}
	return g
}

func (s *state) leadTitle(v *view) string {
	lead := v.beliefs.Leading()
	if lead == len(s.problem.Causes) {
		return "something that I do not know"
	}
	return s.problem.Causes[lead].Title
}

// compose works out the reply to event e, in the state after it.
func (s *state) compose(e Event, before glance) Reply {
	r := s.composedDoubt(e, before)
	r.Aloud, r.Manner = aloud.Words(r.Say), manner(e)
	if e.Kind == "spoken" || e.Sure > 0 {
		r.Voice = &VoiceShown{e.Text, e.Sure}
	}
	return r
}

func (s *state) composed(e Event, before glance) Reply {
	r := Reply{Causes: []CauseShown{}, Remedies: []RemedyShown{}, Cautions: []CautionShown{}, Show: []string{}, Pictures: []draw.Picture{}}
	s.tick(e.At)
	r.At, r.Build, r.Timers, r.Plan, r.Notes = e.At, s.buildShown(e.At), s.timersShown(e), s.planShown(e.At), recalled(e)
	r.Facts, r.Told = s.facts()
	if s.hurt != nil {
		s.composeDanger(&r, e)
		return r
	}
	if q := s.question(); q != nil {
		r.Question = &q.shown
	}
	r.Time = s.timeShown()
	did := s.amounts()
	r.Amounts = did.shown
	for _, w := range did.worked {
		r.Pictures = append(r.Pictures, w.Pictures...)
	}
	r.Heard = s.heard(e)
	r.Changed = s.changed(e, before)
	var core string
	switch {
	case s.maybeHurt != nil:
		r.Phase, r.Title = asking, "First: is somebody hurt?"
		core = s.maybeHurt.Ask
	case len(s.meaning) > 0:
		r.Phase, r.Title = choosing, "Which do you mean?"
		core = spokenChoice(r.Question)
	case len(s.choosing) > 0:
		r.Phase, r.Title = choosing, "Which of these is it?"
		core = spokenChoice(r.Question)
	case s.puzzling != "":
		r.Phase, r.Title = choosing, "Which step are you at?"
		core = phrase.Speech("I can't tell yet which trouble that is", spokenChoice(r.Question))
	case s.making():
		core = s.composeBuild(&r, e, did, before)
	case s.problem == nil:
		core = s.composeListening(&r, e, did, before)
	default:
		core = s.composeProblem(&r, e, before)
	}
	s.noteSums(&r, did)
	switch missed, how := missedNow(e), manner(e); {
	case e.Kind == "timer":
		r.Say = s.rung(e)
	case missed > 0:
		r.Say = s.missedSaid(r.Question, missed)
	case how != "":
		r.Say = mannerSaid[how]
	default:
		r.Say = withReadBack(s.readBack(e, before), s.overlay(&r, e, before, core))
	}
	return r
}

// composeDanger fills the reply of an emergency: what to do first, then the
// rest in order, then whom to call.
func (s *state) composeDanger(r *Reply, e Event) {
	d := s.hurt
	r.Phase, r.Emergency, r.Title = inDanger, d.ID, d.Title
	r.Amounts = []AmountShown{}
	r.Show = append(append([]string{d.Say}, d.Do...), d.Call, "From: "+d.Source, "Say 'we are safe' when it is over.")
	r.Cautions = append(r.Cautions, CautionShown{d.ID, "stop", d.Call})
	if s.problem != nil {
		r.Problem = s.problem.ID
	}
	if e.Kind == "timer" {
		r.Say = phrase.Speech(d.Say, s.rung(e))
		return
	}
	if slices.ContainsFunc(e.Acts, func(a Act) bool { return a.Do == doHurt }) {
		r.Say = phrase.Speech(d.Say, d.Call)
		return
	}
	if step := s.step(e); step != "" {
		r.Say = phrase.Speech(step, d.Call)
		return
	}
	lead := ""
	switch how := manner(e); {
	case how != "":
		r.Say = mannerSaid[how]
		return
	case e.shows(showSafe):
		r.Say = "Did you say that it is over? Say 'we are safe' once more."
		return
	case missedNow(e) > 0:
		lead = notMadeOut
	}
	r.Say = phrase.Speech(lead, d.Say, "The rest is on the card", "Say 'we are safe' when it is over, or 'no' if nobody is hurt")
}

func (s *state) composeListening(r *Reply, e Event, did result, before glance) string {
	r.Phase, r.Title = listening, "Ready"
	if s.refused != nil && s.convert == nil {
		r.Title, r.Done = s.refused.Title, true
		r.Show = append(r.Show, "If it is something else, say: "+s.refused.Lifts[0]+".")
		return s.refused.Say
	}
	if s.elsewhere != nil {
		r.Title, r.Done = s.elsewhere.Title, true
		return s.elsewhereSpoken(r)
	}
	if r.Question != nil {
		r.Phase, r.Title = asking, "Amounts"
		return spokenQuestion(r.Question)
	}
	if len(did.worked)+len(did.refused) > 0 {
		r.Title = "Amounts"
		if e.Note != "" && len(e.Acts) == 0 {
			return "" // what was not caught is all there is to say
		}
		if before.sums > 0 && !slices.ContainsFunc(e.Acts, func(a Act) bool { return a.Do == doSums }) {
			return did.spoken() // the warnings were spoken already
		}
		return phrase.Speech(firstCaution(did.cautions), did.spoken())
	}
	if len(s.sums) > 0 {
		r.Title = "Amounts"
		return "I can't work that out without knowing this: " + phrase.And(did.lacking)
	}
	r.Show = append(r.Show, "Say it as you would to somebody beside you: 'my clay is cracking', 'plaster is running out under the wall'.")
	return opening
}

// elsewhereSpoken answers a trouble that the book does not treat.
func (s *state) elsewhereSpoken(r *Reply) string {
	if s.elsewhere.Say != "" {
		return s.elsewhere.Say
	}
	r.Show = append(r.Show, "This book does not treat that yet. Ask somebody who has made these before, and keep the piece as it is until then.")
	return fmt.Sprintf("That sounds like this: %s. I have no page on it yet, so ask somebody experienced", phrase.Lower(s.elsewhere.Title))
}

// noteSums adds the cautions of the sums, and what some still lack.
func (s *state) noteSums(r *Reply, did result) {
	if len(did.worked) > 0 {
		for _, c := range cautions(did.cautions) {
			if !slices.Contains(r.Cautions, c) {
				r.Cautions = append(r.Cautions, c)
			}
		}
		slices.SortStableFunc(r.Cautions, func(a, b CautionShown) int { return gravity(a.Level) - gravity(b.Level) })
	}
	if s.problem != nil && s.refused != nil && len(s.sums) > 0 {
		r.Show = append(r.Show, s.refused.Say)
	}
	if s.problem != nil && len(did.refused) > 0 {
		r.Show = append(r.Show, did.refused...)
	}
	if len(did.lacking) > 0 && len(r.Amounts) == 0 && s.missing() == nil && s.problem != nil {
		r.Show = append(r.Show, "For the amounts I need: "+phrase.And(did.lacking)+". Say 'how much' and I ask for them.")
	}
}

var levels = []string{"stop", "care", "note"}

func gravity(level string) int { return slices.Index(levels, level) }

func (s *state) composeProblem(r *Reply, e Event, before glance) string {
	p, v := s.problem, s.view()
	var lead []string
	if done := s.justClosed(e); done != nil {
		for _, next := range done.NextTime {
			r.Show = append(r.Show, "Next time: "+next)
		}
		lead = append(lead, "Good. Now the other one: "+phrase.Lower(p.Title))
	} else if before.problem != p && len(s.later) > 0 {
		lead = append(lead, "First this one; the other comes after it: "+phrase.Lower(s.later[0].Title))
	}
	r.Problem, r.Title = p.ID, p.Title
	r.Causes = s.causes(v)
	switch {
	case s.closed:
		return s.composeClosed(r)
	case r.Question != nil && r.Question.Fact != askWorked:
		r.Phase = asking
		r.Cautions = cautions(p.Cautions)
		if before.problem != p {
			r.Show = append(r.Show, p.Meaning)
			if p.First != "" {
				r.Show = append(r.Show, p.First)
			}
			return phrase.Speech(append(lead, spokenCautions(p.Cautions), p.First, spokenQuestion(r.Question))...)
		}
		return spokenQuestion(r.Question)
	case s.offered() != nil:
		return s.composeAdvice(r, v, before)
	}
	return s.composeHonestEnd(r, v)
}

// composeAdvice fills in the remedies. Cautions come before instructions.
func (s *state) composeAdvice(r *Reply, v *view, before glance) string {
	r.Phase = advising
	first := v.order[0]
	together := s.together(v)
	order := s.inOrder(v, together)
	for _, rem := range order {
		r.Remedies = append(r.Remedies, s.remedyShown(rem))
	}
	warn := slices.Concat(s.problem.Cautions, first.Cause.Cautions, first.Cautions)
	for _, c := range together[1:] {
		warn = append(warn, s.problem.Causes[c].Cautions...)
	}
	r.Cautions = cautions(warn)
	if before.remedy == first && before.problem == s.problem {
		return phrase.Speech(first.Say, "Did that do it?")
	}
	var say []string
	if before.problem != s.problem {
		say = append(say, spokenCautions(warn), s.problem.First)
	} else {
		say = append(say, spokenCautions(slices.Concat(first.Cause.Cautions, first.Cautions)))
	}
	say = append(say, s.verdict(v, together), s.beganSpoken(together))
	if s.hurried() {
		say = append(say, r.Time.spoken())
	} else {
		say = append(say, first.Say)
		if len(together) > 1 && len(order) > 1 {
			say = append(say, "Then: "+phrase.Lower(order[1].Say))
		}
		say = append(say, savesSpoken(first), s.fitsSpoken(first))
	}
	s.showBegan(r, together)
	for i, c := range together {
		cause := s.problem.Causes[c]
		r.Show = append(r.Show, cause.Why)
		if i > 0 {
			r.Show = append(r.Show, "Two things are likely at once, so do both.")
		}
	}
	return phrase.Speech(say...)
}

func (s *state) remedyShown(rem *book.Remedy) RemedyShown {
	return RemedyShown{ID: rem.ID, Cause: rem.Cause.ID, Say: rem.Say, Now: rem.Now, Saves: string(rem.Saves),
		Minutes: rem.Minutes, NextTime: rem.NextTime, Fits: rem.Minutes <= s.within()}
}

// together is the causes to name at once, the one the first remedy is for
// before the others; once something was tried only that, for the next.
func (s *state) together(v *view) []int {
	if len(s.tried()) > 0 {
		return []int{v.model.For(v.order[0], v.beliefs)}
	}
	if len(v.together) == 0 {
		return []int{v.order[0].Cause.Index}
	}
	return v.together
}

// inOrder puts the best remedy of a second likely cause right after the first.
func (s *state) inOrder(v *view, together []int) []*book.Remedy {
	if len(together) < 2 {
		return v.order
	}
	order := slices.Clone(v.order)
	for i := 1; i < len(order); i++ {
		if c := order[i].Cause.Index; c != order[0].Cause.Index && slices.Contains(together, c) {
			second := order[i]
			order = slices.Insert(slices.Delete(order, i, i+1), 1, second)
			break
		}
	}
	return order
}

func (s *state) verdict(v *view, together []int) string {
	lead := s.problem.Causes[together[0]]
	if len(s.failed)+len(s.passed) > 0 {
		return "Next to try, for this: " + phrase.Lower(lead.Title)
	}
	if len(together) > 1 {
		return fmt.Sprintf("Two things at once, it seems: %s; and %s", phrase.Lower(lead.Title), phrase.Lower(s.problem.Causes[together[1]].Title))
	}
	if v.beliefs[together[0]] < 0.6 {
		return "It can't be told for sure from that; likeliest is this: " + phrase.Lower(lead.Title)
	}
	return "Most likely: " + phrase.Lower(lead.Title)
}

func savesSpoken(r *book.Remedy) string {
	switch r.Saves {
	case "yes":
		return fmt.Sprintf("That takes %s and saves the piece", minutes(r.Minutes))
	case "partly":
		return fmt.Sprintf("That takes %s and saves part of it", minutes(r.Minutes))
	default:
		return fmt.Sprintf("This one can't be saved; that takes %s", minutes(r.Minutes))
	}
}

func (s *state) composeClosed(r *Reply) string {
	r.Phase, r.Done = closedDown, true
	v := s.view()
	rem := s.helped
	if rem == nil && len(v.order) > 0 && !v.beliefs.Stranger() && v.beliefs[v.beliefs.Leading()] > 0.6 {
		rem = v.order[0]
	}
	if rem == nil {
		return "Good. Tell me when something else comes up"
	}
	for _, next := range rem.NextTime {
		r.Show = append(r.Show, "Next time: "+next)
	}
	r.Remedies = append(r.Remedies, s.remedyShown(rem))
	say := "Good"
	if len(rem.NextTime) > 0 {
		say = "Good. Next time: " + phrase.Lower(rem.NextTime[0])
	}
	return say
}

// composeHonestEnd says that nothing fits, what is safe to try, and whom to
// ask.
func (s *state) composeHonestEnd(r *Reply, v *view) string {
	r.Phase, r.Done = closedDown, true
	r.Cautions = cautions(s.problem.Cautions)
	r.Show = append(append(r.Show, s.problem.Fallback.Try...), s.problem.Fallback.Seek)
	core := "Nothing I know fits what you told me."
	if len(s.failed) > 0 {
		core = "I have nothing left to try that fits."
	}
	try := ""
	if len(s.problem.Fallback.Try) > 0 {
		try = "Safe to try: " + phrase.Lower(s.problem.Fallback.Try[0])
	}
	return phrase.Speech(core, try, s.problem.Fallback.Seek)
}

func (s *state) causes(v *view) []CauseShown {
	out := []CauseShown{}
	for i, c := range s.problem.Causes {
		shown := CauseShown{ID: c.ID, Title: c.Title, Share: v.beliefs[i], Because: []string{}, Found: s.found[c.ID]}
		if c.Began != nil {
			shown.Began = c.Began.Title
		}
		if c.See != nil {
			shown.See = c.See.ID
		}
		for _, sign := range v.model.Reasons(s.known, i) {
			shown.Because = append(shown.Because, s.because(sign))
		}
		out = append(out, shown)
	}
	if last := v.beliefs[len(v.beliefs)-1]; last >= 0.1 {
		out = append(out, CauseShown{ID: "something-else", Title: "Something that this book does not know", Share: last,
			Because: []string{"what you told fits none of the others well"}})
	}
	slices.SortStableFunc(out, func(a, b CauseShown) int { return cmp.Compare(b.Share, a.Share) })
	return out
}

// because gives a sign's reason in words.
func (s *state) because(sign *book.Sign) string {
	if sign.Because != "" {
		return sign.Because
	}
	var parts []string
	for _, id := range s.a.book.Base.Mentions(sign.When) {
		if v, ok := s.known.Value(id); ok {
			f := &s.a.book.Facts[id]
			parts = append(parts, sums.Subject(f)+": "+s.a.label(f, v))
		}
	}
	return strings.Join(parts, ", ")
}

// cautions lists warnings once each, the gravest first.
func cautions(list []*book.Caution) []CautionShown {
	out := []CautionShown{}
	for _, level := range levels {
		for _, c := range list {
			shown := CautionShown{c.ID, c.Level, c.Text}
			if c.Level == level && !slices.Contains(out, shown) {
				out = append(out, shown)
			}
		}
	}
	return out
}

// facts gives what is known, by name and in words.
func (s *state) facts() (map[string]any, []ToldShown) {
	byName := map[string]any{}
	told := []ToldShown{}
	add := func(id logic.FactID, derived, unsure bool) {
		f := &s.a.book.Facts[id]
		shown := ToldShown{Fact: f.Name, Ask: f.Ask, Kind: kindWord(f.Kind), Unit: f.Unit, Options: optionsOf(f),
			Derived: derived, NotSure: unsure, Label: "not sure"}
		if v, ok := s.known.Value(id); ok {
			shown.Label = s.a.label(f, v)
			shown.Value = plain(f, v)
			byName[f.Name] = shown.Value
		}
		told = append(told, shown)
	}
	for _, id := range s.told {
		add(id, false, false)
	}
	for _, id := range s.derived {
		add(id, true, false)
	}
	for _, id := range s.unknown {
		if _, ok := s.known.Value(id); !ok {
			add(id, false, true)
		}
	}
	return byName, told
}

// plain is a value as JSON carries it.
func plain(f *book.Fact, v logic.Value) any {
	switch f.Kind {
	case logic.Number:
		return v.Number()
	case logic.YesNo:
		return v.Bool()
	default:
		return f.Options[v.Index()].Value
	}
}
