package journal

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"sparehand/internal/pgtest"
)

// shared is the PostgreSQL of all tests but those that stop it.
var shared = sync.OnceValues(pgtest.New)

var sharedUsed bool

func TestMain(m *testing.M) {
	if os.Getenv(childEnv) != "" {
		child()
		return
	}
	code := m.Run()
	if sharedUsed {
		if s, err := shared(); err == nil && s.Close() != nil {
			code = 1
		}
	}
	os.Exit(code)
}

// both runs a test on each database, with a place for an empty store.
func both(t *testing.T, test func(t *testing.T, where string)) {
	t.Helper()
	t.Run("file", func(t *testing.T) { test(t, filepath.Join(t.TempDir(), "notebook.db")) })
	t.Run("postgres", func(t *testing.T) { test(t, postgresURL(t)) })
}

func postgresURL(t *testing.T) string {
	t.Helper()
	sharedUsed = true
	s, err := shared()
	pgtest.Needed(t, err)
	return s.URL(t)
}

// opened opens a store that is closed with the test.
func opened(t testing.TB, where string) *Journal {
	t.Helper()
	j, err := Open(t.Context(), where)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := j.Close(); err != nil {
			t.Error(err)
		}
	})
	return j
}

// tb is a test, a benchmark or a rapid property.
type tb interface {
	Helper()
	Context() context.Context
	Fatal(...any)
	Fatalf(string, ...any)
}

func ok(t tb, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// wants fails unless an error is the one named.
func wants(t tb, err, want error) {
	t.Helper()
	if !errors.Is(err, want) {
		t.Fatalf("got the error %v, want %v", err, want)
	}
}

// noon is when the tests' talks begin.
var noon = time.Date(2026, 2, 14, 12, 0, 0, 123456000, time.UTC)

// turn makes a turn of a talk.
func turn(n int) Line {
	return Line{
		Turn: n, Ref: fmt.Sprint("r", n), Asks: 1<<63 + uint64(n), At: noon.Add(time.Duration(n) * time.Minute),
		Say: "How warm is the plate?", Title: "Cast of the barnacle crust",
		Event: []byte(fmt.Sprintf(`{"kind":"say","text":"turn %d"}`, n)),
	}
}

func TestServersThatStartAtOnceMakeOneStore(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		const servers = 4
		errs := make(chan error, servers)
		for i := range servers {
			go func() {
				j, err := Open(context.Background(), where)
				if err == nil {
					err = errors.Join(j.Begin(context.Background(), fmt.Sprint("t", i), noon), j.Close())
				}
				errs <- err
			}()
		}
		for range servers {
			ok(t, <-errs)
		}
		talks, err := opened(t, where).Talks(t.Context(), 0)
		ok(t, err)
		if len(talks) != servers {
			t.Errorf("%d talks were kept, want %d", len(talks), servers)
		}
	})
}

func TestNewerStoreIsLeftAlone(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		_, err := j.write.Exec(`INSERT INTO sparehand (version) VALUES (99)`)
		ok(t, err)
		_, err = Open(t.Context(), where)
		wants(t, err, ErrNewer)
	})
}

func TestFileOfAnotherProgramIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.db")
	db, err := sql.Open("sqlite", path)
	ok(t, err)
	_, err = db.Exec(`CREATE TABLE other (n INTEGER)`)
	ok(t, err)
	ok(t, db.Close())
	before, err := os.ReadFile(path)
	ok(t, err)
	_, err = Open(t.Context(), path)
	wants(t, err, ErrDamaged)
	same(t, path, before)
}

// same fails if a file's bytes changed.
func same(t *testing.T, path string, before []byte) {
	t.Helper()
	after, err := os.ReadFile(path)
	ok(t, err)
	if string(after) != string(before) {
		t.Errorf("the file was changed")
	}
}

func TestFileIsForItsOwnerOnly(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "a b?#%", "c")
	path := filepath.Join(folder, "notebook.db")
	j := opened(t, path)
	ok(t, j.Begin(t.Context(), "t", noon))
	for name, want := range map[string]os.FileMode{folder: 0o700, path: 0o600, path + "-wal": 0o600} {
		info, err := os.Stat(name)
		ok(t, err)
		if got := info.Mode().Perm(); got != want {
			t.Errorf("%s has mode %o, want %o", name, got, want)
		}
	}
}

func TestFileIsKeptSafely(t *testing.T) {
	j := opened(t, filepath.Join(t.TempDir(), "notebook.db"))
	// Values as in https://www.sqlite.org/pragma.html: 2 is FULL.
	for pragma, want := range map[string]string{"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1"} {
		var got string
		ok(t, j.write.QueryRow(`PRAGMA `+pragma).Scan(&got))
		if got != want {
			t.Errorf("%s is %s, want %s", pragma, got, want)
		}
	}
}
