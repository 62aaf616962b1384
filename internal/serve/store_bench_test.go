package serve

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
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

// BenchmarkStart gives the time from opening a store to the first reply in a
// talk, for an empty store and for one of ten thousand talks.
func BenchmarkStart(b *testing.B) {
	for _, talks := range []int{0, 10_000} {
		b.Run(fmt.Sprintf("talks=%d", talks), func(b *testing.B) {
			where, id := fullStore(b, talks), ""
			if talks > 0 {
				id = "talk-77"
			}
			b.ResetTimer()
			for i := range b.N {
				p := serving(b, realTalks(b), withStore(b, where))
				c, opened := p.join(b, id, 0)
				if id != "" && opened.Talk != id {
					b.Fatal(show(opened))
				}
				c.tell(b, fmt.Sprint("start ", i), firstWords)
			}
		})
	}
}

// BenchmarkIdleKept gives what an idle talk that somebody follows holds in a
// server whose store has ten thousand others, and what is left of it once it
// is let go.
func BenchmarkIdleKept(b *testing.B) {
	const followed = 500
	where := fullStore(b, 10_000)
	for range b.N {
		p := serving(b, realTalks(b), withStore(b, where))
		before := memory()
		quit := startCrowd(b, p.address(), followed)
		p.idle(p.clock.forward(3 * time.Minute))
		asleep := memory()
		quit()
		eventually(b, "all followers to leave", func() bool { return len(p.connections()) == 0 })
		p.look(p.clock.forward(3 * time.Minute))
		if held := len(p.held()); held != 0 {
			b.Fatalf("%d talks are held that nobody follows", held)
		}
		after := memory()
		b.ReportMetric((asleep.heap+asleep.stack-before.heap-before.stack)/followed, "B/followed")
		b.ReportMetric((after.heap-before.heap)/followed, "heap-B/let-go")
	}
}

// fullStore makes a file with so many talks of one turn, and gives its path.
func fullStore(b *testing.B, talks int) string {
	b.Helper()
	where := filepath.Join(b.TempDir(), "notebook.db")
	j, err := journal.Open(context.Background(), where)
	if err != nil {
		b.Fatal(err)
	}
	defer j.Close()
	at := newClock().Now()
	event := []byte(`{"at":"2026-03-01T18:00:00Z","kind":"say","text":"` + firstWords + `","acts":[{"do":"open","id":"dam-leaks"}]}`)
	for i := range talks {
		id := fmt.Sprint("talk-", i)
		line := journal.Line{Turn: 1, Ref: "1", At: at, Say: "What do you see?", Event: event}
		err := errors.Join(j.Begin(context.Background(), id, at), j.Append(context.Background(), id, line, time.Time{}, nil))
		if err != nil {
			b.Fatal(err)
		}
	}
	return where
}
