package journal

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"sparehand/internal/talk"
)

// LineOf makes the line of the last of a talk's events, with the reply to it.
func LineOf(events []talk.Event, say, title, ref string, asks uint64) (Line, error) {
	last := events[len(events)-1]
	text, err := json.Marshal(last)
	if err != nil {
		return Line{}, fmt.Errorf("turn %d can't be written: %w", len(events), err)
	}
	return Line{Turn: len(events), Ref: ref, Asks: asks, At: last.At, Say: say, Title: title, Event: text}, nil
}

// EventsOf reads the events of kept turns.
func EventsOf(lines []Line) ([]talk.Event, error) {
	events := make([]talk.Event, len(lines))
	for i, line := range lines {
		if err := json.Unmarshal(line.Event, &events[i]); err != nil {
			return nil, fmt.Errorf("turn %d of the talk can't be read: %w", line.Turn, err)
		}
	}
	return events, nil
}

// NotesOf gives the notes of a talk their ids and the talk's.
func NotesOf(id string, notes []talk.Note) []talk.Note {
	for i := range notes {
		notes[i].ID, notes[i].Talk = id+"/"+notes[i].ID, id
	}
	return notes
}

// Desk is the journal as a talk asks it: each question has this long.
func (j *Journal) Desk(each time.Duration) talk.Desk { return desk{j, each} }

type desk struct {
	journal *Journal
	each    time.Duration
}

func (d desk) Recall(kind string, words []string, most int) ([]talk.Note, error) {
	ctx, done := context.WithTimeout(context.Background(), d.each)
	defer done()
	return d.journal.Notes(ctx, Query{Kind: kind, Words: words, Most: most})
}

func (d desk) Number(kind string) (int, error) {
	ctx, done := context.WithTimeout(context.Background(), d.each)
	defer done()
	return d.journal.NextNumber(ctx, kind)
}

func (d desk) Tally(problem string) (map[string]int, error) {
	ctx, done := context.WithTimeout(context.Background(), d.each)
	defer done()
	return d.journal.Tally(ctx, problem)
}
