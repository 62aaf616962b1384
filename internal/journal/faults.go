package journal

import (
	"context"
	"database/sql/driver"
	"errors"
	"io"
	"io/fs"
	"net"
	"strings"
	"syscall"

	"github.com/jackc/pgx/v5/pgconn"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// What can be wrong with the store itself.
var (
	ErrFull        = errors.New("the notebook's disk is full: make room, then say it again")
	ErrReadOnly    = errors.New("the notebook can't be written: give this user leave to write the file and its folder")
	ErrDamaged     = errors.New("the notebook is damaged or no sparehand notebook: put a backup in its place, or choose another with --store; it was not touched")
	ErrLocked      = errors.New("the notebook is held by another program: end that one, or say it again")
	ErrNewer       = errors.New("the notebook was written by a newer sparehand")
	ErrUnreachable = errors.New("the notebook can't be reached just now: see that its database runs or its disk is there; it is tried again with the next turn")
)

// fault makes a database's error one for people; so is a time that ran out. A
// call that was cancelled gives context.Canceled. Other errors stay as they are.
func (j *Journal) fault(ctx context.Context, err error) error {
	if err == nil || isOurs(err) {
		return err
	}
	if errors.Is(ctx.Err(), context.Canceled) {
		return ctx.Err()
	}
	if kind := kindOf(err); kind != nil {
		return j.named(kind, err.Error())
	}
	return err
}

// storeFault is a sentinel with the store's name and the database's own words.
// The database's error is not wrapped, for it may hold the password.
type storeFault struct {
	kind error
	tail string
}

func (f *storeFault) Error() string { return f.kind.Error() + f.tail }
func (f *storeFault) Unwrap() error { return f.kind }

func (j *Journal) named(kind error, detail string) error {
	tail := " (" + j.where + ": " + strings.Join(strings.Fields(detail), " ") + ")"
	if j.secret != "" {
		tail = strings.ReplaceAll(tail, j.secret, "...")
	}
	return &storeFault{kind, tail}
}

func isOurs(err error) bool {
	var f *storeFault
	return errors.As(err, &f)
}

// kindOf gives the sentinel for a database's error, nil for another's error.
func kindOf(err error) error {
	var lite *sqlite.Error
	var pg *pgconn.PgError
	var connect *pgconn.ConnectError
	var network net.Error
	switch {
	case errors.As(err, &lite):
		return kindOfSQLite(lite.Code())
	case errors.As(err, &pg):
		return kindOfPostgres(pg.Code)
	case errors.Is(err, syscall.ENOSPC):
		return ErrFull
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return ErrReadOnly
	case errors.As(err, &connect), errors.As(err, &network),
		errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, net.ErrClosed),
		errors.Is(err, driver.ErrBadConn), errors.Is(err, context.DeadlineExceeded):
		return ErrUnreachable
	}
	return nil
}

// kindOfSQLite goes by the result codes of https://www.sqlite.org/rescode.html.
func kindOfSQLite(code int) error {
	switch code & 0xff {
	case sqlite3.SQLITE_FULL:
		return ErrFull
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM:
		return ErrReadOnly
	case sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_FORMAT:
		return ErrDamaged
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_PROTOCOL:
		return ErrLocked
	case sqlite3.SQLITE_IOERR:
		if code == sqlite3.SQLITE_IOERR_SHMSIZE {
			return ErrFull
		}
		return ErrUnreachable
	case sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_INTERRUPT:
		return ErrUnreachable
	}
	return nil
}

// kindOfPostgres goes by the codes of the PostgreSQL manual, appendix A.
func kindOfPostgres(code string) error {
	switch {
	case code == "53100":
		return ErrFull
	case code == "25006", code == "42501":
		return ErrReadOnly
	case code == "55P03":
		return ErrLocked
	case strings.HasPrefix(code, "XX"), strings.HasPrefix(code, "58P"):
		return ErrDamaged
	case strings.HasPrefix(code, "08"), strings.HasPrefix(code, "28"), strings.HasPrefix(code, "3D"),
		strings.HasPrefix(code, "53"), strings.HasPrefix(code, "57"), strings.HasPrefix(code, "58"):
		return ErrUnreachable
	}
	return nil
}

// cameBetween says whether a change failed only because another server's did
// not, so that it may be begun anew: a serialisation failure, a deadlock, or a
// row that was added at the same moment.
func cameBetween(err error) bool {
	var pg *pgconn.PgError
	return errors.As(err, &pg) && (pg.Code == "40001" || pg.Code == "40P01" || pg.Code == "23505")
}
