package journal

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/talk"
	"sparehand/rules"
)

// The turns in testdata/events/first.jsonl were written by the first version
// that kept talks. Whatever is read and written since, they come to the same:
// never change the file.
func TestEventsOfTheFirstVersion(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "events", "first.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	ctx := t.Context()
	j, err := Open(ctx, filepath.Join(t.TempDir(), "notebook.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	if _, err := j.Import(ctx, f); err != nil {
		t.Fatal(err)
	}
	b, err := book.LoadWithoutCases(rules.Files)
	if err != nil {
		t.Fatal(err)
	}
	a := talk.New(b)
	list, err := j.Talks(ctx, 0)
	if err != nil || len(list) != 2 {
		t.Fatalf("%d talks, error %v", len(list), err)
	}
	made, asked := folded(t, j, a, list[1].ID), folded(t, j, a, list[0].ID)

	r := made.Reply()
	if r.Build == nil || r.Build.Name != "barnacle cheek" || r.Build.Step != "heat" && r.Build.Step != "mix" {
		t.Errorf("the build is %+v", r.Build)
	}
	if r.Facts["piece_height_mm"] != 12.0 || r.Facts["clay_kind"] != "oil" || r.Facts["body_place"] != "cheek" {
		t.Errorf("facts %v", r.Facts)
	}
	if due := made.Due(); !due.Truncate(time.Microsecond).Equal(list[1].Due) {
		t.Errorf("the next timer is due %v, and was due %v", due, list[1].Due)
	}
	kinds := map[string]int{}
	for _, n := range made.Notes() {
		kinds[n.Kind]++
	}
	if kinds[talk.NoteMould] != 1 || kinds[talk.NoteDiagnosis] != 2 {
		t.Errorf("notes by kind: %v", kinds)
	}
	if r := asked.Reply(); r.Problem != "gel-will-not-set" || r.Facts["piece_height_mm"] != 10.0 || r.Facts["copies"] != 5.0 {
		t.Errorf("problem %q, facts %v", r.Problem, r.Facts)
	}
}

// folded is a talk built from its kept turns, after every one of them was tried.
func folded(t *testing.T, j *Journal, a *talk.Assistant, id string) *talk.Session {
	t.Helper()
	lines, err := j.Lines(t.Context(), id, 0)
	if err != nil {
		t.Fatal(err)
	}
	events, err := EventsOf(lines)
	if err != nil {
		t.Fatal(err)
	}
	for n := range events {
		if r := a.Resume(events[:n]).Reply(); r.Say == "" {
			t.Errorf("after %d turns nothing is said", n)
		}
	}
	return a.Resume(events)
}
