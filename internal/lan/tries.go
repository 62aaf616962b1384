package lan

import (
	"net/netip"
	"sync"
	"time"
)

const (
	triesEach = 5  // wrong tries in triesTime from one address
	triesAll  = 20 // and from all together
	triesTime = time.Minute
)

// tries remembers the wrong tries of the last minute, which are never more than
// triesAll.
type tries struct {
	mu    sync.Mutex
	wrong []try
}

type try struct {
	from netip.Prefix
	at   time.Time
}

// try checks once, unless there were too many wrong tries: then it says how
// long to wait, and nothing is checked. One try at a time, so that many at once
// are counted too.
func (t *tries) try(from netip.Addr, now time.Time, check func() bool) (right bool, wait time.Duration) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for len(t.wrong) > 0 && now.Sub(t.wrong[0].at) >= triesTime {
		t.wrong = t.wrong[1:]
	}
	who := network(from)
	var mine []try
	for _, w := range t.wrong {
		if w.from == who {
			mine = append(mine, w)
		}
	}
	switch {
	case len(mine) >= triesEach:
		return false, mine[0].at.Add(triesTime).Sub(now)
	case len(t.wrong) >= triesAll:
		return false, t.wrong[0].at.Add(triesTime).Sub(now)
	case check():
		return true, 0
	}
	t.wrong = append(t.wrong, try{who, now})
	return false, 0
}

// network is what counts as one address: of IPv6 the 64 bits before a device's
// own, which it may change at will (RFC 8981).
func network(a netip.Addr) netip.Prefix {
	bits := a.BitLen()
	if a.Is6() {
		bits = 64
	}
	p, _ := a.Prefix(bits) // fails for no address at all: those count as one
	return p
}
