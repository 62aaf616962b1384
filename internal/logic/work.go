package logic

import "sync"

// work is the room that one moving answer needs.
type work struct {
	waiting [][]int32 // by level: nodes to look at, with their truth before
	scratch []int32   // as long as the longest list of links
}

// wait puts a node on the list of its level with the truth that it had.
func (w *work) wait(level, node int32, was Truth) {
	w.waiting[level] = append(w.waiting[level], node<<2|int32(was))
}

// works lends room to the States of a Base, most of which are idle most of the
// time. There are never more than States that moved at the same moment. A
// sync.Pool would do, but it gives up its room now and then, and a Set would
// allocate.
type works struct {
	lock sync.Mutex
	idle []*work
}

func (ws *works) borrow(n *net) *work {
	ws.lock.Lock()
	defer ws.lock.Unlock()
	last := len(ws.idle) - 1
	if last < 0 {
		return &work{make([][]int32, n.levels), make([]int32, n.widest)}
	}
	w := ws.idle[last]
	ws.idle = ws.idle[:last]
	return w
}

func (ws *works) give(w *work) {
	ws.lock.Lock()
	defer ws.lock.Unlock()
	ws.idle = append(ws.idle, w)
}
