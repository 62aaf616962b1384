package talk

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"sparehand/internal/book"
	"sparehand/internal/sums"
	"sparehand/rules"
)

var embedded = sync.OnceValues(func() (*Assistant, error) {
	b, err := book.Load(rules.Files)
	if err != nil {
		return nil, err
	}
	return New(b), nil
})

func assistant(t testing.TB) *Assistant {
	t.Helper()
	a, err := embedded()
	if err != nil {
		t.Fatal(err)
	}
	return a
}

var noon = time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)

// say takes utterances in turn and returns the last reply.
func say(s *Session, texts ...string) (r Reply) {
	for _, text := range texts {
		r = s.Hear(text, noon)
	}
	return r
}

// TestCases runs every case that stands beside the rules.
func TestCases(t *testing.T) {
	a := assistant(t)
	for i := range a.book.Cases {
		k := &a.book.Cases[i]
		t.Run(k.Name, func(t *testing.T) {
			for _, fault := range a.Try(k).Faults {
				t.Errorf("%s: %s", k.Place, fault)
			}
		})
	}
}

// TestCasesCoverTheBook: no cause, remedy, caution or emergency is left out.
func TestCasesCoverTheBook(t *testing.T) {
	a := assistant(t)
	cover := NewCoverage(a.book)
	for i := range a.book.Cases {
		cover.Add(a.Try(&a.book.Cases[i]))
	}
	for _, missing := range cover.Missing(func(string) bool { return true }) {
		t.Error(missing)
	}
}

// TestAnswersInAnyOrder: the answers of each case, told in another order,
// come to the same beliefs.
func TestAnswersInAnyOrder(t *testing.T) {
	a := assistant(t)
	for i := range a.book.Cases {
		trial := a.Try(&a.book.Cases[i])
		if trial.Last.Problem == "" || len(a.book.Cases[i].Then) > 0 {
			continue
		}
		var tells []Act
		for _, e := range trial.Events {
			for _, act := range e.Acts {
				if act.Do == doTell {
					tells = append(tells, act)
				}
			}
		}
		if len(tells) < 2 || overruled(tells) {
			continue
		}
		slices.Reverse(tells)
		s := a.Resume([]Event{{Kind: "say", Acts: append([]Act{{Do: doOpen, ID: trial.Last.Problem}}, tells...)}})
		if got, want := sharesOf(s.Reply()), sharesOf(trial.Last); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v in reverse, %v as told", a.book.Cases[i].Name, got, want)
		}
	}
}

func overruled(tells []Act) bool {
	seen := map[string]bool{}
	for _, act := range tells {
		if seen[act.Fact] {
			return true
		}
		seen[act.Fact] = true
	}
	return false
}

// sharesOf gives the shares by cause, to a millionth.
func sharesOf(r Reply) map[string]int {
	out := map[string]int{}
	for _, c := range r.Causes {
		out[c.ID] = int(c.Share*1e6 + 0.5)
	}
	return out
}

// utterances are drawn from in random talks.
var utterances = []string{
	"plaster is running out under the wall", "my clay is cracking", "my edges curl and it's really dry here",
	"not sure", "yes", "no", "1", "2", "3", "back", "why", "what else could it be", "repeat", "next", "how much plaster",
	"6 by 4 inches and an inch high", "that did it", "start again", "help", "there are lumps in the gelatin",
	"hot gelatin on my hand", "we are safe now", "I could murder a tea", "asdf qwer", "water clay", "the second one", "40", "",
}

// TestAnyTalk: whatever is said, the reply is whole, the same events give the
// same reply, and taking the last change back restores what was known.
func TestAnyTalk(t *testing.T) {
	a := assistant(t)
	rapid.Check(t, func(t *rapid.T) {
		s := a.Open()
		for range rapid.IntRange(1, 12).Draw(t, "turns") {
			before := s.Reply()
			text := rapid.SampledFrom(utterances).Draw(t, "text")
			r := s.Hear(text, noon)
			whole(t, r)
			if again := a.Resume(s.Events()).Reply(); !reflect.DeepEqual(again, r) {
				t.Fatalf("resumed talk replies\n%s\nnot\n%s", asJSON(again), asJSON(r))
			}
			last := s.Events()[len(s.Events())-1]
			if last.changes() {
				undone := a.Resume(s.Events())
				got := undone.Undo(noon)
				if !reflect.DeepEqual(got.Facts, before.Facts) || !reflect.DeepEqual(sharesOf(got), sharesOf(before)) || got.Problem != before.Problem || got.Emergency != before.Emergency {
					t.Fatalf("after %q and back:\n%s\nnot\n%s", text, asJSON(got), asJSON(before))
				}
			}
		}
	})
}

func asJSON(r Reply) string {
	data, err := json.MarshalIndent(r, "", " ")
	if err != nil {
		return err.Error()
	}
	return string(data)
}

// whole checks what every reply has.
func whole(t interface{ Fatalf(string, ...any) }, r Reply) {
	switch {
	case r.Say == "" || r.Phase == "" || r.Title == "":
		t.Fatalf("nothing said: %s", asJSON(r))
	case r.Causes == nil || r.Remedies == nil || r.Amounts == nil || r.Cautions == nil || r.Facts == nil || r.Show == nil || r.Told == nil:
		t.Fatalf("a list is null: %s", asJSON(r))
	case r.Emergency != "" && r.Question != nil:
		t.Fatalf("a question in an emergency: %s", asJSON(r))
	}
	if q := r.Question; q != nil && q.Kind != "number" && len(q.Options) == 0 {
		t.Fatalf("a question without answers: %s", asJSON(r))
	}
}

func TestUndoAndCorrect(t *testing.T) {
	s := assistant(t).Open()
	say(s, "plaster is running out under the wall")
	told := s.Reply().Told
	if len(told) == 0 {
		t.Fatalf("nothing was taken from 'under the wall': %s", asJSON(s.Reply()))
	}
	before := s.Reply()
	var other string
	for _, o := range told[0].Options {
		if o.Value != told[0].Value {
			other = o.Value
		}
	}
	after, err := s.Correct(told[0].Fact, other, noon)
	if err != nil {
		t.Fatal(err)
	}
	if after.Changed == "" {
		t.Error("a correction does not say what it changed")
	}
	if reflect.DeepEqual(sharesOf(after), sharesOf(before)) {
		t.Error("a correction does not change the ranking")
	}
	back := s.Undo(noon)
	if !reflect.DeepEqual(sharesOf(back), sharesOf(before)) || back.Changed == "" {
		t.Errorf("taken back: %s", asJSON(back))
	}
	forgot, err := s.Correct(told[0].Fact, "", noon)
	if err != nil || len(forgot.Facts) != 0 {
		t.Errorf("forgetting: %v, %v", forgot.Facts, err)
	}
}

func TestNothingToTakeBack(t *testing.T) {
	s := assistant(t).Open()
	r := say(s, "back")
	if !strings.Contains(r.Say, "nothing to take back") || r.Changed != "" {
		t.Errorf("taken back out of nothing: %q, %q", r.Say, r.Changed)
	}
	say(s, "my clay is cracking")
	if r = say(s, "back"); r.Problem != "" || r.Changed == "" {
		t.Errorf("not taken back: %s", asJSON(r))
	}
}

func TestBadCorrections(t *testing.T) {
	s := assistant(t).Open()
	say(s, "plaster is running out under the wall")
	before := s.Reply()
	for _, k := range []struct{ fact, value, want string }{
		{"no_such_fact", "1", "no fact is called"},
		{"room_humidity", "400", "outside"},
		{"room_humidity", "quite blue", "not an answer"},
		{"room_air", "purple", "not an answer"},
	} {
		_, err := s.Correct(k.fact, k.value, noon)
		if err == nil || !strings.Contains(err.Error(), k.want) {
			t.Errorf("%s = %q: %v, wanted %q", k.fact, k.value, err, k.want)
		}
	}
	if !reflect.DeepEqual(s.Reply(), before) || len(s.Events()) != 1 {
		t.Error("a refused correction left something behind")
	}
	if _, err := s.Pick(9, noon); err == nil {
		t.Error("a pick out of range was taken")
	}
}

// TestEmergencyInAnyState: an emergency is answered at once, whatever was
// being talked about, and the talk goes on where it was when it is over.
func TestEmergencyInAnyState(t *testing.T) {
	states := map[string][]string{
		"fresh":          nil,
		"asking":         {"my clay is cracking"},
		"choosing":       {"it is cracking and there are holes"},
		"advising":       {"my clay is cracking", "not sure", "not sure", "not sure", "not sure", "not sure", "not sure", "not sure", "not sure"},
		"amounts":        {"how much plaster do I need"},
		"in another one": {"the towel caught fire"},
	}
	for name, texts := range states {
		t.Run(name, func(t *testing.T) {
			s := assistant(t).Open()
			say(s, texts...)
			before := s.Reply()
			r := say(s, "hot gelatin all over my hand it burns")
			if r.Emergency != "hot-gel-burn" || r.Question != nil {
				t.Fatalf("emergency %q: %s", r.Emergency, r.Say)
			}
			if !strings.Contains(strings.ToLower(r.Say), "water") {
				t.Errorf("the first thing said is %q", r.Say)
			}
			r = say(s, "we are safe now")
			if before.Emergency == "" && (r.Emergency != "" || r.Problem != before.Problem || !reflect.DeepEqual(r.Question, before.Question)) {
				t.Errorf("it does not go on where it was: %s", asJSON(r))
			}
		})
	}
}

// TestAmounts follows one sum through the talk: 6 by 4 inches, 1 inch high,
// 25 mm margin or what the book takes for granted. The masses are checked in
// craft; here, that they are asked for, given and name their assumptions.
func TestAmounts(t *testing.T) {
	s := assistant(t).Open()
	r := say(s, "how much plaster do I need")
	if r.Question == nil || r.Question.Kind != "number" {
		t.Fatalf("sizes are not asked for: %s", asJSON(r))
	}
	r = say(s, "6 by 4 inches and an inch high")
	if r.Question != nil {
		t.Errorf("with all sizes told, %q is asked", r.Question.Text)
	}
	r = say(s, "US cups")
	if len(r.Amounts) < 2 {
		t.Fatalf("no amounts: %s", asJSON(r))
	}
	for _, a := range r.Amounts {
		if a.Grams <= 0 || a.Millilitres <= 0 || len(a.Assumes) == 0 || len(a.Measures) == 0 {
			t.Errorf("%+v", a)
		}
	}
	if got := r.Facts["piece_length_mm"]; got != 152.4 {
		t.Errorf("six inches are %v mm", got)
	}
}

// TestOwnMeasure: a bottle cap of which three fill a tablespoon is 4.93 ml,
// by NIST Handbook 44's tablespoon of 14.787 ml.
func TestOwnMeasure(t *testing.T) {
	a := assistant(t)
	s := a.Resume([]Event{{Kind: "say", Acts: []Act{
		{Do: doTell, Fact: sums.MeasureFact, Value: "own"}, {Do: doTell, Fact: "own_measure_per_tablespoon", Value: "3"},
		{Do: doTell, Fact: "piece_length_mm", Value: "50"}, {Do: doTell, Fact: "piece_width_mm", Value: "30"},
		{Do: doTell, Fact: "piece_height_mm", Value: "8"},
	}}})
	r := say(s, "how much plaster do I need")
	if len(r.Amounts) == 0 {
		t.Fatalf("no amounts: %s", asJSON(r))
	}
	for _, am := range r.Amounts {
		if len(am.Measures) != 1 {
			continue // more than a hundred caps are refused
		}
		ml := am.Measures[0].Count * 14.78676478125 / 3
		if ml < 0.9*am.Millilitres || ml > 1.1*am.Millilitres {
			t.Errorf("%s: %v caps are %.1f ml, not %v", am.Name, am.Measures[0].Count, ml, am.Millilitres)
		}
	}
}

func TestNothingIsGuessed(t *testing.T) {
	s := assistant(t).Open()
	r := say(s, "flibber the wuzzle")
	if r.Problem != "" || r.Phase != listening {
		t.Errorf("nonsense was taken for %q", r.Problem)
	}
	r = say(s, "I could murder a tea")
	if r.Emergency != "" || r.Problem != "" {
		t.Errorf("shop talk was taken for %q %q", r.Emergency, r.Problem)
	}
}

func TestRemediesInTurn(t *testing.T) {
	s := assistant(t).Open()
	r := say(s, "plaster is running out under the wall")
	for range 10 {
		if r.Question == nil || r.Question.Fact == askWorked {
			break
		}
		r = say(s, "not sure")
	}
	if len(r.Remedies) == 0 {
		t.Fatalf("no remedy: %s", asJSON(r))
	}
	first, share := r.Remedies[0].ID, r.Causes[0].Share
	cause := r.Causes[0].ID
	r = say(s, "no")
	for _, c := range r.Causes {
		if c.ID == cause && c.Share >= share {
			t.Errorf("a failed remedy does not speak against %s", cause)
		}
	}
	for _, rem := range r.Remedies {
		if rem.ID == first {
			t.Errorf("%s is offered again", first)
		}
	}
	for range 40 {
		if r.Done {
			break
		}
		if r.Question != nil && r.Question.Fact == askWorked {
			r = say(s, "no")
		} else {
			r = say(s, "not sure")
		}
	}
	if !r.Done || len(r.Show) == 0 {
		t.Errorf("no honest end: %s", asJSON(r))
	}
}

func FuzzTalk(f *testing.F) {
	for _, u := range utterances {
		f.Add(u, u)
	}
	a := assistant(f)
	f.Fuzz(func(t *testing.T, first, second string) {
		s := a.Open()
		whole(t, s.Hear(first, noon))
		whole(t, s.Hear(second, noon))
	})
}

// What is answered at once, an emergency, and whether a cure has helped: the
// trouble told in the same breath is not lost by any of them.
func TestTroubleBesideSomethingElse(t *testing.T) {
	a := assistant(t)
	for _, c := range []struct {
		say       []string
		want, who string
	}{
		{[]string{"I've cut my thumb and the plaster is leaking under the wall"}, "dam-leaks", "Press a clean cloth"},
		{[]string{"can I use superglue, the edges lift on his beard"}, "edges-lift-on-hair", "Never"},
		{[]string{"can I use acetone on him to get it off, the piece won't come off"}, "piece-will-not-come-off", "Never on skin"},
		{[]string{"the wall leaks and I've burnt my hand on the hot plaster", "we are safe"}, "dam-leaks", ""},
		{[]string{"the wall leaks", "just tell me", "ok, patched. now the texture has gone all mushy"}, "texture-lost", ""},
		{[]string{"the wall leaks", "just tell me", "no, the clay skirt is too thick, that's what I'm doing now"}, "skirt-too-thick", ""},
	} {
		s := a.Open()
		var r Reply
		for _, words := range c.say {
			r = s.Hear(words, noon)
		}
		if r.Problem != c.want || !strings.Contains(r.Say, c.who) {
			t.Errorf("%q leads to %q, want %q; it says: %s", c.say, r.Problem, c.want, r.Say)
		}
	}
}
