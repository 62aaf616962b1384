package journal

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// The test binary runs itself as another process where childEnv names what it
// is to do; its arguments follow in childPath.
const (
	childEnv  = "SPAREHAND_JOURNAL_CHILD"
	childPath = "SPAREHAND_JOURNAL_PATH"
)

// child does one thing and prints how it went.
func child() {
	ctx := context.Background()
	j, err := Open(ctx, os.Getenv(childPath))
	if err != nil {
		fmt.Println("open:", err)
		return
	}
	switch os.Getenv(childEnv) {
	case "append":
		err = appendOn(ctx, j)
	case "look":
		lines, lookErr := j.Lines(ctx, "t", 0)
		fmt.Println(len(lines), "turns", lookErr)
		err = j.Append(ctx, "t", turn(len(lines)+1), time.Time{}, nil)
		fmt.Println("read-only", errors.Is(err, ErrReadOnly), err)
	}
	fmt.Println(err)
}

// appendOn goes on with the talk t and prints each turn that is acknowledged.
func appendOn(ctx context.Context, j *Journal) error {
	lines, err := j.Lines(ctx, "t", 0)
	for n := len(lines) + 1; err == nil; n++ {
		if err = j.Append(ctx, "t", turn(n), time.Time{}, nil); err == nil {
			fmt.Println(n)
		}
	}
	return err
}

func childOf(what, path string) *exec.Cmd {
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), childEnv+"="+what, childPath+"="+path)
	return c
}

func TestAcknowledgedTurnsOutliveAKill(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		ok(t, j.Begin(t.Context(), "t", noon))
		dice := rand.New(rand.NewSource(time.Now().UnixNano()))
		for range 20 {
			told := killed(t, childOf("append", where), 1+dice.Intn(15))
			lines, err := j.Lines(t.Context(), "t", 0)
			ok(t, err)
			// One more may be kept that the child could not tell of.
			if n := len(lines); n != told && n != told+1 {
				t.Fatalf("turn %d was acknowledged and %d are kept", told, n)
			}
			for i, l := range lines {
				if l.Turn != i+1 || l.Ref != turn(i+1).Ref || string(l.Event) != string(turn(i+1).Event) {
					t.Fatalf("turn %d is kept as %v", i+1, l)
				}
			}
		}
	})
}

// killed runs a child until it has told of so many turns, kills it, and gives
// the last turn it told of.
func killed(t *testing.T, c *exec.Cmd, turns int) int {
	t.Helper()
	out, err := c.StdoutPipe()
	ok(t, err)
	ok(t, c.Start())
	last, told := 0, 0
	for scan := bufio.NewScanner(out); scan.Scan(); {
		n, err := strconv.Atoi(scan.Text())
		if err != nil {
			t.Errorf("the child said %q", scan.Text())
			break
		}
		last = n
		if told++; told == turns {
			ok(t, c.Process.Kill()) // what it said before that is still read
		}
	}
	c.Wait()
	if told < turns {
		t.Fatalf("the child told of %d turns only", told)
	}
	return last
}

// Leave to write does not bind root, so the child runs as a user who owns
// nothing.
func TestReadOnlyFile(t *testing.T) {
	path, _ := keptFile(t)
	c := childOf("look", path)
	if os.Getuid() == 0 {
		const nobody = 65534
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		path = readable(t, c, path)
	}
	ok(t, os.Chmod(path, 0o444))
	ok(t, os.Chmod(filepath.Dir(path), 0o555))
	t.Cleanup(func() { os.Chmod(filepath.Dir(path), 0o755) })
	out, err := c.Output()
	ok(t, err)
	if !strings.Contains(string(out), "read-only true") && !strings.Contains(string(out), ErrReadOnly.Error()) {
		t.Errorf("the child said %s", out)
	}
	t.Logf("the child said %s", out)
}

// readable puts the program and its file where any user may read them.
func readable(t *testing.T, c *exec.Cmd, path string) string {
	t.Helper()
	folder, err := os.MkdirTemp("", "journal")
	ok(t, err)
	t.Cleanup(func() { os.RemoveAll(folder) })
	ok(t, os.Chmod(folder, 0o755))
	program, store := filepath.Join(folder, "child"), filepath.Join(folder, "store", "notebook.db")
	ok(t, os.Mkdir(filepath.Dir(store), 0o755))
	for from, to := range map[string]string{c.Path: program, path: store} {
		b, err := os.ReadFile(from)
		ok(t, err)
		ok(t, os.WriteFile(to, b, 0o755))
	}
	c.Path, c.Dir = program, folder
	c.Env = append(c.Env, childPath+"="+store)
	return store
}
