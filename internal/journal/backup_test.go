package journal

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

func TestBackupWhileWriting(t *testing.T) {
	folder := t.TempDir()
	j := opened(t, filepath.Join(folder, "notebook.db"))
	const writers, turns = 4, 40
	var all sync.WaitGroup
	started := make(chan bool, writers)
	for w := range writers {
		id := fmt.Sprint("t", w)
		ok(t, j.Begin(t.Context(), id, noon))
		all.Go(func() {
			for n := 1; n <= turns; n++ {
				if err := j.Append(t.Context(), id, turn(n), time.Time{}, nil); err != nil {
					t.Error(err)
				}
				if n == 5 {
					started <- true
				}
			}
		})
	}
	for range writers {
		<-started
	}
	var copies []string
	for n := range 3 {
		copies = append(copies, filepath.Join(folder, fmt.Sprint("backup", n)))
		ok(t, j.Backup(t.Context(), copies[n]))
	}
	all.Wait()
	for _, path := range copies {
		info, err := os.Stat(path)
		ok(t, err)
		if info.Mode().Perm() != 0o600 {
			t.Errorf("the backup has mode %o, want 600", info.Mode().Perm())
		}
		back := opened(t, path)
		talks, err := back.Talks(t.Context(), 0)
		ok(t, err)
		if len(talks) != writers {
			t.Errorf("%d talks are in the backup, want %d", len(talks), writers)
		}
		for _, k := range talks {
			lines, err := back.Lines(t.Context(), k.ID, 0)
			ok(t, err)
			if len(lines) != k.Turns || k.Turns < 5 {
				t.Errorf("talk %s says %d turns and has %d, want the same and 5 or more", k.ID, k.Turns, len(lines))
			}
		}
		ok(t, back.Append(t.Context(), "t0", turn(talks[index(talks, "t0")].Turns+1), time.Time{}, nil))
	}
}

func index(talks []Talk, id string) int {
	for i, k := range talks {
		if k.ID == id {
			return i
		}
	}
	return -1
}

func TestBackupWritesOverNothing(t *testing.T) {
	folder := t.TempDir()
	j := opened(t, filepath.Join(folder, "notebook.db"))
	for name, made := range map[string]string{"a file": "precious", "an empty file": ""} {
		path := filepath.Join(folder, name)
		ok(t, os.WriteFile(path, []byte(made), 0o600))
		if err := j.Backup(t.Context(), path); err == nil {
			t.Errorf("%s was written over", name)
		}
		same(t, path, []byte(made))
	}
	if err := j.Backup(t.Context(), filepath.Join(folder, "nowhere", "backup")); err == nil {
		t.Error("a backup into no folder was made")
	}
	left, err := filepath.Glob(filepath.Join(folder, "*.part"))
	if ok(t, err); left != nil {
		t.Errorf("these were left: %v", left)
	}
}

func TestBackupOfADatabase(t *testing.T) {
	err := opened(t, postgresURL(t)).Backup(t.Context(), filepath.Join(t.TempDir(), "backup"))
	if err == nil || !strings.Contains(err.Error(), "pg_dump") {
		t.Errorf("the error is %v, want one that says pg_dump", err)
	}
}
