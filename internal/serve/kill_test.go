package serve

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/gorilla/websocket"

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
	if err := serveUntilKilled(os.Getenv(childStore), os.Getenv(childAddress)); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	return 1
}

// keptTroubles are those of the book that the server knows that is killed: to
// learn to hear all of them would take most of its short life.
var keptTroubles = map[string]bool{"dam-leaks": true, "edges-curl": true}

// smallBook is the embedded book without most of its troubles, its builds, and
// most of its shop talk.
func smallBook() (*book.Book, error) {
	const shopTalk = 200 // lines
	files := fstest.MapFS{}
	err := fs.WalkDir(rules.Files, ".", func(name string, e fs.DirEntry, err error) error {
		id := strings.TrimSuffix(path.Base(name), ".yaml")
		if name == book.PackName {
			text, err := fs.ReadFile(rules.Files, name)
			files[name] = &fstest.MapFile{Data: text}
			return err
		}
		if err != nil || e.IsDir() || path.Ext(name) != ".yaml" || strings.HasSuffix(id, ".cases") {
			return err
		}
		text, err := fs.ReadFile(rules.Files, name)
		if bytes.Contains(text, []byte("\nguides:")) || id == "emergencies" || bytes.Contains(text, []byte("\nproblems:")) && !keptTroubles[id] {
			return err
		}
		if id == "shop-talk" {
			text = bytes.Join(bytes.SplitAfter(text, []byte("\n"))[:shopTalk], nil)
		}
		files[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		return nil, err
	}
	return book.LoadWithoutCases(files)
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

// victim is a server in a process of its own.
type victim struct {
	cmd *exec.Cmd
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

// launch starts a server and waits until it takes connections.
func launch(binary, where, address string) (*victim, error) {
	cmd := exec.Command(binary, "-test.run=^$")
	cmd.Env = append(os.Environ(), childStore+"="+where, childAddress+"="+address)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || line != "ready\n" {
		_ = cmd.Process.Kill()
		return nil, errors.Join(fmt.Errorf("the server said %q and no more: %w", line, err), cmd.Wait())
	}
	return &victim{cmd}, nil
}

func (v *victim) kill() {
	_ = v.cmd.Process.Kill() // SIGKILL
	_ = v.cmd.Wait()
}

// acked is a turn that a maker was told of.
type acked struct {
	turn int
	ref  string
	said string
	say  string
}

// caller is a maker who goes on saying things to a server that keeps falling.
type caller struct {
	n       int
	address string
	talk    string
	acks    []acked
	timers  int // that were acknowledged
	fault   error
}

// call says things until done, each again until it is answered.
func (c *caller) call(done <-chan struct{}) {
	var ws *websocket.Conn
	defer func() {
		if ws != nil {
			ws.Close()
		}
	}()
	for i := 0; ; i++ {
		r := Request{V: Version, Kind: "say", Ref: fmt.Sprintf("%d-%d", c.n, i), Text: c.words(i)}
		for answered := false; !answered; {
			select {
			case <-done:
				return
			default:
			}
			if ws == nil {
				ws = c.dial()
				continue
			}
			m, err := c.ask(ws, r)
			if err != nil {
				ws.Close()
				ws = nil
				continue
			}
			if answered = m.Kind == "turn"; answered {
				c.acks = append(c.acks, acked{m.Turn, r.Ref, r.Text, m.Reply.Say})
				if strings.HasPrefix(r.Text, "tell me in") {
					c.timers++
				}
			} else if !strings.Contains(m.Fault, "could not be kept") {
				c.fault = fmt.Errorf("caller %d was told: %s", c.n, m.Fault)
				return
			}
		}
	}
}

// words are those of turn i of a caller.
func (c *caller) words(i int) string {
	if i%9 == 4 {
		return fmt.Sprintf("tell me in two seconds to stir barnacle %d of crew %d", i, c.n)
	}
	return []string{"plaster is running out under the wall", "clay strips", "it rocks when I touch it", "yes", "not sure", "back", "how much plaster", "60 by 45 by 12 mm"}[(i+c.n)%8]
}

// dial connects and opens the caller's talk; nil where that fails just now.
func (c *caller) dial() *websocket.Conn {
	ws, _, err := websocket.DefaultDialer.Dial("ws://"+c.address+"/ws", nil)
	if err != nil {
		time.Sleep(5 * time.Millisecond)
		return nil
	}
	m, err := c.ask(ws, Request{V: Version, Kind: "open", Talk: c.talk})
	switch {
	case err != nil || m.Kind != "opened":
	case c.talk == "" || m.Talk == c.talk:
		c.talk = m.Talk
		return ws
	case len(c.acks) == 0:
		c.talk = m.Talk // nothing was ever said in the other
		return ws
	default:
		c.fault = fmt.Errorf("caller %d had %d turns, and its talk is gone: %s", c.n, len(c.acks), m.Fault)
	}
	ws.Close()
	return nil
}

// ask gives the answer to a request, past what timers say meanwhile.
func (c *caller) ask(ws *websocket.Conn, r Request) (Message, error) {
	if err := ws.WriteJSON(r); err != nil {
		return Message{}, err
	}
	_ = ws.SetReadDeadline(time.Now().Add(10 * time.Second))
	for {
		_, text, err := ws.ReadMessage()
		if err != nil {
			return Message{}, err
		}
		var m Message
		if err := json.Unmarshal(text, &m); err != nil {
			return Message{}, err
		}
		if m.Kind == "opened" || m.Ref == r.Ref {
			return m, nil
		}
	}
}

// TestKilled kills a server at random moments while fifty makers talk with it.
// Every turn that was acknowledged is there afterwards, once and in its place,
// and every timer that still stood has rung once: none is due any more.
func TestKilled(t *testing.T) {
	kills := 15
	if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
		kills = 200
	}
	binary := plainBinary(t)
	stores(t, func(t *testing.T, where string) {
		const seed = 20261128
		random := rand.New(rand.NewPCG(seed, uint64(kills)))
		address := freeAddress(t)
		v, err := launch(binary, where, address)
		if err != nil {
			t.Fatal(err)
		}
		callers := make([]*caller, 50)
		done := make(chan struct{})
		var calls sync.WaitGroup
		for i := range callers {
			callers[i] = &caller{n: i, address: address}
			calls.Go(func() { callers[i].call(done) })
		}
		for range kills {
			time.Sleep(time.Duration(random.IntN(250)) * time.Millisecond)
			v.kill()
			if v, err = launch(binary, where, address); err != nil {
				t.Fatal(err)
			}
		}
		time.Sleep(time.Second)
		close(done)
		calls.Wait()
		j, err := journal.Open(context.Background(), where)
		if err != nil {
			t.Fatal(err)
		}
		defer j.Close()
		eventually(t, "the last timers", func() bool {
			due, err := j.NextDue(context.Background())
			return err == nil && due.IsZero()
		})
		v.kill()
		turns, rings := 0, 0
		for _, c := range callers {
			had, rang := c.check(t, j)
			turns, rings = turns+had, rings+rang
		}
		t.Logf("%d kills: %d turns acknowledged and there, %d timers rung once", kills, turns, rings)
		if turns < 50 || rings == 0 {
			t.Errorf("too little was said to tell: %d turns, %d timers", turns, rings)
		}
	})
}

func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// check compares what a caller was told with what is kept. It gives the number
// of acknowledged turns and of rings.
func (c *caller) check(t *testing.T, j *journal.Journal) (turns, rings int) {
	t.Helper()
	if c.fault != nil {
		t.Error(c.fault)
	}
	if len(c.acks) == 0 {
		return 0, 0
	}
	lines, err := j.Lines(context.Background(), c.talk, 0)
	if err != nil {
		t.Errorf("caller %d: %v", c.n, err)
		return 0, 0
	}
	events, err := journal.EventsOf(lines)
	if err != nil {
		t.Errorf("caller %d: %v", c.n, err)
		return 0, 0
	}
	refs := map[string]int{}
	set, rung := map[string]bool{}, map[string]int{}
	for i, line := range lines {
		if line.Turn != i+1 {
			t.Errorf("caller %d: turn %d stands in place %d", c.n, line.Turn, i+1)
		}
		if refs[line.Ref]++; refs[line.Ref] > 1 {
			t.Errorf("caller %d: %q is kept twice", c.n, line.Ref)
		}
		for _, act := range events[i].Acts {
			switch act.Do {
			case "timer":
				set[act.ID] = true
			case "ring":
				rung[act.ID]++
			}
		}
	}
	for _, a := range c.acks {
		if a.turn > len(lines) || lines[a.turn-1].Ref != a.ref || events[a.turn-1].Text != a.said || lines[a.turn-1].Say != a.say {
			t.Errorf("caller %d: turn %d, %q, was acknowledged and is not there", c.n, a.turn, a.said)
		}
	}
	for id, n := range rung {
		if n != 1 {
			t.Errorf("caller %d: timer %s rang %d times", c.n, id, n)
		}
		if !set[id] {
			t.Errorf("caller %d: timer %s rang, and nobody set it", c.n, id)
		}
	}
	return len(c.acks), len(rung)
}
