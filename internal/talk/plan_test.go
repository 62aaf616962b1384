package talk

import (
	"strings"
	"testing"
	"time"
)

// The chance falls as the call comes nearer, and where it is small a shorter way
// is named with what it costs.
func TestPlanFollowsTheCall(t *testing.T) {
	b := atBench(t, assistant(t))
	b.upTo("sculpt")
	chance := 2.0
	for _, call := range []string{"the call is in six days", "the call is in two days", "the call is in one day", "the call is in 4 hours"} {
		r := b.say(call)
		if r.Plan == nil || r.Plan.Chance == nil || *r.Plan.Chance > chance {
			t.Fatalf("%s: %+v, and before that %v", call, r.Plan, chance)
		}
		chance = *r.Plan.Chance
	}
	if chance > 0.03 {
		t.Errorf("from the sculpt with a mould to the wearing in 4 hours: chance %v", chance)
	}
	b.say("the call is in one day")
	r := b.say("will I make it")
	if len(r.Plan.Shorter) == 0 || r.Plan.Shorter[0].Costs == "" || r.Plan.Shorter[0].Saves <= 0 {
		t.Fatalf("shorter ways: %+v", r.Plan.Shorter)
	}
	if !strings.Contains(r.Say, "shorter way") {
		t.Errorf("it says: %s", r.Say)
	}
}

// What is told of a hypothetical way is not believed afterwards.
func TestShorterWaysLeaveNoTrace(t *testing.T) {
	b := atBench(t, assistant(t))
	b.upTo("sculpt")
	r := b.say("the call is in one day")
	again := b.s.a.Resume(b.s.Events()).Reply()
	if asJSON(again) != asJSON(r) {
		t.Errorf("worked out again it says\n%s\nand it said\n%s", asJSON(again), asJSON(r))
	}
	for _, w := range b.s.a.book.Shorter {
		for _, f := range w.Sets {
			if _, told := r.Facts[f.Fact.Name]; told && f.Fact.Name != "build_way" {
				t.Errorf("%s is believed to be %v", f.Fact.Name, r.Facts[f.Fact.Name])
			}
		}
	}
}

func TestReplannedWhenEarly(t *testing.T) {
	b := atBench(t, assistant(t))
	before := b.upTo("sculpt")
	r := b.say("done") // after a minute, and not after hours
	if !r.Plan.Finish.Before(before.Plan.Finish) {
		t.Errorf("done early it finishes at %v, and before at %v", r.Plan.Finish, before.Plan.Finish)
	}
}

func TestPapers(t *testing.T) {
	b := atBench(t, assistant(t))
	if _, err := b.s.Paper(PaperPlan, noon); err == nil {
		t.Error("a plan is printed without a build")
	}
	b.upTo("plaster")
	plan, err := b.s.Paper(PaperPlan, b.now)
	if err != nil {
		t.Fatal(err)
	}
	titles := ""
	for _, part := range plan.Parts {
		titles += part.Title + "; "
	}
	for _, want := range []string{"The plan", "Timetable", "Shopping list", "To have at hand", "Safety sheet"} {
		if !strings.Contains(titles, want) {
			t.Errorf("the plan has %s and no %s", titles, want)
		}
	}
	calendar, err := b.s.Paper(PaperCalendar, b.now)
	if err != nil || !strings.HasPrefix(calendar.Calendar, "BEGIN:VCALENDAR") || !strings.Contains(calendar.Calendar, "Call: ") {
		t.Errorf("calendar: %v %.60q", err, calendar.Calendar)
	}
	if _, err := b.s.Paper("kite", b.now); err == nil {
		t.Error("a paper that nobody knows is made")
	}
	for range 3 {
		b.now = b.now.Add(time.Minute)
	}
	before := asJSON(b.s.Reply())
	if _, err := b.s.Paper(PaperResult, b.now); err != nil || asJSON(b.s.Reply()) != before {
		t.Errorf("a paper changes the talk, or fails: %v", err)
	}
}
