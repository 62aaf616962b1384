package journal

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"time"

	_ "modernc.org/sqlite" // the driver "sqlite"
)

// busyMs is how long a writer waits for another process's, in milliseconds.
const busyMs = "4000"

// openIn is how long opening waits for servers that start at the same moment.
const openIn = 5 * time.Second

// readers is how many read a file at once.
const readers = 4

func openSQLite(ctx context.Context, path string) (*Journal, error) {
	return openFile(ctx, path, nil)
}

// openFile opens a file with more settings than the usual, by SQLite's names
// of pragmas.
func openFile(ctx context.Context, path string, more url.Values) (*Journal, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	j := &Journal{dialect: dialect{
		where:   path,
		path:    path,
		known:   `SELECT 1 FROM sqlite_master WHERE name = 'sparehand'`,
		foreign: `SELECT 1 FROM sqlite_master`,
	}}
	if err := makeFile(path); err != nil {
		return nil, j.fault(ctx, err)
	}
	set := url.Values{
		"_busy_timeout": {busyMs},
		"_foreign_keys": {"1"},
		"_synchronous":  {"FULL"}, // a turn that was acknowledged outlives a power cut
		"_txlock":       {"immediate"},
	}
	for name, values := range more {
		set[name] = values
	}
	if j.write, err = j.pool(set, 1); err != nil {
		return nil, err
	}
	set["_pragma"] = append([]string{"query_only(1)"}, set["_pragma"]...)
	if j.read, err = j.pool(set, readers); err != nil {
		return nil, err
	}
	if err := j.whole(ctx); err != nil {
		j.Close()
		return nil, err
	}
	return j, nil
}

func (j *Journal) pool(set url.Values, size int) (*sql.DB, error) {
	file := url.URL{Scheme: "file", Path: filepath.ToSlash(j.path), RawQuery: set.Encode()}
	db, err := sql.Open("sqlite", file.String())
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(size)
	db.SetMaxIdleConns(size)
	return db, nil
}

// making is held while a file is made: closing a file drops this process's
// locks on it (POSIX), so nobody may have opened it as a database before that.
var making sync.Mutex

func makeFile(path string) error {
	making.Lock()
	defer making.Unlock()
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return nil // another process was quicker
	}
	if err != nil {
		return err
	}
	return f.Close()
}

// whole looks through the file's pages, since damage is cheaper to find now
// than in the middle of a cast.
func (j *Journal) whole(ctx context.Context) error {
	var found string
	if err := j.read.QueryRowContext(ctx, `PRAGMA quick_check(1)`).Scan(&found); err != nil {
		return j.fault(ctx, err)
	}
	if found != "ok" {
		return j.named(ErrDamaged, found)
	}
	return nil
}

// writeAhead makes the file keep a log beside it, so that reading and writing
// do not wait for each other. SQLite does not wait by itself for the lock that
// this takes.
func (j *Journal) writeAhead(ctx context.Context) error {
	for end := time.Now().Add(openIn); ; {
		var mode string
		err := j.write.QueryRowContext(ctx, `PRAGMA journal_mode = WAL`).Scan(&mode)
		err = j.fault(ctx, err)
		if errors.Is(err, ErrReadOnly) {
			return nil // nothing will be written
		}
		if !errors.Is(err, ErrLocked) || time.Now().After(end) {
			return err
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(10 * time.Millisecond):
		}
	}
}
