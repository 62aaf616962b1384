package browsertest

import (
	"bufio"
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

// startProgram builds the program and runs it until the test ends, for five
// minutes at most. It gives the lines that it prints, and its log.
func startProgram(t *testing.T, args ...string) (*bufio.Scanner, *growing) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sparehand")
	if out, err := exec.CommandContext(t.Context(), "go", "build", "-o", path, "sparehand/cmd/sparehand").CombinedOutput(); err != nil {
		t.Fatalf("building: %v\n%s", err, out)
	}
	cmd := exec.Command(path, args...)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	log := &growing{}
	cmd.Stderr = log
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	patient := time.AfterFunc(5*time.Minute, func() { _ = cmd.Process.Kill() })
	t.Cleanup(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		_, _ = io.Copy(io.Discard, out)
		if err := cmd.Wait(); err != nil {
			t.Errorf("sparehand ended with %v\n%s", err, log)
		}
		patient.Stop()
	})
	return bufio.NewScanner(out), log
}

// growing is a text that is written while it is read.
type growing struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (g *growing) Write(p []byte) (int, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.text.Write(p)
}

func (g *growing) String() string {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.text.String()
}
