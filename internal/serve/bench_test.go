package serve

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
)

// echoServer is the least that a websocket server can do, over the same
// upgrader as ours and with a goroutine of its own for each connection.
func echoServer(b *testing.B) string {
	upgrader := newUpgrader()
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		ws, err := upgrader.Upgrade(w, r, nil)
		if err != nil {
			return
		}
		go func() {
			defer ws.Close()
			for {
				kind, text, err := ws.ReadMessage()
				if err != nil || ws.WriteMessage(kind, text) != nil {
					return
				}
			}
		}()
	}))
	b.Cleanup(server.Close)
	return "ws" + strings.TrimPrefix(server.URL, "http")
}

func dialEcho(b *testing.B, address string) *client {
	ws, _, err := websocket.DefaultDialer.Dial(address, nil)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { ws.Close() })
	return &client{b, ws}
}

// roundTrip sends the text and waits for the answer.
func (c *client) roundTrip(text []byte) (answer []byte, took time.Duration) {
	start := time.Now()
	if err := c.ws.WriteMessage(websocket.TextMessage, text); err != nil {
		c.t.Fatal(err)
	}
	_, answer, err := c.ws.ReadMessage()
	if err != nil {
		c.t.Fatal(err)
	}
	return answer, time.Since(start)
}

// talker says the same things in talk after talk.
type talker struct {
	p      *place
	c      *client
	script []Request
	step   int
}

func (k *talker) begin(b *testing.B) {
	k.c, _ = k.p.join(b, "", 0)
	k.step = 0
}

// next gives the next request, in a new talk when the last is at its end.
func (k *talker) next(b *testing.B) []byte {
	if k.step == len(k.script) {
		k.c.ws.Close()
		k.begin(b)
	}
	r := k.script[k.step]
	k.step++
	r.V, r.Ref = Version, fmt.Sprintf("benchmark ref %d", k.step)
	text, err := json.Marshal(r)
	if err != nil {
		b.Fatal(err)
	}
	return text
}

// BenchmarkTurn times the round trip of a turn with the real book beside that
// of an echo, in turns, over as many connections of each, always the one that
// has rested longest. ns/op is the mean of a turn; the p50 and p99 are given as
// ratios to those of the echo, since nothing else compares from one machine to
// another.
func BenchmarkTurn(b *testing.B) {
	for _, conns := range []int{1, 1000} {
		b.Run(fmt.Sprintf("conns=%d", conns), func(b *testing.B) {
			p, script := realPlace(b)
			benchTurns(b, p, script, conns)
		})
	}
}

// BenchmarkCarry is BenchmarkTurn with an assistant that does not think, and a
// reply of some 1,250 bytes: what the server itself costs.
func BenchmarkCarry(b *testing.B) {
	script := slices.Repeat([]Request{{Kind: "say", Text: firstWords}, {Kind: "pick", N: 1}}, 4)
	for _, conns := range []int{1, 1000} {
		b.Run(fmt.Sprintf("conns=%d", conns), func(b *testing.B) {
			benchTurns(b, serving(b), script, conns)
		})
	}
}

func benchTurns(b *testing.B, p *place, script []Request, conns int) {
	address := echoServer(b)
	talkers, echoes := make([]talker, conns), make([]*client, conns)
	for i := range conns {
		talkers[i] = talker{p: p, script: script}
		talkers[i].begin(b)
		echoes[i] = dialEcho(b, address)
	}
	var turns, echoed []time.Duration
	bytes := 0
	b.ResetTimer()
	for i := range b.N {
		k := &talkers[i%conns]
		text := k.next(b)
		answer, took := k.c.roundTrip(text)
		turns = append(turns, took)
		bytes += len(answer)
		if !strings.HasPrefix(string(answer), `{"v":1,"kind":"turn"`) {
			b.Fatalf("%s is answered by %s", text, answer)
		}
		_, took = echoes[i%conns].roundTrip(text)
		echoed = append(echoed, took)
	}
	b.StopTimer()
	b.ReportMetric(mean(turns), "ns/op")
	b.ReportMetric(float64(bytes)/float64(b.N), "B/reply")
	b.ReportMetric(part(turns, 0.5)/1e3, "µs-p50")
	b.ReportMetric(part(turns, 0.5)/part(echoed, 0.5), "p50/echo")
	b.ReportMetric(part(turns, 0.99)/part(echoed, 0.99), "p99/echo")
}

// BenchmarkEcho is the echo alone.
func BenchmarkEcho(b *testing.B) {
	for _, conns := range []int{1, 1000} {
		b.Run(fmt.Sprintf("conns=%d", conns), func(b *testing.B) {
			address := echoServer(b)
			echoes := make([]*client, conns)
			for i := range conns {
				echoes[i] = dialEcho(b, address)
			}
			text := []byte(`{"v":1,"kind":"say","ref":"benchmark ref 1","text":"the crust tore at the brow"}`)
			var took []time.Duration
			b.ResetTimer()
			for i := range b.N {
				_, d := echoes[i%conns].roundTrip(text)
				took = append(took, d)
			}
			b.StopTimer()
			b.ReportMetric(part(took, 0.5)/1e3, "µs-p50")
		})
	}
}

func mean(all []time.Duration) float64 {
	var sum time.Duration
	for _, d := range all {
		sum += d
	}
	return float64(sum) / float64(len(all))
}

// part gives the duration, in ns, below which that part of all lie.
func part(all []time.Duration, p float64) float64 {
	sorted := slices.Sorted(slices.Values(all))
	return float64(sorted[min(int(p*float64(len(sorted))), len(sorted)-1)])
}
