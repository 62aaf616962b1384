package serve

import (
	"errors"
	"io"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"

	"github.com/gorilla/websocket"

	"sparehand/internal/talk"
)

// conn is one websocket connection. Its only goroutine reads, works the turn
// out and writes; a second one lives only while a turn that came from
// another connection is being written.
type conn struct {
	server    *Server
	ws        *websocket.Conn
	talk      *conversation // nil before open; of the reading goroutine
	opened    atomic.Bool
	asked     *asked       // what this client shows; guarded by its talk
	utterance *utterance   // being listened to, or nil; of the reading goroutine
	heard     atomic.Int64 // last sign of life, Unix nanoseconds of the server's clock
	out       outbox
}

// serve reads until the connection ends.
func (c *conn) serve() {
	defer c.server.forget(c)
	defer c.drain()
	defer c.hush()
	c.ws.SetPongHandler(func(string) error {
		c.alive()
		return nil
	})
	for {
		// Called from here and no deeper: what an idle goroutine uses of its
		// stack decides whether the runtime can shrink it to 4 KiB.
		kind, r, err := c.ws.NextReader()
		if err != nil || !c.take(kind, r) {
			return
		}
	}
}

// drain closes the connection. If it is being closed for a reason of ours,
// what still comes in is read first: unread bytes would make the kernel reset
// the connection, and the client would not learn the reason.
func (c *conn) drain() {
	if c.out.ending() {
		_, _ = io.Copy(io.Discard, c.ws.NetConn()) // bounded by sayWhy
	}
	c.ws.Close()
}

func (c *conn) alive() { c.heard.Store(c.server.now().UnixNano()) }

// errTooBig means a message over the limit.
var errTooBig = errors.New("message too big")

// take takes one message and reports whether to go on reading.
func (c *conn) take(kind int, r io.Reader) bool {
	c.alive()
	most := c.server.limits.MessageBytes
	if kind == websocket.BinaryMessage {
		most = soundBytes
	}
	b := readBuffers.Get().(*[]byte)
	defer readBuffers.Put(b)
	var err error
	*b, err = readAll(r, (*b)[:0], most)
	switch {
	case errors.Is(err, errTooBig):
		c.close(&tooBig)
		return false
	case err != nil:
		return false
	}
	if kind == websocket.BinaryMessage {
		c.guarded(func() { c.hear(*b) })
	} else {
		c.guarded(func() { c.handle(*b) })
	}
	return true
}

var readBuffers = sync.Pool{New: func() any {
	b := make([]byte, 0, 1024)
	return &b
}}

// readAll reads r to its end into b, up to a limit in bytes.
func readAll(r io.Reader, b []byte, limit int) ([]byte, error) {
	for {
		if len(b) == cap(b) {
			b = append(b, 0)[:len(b)]
		}
		n, err := r.Read(b[len(b):cap(b)])
		b = b[:len(b)+n]
		switch {
		case len(b) > limit:
			return b, errTooBig
		case err == io.EOF:
			return b, nil
		case err != nil:
			return b, err
		}
	}
}

// guarded does something of this connection's. A defect below ends it, and
// nobody else's.
func (c *conn) guarded(do func()) {
	defer func() {
		if p := recover(); p != nil {
			c.server.logger.Error("connection broke", "cause", p, "stack", string(debug.Stack()))
			c.close(&broken)
		}
	}()
	do()
}

// handle answers one message: with a turn, an opened or a fault.
func (c *conn) handle(text []byte) {
	r, err := decode(text)
	if err == nil {
		err = r.check(c.server.limits)
	}
	switch {
	case err != nil:
		c.fault(r.Ref, err)
	case r.Kind == "open":
		c.open(r)
	case c.talk == nil:
		c.fault(r.Ref, errors.New("open a talk first"))
	case r.Kind == "paper":
		c.paper(r)
	case r.Kind == "listen":
		c.listen(r)
	case r.Kind == "hush":
		c.hush()
	case r.Kind == "spoken":
		c.spoken(r, talk.Spoken{Words: r.Text, Sure: r.Sure, Others: r.Others})
	default:
		c.turn(r)
	}
}

// fault tells this client alone why a request could not be taken.
func (c *conn) fault(ref string, why error) {
	m := Message{Kind: "fault", Ref: short(ref, refBytes), Fault: why.Error()}
	var stale staleQuestion
	if errors.As(why, &stale) {
		m.Reply = &stale.reply
	}
	if c.talk != nil {
		c.talk.mu.Lock()
		m.Turn = c.talk.turn()
		c.talk.mu.Unlock()
	}
	c.tell(m)
}

// tell sends a message to this client alone.
func (c *conn) tell(m Message) {
	f, err := encode(m)
	if err != nil {
		c.server.logger.Error("message lost", "error", err)
		return
	}
	sender := c.out.push(f, c.server.limits.Queue)
	f.release()
	if sender {
		c.flush()
	}
}

// close ends the connection for a reason, after what is queued.
func (c *conn) close(why *reason) {
	if c.out.close(why) {
		go c.flush()
	}
}

// flush sends until there is nothing more to send.
func (c *conn) flush() {
	for {
		f, end := c.out.next()
		switch {
		case end != nil:
			c.sayWhy(end)
			return
		case f == nil:
			return
		}
		c.ws.SetWriteDeadline(time.Now().Add(c.server.limits.Write))
		err := c.ws.WriteMessage(websocket.TextMessage, f.text.Bytes())
		f.release()
		if err != nil {
			c.out.fail()
			c.ws.Close()
			return
		}
	}
}

// sayWhy sends the close frame and leaves the client a moment to read it.
func (c *conn) sayWhy(why *reason) {
	err := c.ws.WriteControl(websocket.CloseMessage, why.payload(), time.Now().Add(c.server.limits.Write))
	if err != nil {
		c.ws.Close()
		return
	}
	if half, ok := c.ws.NetConn().(interface{ CloseWrite() error }); ok {
		_ = half.CloseWrite()
	}
	_ = c.ws.SetReadDeadline(time.Now().Add(linger))
}

// ping asks for a sign of life. It is skipped while something is being sent:
// the deadline of that write finds a dead client, too.
func (c *conn) ping() {
	if !c.out.claimIdle() {
		return
	}
	if err := c.ws.WriteControl(websocket.PingMessage, nil, time.Now().Add(pingWrite)); err != nil {
		c.out.fail()
		c.ws.Close()
		return
	}
	if c.out.release() {
		go c.flush()
	}
}
