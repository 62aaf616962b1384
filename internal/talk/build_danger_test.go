package talk

import (
	"strings"
	"testing"

	"sparehand/internal/book"
	"sparehand/internal/phrase"
)

// Whatever is dangerous is heard in the middle of a build as it is outside of
// one: every saying of every emergency, of every refusal and of what is answered
// at once, on the card of the plaster and while a fact is asked.
func TestDangerInABuild(t *testing.T) {
	a := assistant(t)
	b := atBench(t, a)
	if r := b.say("guide me", "go to the plaster", "70"); r.Build.State != stepDoing {
		t.Fatalf("the build is at %+v", r.Build)
	}
	card := b.s.Events()
	b = atBench(t, a)
	b.say("guide me")
	asked := b.s.Events()
	for name, events := range map[string][]Event{"on a card": card, "while asked": asked} {
		wrong := 0
		check := func(what, saying string, same func(outside, inside Reply) bool) {
			outside, inside := a.Open().Hear(saying, noon), a.Resume(events[:len(events):len(events)]).Hear(saying, b.now)
			if !same(outside, inside) && saying != garbled {
				if wrong++; wrong <= 10 {
					t.Errorf("%s, %s: %q brings %.160q, and outside of a build %.160q", name, what, saying, inside.Say, outside.Say)
				}
			}
		}
		for i := range a.book.Emergencies {
			for _, saying := range a.book.Emergencies[i].Sayings {
				check(a.book.Emergencies[i].ID, saying, sameAlarm)
			}
		}
		for i := range a.book.Elsewhere {
			e := &a.book.Elsewhere[i]
			for _, saying := range e.Sayings {
				check(e.ID, saying, func(outside, inside Reply) bool {
					return sameAlarm(outside, inside) && (!answers(e, outside) || answers(e, inside))
				})
			}
		}
	}
}

// garbled is a line of a speech recogniser that the hearing asks about where
// nothing is asked, and takes for no answer where a fact is.
const garbled = "hot jell at in on my risk what do i do"

// sameAlarm reports whether an alarm of a reply is one in another too.
func sameAlarm(outside, inside Reply) bool {
	asks := func(r Reply) bool { return r.Question != nil && r.Question.Fact == askEmergency }
	return inside.Emergency == outside.Emergency && (!asks(outside) || asks(inside))
}

func answers(e *book.Elsewhere, r Reply) bool {
	return e.Say != "" && strings.Contains(r.Say, phrase.First(e.Say))
}

// A refusal holds until it is cleared up, and then the build goes on.
func TestRefusalHoldsTheBuild(t *testing.T) {
	b := atBench(t, assistant(t))
	b.upTo("plaster")
	r := b.say("can I pour the plaster straight over his face")
	if r.Phase == building || len(r.Amounts) > 0 || r.Question != nil {
		t.Fatalf("phase %s, %d amounts: %s", r.Phase, len(r.Amounts), r.Say)
	}
	refusal := b.s.state.refused.Say
	for _, words := range []string{"done", "started", "how do I do that", "guide me", "how much plaster do I need", "is it ready"} {
		if r = b.say(words); !strings.Contains(r.Say, refusal) || len(r.Amounts) > 0 {
			t.Errorf("%q brings %s", words, r.Say)
		}
	}
	if r = b.say(b.s.state.refused.Lifts[0]); r.Phase != building || r.Build.Step != "plaster" {
		t.Errorf("cleared up, it is in phase %s: %s", r.Phase, r.Say)
	}
}
