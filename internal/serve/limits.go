package serve

import "time"

// Limits bound what one server gives to its clients. A field that is
// not above zero takes the default that its comment names.
type Limits struct {
	MessageBytes int // 16 KiB: a longer message closes its connection with 1009
	TextRunes    int // 2,000 characters of one say; more is a fault
	Queue        int // 32 messages waiting for a slow client; more closes it with 4008
	Refs         int // the last 64 refs of a talk are known again
	Turns        int // 5,000 turns of one talk
	Followers    int // 8 connections on one talk
	Talks        int // 4,096 talks held
	Connections  int // 4,096 connections open

	Ping   time.Duration // 25 s between pings, and between looks at who is idle
	Quiet  time.Duration // 60 s without a sign of life end a connection; at least two pings
	Write  time.Duration // 10 s to hand one message to the kernel
	Sleep  time.Duration // 2 min without a turn: a talk is kept as its events only
	Ring   time.Duration // 250 ms between looks at the timers
	Rest   time.Duration // 3 s without asking a store that failed
	Forget time.Duration // 24 h without a turn or a follower: a talk is forgotten
}

func (l Limits) orDefaults() Limits {
	standard(&l.MessageBytes, 16<<10)
	standard(&l.TextRunes, 2000)
	standard(&l.Queue, 32)
	standard(&l.Refs, 64)
	standard(&l.Turns, 5000)
	standard(&l.Followers, 8)
	standard(&l.Talks, 4096)
	standard(&l.Connections, 4096)
	standard(&l.Ping, 25*time.Second)
	standard(&l.Quiet, time.Minute)
	standard(&l.Write, 10*time.Second)
	standard(&l.Sleep, 2*time.Minute)
	standard(&l.Ring, 250*time.Millisecond)
	standard(&l.Rest, 3*time.Second)
	standard(&l.Forget, 24*time.Hour)
	return l
}

// standard sets a limit that was not set.
func standard[T int | time.Duration](limit *T, to T) {
	if *limit <= 0 {
		*limit = to
	}
}

// Bounds that no setting changes.
const (
	refBytes   = 64          // of a ref
	nameBytes  = 64          // of a fact's name or a talk's id
	valueRunes = 200         // of a corrected value
	pingWrite  = time.Second // for a ping, which goes out only while nothing else does
	linger     = time.Second // for a client to read why it was closed
)
