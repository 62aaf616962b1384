package talk

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"
)

// fakeDesk is a notebook in memory.
type fakeDesk struct {
	notes []Note
	last  int
	tally map[string]int
	fails bool
}

var errDesk = errors.New("the notebook can't be reached just now")

func (d *fakeDesk) Recall(kind string, words []string, most int) ([]Note, error) {
	if d.fails {
		return nil, errDesk
	}
	var list []Note
	for _, n := range d.notes {
		text := strings.ToLower(n.Name + " " + n.Label + " " + n.Place)
		if (kind == "" || n.Kind == kind) && !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(text, w) }) {
			list = append(list, n)
		}
	}
	return list[:min(most, len(list))], nil
}

func (d *fakeDesk) Number(string) (int, error) {
	if d.fails {
		return 0, errDesk
	}
	d.last++
	return d.last, nil
}

func (d *fakeDesk) Tally(string) (map[string]int, error) {
	if d.fails {
		return nil, errDesk
	}
	return d.tally, nil
}

// made is a notebook after a whole build.
func made(t *testing.T) (*fakeDesk, *Assistant) {
	t.Helper()
	desk := &fakeDesk{last: 6}
	a := assistant(t).At(desk)
	b := atBench(t, a)
	r := b.upTo("wear")
	for r.Build.Step != "" {
		r = b.answer(b.finish(r))
	}
	desk.notes = b.s.Notes()
	slices.Reverse(desk.notes)
	return desk, a
}

func TestAskTheNotebook(t *testing.T) {
	_, a := made(t)
	later := noon.AddDate(0, 0, 30)
	r := a.Open().Hear("what did I use for the last cheek piece", later)
	if len(r.Notes) != 2 || r.Notes[0].Kind != NotePiece || len(r.Notes[1].Parts) == 0 || !strings.Contains(r.Say, " g ") {
		t.Errorf("%d notes: %s", len(r.Notes), r.Say)
	}
	if r := a.Open().Hear("what did I use for the last kraken", later); len(r.Notes) != 0 || !strings.Contains(r.Say, "nothing on kraken") {
		t.Errorf("of a kraken: %s", r.Say)
	}
}

// Like last time: the same mould and recipe, and the air asked afresh.
func TestLikeLastTime(t *testing.T) {
	desk, a := made(t)
	s := a.Open()
	r := s.Hear("do it like last time but it's drier today", noon.AddDate(0, 0, 30))
	if r.Facts["recipe"] != "gelatin_sorbitol_glycerin" || r.Facts["piece_height_mm"] != 12.0 {
		t.Errorf("facts %v", r.Facts)
	}
	if _, told := r.Facts["minutes_left"]; told {
		t.Error("the call of last time still stands")
	}
	if r.Question == nil || r.Question.Fact != "worn_humidity" && r.Question.Fact != "room_humidity" {
		t.Errorf("it does not ask how dry it is: %+v %s", r.Question, r.Say)
	}
	mould := desk.notes[slices.IndexFunc(desk.notes, func(n Note) bool { return n.Kind == NoteMould })].Number
	if r.Build == nil || r.Build.Step != "mix" || s.state.mould != mould {
		t.Errorf("the build is %+v with mould %d, want mould %d again", r.Build, s.state.mould, mould)
	}
}

// Copies for several days come from the same mould, and each has its date.
func TestCopiesForDays(t *testing.T) {
	desk, a := made(t)
	b := atBench(t, a)
	b.now = noon.AddDate(0, 0, 30)
	r := b.answer(b.say("three more of the barnacle cheek"))
	for range 40 {
		if r.Build == nil || r.Build.Step == "store" || r.Build.Step == "" {
			break
		}
		r = b.answer(b.finish(r))
	}
	var days []string
	for _, n := range b.s.Notes() {
		switch n.Kind {
		case NoteMould:
			t.Errorf("a new mould is noted: %+v", n)
		case NotePiece:
			days = append(days, n.For.Format(time.DateOnly))
			if n.Mould == 0 || n.Recipe != "gelatin_sorbitol_glycerin" {
				t.Errorf("the copy is %+v", n)
			}
		}
	}
	if want := 3; len(days) != want || slices.Compact(slices.Clone(days))[len(days)-1] != days[2] || days[0] == days[1] {
		t.Errorf("copies for %v, want three days", days)
	}
	_ = desk
}

// A notebook that can't be reached stops nobody.
func TestDeskFails(t *testing.T) {
	a := assistant(t).At(&fakeDesk{fails: true})
	if r := a.Open().Hear("show me my moulds", noon); !strings.Contains(r.Say, "can't be reached") {
		t.Errorf("it says: %s", r.Say)
	}
	if r := a.Open().Hear("plaster is running out under the wall", noon); r.Problem != "dam-leaks" {
		t.Errorf("the problem is %q: %s", r.Problem, r.Say)
	}
}

// What was found in a workshop moves the causes there, and is said.
func TestFoundHere(t *testing.T) {
	a := assistant(t)
	plain := a.Open().Hear("plaster is running out under the wall", noon)
	last := plain.Causes[len(plain.Causes)-1]
	desk := &fakeDesk{tally: map[string]int{last.ID: 20}}
	s := a.At(desk).Open()
	r := s.Hear("plaster is running out under the wall", noon)
	i := slices.IndexFunc(r.Causes, func(c CauseShown) bool { return c.ID == last.ID })
	if r.Causes[i].Share <= last.Share || r.Causes[i].Found != 20 {
		t.Errorf("found 20 times, %s has %v, and by the book %v", last.ID, r.Causes[i].Share, last.Share)
	}
	desk.tally = nil // the event remembers
	if again := a.Resume(s.Events()).Reply(); asJSON(again) != asJSON(r) {
		t.Error("read back, what was found is gone")
	}
}
