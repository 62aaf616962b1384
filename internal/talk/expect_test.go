package talk

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var wordsOnly = regexp.MustCompile(`^[a-z']+( [a-z']+)*$`)

func (e Expected) all() []string {
	return slices.Concat(e.Answers, e.Units, e.Commands, e.Timers, e.Alarms, e.Openings, e.Steps)
}

func TestExpect(t *testing.T) {
	a := assistant(t)
	for _, c := range []struct {
		name  string
		turns []any
		has   []string
		units []string
	}{
		{"the opening", []any{}, []string{"guide me", "help", "slower", "lips like sausages"}, nil},
		{"a choice", []any{leaking}, []string{"just stood on it", "two", "the second one", "number three", "not sure", "wrong"}, nil},
		{"a number", []any{"how much plaster"}, []string{"not sure"}, []string{"millimetres", "mils", "centimetres", "inches"}},
		{"the call", []any{"guide me through a barnacle cheek", "never, my first"}, []string{"stop the build", "go to the plaster", "gluing"}, []string{"minutes", "hours", "days"}},
		{"after a choice", []any{leaking, "just stood on it"}, []string{"no i said pressed down only"}, nil},
		{"did you say", []any{leaking, spoke("just stood on it", 0.6)}, []string{"yes", "no"}, nil},
		{"which did you say", []any{"how much plaster", spoke("fifteen millimetres", 0.6, "fifty millimetres")}, []string{"fifteen millimetres", "two", "neither"}, nil},
		{"an alarm", []any{spoke("hot gelatin on my hand", 0.1)}, []string{"yes", "no"}, nil},
		{"an emergency", []any{"hot gelatin on my hand"}, []string{"we're safe", "lips like sausages"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := a.Open()
			tell(t, s, c.turns...)
			e := s.Expect()
			all := e.all()
			for _, want := range c.has {
				if !slices.Contains(all, want) {
					t.Errorf("%q is not expected", want)
				}
			}
			if !slices.Equal(e.Units, c.units) || e.Number != (len(c.units) > 0) {
				t.Errorf("number %v in %q", e.Number, e.Units)
			}
			for _, text := range all {
				if !wordsOnly.MatchString(text) {
					t.Fatalf("%q is not sayable", text)
				}
			}
			if again := s.Expect(); &again.Openings[0] != &e.Openings[0] || &again.Alarms[0] != &e.Alarms[0] {
				t.Error("the lists of the book are made twice")
			}
		})
	}
	if e := tellTo(a, "guide me through a barnacle cheek", "never, my first").Expect(); !e.Clock {
		t.Error("the call may not be told as a time of day")
	}
}

func tellTo(a *Assistant, texts ...string) *Session {
	s := a.Open()
	say(s, texts...)
	return s
}

// mostTried is how many of the answers to one question a walk tries.
const mostTried = 4

// Whatever is asked, what is expected as an answer is taken for one.
func TestExpectedAnswersAreTaken(t *testing.T) {
	a := assistant(t)
	var problems []string
	for _, p := range a.book.Problems {
		problems = append(problems, p.ID)
	}
	rapid.Check(t, func(t *rapid.T) {
		start := Event{At: noon, Kind: "say", Acts: []Act{{Do: doOpen, ID: rapid.SampledFrom(problems).Draw(t, "problem")}}}
		if rapid.IntRange(0, 3).Draw(t, "build") == 0 {
			start.Acts = []Act{{Do: doBegin}}
		}
		s := a.Resume([]Event{start})
		for range rapid.IntRange(1, 6).Draw(t, "turns") {
			r, e := s.Reply(), s.Expect()
			if r.Question == nil {
				return
			}
			list := slices.Clone(e.Answers)
			if len(e.Units) > 0 {
				list = append(list, numberInWords(int(max(e.Low, min(e.High, 40))))+" "+e.Units[0])
			}
			for range mostTried {
				takes(t, a.Resume(slices.Clip(s.Events())), rapid.SampledFrom(list).Draw(t, "answer"))
			}
			s.Listen(spoke(rapid.SampledFrom(list).Draw(t, "taken"), 1), noon)
		}
	})
}

func takes(t *rapid.T, s *Session, answer string) {
	asked := s.Reply().Question
	r := s.Listen(spoke(answer, 1), noon)
	last := s.Events()[len(s.Events())-1]
	if len(last.Acts) == 0 || last.does(doMissed) || strings.Contains(r.Say, "did not catch") {
		t.Fatalf("%q is no answer to %s %q: %s", answer, asked.Fact, asked.Text, r.Say)
	}
}

// Each alarm leads to its emergency or refusal, or to the question about it.
func TestExpectedAlarms(t *testing.T) {
	a := assistant(t)
	for i, text := range a.Open().Expect().Alarms {
		s := a.Open()
		if i%2 == 0 {
			say(s, leaking)
		}
		r := s.Listen(spoke(text, 1), noon)
		e := s.Events()[len(s.Events())-1]
		if !e.does(doHurt) && !e.does(doMaybeHurt) && !e.does(doElsewhere) && e.Note == "" {
			t.Errorf("%q after %d: %s", text, i%2, r.Say)
		}
		if e.does(doMissed) {
			t.Errorf("%q is missed", text)
		}
	}
}

// Worked by hand.
func TestInWords(t *testing.T) {
	for text, want := range map[string]string{
		"about 70 to 100":           "about seventy to one hundred",
		"0.7 mm":                    "zero point seven millimetres",
		"1 1/2 cups":                "one and a half cups",
		"1,250 g":                   "one thousand two hundred and fifty grams",
		"65 °C":                     "sixty five degrees",
		"70 %, by weight":           "seventy percent by weight",
		"It's the ferryman's crust": "it's the ferryman's crust",
		"'quoted' – and dashed-up":  "quoted and dashed up",
		"7/9":                       "seven ninths",
		"12345678":                  "twelve million three hundred and forty five thousand six hundred and seventy eight",
		"木 clay":                    "",
		"1005":                      "one thousand and five",
		"42000":                     "forty two thousand",
		"110":                       "one hundred and ten",
	} {
		if got := inWords(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
