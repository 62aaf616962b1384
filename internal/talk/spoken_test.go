package talk

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// spoke is an utterance that a recogniser is more or less sure of.
func spoke(words string, sure float64, others ...string) Spoken {
	return Spoken{Words: words, Sure: sure, Others: others}
}

func freely(words string, sure float64, others ...string) Spoken {
	return Spoken{Words: words, Sure: sure, Others: others, Free: true}
}

// tell gives a talk its turns: a string is typed, a Spoken is spoken, an int is picked.
func tell(t interface{ Fatal(...any) }, s *Session, turns ...any) (r Reply) {
	for _, turn := range turns {
		switch v := turn.(type) {
		case string:
			r = s.Hear(v, noon)
		case Spoken:
			r = s.Listen(v, noon)
		case int:
			var err error
			if r, err = s.Pick(v, noon); err != nil {
				t.Fatal(err)
			}
		}
	}
	return r
}

const leaking = "plaster is running out under the wall"

// The policy is common practice, no source: act on what was surely heard, ask
// about what may have been, and never miss an alarm.
func TestListen(t *testing.T) {
	for _, c := range []struct {
		name  string
		turns []any
		says  string // words of the reply
		asks  string // the question after it, "" for none
	}{
		{"a miss at the opening", []any{spoke("", 0)}, "I didn't catch that. Tell me what you see", ""},
		{"a miss of a choice", []any{leaking, spoke("", 0.9)}, "I didn't catch that. How is the foot of the wall fixed to the plate? One, smeared inside and out; two,", "wall_foot"},
		{"the second", []any{leaking, spoke("", 0), spoke("the sail", 0.2)}, "Or touch an answer, or press its number.", "wall_foot"},
		{"of a number", []any{"how much plaster", spoke("", 0)}, "How long is the piece, skirt included? Say a number, such as forty millimetres.", "piece_length_mm"},
		{"the second of a number", []any{"how much plaster", spoke("", 0), spoke("", 0)}, "Or type it.", "piece_length_mm"},
		{"words without sense here", []any{leaking, spoke("the ferryman has a hat", 1)}, "I didn't catch that.", "wall_foot"},
		{"in a build", []any{"guide me through a barnacle cheek", spoke("", 0)}, "One, never, my first; two,", "experience"},
		{"in an emergency", []any{"hot gelatin on my hand", spoke("", 0)}, "I didn't catch that. Hold it under cool running water now", ""},

		{"surely heard", []any{leaking, spoke("just stood on it", 0.9)}, "", "wall_kind"},
		{"may have been heard", []any{leaking, spoke("just stood on it", 0.6)}, "Did you say just stood on it?", askMeaning},
		{"a yes", []any{leaking, spoke("just stood on it", 0.6), spoke("yes", 0.6)}, "", "wall_kind"},
		{"a no", []any{leaking, spoke("just stood on it", 0.6), spoke("no", 0.6)}, "", "wall_foot"},
		{"nothing to it", []any{spoke("my clay is cracking", 0.6), spoke("the ferryman has a hat", 1)}, "I didn't catch that. Did you say my clay is cracking? Yes or no.", askMeaning},
		{"said again", []any{leaking, spoke("just stood on it", 0.6), spoke("just stood on it", 0.6)}, "", "wall_kind"},
		{"another one", []any{leaking, spoke("just stood on it", 0.6), spoke("pressed down only", 0.9)}, "", "leak_start"},
		{"missed in between", []any{leaking, spoke("just stood on it", 0.6), spoke("", 0), spoke("yes", 0.9)}, "", "wall_kind"},
		{"typed", []any{leaking, spoke("just stood on it", 0.6), "no"}, "", "wall_foot"},
		{"picked", []any{leaking, spoke("just stood on it", 0.6), 1}, "", "wall_kind"},
		{"two readings", []any{"how much plaster", spoke("fifteen millimetres", 0.6, "fifty millimetres")}, "Did you say fifteen millimetres, or fifty millimetres?", askMeaning},
		{"the second of them", []any{"how much plaster", spoke("fifteen millimetres", 0.6, "fifty millimetres"), spoke("fifty millimetres", 0.9)}, "How wide is the piece", "piece_width_mm"},
		{"neither", []any{"how much plaster", spoke("fifteen millimetres", 0.6, "fifty millimetres"), spoke("neither", 0.9)}, "How long is the piece", "piece_length_mm"},
		{"what was asked stays asked", []any{freely("it has bubbles in it", 0.7), spoke("the second one", 0.6), spoke("no", 1)}, "", askProblem},
		{"the same meaning", []any{leaking, spoke("just stood on it", 0.6, "stood on it just")}, "Did you say just stood on it?", askMeaning},
		{"yes or no", []any{"my clay is cracking", "just tell me", spoke("no", 0.6)}, "Did you say yes, or no?", askMeaning},
		{"and it is no", []any{"my clay is cracking", "just tell me", spoke("no", 0.6), spoke("no", 0.6)}, "Next to try", askWorked},
		{"repeat is not asked about", []any{leaking, spoke("repeat that", 0.6)}, "How is the foot of the wall", "wall_foot"},
		{"repeat, of a knock", []any{leaking, spoke("repeat that", 0.3)}, "I didn't catch that.", "wall_foot"},
		{"repeat in an emergency", []any{"hot gelatin on my hand", spoke("repeat that", 0.3)}, "Hold it under cool running water", ""},

		{"an alarm, hardly heard", []any{leaking, spoke("hot gelatin on my hand", 0.1)}, "Is somebody burnt right now?", askEmergency},
		{"an alarm in another reading", []any{leaking, spoke("", 0.2, "hot gelatin on my hand")}, "Is somebody burnt right now?", askEmergency},
		{"said again, a yes", []any{spoke("hot gelatin on my hand", 0.1), spoke("hot gelatin on my hand", 0.1)}, "Hold it under cool running water", ""},
		{"an alarm, surely heard", []any{leaking, spoke("hot gelatin on my hand", 0.9)}, "Hold it under cool running water", ""},
		{"a description that is an alarm", []any{freely("hot gelatin on my hand", 0.5)}, "Is somebody burnt right now?", askEmergency},
		{"an unsure yes", []any{spoke("hot gelatin on my hand", 0.1), spoke("yes", 0.5)}, "Hold it under cool running water", ""},
		{"an unsure no", []any{leaking, spoke("hot gelatin on my hand", 0.1), spoke("no", 0.5)}, "Did you say no? Say it once more", askEmergency},
		{"an unsure no twice", []any{leaking, spoke("hot gelatin on my hand", 0.1), spoke("no", 0.5), spoke("no", 0.5)}, "", "wall_foot"},
		{"an unsure end", []any{leaking, "hot gelatin on my hand", spoke("we're safe", 0.5)}, "Say 'we are safe' once more.", ""},
		{"an unsure end twice", []any{leaking, "hot gelatin on my hand", spoke("we're safe", 0.5), spoke("we're safe", 0.5)}, "", "wall_foot"},
		{"the card is not thrown away", []any{"hot gelatin on my hand", spoke("start again", 1)}, "Hold it under cool running water", ""},
		{"an alarm in a build", []any{"guide me through a barnacle cheek", spoke("plaster in my eye", 0.2)}, "eye", askEmergency},

		{"a clear description", []any{freely("plaster leaks from under the wall", 0.9)}, "It sounds like this: plaster leaks from the wall. Is that it?", askMeaning},
		{"it is that", []any{freely("plaster leaks from under the wall", 0.9), spoke("yes", 0.6)}, "Where does the plaster come out?", "leak_place"},
		{"it is not", []any{freely("plaster leaks from under the wall", 0.9), spoke("no", 0.9)}, "Which of these is it? The wall gives way,", askProblem},
		{"nor the next likely ones", []any{freely("plaster leaks from under the wall", 0.9), spoke("no", 0.9), spoke("none of these", 0.9)}, "Which step are you at?", askStep},
		{"it may be anything", []any{freely("the hairline's opened in the wall of the plaster found a wide runs each time reflects the cast out", 0.9)}, "Which step are you at?", askStep},
		{"it may be anything, in a build", []any{"guide me through a barnacle cheek", spoke("the plaster", 1), freely("the hairline's opened in the wall of the plaster found a wide runs each time reflects the cast out", 0.9)}, "Which of these is it?", askProblem},
		{"it may be an emergency", []any{freely("the gelatin sat on my scalp leave it or glue wig off", 0.9)}, "Is somebody burnt right now?", askEmergency},
		{"but is not", []any{freely("the gelatin sat on my scalp leave it or glue wig off", 0.9), spoke("no", 0.9)}, "Which step are you at?", askStep},
		{"a description of several", []any{freely("it has bubbles in it", 0.7)}, "Which of these is it? Bubbles in the mould, bubbles in the gelatin, or none of these?", askProblem},
		{"none of them", []any{freely("it has bubbles in it", 0.7), spoke("none of these", 0.9)}, "Which step are you at?", askStep},
		{"none of them, at a step", []any{freely("it has bubbles in it", 0.7), spoke("none of these", 0.9), spoke("the cast", 0.9)}, "Which of these is it?", askProblem},
		{"a description in a diagnosis", []any{leaking, freely("there are lumps in the gelatin", 0.8)}, "It sounds like this: ", askMeaning},
		{"talk to somebody else", []any{leaking, freely("i could murder a tea", 0.8)}, "I didn't catch that.", "wall_foot"},

		{"a number", []any{"how much plaster", spoke("fifteen millimetres", 0.9)}, "15 millimetres. How wide is the piece", "piece_width_mm"},
		{"the call", []any{"guide me through a barnacle cheek", "never, my first", spoke("in four days", 0.9)}, "The call at 12:00, in about 4 days.", "body_place"},
		{"a timer", []any{leaking, spoke("set a timer for ten minutes for the plaster", 0.9)}, "10 minutes. Timer set: the plaster, at 12:10.", "wall_foot"},
		{"a timer that is called by its time", []any{spoke("set a timer for ten minutes", 0.9)}, "10 minutes. Timer set: 10 minutes, at 12:10.", ""},
		{"confirmed, not read back", []any{"how much plaster", spoke("fifteen millimetres", 0.6), spoke("yes", 0.9)}, "How wide is the piece", "piece_width_mm"},

		{"start again", []any{leaking, spoke("start again", 1)}, "Start again? Yes or no.", askMeaning},
		{"no, don't", []any{leaking, spoke("start again", 1), spoke("no", 1)}, "", "wall_foot"},
		{"yes, do", []any{leaking, spoke("start again", 1), spoke("yes", 1)}, opening, ""},
		{"an unsure yes throws nothing away", []any{leaking, spoke("start again", 1), spoke("yes", 0.6)}, "I didn't catch that. Start again? Yes or no.", askMeaning},
		{"stop the build", []any{"guide me through a barnacle cheek", spoke("stop the build", 1)}, "Stop the build? Yes or no.", askMeaning},
		{"stop the timers", []any{"tell me in ten minutes to stir", "tell me in one hour to pour", spoke("stop all timers", 1)}, "Stop all the timers? Yes or no.", askMeaning},

		{"back", []any{leaking, spoke("just stood on it", 1), spoke("back", 1)}, "Taken back.", "wall_foot"},
		{"an unsure back", []any{leaking, spoke("just stood on it", 1), spoke("back", 0.6), spoke("yes", 1)}, "Taken back.", "wall_foot"},
		{"back over a question and its answer", []any{leaking, spoke("just stood on it", 0.6), spoke("yes", 1), spoke("back", 1)}, "Taken back.", "wall_foot"},
		{"back over misses", []any{leaking, spoke("just stood on it", 1), spoke("", 0), spoke("", 0), spoke("back", 1)}, "Taken back.", "wall_foot"},
		{"a step by its name", []any{"guide me through a barnacle cheek", spoke("the plaster", 1)}, "Step 7 of 25", "plaster_consistency"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := assistant(t).Open()
			r := tell(t, s, c.turns...)
			asked := ""
			if r.Question != nil {
				asked = r.Question.Fact
			}
			if !strings.Contains(r.Say, c.says) || asked != c.asks {
				t.Errorf("%q, and asks %q; want %q and %q", r.Say, asked, c.says, c.asks)
			}
		})
	}
}

// While plaster sets: the clock, a timer, the look at it, and the wrong answer put
// right, which had ended the step already.
func TestListenInABuild(t *testing.T) {
	b := atBench(t, assistant(t))
	b.upTo("plaster")
	for _, c := range []struct {
		after time.Duration
		says  Spoken
		step  string
		state string
		asks  string
	}{
		{time.Minute, spoke("powder's in", 0.9), "plaster", stepDoing, askStepDone},
		{time.Minute, spoke("set a timer for ten minutes", 0.9), "plaster", stepDoing, askStepDone},
		{time.Minute, spoke("next step", 0.6), "plaster", stepDoing, askMeaning},
		{time.Minute, spoke("yes", 0.6), "mix", stepAsking, "recipe"},
		{time.Hour, spoke("is it set yet", 0.9), "plaster", stepChecking, "plaster_nail"},
		{time.Minute, spoke("the first one", 0.6), "plaster", stepChecking, askMeaning},
		{time.Minute, spoke("no i said the second one", 0.9), "free", stepDoing, askStepDone},
		{time.Minute, spoke("no i said the third one", 0.9), "mix", stepAsking, "recipe"},
		{time.Minute, spoke("that's wrong", 0.9), "free", stepDoing, askStepDone},
		{time.Minute, spoke("that's wrong", 0.9), "plaster", stepChecking, "plaster_nail"},
		{time.Minute, freely("plaster has cracks in the block", 0.9), "plaster", stepChecking, askMeaning},
		{time.Minute, spoke("yes", 0.9), "mix", stepAsking, "block_crack_line"},
		{time.Minute, spoke("hot gelatin on my hand", 0.2), "mix", stepAsking, askEmergency},
	} {
		b.now = b.now.Add(c.after)
		r := b.s.Listen(c.says, b.now)
		if r.Build == nil || r.Question == nil || r.Build.Step != c.step || r.Build.State != c.state || r.Question.Fact != c.asks {
			t.Fatalf("%q: %+v asks %+v: %s", c.says.Words, r.Build, r.Question, r.Say)
		}
	}
}

// From the third miss in a row on nothing is added, and a miss in the log is
// short.
func TestMisses(t *testing.T) {
	s := assistant(t).Open()
	tell(t, s, leaking, spoke("", 0), spoke("the sail", 0.3, "the tail"))
	n, in := len(s.Events()), s.Reply()
	if r := tell(t, s, spoke("", 0), spoke("asdf", 0.2), freely("a cup of tea", 0.9)); len(s.Events()) != n || !reflect.DeepEqual(r, in) {
		t.Errorf("%d events after %d: %s", len(s.Events()), n, r.Say)
	}
	last := s.Events()[n-1]
	if last.Text != "" || last.Others != nil || len(last.Acts) != 1 || last.Acts[0].Do != doMissed || last.Acts[0].N != 2 {
		t.Errorf("the second miss is kept as %+v", last)
	}
	if r := tell(t, s, spoke("just stood on it", 1), spoke("", 0)); !strings.Contains(r.Say, notMadeOut) || strings.Contains(r.Say, "touch") {
		t.Errorf("the first miss after an answer: %s", r.Say)
	}
}

func TestManner(t *testing.T) {
	for _, words := range []string{"slower", "faster", "louder", "quieter", "hush"} {
		for _, first := range [][]any{{}, {leaking}, {"guide me through a barnacle cheek"}, {"hot gelatin on my hand"}, {leaking, spoke("just stood on it", 0.6)}} {
			for _, wish := range []any{words, spoke(words, 0.6)} {
				s := assistant(t).Open()
				before := tell(t, s, first...)
				if len(first) == 0 {
					before = s.Reply()
				}
				r := tell(t, s, wish)
				if r.Manner != words || len(strings.Fields(r.Say)) > 2 || !reflect.DeepEqual(r.Question, before.Question) || r.Phase != before.Phase {
					t.Errorf("%v after %v: %q, manner %q, phase %s", wish, first, r.Say, r.Manner, r.Phase)
				}
			}
		}
	}
}

// What stands in the event is enough for the reply to be the same again.
func TestSpokenEventsAreKept(t *testing.T) {
	s := assistant(t).Open()
	r := tell(t, s, "how much plaster", spoke("fifteen millimetres", 0.6, "fifty millimetres"))
	e := s.Events()[1]
	if e.Kind != "spoken" || e.Text != "fifteen millimetres" || e.Sure != 0.6 || len(e.Others) != 1 {
		t.Errorf("kept as %+v", e)
	}
	if r.Voice == nil || r.Voice.Words != "fifteen millimetres" || r.Voice.Sure != 0.6 || r.Aloud != r.Say {
		t.Errorf("voice %+v, aloud %q", r.Voice, r.Aloud)
	}
	if r = tell(t, s, "20 mm"); r.Voice != nil {
		t.Errorf("typed words have a voice: %+v", r.Voice)
	}
	if r = tell(t, s, spoke("back", 0.9)); r.Voice == nil || s.Events()[3].Kind != "undo" {
		t.Errorf("a spoken back is %+v", s.Events()[3])
	}
}

// spokenWords are drawn from in random talks that are spoken.
var spokenWords = append([]string{
	"no i said clay strips", "no fifty", "wrong", "that's wrong", "i meant the second one", "neither", "none of these", "fifteen millimetres", "fifty millimetres",
	"set a timer for ten minutes", "stop all timers", "guide me through a barnacle cheek", "stop the build", "slower", "the plaster", "just stood on it", "we're safe",
	"never, my first", "in four days", "plaster in my eye", "can I pour plaster on my hand", "twenty", "is it ready", "something is wrong",
}, utterances...)

// Whatever is spoken, the reply is whole and the same again from the events as
// they are stored, and taking a change back restores what was known.
func TestAnySpokenTalk(t *testing.T) {
	a := assistant(t)
	rapid.Check(t, func(t *rapid.T) {
		s := a.Open()
		for range rapid.IntRange(1, 8).Draw(t, "turns") {
			before, n := s.Reply(), len(s.Events())
			word := rapid.SampledFrom(spokenWords)
			var r Reply
			if rapid.IntRange(0, 3).Draw(t, "typed") == 0 {
				r = s.Hear(word.Draw(t, "text"), noon)
			} else {
				r = s.Listen(Spoken{word.Draw(t, "words"), rapid.SampledFrom([]float64{0, 0.3, 0.5, 0.7, 0.9, 1, math.NaN(), 7}).Draw(t, "sure"),
					rapid.IntRange(0, 3).Draw(t, "free") == 0, rapid.SliceOfN(word, 0, 4).Draw(t, "others")}, noon)
			}
			whole(t, r)
			if r.Aloud == "" {
				t.Fatalf("nothing aloud: %s", asJSON(r))
			}
			if again := a.Resume(stored(t, s.Events())).Reply(); asJSON(again) != asJSON(r) {
				t.Fatalf("resumed talk replies\n%s\nnot\n%s", asJSON(again), asJSON(r))
			}
			if len(s.Events()) == n {
				continue
			}
			last := s.Events()[n]
			if last.Kind == "undo" || !last.changes() || last.does(doAgain) {
				continue
			}
			got := a.Resume(s.Events()).Undo(noon)
			if !reflect.DeepEqual(got.Facts, before.Facts) || got.Problem != before.Problem || got.Emergency != before.Emergency {
				t.Fatalf("after %q and back:\n%s\nnot\n%s", last.Text, asJSON(got), asJSON(before))
			}
		}
	})
}

// stored gives events as a store gives them back.
func stored(t interface{ Fatalf(string, ...any) }, events []Event) (back []Event) {
	data, err := json.Marshal(events)
	if err == nil {
		err = json.Unmarshal(data, &back)
	}
	if err != nil {
		t.Fatalf("%v", err)
	}
	return back
}

// What is heard for certain counts as if it were typed, but for what throws
// something away, which is asked about, and for an emergency's card.
func TestSpokenAsTyped(t *testing.T) {
	a := assistant(t)
	rapid.Check(t, func(t *rapid.T) {
		typed, heard := a.Open(), a.Open()
		for range rapid.IntRange(1, 8).Draw(t, "turns") {
			words := rapid.SampledFrom(spokenWords).Draw(t, "words")
			if words == "start again" && typed.Reply().Emergency != "" {
				continue
			}
			want, got := typed.Hear(words, noon), heard.Listen(spoke(words, 1), noon)
			if strings.HasSuffix(got.Say, yesOrNo) && heard.Events()[len(heard.Events())-1].asksBack() {
				got = heard.Listen(spoke("yes", 1), noon)
			}
			if !reflect.DeepEqual(want.Facts, got.Facts) || want.Problem != got.Problem || want.Phase != got.Phase || want.Emergency != got.Emergency {
				t.Fatalf("%q typed:\n%s\nspoken:\n%s", words, asJSON(want), asJSON(got))
			}
		}
	})
}

// Events of before there was a voice read as ever, and write as ever.
func TestOldEventsStay(t *testing.T) {
	const old = `{"at":"2026-03-14T12:00:00Z","kind":"say","text":"yes","acts":[{"do":"tell","fact":"pour_height","value":"high"}]}`
	var e Event
	if err := json.Unmarshal([]byte(old), &e); err != nil || !e.At.Equal(noon) || e.At.Location() != time.UTC {
		t.Fatal(err, e)
	}
	if data, err := json.Marshal(e); err != nil || string(data) != old {
		t.Errorf("%s, %v", data, err)
	}
}

// A description that sounds like danger as well: nobody being hurt, it is asked
// which trouble it is, and need not be told again.
func TestDescriptionLikeAnAlarm(t *testing.T) {
	s := assistant(t).Open()
	r := tell(t, s, freely("plaster is lick built up under the wall off", 0.8))
	if r.Question == nil || r.Question.Fact != "emergency" || r.Emergency != "" {
		t.Fatalf("it asks %v: %s", r.Question, r.Say)
	}
	if r = tell(t, s, spoke("no", 1)); r.Question == nil || r.Question.Fact == "emergency" || r.Problem != "" || !strings.Contains(r.Say, "leaks") {
		t.Fatalf("after no it asks %v: %s", r.Question, r.Say)
	}
	s = assistant(t).Open()
	if r = tell(t, s, freely("plaster is lick built up under the wall off", 0.8), spoke("yes", 1)); r.Emergency == "" {
		t.Errorf("after yes it says %s", r.Say)
	}
}
