package serve

import (
	"context"
	"math/rand/v2"
	"net"
	"os"
	"sync"
	"testing"
	"time"

	"sparehand/internal/journal"
	"sparehand/internal/talk"
)

// TestKilled kills a server at random moments, some while it starts, while
// fifty makers talk with it. Every turn that was acknowledged is there
// afterwards, once and in its place, and every timer that was not taken back has
// rung once.
func TestKilled(t *testing.T) {
	kills := 15
	if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
		kills = 200
	}
	b, err := smallBook()
	if err != nil {
		t.Fatal(err)
	}
	a, binary := talk.New(b), plainBinary(t)
	stores(t, func(t *testing.T, where string) {
		callers := killAndCall(t, binary, where, kills)
		j, err := journal.Open(context.Background(), where)
		if err != nil {
			t.Fatal(err)
		}
		defer j.Close()
		turns, rings := 0, 0
		for _, c := range callers {
			had, rang := c.check(t, a, j)
			turns, rings = turns+had, rings+rang
		}
		t.Logf("%d kills: %d turns acknowledged and there, %d timers rung once", kills, turns, rings)
		if turns < 50 || rings == 0 {
			t.Errorf("too little was said to tell: %d turns, %d timers", turns, rings)
		}
	})
}

// killAndCall lets callers talk with a server that is killed so often, and
// afterwards lets the last timers ring.
func killAndCall(t *testing.T, binary, where string, kills int) []*caller {
	t.Helper()
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	address := freeAddress(t)
	callers := make([]*caller, 50)
	done := make(chan struct{})
	var calls sync.WaitGroup
	end := sync.OnceFunc(func() {
		close(done)
		calls.Wait()
	})
	defer end()
	for i := range callers {
		callers[i] = &caller{n: i, address: address}
		calls.Go(func() { callers[i].call(done) })
	}
	for range kills {
		v := begin(t, binary, where, address)
		if random.IntN(8) > 0 {
			v.ready(t)
		}
		time.Sleep(time.Duration(random.IntN(250)) * time.Millisecond)
		v.kill()
	}
	last := begin(t, binary, where, address)
	last.ready(t)
	defer last.kill()
	time.Sleep(time.Second)
	end()
	rungOut(t, where)
	return callers
}

// rungOut waits until no talk has anything due any more.
func rungOut(t *testing.T, where string) {
	t.Helper()
	j, err := journal.Open(context.Background(), where)
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	eventually(t, "the last timers", func() bool {
		due, err := j.NextDue(context.Background())
		return err == nil && due.IsZero()
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
func (c *caller) check(t *testing.T, a *talk.Assistant, j *journal.Journal) (turns, rings int) {
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
	refs := map[string]bool{}
	for i, line := range lines {
		if line.Turn != i+1 {
			t.Errorf("caller %d: turn %d stands in place %d", c.n, line.Turn, i+1)
		}
		if refs[line.Ref] {
			t.Errorf("caller %d: %q is kept twice", c.n, line.Ref)
		}
		refs[line.Ref] = true
	}
	for _, ack := range c.acks {
		if ack.turn > len(lines) || lines[ack.turn-1].Ref != ack.ref || events[ack.turn-1].Text != ack.said || lines[ack.turn-1].Say != ack.say {
			t.Errorf("caller %d: turn %d, %q, was acknowledged and is not there", c.n, ack.turn, ack.said)
			return 0, 0
		}
	}
	last := c.acks[len(c.acks)-1]
	reply := a.Resume(events[:last.turn]).Reply()
	if got := replyText(Message{Kind: "turn", Turn: last.turn, Reply: &reply}); got != last.reply {
		t.Errorf("caller %d: turn %d folds to another reply than was given:\n%s", c.n, last.turn, firstDifference(got, last.reply))
	}
	return len(c.acks), c.checkTimers(t, events)
}

func (c *caller) checkTimers(t *testing.T, events []talk.Event) (rings int) {
	t.Helper()
	set, rung := map[string]bool{}, map[string]int{}
	for _, e := range events {
		for _, act := range e.Acts {
			switch act.Do {
			case "timer":
				set[act.ID] = true
			case "ring":
				rung[act.ID]++
			}
		}
	}
	for id, n := range rung {
		if n != 1 || !set[id] {
			t.Errorf("caller %d: timer %s rang %d times; set: %v", c.n, id, n, set[id])
		}
	}
	for id := range set {
		if rung[id] == 0 && !c.takesBack() {
			t.Errorf("caller %d: timer %s was set and never rang", c.n, id)
		}
	}
	return len(rung)
}
