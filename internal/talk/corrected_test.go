package talk

import (
	"reflect"
	"testing"
)

// How people put right what was heard wrong is common practice, no source.
func TestNoISaid(t *testing.T) {
	const length, width, foot = "piece_length_mm", "piece_width_mm", "wall_foot"
	for _, c := range []struct {
		name  string
		turns []any
		fact  string
		want  any    // its value afterwards, nil for none
		asks  string // the question afterwards
	}{
		{"after a number", []any{"how much plaster", "15 mm", "no, I said fifty"}, length, 50.0, width},
		{"without I said", []any{"how much plaster", "15 mm", "no, fifty"}, length, 50.0, width},
		{"spoken", []any{"how much plaster", spoke("fifteen millimetres", 1), spoke("no i said fifty millimetres", 0.9)}, length, 50.0, width},
		{"spoken, not quite heard", []any{"how much plaster", spoke("fifteen millimetres", 1), spoke("no i said fifty millimetres", 0.6), spoke("yes", 1)}, length, 50.0, width},
		{"after which unit", []any{"how much plaster", "15 mm", "twenty", "no, thirty mm"}, width, 30.0, "piece_height_mm"},
		{"after a choice", []any{leaking, "just stood on it", "no, I said pressed down only"}, foot, "pressed", "leak_start"},
		{"after a choice, by its number", []any{leaking, 3, "no, the second one"}, foot, "pressed", "leak_start"},
		{"after not sure", []any{leaking, "not sure", "no I meant pressed down only"}, foot, "pressed", "leak_start"},
		{"of did you say", []any{"how much plaster", spoke("fifteen millimetres", 0.6), spoke("no fifty millimetres", 0.9)}, length, 50.0, width},
		{"of did you say, insisting", []any{"how much plaster", spoke("fifteen millimetres", 0.6), spoke("no i said fifty millimetres", 0.9)}, length, 50.0, width},
		{"after the yes to did you say", []any{"how much plaster", spoke("fifteen millimetres", 0.6), spoke("yes", 0.9), spoke("no i said fifty millimetres", 0.9)}, length, 50.0, width},
		{"of which reading", []any{"how much plaster", spoke("fifteen millimetres", 0.6, "fifty millimetres"), spoke("no i said sixteen millimetres", 1)}, length, 16.0, width},
		{"wrong", []any{"how much plaster", "15 mm", "wrong"}, length, nil, length},
		{"that's wrong", []any{"how much plaster", spoke("fifteen millimetres", 1), spoke("that's wrong", 1)}, length, nil, length},
		{"wrong, to did you say", []any{"how much plaster", spoke("fifteen millimetres", 0.6), spoke("wrong", 1)}, length, nil, length},
		{"and back", []any{"how much plaster", "15 mm", "no, I said fifty", "back"}, length, 15.0, width},
		{"and back twice", []any{"how much plaster", "15 mm", "no, I said fifty", "back", "back"}, length, nil, length},
		{"older than the last answer", []any{"how much plaster", "15 mm", "20 mm", "no I said the length is 50 mm"}, length, 50.0, "piece_height_mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := assistant(t).Open()
			r := tell(t, s, c.turns...)
			asked := ""
			if r.Question != nil {
				asked = r.Question.Fact
			}
			if r.Facts[c.fact] != c.want || asked != c.asks {
				t.Errorf("%s is %v and it asks %q, want %v and %q: %s", c.fact, r.Facts[c.fact], asked, c.want, c.asks, r.Say)
			}
		})
	}
}

// A yes or no that was heard wrong, in a diagnosis.
func TestNoISaidYes(t *testing.T) {
	s := assistant(t).Open()
	tell(t, s, "guide me through a barnacle cheek")
	for range 20 {
		q := s.Reply().Question
		if q == nil {
			t.Fatal("no yes/no question is met")
		}
		if q.Kind != "yesno" || s.state.question().fact == nil {
			tell(t, s, "not sure")
			continue
		}
		before := s.Reply()
		r := tell(t, s, spoke("yes", 1), spoke("no i said no", 1))
		if r.Facts[q.Fact] != false {
			t.Errorf("%s is %v", q.Fact, r.Facts[q.Fact])
		}
		if r = tell(t, s, "back"); r.Facts[q.Fact] != true {
			t.Errorf("and back it is %v", r.Facts[q.Fact])
		}
		if r = tell(t, s, "wrong"); !reflect.DeepEqual(r.Question, before.Question) || !reflect.DeepEqual(r.Facts, before.Facts) {
			t.Errorf("wrong does not lead back to %s", q.Fact)
		}
		return
	}
}

// A timer that was heard wrong is set anew, for what it was.
func TestNoISaidFifteenMinutes(t *testing.T) {
	s := assistant(t).Open()
	r := tell(t, s, spoke("set a timer for fifty minutes for the plaster", 1), spoke("no fifteen", 1))
	if len(r.Timers) != 1 || r.Timers[0].Name != "the plaster" || r.Timers[0].Due.Sub(noon).Minutes() != 15 {
		t.Errorf("%+v: %s", r.Timers, r.Say)
	}
}

// A no with more behind it that answers what is asked is no correction.
func TestNoThatAnswers(t *testing.T) {
	s := assistant(t).Open()
	r := tell(t, s, "the wall leaks", "under the wall", "clay strips", "no it is smeared inside and out")
	if r.Facts["leak_place"] != "under" || r.Facts["wall_kind"] != "clay" {
		t.Errorf("%v", r.Facts)
	}
}
