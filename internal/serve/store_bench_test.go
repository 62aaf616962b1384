package serve

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"sparehand/internal/journal"
)

// BenchmarkDurableTurn gives the time of a turn that is kept in a file over that
// of one that is kept in memory, both over a websocket, taken in turns.
func BenchmarkDurableTurn(b *testing.B) {
	memory := serving(b, realTalks(b))
	kept := serving(b, realTalks(b), withStore(b, filepath.Join(b.TempDir(), "notebook.db")))
	var took [2]time.Duration
	var clients [2]*client
	for i := range b.N {
		for k, p := range []*place{memory, kept} {
			if i%1000 == 0 {
				clients[k], _ = p.join(b, "", 0)
				clients[k].ask(Request{Kind: "say", Ref: fmt.Sprint("first ", i), Text: firstWords})
			}
			r := Request{Kind: "correct", Ref: fmt.Sprint("r", i), Fact: "wall_foot", Value: []string{"smeared", "pressed", ""}[i%3]}
			start := time.Now()
			m := clients[k].ask(r)
			took[k] += time.Since(start)
			if m.Kind != "turn" {
				b.Fatal(show(m))
			}
		}
	}
	b.ReportMetric(float64(took[0].Microseconds())/float64(b.N), "µs/turn-in-memory")
	b.ReportMetric(float64(took[1].Microseconds())/float64(b.N), "µs/turn-kept")
	b.ReportMetric(float64(took[1])/float64(took[0]), "kept/in-memory")
}

// BenchmarkFullStore gives the time from opening a store of ten thousand talks
// to the first reply, and the memory that an idle talk takes that somebody
// follows.
func BenchmarkFullStore(b *testing.B) {
	const talks = 10_000
	where := filepath.Join(b.TempDir(), "notebook.db")
	j, err := journal.Open(context.Background(), where)
	if err != nil {
		b.Fatal(err)
	}
	at := newClock().Now()
	for i := range talks {
		id := fmt.Sprint("talk-", i)
		line := journal.Line{Turn: 1, Ref: "1", At: at, Say: "What do you see?", Event: []byte(`{"at":"2026-03-01T18:00:00Z","kind":"say","text":"` + firstWords + `","acts":[{"do":"open","id":"dam-leaks"}]}`)}
		if err := j.Begin(context.Background(), id, at); err != nil {
			b.Fatal(err)
		}
		if err := j.Append(context.Background(), id, line, time.Time{}, nil); err != nil {
			b.Fatal(err)
		}
	}
	j.Close()
	info, err := os.Stat(where)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(info.Size())/talks, "bytes/talk-in-file")
	var took time.Duration
	for range b.N {
		start := time.Now()
		p := serving(b, realTalks(b), withStore(b, where))
		c, _ := p.join(b, "talk-77", 0)
		if m := c.ask(Request{Kind: "pick", Ref: fmt.Sprint(start), N: 1}); m.Kind != "turn" {
			b.Fatal(show(m))
		}
		took += time.Since(start)
	}
	b.ReportMetric(float64(took.Milliseconds())/float64(b.N), "ms/open-to-reply")

	p := serving(b, realTalks(b), withStore(b, where))
	heap := func() float64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc)
	}
	const followed = 500
	before := heap()
	for i := range followed {
		if _, err := p.load(fmt.Sprint("talk-", i)); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric((heap()-before)/followed, "bytes/talk-held")
	runtime.KeepAlive(p)
}
