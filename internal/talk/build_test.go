package talk

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// bench is a talk with a clock that goes on by itself, a minute a turn.
type bench struct {
	*testing.T
	s   *Session
	now time.Time
}

func atBench(t *testing.T, a *Assistant) *bench {
	t.Helper()
	return &bench{t, a.Open(), noon}
}

func (b *bench) say(texts ...string) (r Reply) {
	b.Helper()
	for _, text := range texts {
		r = b.s.Hear(text, b.now)
		b.now = b.now.Add(time.Minute)
	}
	return r
}

// told answers what a build asks of the ferryman's cheek.
var told = map[string]string{
	"experience": "never, my first", "minutes_left": "in four days", "body_place": "cheek", "piece_length_mm": "60 mm",
	"piece_width_mm": "45 mm", "piece_height_mm": "12 mm", "build_way": "in a mould", "clay_kind": "oil",
	"allergy_known": "no allergy known", "diet_agreed": "yes", "wearer_child": "no", "patch_tested": "worn before",
	"wall_kind": "clay strips", "plaster_consistency": "70", "recipe": "with sorbitol syrup", "copies": "1",
	"heat_with": "hot water bath", "outcome": "held all evening", "worn_minutes": "three hours",
}

// answer answers questions until the card of a step is there.
func (b *bench) answer(r Reply) Reply {
	b.Helper()
	for range 40 {
		if r.Question == nil || r.Question.Fact == askStepDone || r.Question.Fact == askWorked {
			return r
		}
		words, known := told[r.Question.Fact]
		if !known {
			words = "not sure"
		}
		asked := r.Question.Fact
		if r = b.say(words); r.Question != nil && r.Question.Fact == asked {
			b.Fatalf("%q was not taken for an answer to: %s", words, r.Question.Text)
		}
	}
	b.Fatal("there is no end of questions")
	return r
}

// upTo goes on with done until a step is at hand.
func (b *bench) upTo(step string) (r Reply) {
	b.Helper()
	r = b.answer(b.say("guide me through a barnacle cheek"))
	for range 40 {
		if r.Build == nil {
			b.Fatalf("the build is gone: %s", r.Say)
		}
		if r.Build.Step == step {
			return r
		}
		r = b.answer(b.finish(r))
	}
	b.Fatalf("%s was never at hand", step)
	return r
}

// finish ends the step at hand, after its wait where it waits.
func (b *bench) finish(r Reply) Reply {
	b.Helper()
	if r.Build.Starts != "" {
		r = b.say("started")
	}
	if r.Build.State == stepWaiting {
		for _, w := range r.Build.Waiting {
			if w.Step == r.Build.Step && w.To.After(b.now) {
				b.now = w.To.Add(time.Minute)
			}
		}
		b.ring()
	}
	return b.say("done")
}

// ring rings all that is due, and gives what was said.
func (b *bench) ring() (said []string) {
	for {
		r, _, rang := b.s.Ring(b.now)
		if !rang {
			return said
		}
		said = append(said, r.Say)
	}
}

// A first appliance from the first word to the last leaves a mould, a batch and
// a piece in the notebook.
func TestWholeBuild(t *testing.T) {
	b := atBench(t, assistant(t))
	r := b.upTo("wear")
	if r.Plan != nil {
		t.Errorf("at the wearing there is still a plan: %+v", r.Plan.Tasks)
	}
	for r.Build.Step != "" {
		r = b.answer(b.finish(r))
	}
	if !r.Done || r.Phase != building || r.Build.State != stepOver {
		t.Errorf("it ends in phase %s, state %s: %s", r.Phase, r.Build.State, r.Say)
	}
	kinds := map[string]Note{}
	for _, n := range b.s.Notes() {
		kinds[n.Kind] = n
	}
	mould, batch, piece := kinds[NoteMould], kinds[NoteBatch], kinds[NotePiece]
	if mould.Number != 1 || !strings.HasPrefix(mould.Label, "M1 barnacle cheek ") {
		t.Errorf("the mould is %+v", mould)
	}
	if batch.Recipe != "gelatin_sorbitol_glycerin" || len(batch.Parts) < 3 || batch.Mould != 1 {
		t.Errorf("the batch is %+v", batch)
	}
	if piece.Mould != 1 || piece.Batch != 1 || piece.Place != "cheek" || piece.Outcome == "" || piece.WornFor == nil || *piece.WornFor != 180 {
		t.Errorf("the piece is %+v", piece)
	}
}

// A trouble in the middle: the diagnosis knows what was told, and the build goes
// on where it was, or at the step that is to be done again.
func TestTroubleMidStep(t *testing.T) {
	b := atBench(t, assistant(t))
	b.upTo("plaster")
	b.say("started")
	r := b.say("plaster is running out under the wall")
	if r.Problem != "dam-leaks" || r.Facts["wall_kind"] != "clay" && r.Facts["clay_kind"] != "oil" {
		t.Fatalf("problem %q, facts %v", r.Problem, r.Facts)
	}
	r = b.answer(r)
	if len(r.Remedies) == 0 {
		t.Fatalf("no remedy: %s", r.Say)
	}
	saves := r.Remedies[0].Saves
	if r = b.say("yes"); r.Phase != building || r.Build.Step == "" || !strings.Contains(r.Say, "Back to the build") {
		t.Fatalf("after a remedy that saves it (%s): phase %s at %q: %s", saves, r.Phase, r.Build.Step, r.Say)
	}
	if r.Build.Step != "plaster" {
		t.Errorf("the build goes on at %s", r.Build.Step)
	}
	if notes := b.s.Notes(); !slices.ContainsFunc(notes, func(n Note) bool { return n.Kind == NoteDiagnosis && n.Problem == "dam-leaks" && n.Helped }) {
		t.Errorf("no diagnosis is noted: %+v", notes)
	}
}

// What can't be saved is made again, with its amounts and the schedule.
func TestDoneAgain(t *testing.T) {
	a := assistant(t)
	b := atBench(t, a)
	before := b.upTo("free")
	s := b.s.state
	for _, p := range a.book.Problems {
		if p.Step == nil || p.Step.ID != "free" {
			continue
		}
		for _, c := range p.Causes {
			for _, rem := range c.Remedies {
				if rem.Saves == "no" && rem.Again(p).ID == "plaster" {
					s.open(p)
					s.do(Act{Do: doHelped, ID: rem.ID}, b.now)
					if at := s.atHand(); at.ID != "plaster" {
						t.Fatalf("after %s the build goes on at %s", rem.ID, at.ID)
					}
					if plan := s.plan(b.now); plan.plan.Finish <= before.Plan.Finish.Sub(b.now).Minutes() {
						t.Errorf("the schedule is no longer than before")
					}
					return
				}
			}
		}
	}
	t.Fatal("no remedy at the freeing has the plaster made again")
}

// Readiness is what is seen: a dent waits, and is asked afresh.
func TestReadiness(t *testing.T) {
	b := atBench(t, assistant(t))
	r := b.upTo("plaster")
	b.say("started", "done")
	if r = b.say("is the plaster ready"); r.Question == nil || r.Question.Fact != "plaster_nail" {
		t.Fatalf("asked for %+v: %s", r.Question, r.Say)
	}
	r = b.say("the nail leaves a dent")
	if r.Build.Step == "free" || !slices.ContainsFunc(r.Build.Waiting, func(w WaitingShown) bool { return w.Step == "plaster" && w.From.After(b.now) }) {
		t.Fatalf("with a dent it is at %s: %s", r.Build.Step, r.Say)
	}
	b.now = b.now.Add(2 * time.Hour)
	b.ring()
	if r = b.say("is the plaster ready"); r.Question == nil || r.Question.Fact != "plaster_nail" {
		t.Fatalf("asked again for %+v: %s", r.Question, r.Say)
	}
	r = b.say("no mark, gone cool")
	if slices.ContainsFunc(r.Build.Waiting, func(w WaitingShown) bool { return w.Step == "plaster" }) || !slices.Contains(r.Build.Over, "the plaster") {
		t.Errorf("the plaster is not over: %s", r.Say)
	}
}

// The state is the fold over the events: read back from JSON, at any point,
// they give the same reply, to the byte.
func TestBuildSurvivesJSON(t *testing.T) {
	a := assistant(t)
	lines := []string{"guide me through a rope scar", "done", "next", "is it ready", "back", "started", "not sure", "yes", "no", "1", "2", "oil", "60 mm",
		"tell me in two minutes to stir", "stop the timer", "five more minutes", "will I make it", "the call is in 6 hours", "skip to trimming", "go back to the wall",
		"plaster is running out under the wall", "that did it", "something is wrong", "how do I do that", "what comes next", "my hand is burnt", "we are safe", "stop the build"}
	rapid.Check(t, func(r *rapid.T) {
		s, now := a.Open(), noon
		s.Hear("guide me through a barnacle cheek", now)
		for range rapid.IntRange(1, 25).Draw(r, "turns") {
			now = now.Add(time.Duration(rapid.IntRange(1, 3000).Draw(r, "seconds")) * time.Second)
			s.Ring(now)
			s.Hear(rapid.SampledFrom(lines).Draw(r, "words"), now)
		}
		kept, err := json.Marshal(s.Events())
		if err != nil {
			r.Fatal(err)
		}
		var events []Event
		if err := json.Unmarshal(kept, &events); err != nil {
			r.Fatal(err)
		}
		again := a.Resume(events)
		if got, want := asJSON(again.Reply()), asJSON(s.Reply()); got != want {
			r.Fatalf("read back, the reply differs: %s", firstDifference(got, want))
		}
		if !again.Due().Equal(s.Due()) {
			r.Fatalf("read back the next timer is due %v, and was %v", again.Due(), s.Due())
		}
	})
}

// firstDifference shows where two texts part.
func firstDifference(a, b string) string {
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	return a[max(0, i-40):min(len(a), i+160)] + "\n --- and ---\n" + b[max(0, i-40):min(len(b), i+160)]
}

// "Done" is no answer to whether an allergy is known.
func TestDoneAnswersNothing(t *testing.T) {
	b := atBench(t, assistant(t))
	r := b.answer(b.say("guide me through a barnacle cheek"))
	r = b.say("done")
	if r.Question == nil || r.Question.Fact != "allergy_known" {
		t.Fatalf("after the drawing it asks %+v", r.Question)
	}
	for _, words := range []string{"done", "that step's done", "finished"} {
		if r = b.say(words); r.Question == nil || r.Question.Fact != "allergy_known" {
			t.Errorf("%q passes over the allergy: %s", words, r.Say)
		}
	}
}

// What a build has brought about stays noted when the build is left, another is
// begun, or all starts again.
func TestNotesOutliveTheBuild(t *testing.T) {
	for _, words := range []string{"stop the build", "start again"} {
		b := atBench(t, assistant(t))
		b.upTo("free")
		if n := len(b.s.Notes()); n == 0 {
			t.Fatal("no mould is noted")
		}
		b.say(words)
		if n := b.s.Notes(); len(n) != 1 || n[0].Kind != NoteMould {
			t.Errorf("after %q there are %+v", words, n)
		}
		b.upTo("free")
		ids := map[string]bool{}
		for _, n := range b.s.Notes() {
			ids[n.ID] = true
		}
		if len(ids) != 2 {
			t.Errorf("after another build the notes are %v", ids)
		}
	}
}

// timerNames lists the timers that run, by name.
func timerNames(r Reply) []string {
	var names []string
	for _, t := range r.Timers {
		names = append(names, t.Name)
	}
	return names
}

// The jug cools on while the mould is oiled: its timer outlives the heating, and
// ends with the pour.
func TestTimersEndWithWhatTheyAreFor(t *testing.T) {
	const cools = "the jug gets too cool"
	b := atBench(t, assistant(t))
	b.upTo("heat")
	r := b.say("started", "done")
	if r.Build.Step != "release" || !slices.Contains(timerNames(r), cools) {
		t.Fatalf("at %s run %q", r.Build.Step, timerNames(r))
	}
	r = b.answer(b.say("is the gelatin melted"))
	for range 4 { // the mould is oiled and the melt looked at, in whatever order
		if r.Build.Step == "cast" {
			break
		}
		r = b.answer(b.say("done"))
		if r.Question != nil && r.Question.Fact == "melt_ready" {
			r = b.answer(b.say("clear, like warm syrup"))
		}
	}
	if r.Build.Step != "cast" || !slices.Contains(timerNames(r), cools) {
		t.Fatalf("at %s run %q, want the cast and %q", r.Build.Step, timerNames(r), cools)
	}
	if r = b.answer(b.say("started", "done")); slices.Contains(timerNames(r), cools) || slices.Contains(timerNames(r), "the gel skins over") {
		t.Errorf("once it is poured run %q", timerNames(r))
	}
}

// Going to another step ends the timers of those left behind, but not that of a
// patch test, nor a maker's own.
func TestGoToEndsTimers(t *testing.T) {
	b := atBench(t, assistant(t))
	b.answer(b.say("guide me through a barnacle cheek"))
	b.say("done", "no allergy known", "yes", "no", "not tested yet", "done") // the patch is on
	r := b.say("go to the plaster", "70", "started", "tell me in an hour to eat")
	if before := timerNames(r); !slices.Contains(before, "the plaster stiffens") {
		t.Fatalf("at the plaster run %q", before)
	}
	r = b.say("skip to trimming")
	names := timerNames(r)
	slices.Sort(names)
	if want := []string{"eat", "look at the allergy and patch test", "the patch on the arm"}; !slices.Equal(names, want) {
		t.Errorf("at the trimming run %q, want %q", names, want)
	}
}

// Whether a step is ready that is not at hand is asked under its own name.
func TestAskedUnderItsOwnName(t *testing.T) {
	b := atBench(t, assistant(t))
	b.upTo("plaster")
	b.answer(b.say("started", "done"))
	if r := b.say("is the plaster ready"); r.Build.Step != "plaster" || r.Build.State != stepChecking {
		t.Errorf("it is asked under %s, %s", r.Build.Step, r.Build.State)
	}
}
