package journal

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"

	"sparehand/internal/talk"
)

// kept is a note in the form that both databases and both exports can hold,
// with its JSON; notes are the same where their JSON is.
type kept struct {
	talk.Note
	json string
}

func keepNote(n talk.Note) (kept, error) {
	if err := plainID("note", n.ID); err != nil {
		return kept{}, err
	}
	switch n.Kind {
	case talk.NoteMould, talk.NoteBatch, talk.NotePiece, talk.NoteDiagnosis:
	default:
		return kept{}, fmt.Errorf("note %q: %q is no kind of note: mould, batch, piece or diagnosis", n.ID, n.Kind)
	}
	for _, s := range []*string{&n.Name, &n.Label, &n.Talk, &n.Place, &n.Recipe, &n.Outcome, &n.Problem, &n.Cause, &n.Remedy} {
		*s = plain(*s)
	}
	for _, t := range []*time.Time{&n.At, &n.For} {
		var err error
		if *t, err = plainTime(*t); err != nil {
			return kept{}, fmt.Errorf("note %q: %w", n.ID, err)
		}
	}
	text, err := compact(n)
	if err != nil {
		return kept{}, fmt.Errorf("note %q: %w", n.ID, err)
	}
	if len(text) > maxLine/2 {
		return kept{}, fmt.Errorf("note %q: its %d bytes are too long to keep", n.ID, len(text))
	}
	// Back from its JSON, so that a whole number told as int is the same as read.
	var back talk.Note
	if err := json.Unmarshal(text, &back); err != nil {
		return kept{}, fmt.Errorf("note %q: %w", n.ID, err)
	}
	text, err = compact(back)
	return kept{back, string(text)}, err
}

// compact gives JSON without changing <, > and &.
func compact(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), err
}

// keptNotes prepares the notes that a talk stands for.
func keptNotes(id string, notes []talk.Note) ([]kept, error) {
	seen := map[string]bool{}
	ready := make([]kept, 0, len(notes))
	for _, n := range notes {
		if n.Talk != id {
			return nil, fmt.Errorf("note %q is of the talk %q and can't be kept with %q", n.ID, n.Talk, id)
		}
		if seen[n.ID] {
			return nil, fmt.Errorf("note %q is there twice", n.ID)
		}
		seen[n.ID] = true
		k, err := keepNote(n)
		if err != nil {
			return nil, err
		}
		ready = append(ready, k)
	}
	return ready, nil
}

// replaceNotes makes the notes of a talk these, but for those forgotten.
func replaceNotes(ctx context.Context, tx *sql.Tx, id string, notes []kept) error {
	type row struct{ id, json string }
	scan := func(rows *sql.Rows) (r row, err error) {
		err = rows.Scan(&r.id, &r.json)
		return r, err
	}
	old, err := all(ctx, tx, scan, `SELECT id, note FROM notes WHERE talk = $1`, id)
	if err != nil {
		return err
	}
	before := map[string]string{}
	for _, r := range old {
		before[r.id] = r.json
	}
	for _, n := range notes {
		was, there := before[n.ID]
		delete(before, n.ID)
		if there && was == n.json {
			continue
		}
		gone, err := isForgotten(ctx, tx, n.ID)
		if err != nil {
			return err
		}
		if gone {
			continue
		}
		if err := putNote(ctx, tx, n); err != nil {
			return err
		}
	}
	for gone := range before {
		if _, err := tx.ExecContext(ctx, `DELETE FROM notes WHERE id = $1`, gone); err != nil {
			return err
		}
	}
	return nil
}

// putNote adds a note or writes it over.
func putNote(ctx context.Context, tx *sql.Tx, n kept) error {
	helped := 0
	if n.Helped {
		helped = 1
	}
	done, err := tx.ExecContext(ctx, `INSERT INTO notes (id, talk, kind, at, problem, cause, helped, words, note)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)
		ON CONFLICT (id) DO UPDATE SET kind = excluded.kind, at = excluded.at, problem = excluded.problem,
			cause = excluded.cause, helped = excluded.helped, words = excluded.words, note = excluded.note
		WHERE notes.talk = excluded.talk`,
		n.ID, n.Talk, n.Kind, n.At.UnixMicro(), n.Problem, n.Cause, helped, words(n.Note), n.json)
	if err != nil {
		return err
	}
	if changed, err := done.RowsAffected(); err != nil || changed == 0 {
		return errors.Join(err, fmt.Errorf("note %q belongs to another talk", n.ID))
	}
	return nil
}

// words gives what Query.Words are looked for in.
func words(n talk.Note) string {
	said := []string{n.Kind, n.Name, n.Label, n.Place, n.Recipe, n.Outcome, n.Problem, n.Cause, n.Remedy}
	for _, p := range n.Parts {
		said = append(said, p.Material)
	}
	return fold(strings.Join(said, "\n"))
}

// fold takes away case and accents.
func fold(s string) string {
	s = cases.Fold().String(norm.NFKD.String(plain(s)))
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFKD.String(s))
}

// plain makes words what both databases and both exports can hold: UTF-8
// without NUL, line ends as line feeds.
func plain(s string) string {
	s = strings.ToValidUTF8(s, "\ufffd")
	return plainSigns.Replace(s)
}

var plainSigns = strings.NewReplacer("\x00", "", "\r\n", "\n", "\r", "\n")

// plainTime gives a time as it is kept: to the microsecond, in UTC.
func plainTime(t time.Time) (time.Time, error) {
	if y := t.UTC().Year(); y < 1 || y > 9999 {
		return t, fmt.Errorf("a time of the year %d can't be kept", y)
	}
	return moment(t.UnixMicro()), nil
}

// longestID is the longest id or ref in bytes.
const longestID = 500

// plainID refuses an id that could not be kept as it is.
func plainID(what, id string) error {
	switch {
	case id == "":
		return fmt.Errorf("a %s has no id", what)
	case len(id) > longestID:
		return fmt.Errorf("the id of a %s is %d bytes long: %d at most", what, len(id), longestID)
	case !utf8.ValidString(id) || strings.ContainsFunc(id, unicode.IsControl):
		return fmt.Errorf("the id %q of a %s holds signs that can't be kept", id, what)
	}
	return nil
}
