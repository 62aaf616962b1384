package hear

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// wished names what of timers, the walk and the notebook a meaning holds.
func wished(m Meaning) string {
	var list []string
	if m.Timer != nil {
		list = append(list, "timer "+timed(m))
	}
	if m.Begin != nil {
		list = append(list, "begin "+m.Begin.Name)
	}
	if m.GoTo != "" {
		list = append(list, "go to "+m.GoTo)
	}
	if m.Past != nil {
		list = append(list, "past "+recalled(m))
	}
	return strings.Join(list, ", ")
}

// wishes names what is wished in words, whatever else they say.
func (h *Hearing) wishes(c Context, words string) string {
	var m Meaning
	l := h.listen(words)
	h.wish(c, l, h.matches(l), &m)
	return wished(m)
}

// Nothing that the book has a meaning for is heard as a wish. Some of its shop
// talk is one, and cases of a build begin with one; these are listed in full.
func TestTheBookHoldsNoWishes(t *testing.T) {
	b := realBook(t)
	h := New(b)
	meant := map[string]string{}
	hears := func(what string, sayings ...string) {
		for _, s := range sayings {
			if got := h.wishes(Context{}, s); got != meant[s] {
				t.Errorf("%s: %q is heard as %q, want %q", what, s, got, meant[s])
			}
		}
	}
	for _, p := range b.Problems {
		hears(p.ID, append([]string{p.Title, p.Meaning}, p.Sayings...)...)
	}
	for _, e := range b.Emergencies {
		hears(e.ID, e.Sayings...)
	}
	for _, e := range b.Elsewhere {
		hears(e.ID, e.Sayings...)
	}
	for _, c := range b.Commands {
		hears(c.ID, c.Says...)
	}
	for _, a := range b.Amounts {
		hears(a.ID, a.Says...)
	}
	for _, f := range b.Facts {
		for _, o := range f.Options {
			hears(f.Name, o.Says...)
		}
	}
	hears("harmless", b.Harmless...)
	meant = map[string]string{
		"give me a shout when ten minutes are up":          "timer set 10",
		"set an alarm for a quarter of an hour":            "timer set 15",
		"remind me at six":                                 "timer set at 6:00",
		"can you teach me rope scars":                      "begin rope scars",
		"how do I start":                                   "begin ",
		"set a timer, 20 mins pls":                         "timer set 20",
		"Can you set a timer 20 minutes? I have wet hands": "timer set 20",
		"I could murder a tea, hands are plastered, can you remind me at ten past": "timer set",
		"set a timer for twenty five minutes will you":                             "timer set 25",
		"what was the date I made batch four":                                      "past recall batch when: 4",
		"Set a timer for twenty minutes, would you?":                               "timer set 20",
		"Remind me at half past three to look at the plaster.":                     "timer set at 3:30: look at the plaster",
	}
	hears("shop talk", b.ShopTalk...)
	meant = map[string]string{
		"guide me through a barnacle cheek": "begin a barnacle cheek",
		"guide me through a flat scar":      "begin a flat scar",
	}
	for _, c := range b.Cases {
		if !strings.HasPrefix(c.Place.File, "guide/") { // those wish
			hears(c.Name, c.Say...)
		}
	}
}

// A timer runs for as long as was said: the minute and the hour in seconds, of
// the SI brochure, 9th edition, table 8.
func TestTimersKeepTheirTime(t *testing.T) {
	h, _ := smallHearing(t)
	seconds := map[string]float64{"seconds": 1, "minutes": 60, "hours": 3600, "mins": 60}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 99).Draw(t, "number")
		unit := rapid.SampledFrom(slices.Sorted(maps.Keys(seconds))).Draw(t, "unit")
		line := rapid.SampledFrom([]string{"set a timer for %d %s", "tell me in %d %s to stir", "%d more %s", "ok, remind me to stir in %d %s please",
			"timer %d %s", "give me a shout when %d %s are up", "put %d %s on the timer"}).Draw(t, "line")
		words := fmt.Sprintf(line, n, unit)
		m := h.Hear(Context{}, words)
		if want := float64(n) * seconds[unit] / 60; m.Timer == nil || math.Abs(m.Timer.Minutes-want) > 1e-9 {
			t.Fatalf("%q: %+v, want %g minutes", words, m.Timer, want)
		}
	})
}

// An emergency is told before any wish, whatever the wish.
func TestEmergenciesGoBeforeWishes(t *testing.T) {
	h := New(realBook(t))
	for _, wish := range []string{"set a timer for ten minutes", "stop the timer", "walk me through a rope scar", "go back to the wall",
		"do it like last time", "show me my moulds"} {
		for _, hurt := range []string{"I've burnt my hand on the gelatin", "he can't breathe", "my sleeve is on fire"} {
			for _, words := range []string{wish + ", " + hurt, hurt + ", " + wish} {
				if m := h.Hear(Context{}, words); m.Emergency == "" && m.MaybeEmergency == "" || m.Emergency != "" && wished(m) != "" {
					t.Errorf("%q: emergency %q, perhaps %q, wish %q", words, m.Emergency, m.MaybeEmergency, wished(m))
				}
			}
		}
	}
}

// What answers the question word for word is no wish.
func TestAnswersAreNoWishes(t *testing.T) {
	b := realBook(t)
	h := New(b)
	options := []book.Option{{Value: "cast", Label: "I'm at the casting"}, {Value: "again", Label: "do it like last time"}}
	c := Context{Asked: &Asked{Special: AskMeaning, Options: options}}
	for _, words := range []string{"I'm at the casting", "do it like last time"} {
		if got := wished(h.Hear(c, words)); got != "" {
			t.Errorf("the answer %q is heard as %q", words, got)
		}
		if wished(h.Hear(Context{}, words)) == "" {
			t.Errorf("%q is heard as nothing where it is not asked", words)
		}
	}
	for i := range b.Facts {
		f := &b.Facts[i]
		asked := Context{Asked: &Asked{Fact: f, Kind: f.Kind, Options: f.Options}}
		for _, o := range f.Options {
			for _, words := range o.Says {
				if got := h.wishes(asked, words); got != "" {
					t.Errorf("%s: the answer %q is heard as %q", f.Name, words, got)
				}
			}
		}
	}
	more := Context{Asked: &Asked{Fact: b.FactByName(LeftFact), Kind: b.FactByName(LeftFact).Kind}}
	if got := wished(h.Hear(more, "ten more minutes")); got != "" {
		t.Errorf("the minutes that are left are heard as %q", got)
	}
}

// The label of an answer is that answer, and no order of the book.
func TestLabelsAreAnswers(t *testing.T) {
	h := New(realBook(t))
	options := []book.Option{{Value: "started", Label: "started just now"}, {Value: "how", Label: "how do I do that?"}, {Value: "plan", Label: "will I make it?"}}
	for i, o := range options {
		m := h.Hear(Context{Asked: &Asked{Special: "step_done", Kind: logic.Choice, Options: options}}, o.Label)
		if m.Pick != i+1 || m.Command != "" {
			t.Errorf("%q: picks %d with the command %q, want %d", o.Label, m.Pick, m.Command, i+1)
		}
	}
	for words, want := range map[string]string{"started just now": "started", "just start again please": "start-again", "begin again": "start-again",
		"that's done": sayStepDone, "is it done": "is-it-ready", "done": "fixed"} {
		if got := h.Hear(Context{}, words).Command; got != want {
			t.Errorf("%q is the command %q, want %q", words, got, want)
		}
	}
}

// More time is wished for in the middle of a question for anything but minutes.
func TestMoreTimeIsNoSize(t *testing.T) {
	b := realBook(t)
	h := New(b)
	height := b.FactByName("piece_height_mm")
	m := h.Hear(Context{Asked: &Asked{Fact: height, Kind: height.Kind}}, "five more minutes")
	if m.Timer == nil || !m.Timer.More || m.Timer.Minutes != 5 || len(m.Facts) > 0 {
		t.Errorf("five more minutes: timer %+v, facts %v", m.Timer, m.Facts)
	}
}
