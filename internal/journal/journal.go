// Package journal keeps the talks, turn by turn, and the workshop's notebook,
// in a file (SQLite) or in a PostgreSQL database. It alone knows SQL.
package journal

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"time"
)

// Journal is an open store. Its methods may be called from many goroutines, and
// several servers may share a store. After an error it goes on: once the disk
// or the database is back, calls succeed again.
type Journal struct {
	write, read *sql.DB // one pool for PostgreSQL; for SQLite one writer and several readers
	dialect
}

// dialect is all in which the two databases differ.
type dialect struct {
	where   string // the store's name for people, with no password in it
	secret  string // what must not be in an error
	path    string // of the file, "" for PostgreSQL
	known   string // finds the table of our own name
	foreign string // finds any table, "" where others may stay
	lock    string // makes a second server wait while the first makes the tables
}

// Line is one turn of a talk as it is kept.
type Line struct {
	Turn  int             // from 1
	Ref   string          // the client's own name of the request, unique in the talk; "" for none
	Asks  uint64          // sum of what was asked
	At    time.Time       // kept to the microsecond, in UTC
	Say   string          // of the reply, for the log
	Title string          // of the reply, for the log
	Event json.RawMessage // the talk's event, kept without white space between its parts
}

// Talk is what the list shows of a talk.
type Talk struct {
	ID    string
	Turns int
	Begun time.Time
	Last  time.Time // of its last turn; Begun where there is none
	Title string    // the last that was not empty
	Due   time.Time // when it next has something due; zero: nothing
}

// What a caller may do something about.
var (
	ErrNoTalk = errors.New("there is no such talk in the notebook")
	ErrBegun  = errors.New("a talk of this id has begun already")
	ErrBehind = errors.New("that turn of the talk exists already")
	ErrUsed   = errors.New("a request of that name was answered already in this talk")
	ErrNoNote = errors.New("there is no such note in the notebook")
)

// Open opens a store: a file's path, or a postgres:// URL. It makes the file
// (mode 0600) and its folder (0700) where there are none, and brings an older
// store up to date. Errors: ErrDamaged, ErrNewer, ErrReadOnly, ErrFull,
// ErrLocked, ErrUnreachable.
func Open(ctx context.Context, where string) (*Journal, error) {
	open := openSQLite
	if strings.HasPrefix(where, "postgres://") || strings.HasPrefix(where, "postgresql://") {
		open = openPostgres
	}
	j, err := open(ctx, where)
	if err != nil {
		return nil, err
	}
	if err := j.ready(ctx); err != nil {
		j.Close()
		return nil, err
	}
	return j, nil
}

// Close closes the store.
func (j *Journal) Close() error {
	err := j.write.Close()
	if j.read != j.write {
		err = errors.Join(err, j.read.Close())
	}
	return err
}

// querier is a pool or a transaction.
type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// tries is how often a change is begun anew when another server's came between.
const tries = 5

// change runs do in a transaction: all of it is kept, or nothing.
func (j *Journal) change(ctx context.Context, do func(*sql.Tx) error) error {
	for try := 1; ; try++ {
		err := once(ctx, j.write, nil, do)
		if err == nil || try == tries || !cameBetween(err) {
			return j.fault(ctx, err)
		}
	}
}

// still runs do on one unchanging view of the store.
func (j *Journal) still(ctx context.Context, do func(*sql.Tx) error) error {
	return j.fault(ctx, once(ctx, j.read, &sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true}, do))
}

func once(ctx context.Context, db *sql.DB, opts *sql.TxOptions, do func(*sql.Tx) error) error {
	tx, err := db.BeginTx(ctx, opts)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := do(tx); err != nil {
		return err
	}
	return tx.Commit()
}

// each gives every row of a query to do.
func each[T any](ctx context.Context, q querier, scan func(*sql.Rows) (T, error), do func(T) error, query string, args ...any) error {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		one, err := scan(rows)
		if err != nil {
			return err
		}
		if err := do(one); err != nil {
			return err
		}
	}
	return rows.Err()
}

// all gives every row of a query.
func all[T any](ctx context.Context, q querier, scan func(*sql.Rows) (T, error), query string, args ...any) ([]T, error) {
	var found []T
	err := each(ctx, q, scan, func(one T) error {
		found = append(found, one)
		return nil
	}, query, args...)
	return found, err
}

// text reads a row of one text.
func text(rows *sql.Rows) (s string, err error) {
	err = rows.Scan(&s)
	return s, err
}

// has says whether a query finds anything.
func has(ctx context.Context, q querier, query string, args ...any) (bool, error) {
	var n int
	switch err := q.QueryRowContext(ctx, query, args...).Scan(&n); {
	case errors.Is(err, sql.ErrNoRows):
		return false, nil
	case err != nil:
		return false, err
	}
	return true, nil
}

// atMost makes a limit of a number; 0 or less is no limit.
func atMost(n int) int64 {
	if n <= 0 {
		return math.MaxInt32
	}
	return int64(n)
}

func moment(micros int64) time.Time { return time.UnixMicro(micros).UTC() }

// maybe keeps the zero time as NULL.
func maybe(t time.Time) sql.NullInt64 {
	return sql.NullInt64{Int64: t.UnixMicro(), Valid: !t.IsZero()}
}

func ifAny(micros sql.NullInt64) time.Time {
	if !micros.Valid {
		return time.Time{}
	}
	return moment(micros.Int64)
}
