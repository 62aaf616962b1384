package serve

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A disk in memory is filled by a talk. Once there is room again, the same
// request is taken, and nothing that was acknowledged is missing.
func TestFullDisk(t *testing.T) {
	folder := t.TempDir()
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size=2m"); err != nil {
		t.Skipf("a small disk can't be mounted (%v): this test did not run", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(folder, 0); err != nil {
			t.Error(err)
		}
	})
	ballast := filepath.Join(folder, "ballast")
	if err := os.WriteFile(ballast, make([]byte, 1<<20), 0o600); err != nil {
		t.Fatal(err)
	}
	p := serving(t, withStore(t, filepath.Join(folder, "notebook.db")))
	c, opened := p.join(t, "", 0)
	long := strings.Repeat("barnacle ", 200)
	taken := 0
	m := c.say("0", long)
	for m.Kind == "turn" && taken < 1000 {
		taken++
		m = c.say(fmt.Sprint(taken), long)
	}
	wantFault(t, m, "the notebook's disk is full")
	if taken == 0 || m.Turn != taken {
		t.Fatalf("%d turns were taken, and the talk is at %d", taken, m.Turn)
	}
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	if again := c.say(m.Ref, long); again.Kind != "turn" || again.Turn != taken+1 {
		t.Errorf("with room again it brings %s", show(again))
	}
	lines, err := p.store.Lines(t.Context(), opened.Talk, 0)
	if err != nil || len(lines) != taken+1 {
		t.Errorf("%d turns are kept and %d were told, error %v", len(lines), taken+1, err)
	}
}
