package journal

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"sparehand/internal/talk"
)

// Append adds the next turn, with when the talk next has something due (zero:
// nothing) and, where notes is not nil, the notes that the talk now stands for:
// those it has that are not among them are taken out. All of it is kept or
// nothing; when it returns nil it outlives a power cut.
//
// ErrBehind: that turn exists already, another server took it. ErrUsed: the ref
// was used in this talk. Where both hold, the error is both. ErrNoTalk.
func (j *Journal) Append(ctx context.Context, id string, line Line, due time.Time, notes []talk.Note) error {
	line, err := cleanLine(line)
	if err != nil {
		return fmt.Errorf("talk %q, turn %d: %w", id, line.Turn, err)
	}
	kept, err := keptNotes(id, notes)
	if err != nil {
		return err
	}
	if due, err = plainTime(due); err != nil {
		return err
	}
	return j.change(ctx, func(tx *sql.Tx) error {
		// This also makes other servers wait that add to the same talk.
		done, err := tx.ExecContext(ctx, `UPDATE talks SET turns = $1, last = $2, due = $3 WHERE id = $4 AND turns = $5`,
			line.Turn, line.At.UnixMicro(), maybe(due), id, line.Turn-1)
		if err != nil {
			return err
		}
		n, err := done.RowsAffected()
		if err != nil {
			return err
		}
		used, err := refUsed(ctx, tx, id, line.Ref)
		if err != nil {
			return err
		}
		if n == 0 || used {
			return whyNot(ctx, tx, id, line, used)
		}
		if err := insertLine(ctx, tx, id, line); err != nil {
			return err
		}
		if notes == nil {
			return nil
		}
		return replaceNotes(ctx, tx, id, kept)
	})
}

func refUsed(ctx context.Context, tx *sql.Tx, id, ref string) (bool, error) {
	if ref == "" {
		return false, nil
	}
	return has(ctx, tx, `SELECT 1 FROM lines WHERE talk = $1 AND ref = $2 AND ref <> ''`, id, ref)
}

// whyNot says why a turn can't be the talk's next.
func whyNot(ctx context.Context, tx *sql.Tx, id string, line Line, used bool) error {
	taken, err := has(ctx, tx, `SELECT 1 FROM lines WHERE talk = $1 AND turn = $2`, id, line.Turn)
	if err != nil {
		return err
	}
	known, err := has(ctx, tx, `SELECT 1 FROM talks WHERE id = $1`, id)
	if err != nil {
		return err
	}
	switch {
	case !known:
		err = ErrNoTalk
	case taken && used:
		err = fmt.Errorf("%w, and %w", ErrBehind, ErrUsed)
	case taken:
		err = ErrBehind
	case used:
		err = ErrUsed
	default:
		err = errors.New("turns before it are missing: read the talk's lines again")
	}
	return fmt.Errorf("talk %q, turn %d: %w", id, line.Turn, err)
}

func insertLine(ctx context.Context, tx *sql.Tx, id string, line Line) error {
	if _, err := tx.ExecContext(ctx, `INSERT INTO lines (talk, `+lineColumns+`) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)`,
		id, line.Turn, line.Ref, int64(line.Asks), line.At.UnixMicro(), line.Say, line.Title, string(line.Event)); err != nil {
		return err
	}
	if line.Title == "" {
		return nil
	}
	_, err := tx.ExecContext(ctx, `UPDATE talks SET title = $1 WHERE id = $2`, line.Title, id)
	return err
}

// cleanLine makes a line what both databases and the export can hold.
func cleanLine(line Line) (_ Line, err error) {
	if line.Turn < 1 {
		return line, errors.New("turns count from 1")
	}
	if line.Ref != "" {
		if err := plainID("ref", line.Ref); err != nil {
			return line, err
		}
	}
	var event bytes.Buffer
	if err := json.Compact(&event, line.Event); err != nil {
		return line, fmt.Errorf("the event is no JSON: %w", err)
	}
	line.Event = bytes.ToValidUTF8(event.Bytes(), []byte("\ufffd"))
	if line.At, err = plainTime(line.At); err != nil {
		return line, err
	}
	line.Say, line.Title = plain(line.Say), plain(line.Title)
	// A control sign takes six bytes in JSON.
	if size := len(line.Event) + 6*(len(line.Ref)+len(line.Say)+len(line.Title)); size > maxLine/2 {
		return line, fmt.Errorf("a turn of %d bytes is too long to keep", size)
	}
	return line, nil
}
