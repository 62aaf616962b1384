package serve

import (
	"encoding/binary"
	"hash/fnv"
)

// refs are the refs used last in a talk, oldest overwritten first.
type refs struct {
	used []usedRef
	at   int // where the next one goes once the ring is full
}

type usedRef struct {
	ref  string
	asks uint64 // what was asked, as a sum
	turn int
}

// find gives what the ref was used for.
func (r *refs) find(ref string) (usedRef, bool) {
	for _, u := range r.used {
		if u.ref == ref {
			return u, true
		}
	}
	return usedRef{}, false
}

func (r *refs) add(u usedRef, limit int) {
	if len(r.used) < limit {
		r.used = append(r.used, u)
		return
	}
	r.used[r.at] = u
	r.at = (r.at + 1) % limit
}

// asks sums up what a request asks for, so that a ref used twice for
// different things is noticed.
func (r Request) asks() uint64 {
	h := fnv.New64a()
	for _, part := range []string{r.Kind, r.Text, r.Fact, r.Value} {
		var size [8]byte
		binary.LittleEndian.PutUint64(size[:], uint64(len(part)))
		h.Write(size[:])
		h.Write([]byte(part))
	}
	var n [8]byte
	binary.LittleEndian.PutUint64(n[:], uint64(r.N))
	h.Write(n[:])
	return h.Sum64()
}
