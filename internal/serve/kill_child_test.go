package serve

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/journal"
	"sparehand/internal/talk"
	"sparehand/rules"
)

// The test binary is also the server that is killed.
const (
	childStore   = "SPAREHAND_KILL_STORE"
	childAddress = "SPAREHAND_KILL_ADDRESS"
)

// killChild is the server that is killed, in a process of its own; it comes back
// only where that can't begin.
func killChild() int {
	go func() { // nor does it outlive the test
		_, _ = io.Copy(io.Discard, os.Stdin)
		os.Exit(1)
	}()
	if err := serveUntilKilled(os.Getenv(childStore), os.Getenv(childAddress)); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	return 1
}

func serveUntilKilled(where, address string) error {
	b, err := smallBook()
	if err != nil {
		return err
	}
	j, err := journal.Open(context.Background(), where)
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return err
	}
	server := New(Config{Assistant: Talks(talk.New(b).At(j.Desk(time.Second))), Store: j, Limits: Limits{Ring: 50 * time.Millisecond}})
	fmt.Println("ready")
	return http.Serve(listener, server.Handler())
}

// smallBook is the embedded book as far as it is quickly learnt: the server that
// is killed would spend its short life on learning to hear the rest.
func smallBook() (*book.Book, error) {
	files := fstest.MapFS{}
	err := fs.WalkDir(rules.Files, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(rules.Files, name)
		if text = shorter(name, text); text != nil {
			files[name] = &fstest.MapFile{Data: text}
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return book.LoadWithoutCases(files)
}

// keptTroubles are those that the small book has.
var keptTroubles = map[string]bool{"dam-leaks": true, "edges-curl": true}

// shorter is what the small book has of a file; nil for nothing: it knows no
// builds, no emergencies, few troubles and little shop talk.
func shorter(name string, text []byte) []byte {
	const shopTalk = 200 // lines
	id := strings.TrimSuffix(path.Base(name), ".yaml")
	switch {
	case strings.HasSuffix(id, ".cases"), id == "emergencies", bytes.Contains(text, []byte("\nguides:")),
		bytes.Contains(text, []byte("\nproblems:")) && !keptTroubles[id]:
		return nil
	case id == "shop-talk":
		return bytes.Join(bytes.SplitAfter(text, []byte("\n"))[:shopTalk], nil)
	}
	return text
}

// plainBinary gives a test binary to run as the server that is killed: this one,
// or one without the race detector, under which its start takes many times as
// long as it lives.
func plainBinary(t *testing.T) string {
	t.Helper()
	if !underRace {
		return os.Args[0]
	}
	binary := filepath.Join(t.TempDir(), "plain.test")
	if out, err := exec.Command("go", "test", "-c", "-o", binary, ".").CombinedOutput(); err != nil {
		t.Fatalf("building the server without the race detector: %v\n%s", err, out)
	}
	return binary
}

// victim is a server in a process of its own.
type victim struct {
	cmd *exec.Cmd
	out *bufio.Reader
}

func begin(t *testing.T, binary, where, address string) *victim {
	t.Helper()
	cmd := exec.Command(binary, "-test.run=^$")
	cmd.Env = append(os.Environ(), childStore+"="+where, childAddress+"="+address)
	cmd.Stderr = os.Stderr
	_, inErr := cmd.StdinPipe() // open until the server or this test has ended
	out, outErr := cmd.StdoutPipe()
	if err := errors.Join(inErr, outErr, cmd.Start()); err != nil {
		t.Fatal(err)
	}
	v := &victim{cmd, bufio.NewReader(out)}
	t.Cleanup(v.kill)
	return v
}

// ready waits until the server takes connections.
func (v *victim) ready(t *testing.T) {
	t.Helper()
	if line, err := v.out.ReadString('\n'); line != "ready\n" {
		t.Fatalf("the server said %q and no more: %v", line, err)
	}
}

// kill ends the server with SIGKILL; killing twice does nothing.
func (v *victim) kill() {
	_ = v.cmd.Process.Kill()
	_ = v.cmd.Wait()
}
