package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Begin adds a talk that has no turns yet. ErrBegun: there is one of that id.
func (j *Journal) Begin(ctx context.Context, id string, at time.Time) error {
	if err := plainID("talk", id); err != nil {
		return err
	}
	if _, err := plainTime(at); err != nil {
		return err
	}
	return j.change(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, `INSERT INTO talks (id, turns, begun, last, title, due)
			VALUES ($1, 0, $2, $3, '', NULL) ON CONFLICT (id) DO NOTHING`, id, at.UnixMicro(), at.UnixMicro())
		if err != nil {
			return err
		}
		if n, err := done.RowsAffected(); err != nil || n == 0 {
			return errors.Join(err, fmt.Errorf("talk %q: %w", id, ErrBegun))
		}
		return nil
	})
}

const lineColumns = `turn, ref, asks, at, say, title, event`

func scanLine(rows *sql.Rows) (Line, error) {
	return scanLineAfter(rows)
}

// scanTalkLine reads a line with its talk's id before it.
func scanTalkLine(rows *sql.Rows) (id string, line Line, err error) {
	line, err = scanLineAfter(rows, &id)
	return id, line, err
}

func scanLineAfter(rows *sql.Rows, first ...any) (line Line, err error) {
	var asks, at int64
	var event string
	err = rows.Scan(append(first, &line.Turn, &line.Ref, &asks, &at, &line.Say, &line.Title, &event)...)
	line.Asks, line.At, line.Event = uint64(asks), moment(at), []byte(event)
	return line, err
}

// Lines gives the turns of a talk after a turn, in order. ErrNoTalk.
func (j *Journal) Lines(ctx context.Context, id string, after int) ([]Line, error) {
	found, err := all(ctx, j.read, scanLine,
		`SELECT `+lineColumns+` FROM lines WHERE talk = $1 AND turn > $2 ORDER BY turn`, id, after)
	if err != nil || len(found) > 0 {
		return found, j.fault(ctx, err)
	}
	known, err := has(ctx, j.read, `SELECT 1 FROM talks WHERE id = $1`, id)
	if err == nil && !known {
		err = fmt.Errorf("talk %q: %w", id, ErrNoTalk)
	}
	return nil, j.fault(ctx, err)
}

const talkColumns = `id, turns, begun, last, title, due`

func scanTalk(rows *sql.Rows) (t Talk, err error) {
	var begun, last int64
	var due sql.NullInt64
	err = rows.Scan(&t.ID, &t.Turns, &begun, &last, &t.Title, &due)
	t.Begun, t.Last, t.Due = moment(begun), moment(last), ifAny(due)
	return t, err
}

// Talks lists the talks, the last used first; most of 0 lists them all.
func (j *Journal) Talks(ctx context.Context, most int) ([]Talk, error) {
	found, err := all(ctx, j.read, scanTalk,
		`SELECT `+talkColumns+` FROM talks ORDER BY last DESC, id LIMIT $1`, atMost(most))
	return found, j.fault(ctx, err)
}

// Due gives the ids of the talks that have something due by a time, the longest
// due first; most of 0 gives them all.
func (j *Journal) Due(ctx context.Context, by time.Time, most int) ([]string, error) {
	found, err := all(ctx, j.read, text,
		`SELECT id FROM talks WHERE due <= $1 ORDER BY due, id LIMIT $2`, by.UnixMicro(), atMost(most))
	return found, j.fault(ctx, err)
}

// NextDue gives when the next talk has something due; zero: none has.
func (j *Journal) NextDue(ctx context.Context) (time.Time, error) {
	var due sql.NullInt64
	err := j.read.QueryRowContext(ctx, `SELECT min(due) FROM talks WHERE due IS NOT NULL`).Scan(&due)
	return ifAny(due), j.fault(ctx, err)
}

// askAtOnce is how many ids one query names.
const askAtOnce = 500

// Newer gives the talks that have more turns than told, for servers that share
// a store. Ids that are not there are left out.
func (j *Journal) Newer(ctx context.Context, turns map[string]int) ([]string, error) {
	ids := make([]any, 0, len(turns))
	for id := range turns {
		ids = append(ids, id)
	}
	var newer []string
	for len(ids) > 0 {
		some := ids[:min(askAtOnce, len(ids))]
		ids = ids[len(some):]
		found, err := all(ctx, j.read, scanTalk,
			`SELECT `+talkColumns+` FROM talks WHERE id IN (`+places(len(some))+`)`, some...)
		if err != nil {
			return nil, j.fault(ctx, err)
		}
		for _, t := range found {
			if t.Turns > turns[t.ID] {
				newer = append(newer, t.ID)
			}
		}
	}
	return newer, nil
}

// places gives "$1, $2, $3".
func places(n int) string {
	var b strings.Builder
	for i := range n {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString("$" + strconv.Itoa(i+1))
	}
	return b.String()
}

// NextNumber gives 1, 2, 3 and so on for a kind of note. No number is given
// twice, whichever server asks, even when its note is forgotten.
func (j *Journal) NextNumber(ctx context.Context, kind string) (int, error) {
	if err := plainID("kind", kind); err != nil {
		return 0, err
	}
	var n int
	err := j.change(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, `INSERT INTO numbers (kind, last) VALUES ($1, 1)
			ON CONFLICT (kind) DO UPDATE SET last = numbers.last + 1 RETURNING last`, kind).Scan(&n)
	})
	return n, err
}
