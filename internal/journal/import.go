package journal

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
)

// Imported counts what an import did.
type Imported struct {
	Talks     int // added
	Turns     int // added
	Notes     int // added
	Known     int // talks and notes that were there already, the same
	Forgotten int // notes left out since they were taken out here, or taken out now since they were there
}

// Import adds what an export holds, JSON Lines or CSV: all of it or nothing. It
// reads the whole of r first, so the caller bounds r. A talk that goes on in
// the file is gone on with; what is there already, the same, stays. An error
// names the line and what is wrong with it; so does one of a talk or note that
// is there with other content.
func (j *Journal) Import(ctx context.Context, r io.Reader) (Imported, error) {
	f, err := readFile(r)
	if err != nil {
		return Imported{}, err
	}
	var did Imported
	err = j.change(ctx, func(tx *sql.Tx) error {
		did = Imported{}
		return f.into(ctx, tx, &did)
	})
	if err != nil {
		return Imported{}, err
	}
	return did, nil
}

func (f *read) into(ctx context.Context, tx *sql.Tx, did *Imported) error {
	for kind, last := range f.numbers {
		if _, err := tx.ExecContext(ctx, `INSERT INTO numbers (kind, last) VALUES ($1, $2)
			ON CONFLICT (kind) DO UPDATE SET last = excluded.last WHERE numbers.last < excluded.last`, kind, last); err != nil {
			return err
		}
	}
	for _, t := range f.talks {
		if err := importTalk(ctx, tx, t, f.turns[t.ID], did); err != nil {
			return onLine(f.at[t.ID], err)
		}
	}
	for _, id := range f.forgotten {
		if err := importForgotten(ctx, tx, id, did); err != nil {
			return err
		}
	}
	for _, n := range f.notes {
		if err := importNote(ctx, tx, n.kept, did); err != nil {
			return onLine(n.at, err)
		}
	}
	return nil
}

// lineFault is an error of a line that knows its place already.
type lineFault struct {
	at  int
	err error
}

func (f *lineFault) Error() string { return fmt.Sprintf("line %d: %v", f.at, f.err) }
func (f *lineFault) Unwrap() error { return f.err }

func onLine(at int, err error) error {
	var f *lineFault
	if errors.As(err, &f) || kindOf(err) != nil {
		return err
	}
	return &lineFault{at, err}
}

var errOther = errors.New("is in the notebook already with other content")

func importTalk(ctx context.Context, tx *sql.Tx, t talkRecord, turns []readTurn, did *Imported) error {
	added, err := tx.ExecContext(ctx, `INSERT INTO talks (id, turns, begun, last, title, due)
		VALUES ($1, 0, $2, $3, '', $4) ON CONFLICT (id) DO NOTHING`, t.ID, t.Begun.UnixMicro(), t.Begun.UnixMicro(), maybe(t.Due))
	if err != nil {
		return err
	}
	isNew, err := added.RowsAffected()
	if err != nil {
		return err
	}
	// This makes other servers wait that add to the same talk.
	same, err := tx.ExecContext(ctx, `UPDATE talks SET turns = turns WHERE id = $1 AND begun = $2`, t.ID, t.Begun.UnixMicro())
	if err != nil {
		return err
	}
	if n, err := same.RowsAffected(); err != nil || n == 0 {
		return errors.Join(err, fmt.Errorf("the talk %q %w", t.ID, errOther))
	}
	before, err := all(ctx, tx, scanLine, `SELECT `+lineColumns+` FROM lines WHERE talk = $1 ORDER BY turn`, t.ID)
	if err != nil {
		return err
	}
	for i, turn := range turns {
		if i < len(before) {
			if !sameLine(before[i], turn.Line) {
				return &lineFault{turn.at, fmt.Errorf("turn %d of the talk %q %w", turn.Turn, t.ID, errOther)}
			}
			continue
		}
		used, err := refUsed(ctx, tx, t.ID, turn.Ref)
		if err == nil && used {
			err = fmt.Errorf("turn %d of the talk %q: %w", turn.Turn, t.ID, ErrUsed)
		}
		if err == nil {
			err = insertLine(ctx, tx, t.ID, turn.Line)
		}
		if err != nil {
			return onLine(turn.at, err)
		}
	}
	did.Talks += int(isNew)
	did.Known += int(1 - isNew)
	if len(turns) <= len(before) {
		return nil
	}
	did.Turns += len(turns) - len(before)
	_, err = tx.ExecContext(ctx, `UPDATE talks SET turns = $1, last = $2, due = $3 WHERE id = $4`,
		len(turns), turns[len(turns)-1].At.UnixMicro(), maybe(t.Due), t.ID)
	return err
}

func sameLine(a, b Line) bool {
	return a.Turn == b.Turn && a.Ref == b.Ref && a.Asks == b.Asks && a.At.Equal(b.At) &&
		a.Say == b.Say && a.Title == b.Title && bytes.Equal(a.Event, b.Event)
}

func importForgotten(ctx context.Context, tx *sql.Tx, id string, did *Imported) error {
	if gone, err := isForgotten(ctx, tx, id); err != nil || gone {
		return err
	}
	done, err := tx.ExecContext(ctx, `DELETE FROM notes WHERE id = $1`, id)
	if err != nil {
		return err
	}
	n, err := done.RowsAffected()
	if err != nil {
		return err
	}
	did.Forgotten += int(n)
	_, err = tx.ExecContext(ctx, `INSERT INTO forgotten (id) VALUES ($1)`, id)
	return err
}

func importNote(ctx context.Context, tx *sql.Tx, n kept, did *Imported) error {
	gone, err := isForgotten(ctx, tx, n.ID)
	if err != nil {
		return err
	}
	if gone {
		did.Forgotten++
		return nil
	}
	there, err := all(ctx, tx, text, `SELECT note FROM notes WHERE id = $1`, n.ID)
	if err != nil {
		return err
	}
	switch {
	case len(there) == 0:
		did.Notes++
		return putNote(ctx, tx, n)
	case there[0] != n.json:
		return fmt.Errorf("the note %q %w", n.ID, errOther)
	}
	did.Known++
	return nil
}
