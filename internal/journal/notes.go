package journal

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"sparehand/internal/talk"
)

// Query says which notes are wanted. Empty parts want any.
type Query struct {
	Kind    string   // as in talk.Note
	Talk    string   // id of the talk
	Problem string   // id of the book
	Cause   string   // id of the book
	Words   []string // each must occur in a name, label, place, recipe, material, outcome or id; case and accents do not matter
	Most    int      // 0: all
}

// mostWords and longestWord bound what a query looks for.
const (
	mostWords   = 50
	longestWord = 1000 // bytes
)

// Notes gives the notes that a query wants, the newest first.
func (j *Journal) Notes(ctx context.Context, q Query) ([]talk.Note, error) {
	where, args, err := q.where()
	if err != nil {
		return nil, err
	}
	args = append(args, atMost(q.Most))
	found, err := all(ctx, j.read, scanNote,
		`SELECT note FROM notes`+where+` ORDER BY at DESC, id LIMIT $`+strconv.Itoa(len(args)), args...)
	return found, j.fault(ctx, err)
}

// where makes the SQL condition of a query.
func (q Query) where() (string, []any, error) {
	var parts []string
	var args []any
	add := func(condition string, value string) {
		args = append(args, value)
		parts = append(parts, strings.Replace(condition, "?", "$"+strconv.Itoa(len(args)), 1))
	}
	for _, equal := range []struct{ column, value string }{
		{"kind", q.Kind}, {"talk", q.Talk}, {"problem", q.Problem}, {"cause", q.Cause},
	} {
		if equal.value != "" {
			add(equal.column+` = ?`, plain(equal.value))
		}
	}
	if len(q.Words) > mostWords {
		return "", nil, fmt.Errorf("%d words are too many to look for: %d at most", len(q.Words), mostWords)
	}
	for _, word := range q.Words {
		if len(word) > longestWord {
			return "", nil, fmt.Errorf("a word of %d bytes is too long to look for: %d at most", len(word), longestWord)
		}
		if word = fold(word); word != "" {
			add(`words LIKE ? ESCAPE '\'`, "%"+asIs.Replace(word)+"%")
		}
	}
	if len(parts) == 0 {
		return "", nil, nil
	}
	return " WHERE " + strings.Join(parts, " AND "), args, nil
}

// asIs takes their meaning from the signs that LIKE knows.
var asIs = strings.NewReplacer(`\`, `\\`, `%`, `\%`, `_`, `\_`)

func scanNote(rows *sql.Rows) (n talk.Note, err error) {
	kept, err := text(rows)
	if err == nil {
		err = json.Unmarshal([]byte(kept), &n)
	}
	return n, err
}

// Tally counts how often each cause of a problem was the true one, by the
// cause's id: in diagnoses whose remedy helped.
func (j *Journal) Tally(ctx context.Context, problem string) (map[string]int, error) {
	type count struct {
		cause string
		n     int
	}
	scan := func(rows *sql.Rows) (c count, err error) {
		err = rows.Scan(&c.cause, &c.n)
		return c, err
	}
	found, err := all(ctx, j.read, scan, `SELECT cause, count(*) FROM notes
		WHERE kind = $1 AND helped = 1 AND problem = $2 AND cause <> '' GROUP BY cause`, talk.NoteDiagnosis, plain(problem))
	if err != nil {
		return nil, j.fault(ctx, err)
	}
	tally := make(map[string]int, len(found))
	for _, c := range found {
		tally[c.cause] = c.n
	}
	return tally, nil
}

// Forget takes a note out of the notebook and the tally for good: no later turn
// of its talk and no import brings it back. What was said stays in the talk.
// ErrNoNote; forgetting twice is no error.
func (j *Journal) Forget(ctx context.Context, noteID string) error {
	return j.change(ctx, func(tx *sql.Tx) error {
		// Writing the talk's row makes another server's Append wait.
		if _, err := tx.ExecContext(ctx, `UPDATE talks SET title = title WHERE id = (SELECT talk FROM notes WHERE id = $1)`, noteID); err != nil {
			return err
		}
		done, err := tx.ExecContext(ctx, `DELETE FROM notes WHERE id = $1`, noteID)
		if err != nil {
			return err
		}
		n, err := done.RowsAffected()
		if err != nil {
			return err
		}
		gone, err := isForgotten(ctx, tx, noteID)
		if err != nil || gone {
			return err
		}
		if n == 0 {
			return errors.Join(err, fmt.Errorf("note %q: %w", noteID, ErrNoNote))
		}
		_, err = tx.ExecContext(ctx, `INSERT INTO forgotten (id) VALUES ($1)`, noteID)
		return err
	})
}

func isForgotten(ctx context.Context, tx *sql.Tx, noteID string) (bool, error) {
	return has(ctx, tx, `SELECT 1 FROM forgotten WHERE id = $1`, noteID)
}
