package serve

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// idleClients, set to an address and a number, makes the test program a
// crowd of clients instead: a process of its own, so that its memory is not
// counted as the server's.
const idleClients = "SPAREHAND_TEST_IDLE_CLIENTS"

func TestMain(m *testing.M) {
	if os.Getenv(childStore) != "" {
		os.Exit(killChild())
	}
	if crowd := os.Getenv(idleClients); crowd != "" {
		if err := standIdle(crowd); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	code := m.Run()
	if err := endPostgres(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		code = 1
	}
	os.Exit(code)
}

// standIdle opens talks, says one thing in each, says so, and waits for the
// end of its input.
func standIdle(crowd string) error {
	address, count, _ := strings.Cut(crowd, " ")
	n, err := strconv.Atoi(count)
	if err != nil {
		return err
	}
	for range n {
		ws, _, err := websocket.DefaultDialer.Dial(address, nil)
		if err != nil {
			return err
		}
		defer ws.Close()
		for _, text := range []string{`{"v":1,"kind":"open"}`, `{"v":1,"kind":"say","ref":"1","text":"` + firstWords + `"}`} {
			if err := ws.WriteMessage(websocket.TextMessage, []byte(text)); err != nil {
				return err
			}
			if _, _, err := ws.ReadMessage(); err != nil {
				return err
			}
		}
	}
	fmt.Println("ready")
	_, err = io.Copy(io.Discard, os.Stdin)
	return err
}

// BenchmarkIdle reports what one of 1,000 open connections, each with a talk
// of one turn, holds in the server: with its session, and after the session
// was dropped to its events.
func BenchmarkIdle(b *testing.B) {
	const conns = 1000
	for range b.N {
		p, _ := realPlace(b)
		before := memory()
		quit := startCrowd(b, p.address(), conns)
		awake := memory()
		p.idle(p.clock.forward(3 * time.Minute))
		asleep := memory()
		quit()
		b.ReportMetric((awake.heap-before.heap)/conns, "heap-B/awake")
		b.ReportMetric((asleep.heap-before.heap)/conns, "heap-B/asleep")
		b.ReportMetric((asleep.stack-before.stack)/conns, "stack-B/conn")
		b.ReportMetric((asleep.heap+asleep.stack-before.heap-before.stack)/conns, "B/conn")
	}
}

func startCrowd(b *testing.B, address string, n int) (quit func()) {
	b.Helper()
	crowd := exec.CommandContext(b.Context(), os.Args[0])
	crowd.Env = append(os.Environ(), idleClients+"="+address+" "+strconv.Itoa(n))
	crowd.Stderr = os.Stderr
	input, err := crowd.StdinPipe()
	if err != nil {
		b.Fatal(err)
	}
	output, err := crowd.StdoutPipe()
	if err != nil {
		b.Fatal(err)
	}
	if err := crowd.Start(); err != nil {
		b.Fatal(err)
	}
	if line, err := bufio.NewReader(output).ReadString('\n'); line != "ready\n" {
		b.Fatalf("the crowd says %q, %v", line, err)
	}
	return func() {
		input.Close()
		if err := crowd.Wait(); err != nil {
			b.Error(err)
		}
	}
}

type used struct{ heap, stack float64 } // bytes

func memory() used {
	for range 3 { // pools are emptied by the second, stacks shrink
		runtime.GC()
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return used{float64(m.HeapAlloc), float64(m.StackInuse)}
}
