package journal

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math/rand"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparehand/internal/pgtest"
)

// fillDisk appends turns of 8 kB until it fails, and gives that error and the
// turn that did not fit.
func fillDisk(t *testing.T, j *Journal) (int, error) {
	t.Helper()
	for n := 1; n < 10000; n++ {
		l := turn(n)
		l.Say = strings.Repeat("plaster ", 1000)
		if err := j.Append(t.Context(), "t", l, time.Time{}, nil); err != nil {
			return n, err
		}
	}
	t.Fatal("the disk did not fill")
	return 0, nil
}

func TestFullDisk(t *testing.T) {
	// https://www.sqlite.org/pragma.html#pragma_max_page_count
	j, err := openFile(t.Context(), filepath.Join(t.TempDir(), "notebook.db"), url.Values{"_pragma": {"max_page_count(100)"}})
	ok(t, err)
	t.Cleanup(func() { j.Close() })
	ok(t, j.ready(t.Context()))
	ok(t, j.Begin(t.Context(), "t", noon))
	next, err := fillDisk(t, j)
	wants(t, err, ErrFull)
	lines, err := j.Lines(t.Context(), "t", 0)
	ok(t, err)
	if len(lines) != next-1 {
		t.Errorf("%d turns are kept, want %d", len(lines), next-1)
	}
	_, err = j.write.Exec(`PRAGMA max_page_count = 100000`)
	ok(t, err)
	ok(t, j.Append(t.Context(), "t", turn(next), time.Time{}, nil))
}

func TestReallyFullDisk(t *testing.T) {
	folder := smallDisk(t)
	ballast := filepath.Join(folder, "ballast")
	ok(t, os.WriteFile(ballast, make([]byte, 1<<20), 0o600))
	j := opened(t, filepath.Join(folder, "notebook.db"))
	ok(t, j.Begin(t.Context(), "t", noon))
	next, err := fillDisk(t, j)
	wants(t, err, ErrFull)
	_, err = j.Lines(t.Context(), "t", 0)
	ok(t, err)
	ok(t, os.Remove(ballast))
	ok(t, j.Append(t.Context(), "t", turn(next), time.Time{}, nil))
	lines, err := j.Lines(t.Context(), "t", 0)
	ok(t, err)
	if len(lines) != next {
		t.Errorf("%d turns are kept, want %d", len(lines), next)
	}
}

// keptFile makes a file with a talk and gives its path and bytes.
func keptFile(t *testing.T) (string, []byte) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "notebook.db")
	j, err := Open(t.Context(), path)
	ok(t, err)
	ok(t, j.Begin(t.Context(), "t", noon))
	for n := 1; n <= 200; n++ {
		ok(t, j.Append(t.Context(), "t", turn(n), time.Time{}, nil))
	}
	ok(t, j.Close())
	file, err := os.ReadFile(path)
	ok(t, err)
	return path, file
}

func TestDamagedFile(t *testing.T) {
	_, whole := keptFile(t)
	dice := rand.New(rand.NewSource(1))
	noise := func(from, to int) []byte {
		b := bytes.Clone(whole)
		dice.Read(b[from:to])
		return b
	}
	for name, file := range map[string][]byte{
		"noise":         noise(0, len(whole)),
		"words":         []byte(strings.Repeat("the ferryman's cheek\n", 1000)),
		"a cut file":    whole[:len(whole)/2],
		"a cut header":  whole[:50],
		"pages garbled": noise(4096, len(whole)),
		"one garbled":   noise(len(whole)-8192, len(whole)-4096),
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "notebook.db")
			ok(t, os.WriteFile(path, file, 0o600))
			_, err := Open(t.Context(), path)
			wants(t, err, ErrDamaged)
			if !strings.Contains(err.Error(), path) {
				t.Errorf("the error %v does not name the file", err)
			}
			same(t, path, file)
		})
	}
}

func TestFolderInPlaceOfAFile(t *testing.T) {
	_, err := Open(t.Context(), t.TempDir())
	wants(t, err, ErrUnreachable)
}

func TestDamageWhileOpen(t *testing.T) {
	path, file := keptFile(t)
	j := opened(t, path)
	j.read.SetMaxIdleConns(0) // no reader remembers the pages
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	ok(t, err)
	_, err = f.WriteAt(bytes.Repeat([]byte{0xa5}, len(file)-4096), 4096)
	ok(t, err)
	ok(t, f.Close())
	_, err = j.Lines(t.Context(), "t", 0)
	wants(t, err, ErrDamaged)
}

func TestFileThatIsHeld(t *testing.T) {
	path := filepath.Join(t.TempDir(), "notebook.db")
	j, err := openFile(t.Context(), path, url.Values{"_busy_timeout": {"1"}})
	ok(t, err)
	t.Cleanup(func() { j.Close() })
	ok(t, j.ready(t.Context()))
	ok(t, j.Begin(t.Context(), "t", noon))
	holder, err := opened(t, path).write.Begin()
	ok(t, err)
	wants(t, j.Append(t.Context(), "t", turn(1), time.Time{}, nil), ErrLocked)
	ok(t, holder.Rollback())
	ok(t, j.Append(t.Context(), "t", turn(1), time.Time{}, nil))
}

func TestTimeThatRunsOut(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		ok(t, j.Begin(t.Context(), "t", noon))
		holder, err := opened(t, where).write.Begin()
		ok(t, err)
		_, err = holder.Exec(`UPDATE talks SET turns = turns`)
		ok(t, err)
		short, end := context.WithTimeout(t.Context(), 50*time.Millisecond)
		defer end()
		if err := j.Append(short, "t", turn(1), time.Time{}, nil); !errors.Is(err, ErrLocked) && !errors.Is(err, ErrUnreachable) {
			t.Errorf("the error is %v, want one for people", err)
		}
		cancelled, cancel := context.WithCancel(t.Context())
		cancel()
		wants(t, j.Append(cancelled, "t", turn(1), time.Time{}, nil), context.Canceled)
		ok(t, holder.Rollback())
		ok(t, j.Append(t.Context(), "t", turn(1), time.Time{}, nil))
	})
}

func TestStoppedDatabase(t *testing.T) {
	s := pgtest.Start(t)
	where := s.URL(t)
	j := opened(t, where)
	ok(t, j.Begin(t.Context(), "t", noon))
	// Several connections, all of which die.
	var many []*sql.Conn
	for range maxConns {
		c, err := j.read.Conn(t.Context())
		ok(t, err)
		many = append(many, c)
	}
	for _, c := range many {
		ok(t, c.Close())
	}
	for n := 1; n <= 3; n++ {
		ok(t, s.Stop())
		wants(t, j.Append(t.Context(), "t", turn(n), time.Time{}, nil), ErrUnreachable)
		_, err := j.Lines(t.Context(), "t", 0)
		wants(t, err, ErrUnreachable)
		_, err = Open(t.Context(), where)
		wants(t, err, ErrUnreachable)
		ok(t, s.Start())
		ok(t, j.Append(t.Context(), "t", turn(n), time.Time{}, nil))
		lines, err := j.Lines(t.Context(), "t", 0)
		ok(t, err)
		if len(lines) != n {
			t.Errorf("after stop %d there are %d turns", n, len(lines))
		}
	}
}

func TestDatabaseThatIsReadOnly(t *testing.T) {
	where := postgresURL(t)
	ok(t, opened(t, where).Begin(t.Context(), "t", noon))
	j := opened(t, where+"&default_transaction_read_only=on")
	wants(t, j.Append(t.Context(), "t", turn(1), time.Time{}, nil), ErrReadOnly)
	_, err := j.Lines(t.Context(), "t", 0)
	ok(t, err)
}

func TestPasswordStaysOut(t *testing.T) {
	const secret = "br@ine-9x"
	escaped := url.QueryEscape(secret)
	for _, where := range []string{
		"postgres://maker:" + escaped + "@127.0.0.1:1/notebook?sslmode=disable",
		"postgres://maker:" + escaped + "@127.0.0.1:port/notebook",
		"postgres://maker:" + escaped + "@[::1/notebook",
		"postgres://maker@127.0.0.1:1/notebook?sslmode=wrong&password=" + escaped,
		"postgres://maker@127.0.0.1:1/notebook?password=" + escaped,
	} {
		_, err := Open(t.Context(), where)
		if err == nil {
			t.Fatal("it opened")
		}
		for e := err; e != nil; e = errors.Unwrap(e) {
			if s := fmt.Sprintf("%v %+v", e, e); strings.Contains(s, secret) || strings.Contains(s, escaped) {
				t.Errorf("the password is in %q", s)
			}
		}
	}
}

// Codes of https://www.sqlite.org/rescode.html and of the PostgreSQL manual,
// appendix A.
func TestKindsOfFaults(t *testing.T) {
	for code, want := range map[int]error{
		13: ErrFull, 8: ErrReadOnly, 1032: ErrReadOnly, 11: ErrDamaged, 26: ErrDamaged, 5: ErrLocked, 517: ErrLocked,
		14: ErrUnreachable, 10: ErrUnreachable, 778: ErrUnreachable, 4874: ErrFull, 1: nil, 19: nil,
	} {
		if got := kindOfSQLite(code); got != want {
			t.Errorf("SQLite %d: %v, want %v", code, got, want)
		}
	}
	for code, want := range map[string]error{
		"53100": ErrFull, "25006": ErrReadOnly, "42501": ErrReadOnly, "XX001": ErrDamaged, "55P03": ErrLocked, "53300": ErrUnreachable,
		"57P01": ErrUnreachable, "57P03": ErrUnreachable, "08006": ErrUnreachable, "28P01": ErrUnreachable, "3D000": ErrUnreachable, "23505": nil, "42601": nil,
	} {
		if got := kindOfPostgres(code); got != want {
			t.Errorf("PostgreSQL %s: %v, want %v", code, got, want)
		}
	}
}
