package journal

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"sparehand/internal/talk"
)

// note makes a note of the talk t.
func note(id, kind string, change func(*talk.Note)) talk.Note {
	n := talk.Note{ID: id, Kind: kind, Talk: "t", At: noon}
	if change != nil {
		change(&n)
	}
	return n
}

// stands appends a turn to the talk t with the notes it stands for.
func stands(t *testing.T, j *Journal, n int, notes ...talk.Note) {
	t.Helper()
	if n == 1 {
		ok(t, j.Begin(t.Context(), "t", noon))
	}
	if notes == nil {
		notes = []talk.Note{}
	}
	ok(t, j.Append(t.Context(), "t", turn(n), time.Time{}, notes))
}

func found(t tb, j *Journal, q Query) []string {
	t.Helper()
	notes, err := j.Notes(t.Context(), q)
	ok(t, err)
	ids := []string{}
	for _, n := range notes {
		ids = append(ids, n.ID)
	}
	return ids
}

func TestNotesAreFound(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		later := func(minutes int, change func(*talk.Note)) func(*talk.Note) {
			return func(n *talk.Note) {
				n.At = noon.Add(time.Duration(minutes) * time.Minute)
				change(n)
			}
		}
		stands(t, j, 1,
			note("t/1", talk.NoteMould, func(n *talk.Note) { n.Name, n.Place = "Ferryman’s Façade", "cheek" }),
			note("t/2", talk.NotePiece, later(1, func(n *talk.Note) { n.Name, n.Outcome = "barnacle crust", "100% kept_its edge\\rim" })),
			note("t/3", talk.NoteDiagnosis, later(2, func(n *talk.Note) { n.Problem, n.Cause, n.Outcome = "tears-thin", "too-hot", "STRASSE" })),
			note("t/4", talk.NoteBatch, later(3, func(n *talk.Note) { n.Parts = []talk.NotePart{{Material: "glycerol", Grams: 30}} })),
		)
		for _, c := range []struct {
			q    Query
			want string
		}{
			{Query{}, "t/4 t/3 t/2 t/1"},
			{Query{Most: 2}, "t/4 t/3"},
			{Query{Kind: talk.NotePiece}, "t/2"},
			{Query{Talk: "other"}, ""},
			{Query{Problem: "tears-thin", Cause: "too-hot"}, "t/3"},
			{Query{Problem: "tears-thin", Cause: "other"}, ""},
			{Query{Words: []string{"facade"}}, "t/1"},
			{Query{Words: []string{"FAC\u0327ADE"}}, "t/1"}, // the cedilla as a sign of its own
			{Query{Words: []string{"straße"}}, "t/3"},
			{Query{Words: []string{"barnacle", "EDGE"}}, "t/2"},
			{Query{Words: []string{"barnacle", "cheek"}}, ""},
			{Query{Words: []string{"glycerol"}}, "t/4"},
			{Query{Words: []string{"%"}}, "t/2"},
			{Query{Words: []string{"d_i"}}, ""},
			{Query{Words: []string{"t_i"}}, "t/2"},
			{Query{Words: []string{`\`}}, "t/2"},
			{Query{Words: []string{"' OR 1=1 --"}}, ""},
			{Query{Words: []string{"", " "}, Kind: talk.NoteMould}, "t/1"},
		} {
			if got := strings.Join(found(t, j, c.q), " "); got != c.want {
				t.Errorf("%+v finds %q, want %q", c.q, got, c.want)
			}
		}
		for _, q := range []Query{{Words: make([]string, mostWords+1)}, {Words: []string{strings.Repeat("a", longestWord+1)}}} {
			if _, err := j.Notes(t.Context(), q); err == nil {
				t.Error("too much to look for was looked for")
			}
		}
	})
}

func TestATalkStandsForItsNotes(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		one, two := note("t/1", talk.NoteMould, nil), note("t/2", talk.NotePiece, nil)
		stands(t, j, 1, one, two)
		two.Outcome = "it held"
		stands(t, j, 2, two)
		notes, err := j.Notes(t.Context(), Query{})
		ok(t, err)
		if len(notes) != 1 || notes[0].Outcome != "it held" {
			t.Errorf("the notes are %v", notes)
		}
		ok(t, j.Append(t.Context(), "t", turn(3), time.Time{}, nil))
		if got := found(t, j, Query{}); len(got) != 1 {
			t.Errorf("a turn without notes left %v", got)
		}
		stands(t, j, 4)
		if got := found(t, j, Query{}); len(got) != 0 {
			t.Errorf("a turn with no notes any more left %v", got)
		}
	})
}

func TestNotesThatCannotBeKept(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		stands(t, j, 1, note("t/1", talk.NoteMould, nil))
		ok(t, j.Begin(t.Context(), "u", noon))
		for name, notes := range map[string][]talk.Note{
			"of another talk": {note("t/2", talk.NoteMould, func(n *talk.Note) { n.Talk = "v" })},
			"twice":           {note("u/1", talk.NoteMould, nil), note("u/1", talk.NoteMould, nil)},
			"of no kind":      {note("u/1", "boat", nil)},
			"without id":      {note("", talk.NoteMould, nil)},
			"another's":       {note("t/1", talk.NoteMould, nil)},
		} {
			if name != "of another talk" {
				for i := range notes {
					notes[i].Talk = "u"
				}
			}
			if err := j.Append(t.Context(), "u", turn(1), time.Time{}, notes); err == nil {
				t.Errorf("%s: it was kept", name)
			}
		}
		if lines, err := j.Lines(t.Context(), "u", 0); err != nil || len(lines) > 0 {
			t.Errorf("a turn was kept without its notes: %v, %v", lines, err)
		}
	})
}

func TestTally(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		var notes []talk.Note
		add := func(kind, problem, cause string, helped bool) {
			notes = append(notes, note(fmt.Sprint("t/", len(notes)), kind, func(n *talk.Note) {
				n.Problem, n.Cause, n.Helped = problem, cause, helped
			}))
		}
		add(talk.NoteDiagnosis, "bubbles", "stirred-fast", true)
		add(talk.NoteDiagnosis, "bubbles", "stirred-fast", true)
		add(talk.NoteDiagnosis, "bubbles", "poured-high", true)
		add(talk.NoteDiagnosis, "bubbles", "poured-high", false)
		add(talk.NoteDiagnosis, "bubbles", "", true)
		add(talk.NoteDiagnosis, "tears-thin", "stirred-fast", true)
		add(talk.NotePiece, "bubbles", "stirred-fast", true)
		stands(t, j, 1, notes...)
		check := func(want map[string]int) {
			t.Helper()
			got, err := j.Tally(t.Context(), "bubbles")
			ok(t, err)
			if !maps.Equal(got, want) {
				t.Errorf("the tally is %v, want %v", got, want)
			}
		}
		check(map[string]int{"stirred-fast": 2, "poured-high": 1})
		ok(t, j.Forget(t.Context(), "t/0"))
		check(map[string]int{"stirred-fast": 1, "poured-high": 1})
	})
}

func TestForgottenNotesStayAway(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		one, two := note("t/1", talk.NoteMould, nil), note("t/2", talk.NotePiece, nil)
		stands(t, j, 1, one, two)
		wants(t, j.Forget(t.Context(), "t/3"), ErrNoNote)
		ok(t, j.Forget(t.Context(), "t/1"))
		ok(t, j.Forget(t.Context(), "t/1"))
		one.Outcome = "it broke"
		stands(t, j, 2, one, two)
		if got := found(t, j, Query{}); !slices.Equal(got, []string{"t/2"}) {
			t.Errorf("the notes are %v, want t/2", got)
		}
		lines, err := j.Lines(t.Context(), "t", 0)
		ok(t, err)
		if len(lines) != 2 {
			t.Errorf("the talk has %d turns, want 2", len(lines))
		}
	})
}

// A server may forget a note while another adds a turn that still has it.
func TestForgettingWhileTheTalkGoesOn(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j, other := opened(t, where), opened(t, where)
		const pieces = 20
		in := func(n int) (notes []talk.Note) {
			for i := range pieces {
				notes = append(notes, note(fmt.Sprint("t/", i), talk.NotePiece, func(p *talk.Note) { p.Outcome = fmt.Sprint("seen in turn ", n) }))
			}
			return notes
		}
		stands(t, j, 1, in(1)...)
		done := make(chan error, 1)
		go func() {
			for i := range pieces {
				if err := other.Forget(t.Context(), fmt.Sprint("t/", i)); err != nil {
					done <- err
					return
				}
			}
			done <- nil
		}()
		for n := 2; n <= 20; n++ {
			stands(t, j, n, in(n)...)
		}
		ok(t, <-done)
		if got := found(t, j, Query{}); len(got) > 0 {
			t.Errorf("these came back: %v", got)
		}
	})
}
