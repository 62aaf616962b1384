package journal

import (
	"bufio"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"sparehand/internal/talk"
)

// maxLine is the longest line of an export or an import, in bytes.
const maxLine = 4 << 20

// formatVersion is that of the JSON Lines. Fields are added, never renamed.
const formatVersion = 1

// record is one line of an export: the first says what it is, each other
// holds one thing.
type record struct {
	Sparehand string        `json:"sparehand,omitempty"` // "notebook"
	Version   int           `json:"version,omitempty"`
	Number    *numberRecord `json:"number,omitempty"`
	Forgotten string        `json:"forgotten,omitempty"` // id of a note that was taken out
	Talk      *talkRecord   `json:"talk,omitempty"`
	Turn      *turnRecord   `json:"turn,omitempty"`
	Note      *talk.Note    `json:"note,omitempty"`
}

// numberRecord is the last number given to a kind of note.
type numberRecord struct {
	Kind string `json:"kind"`
	Last int    `json:"last"`
}

type talkRecord struct {
	ID    string    `json:"id"`
	Begun time.Time `json:"begun"`
	Due   time.Time `json:"due,omitzero"`
}

type turnRecord struct {
	Talk  string          `json:"talk"`
	Turn  int             `json:"turn"`
	Ref   string          `json:"ref"`
	Asks  uint64          `json:"asks,string"` // as text, since many readers of JSON keep 53 bits
	At    time.Time       `json:"at"`
	Say   string          `json:"say"`
	Title string          `json:"title"`
	Event json.RawMessage `json:"event"`
}

func (t *turnRecord) line() Line {
	return Line{t.Turn, t.Ref, t.Asks, t.At, t.Say, t.Title, t.Event}
}

// Export writes the whole store as JSON Lines, one object a line, of one
// moment: an import of it into an empty store gives everything.
func (j *Journal) Export(ctx context.Context, w io.Writer) error {
	out := &output{w: bufio.NewWriter(w)}
	err := j.still(ctx, func(tx *sql.Tx) error {
		if err := out.record(record{Sparehand: "notebook", Version: formatVersion}); err != nil {
			return err
		}
		return exportAll(ctx, tx, out.record)
	})
	return out.done(err)
}

func exportAll(ctx context.Context, tx *sql.Tx, write func(record) error) error {
	scanNumber := func(rows *sql.Rows) (r record, err error) {
		r.Number = new(numberRecord)
		return r, rows.Scan(&r.Number.Kind, &r.Number.Last)
	}
	scanForgotten := func(rows *sql.Rows) (r record, err error) {
		return r, rows.Scan(&r.Forgotten)
	}
	scanTalk := func(rows *sql.Rows) (record, error) {
		t, err := scanTalk(rows)
		return record{Talk: &talkRecord{t.ID, t.Begun, t.Due}}, err
	}
	scanTurn := func(rows *sql.Rows) (record, error) {
		id, l, err := scanTalkLine(rows)
		return record{Turn: &turnRecord{id, l.Turn, l.Ref, l.Asks, l.At, l.Say, l.Title, l.Event}}, err
	}
	scanNote := func(rows *sql.Rows) (record, error) {
		n, err := scanNote(rows)
		return record{Note: &n}, err
	}
	for _, part := range []struct {
		scan  func(*sql.Rows) (record, error)
		query string
	}{
		{scanNumber, `SELECT kind, last FROM numbers ORDER BY kind`},
		{scanForgotten, `SELECT id FROM forgotten ORDER BY id`},
		{scanTalk, `SELECT ` + talkColumns + ` FROM talks ORDER BY begun, id`},
		{scanTurn, `SELECT talk, ` + lineColumns + ` FROM lines ORDER BY talk, turn`},
		{scanNote, `SELECT note FROM notes ORDER BY at, id`},
	} {
		if err := each(ctx, tx, part.scan, write, part.query); err != nil {
			return err
		}
	}
	return nil
}

// output tells errors of the reader of an export from those of the store.
type output struct {
	w   *bufio.Writer
	err error
}

func (o *output) record(r record) error {
	text, err := compact(r)
	if err == nil {
		_, o.err = o.w.Write(append(text, '\n'))
		err = o.err
	}
	return err
}

// done ends the writing, with the first error there was.
func (o *output) done(err error) error {
	if err == nil {
		o.err = o.w.Flush()
	}
	if o.err != nil {
		return fmt.Errorf("the export can't be written: %w", o.err)
	}
	return err
}
