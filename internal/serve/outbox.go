package serve

import "sync"

// outbox is what one connection still has to send. Whoever puts the first
// thing into an idle outbox becomes its sender and has to run conn.flush, so
// that an idle connection needs no goroutine for writing.
type outbox struct {
	mu      sync.Mutex
	queue   []*frame
	end     *reason // set once: close after the queue
	sending bool    // somebody is the sender
	over    bool    // the end was taken, or a write failed: nothing more goes out
}

// push queues the frame, which it holds until it is sent or dropped. It
// reports whether the caller has become the sender. A queue that is full is
// dropped, and the connection ends as too slow.
func (o *outbox) push(f *frame, limit int) (sender bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.end != nil || o.over {
		return false
	}
	if len(o.queue) >= limit {
		o.end = &tooSlow
		o.drop()
		return false // a full queue has a sender
	}
	o.queue = append(o.queue, f.hold())
	return o.claim()
}

// close ends the connection after what is queued, or at once when the reason
// drops the queue. It reports whether the caller has become the sender.
func (o *outbox) close(why *reason) (sender bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.end != nil || o.over {
		return false
	}
	o.end = why
	if why.drop {
		o.drop()
	}
	return o.claim()
}

// next gives the sender its next frame, which the sender releases, or the
// reason to close for, or neither: then it is the sender no longer.
func (o *outbox) next() (*frame, *reason) {
	o.mu.Lock()
	defer o.mu.Unlock()
	switch {
	case o.over:
		return nil, nil
	case len(o.queue) > 0:
		f := o.queue[0]
		o.queue = o.queue[1:]
		return f, nil
	case o.end != nil:
		o.over = true
		return nil, o.end
	}
	o.queue = nil
	o.sending = false
	return nil, nil
}

// claimIdle makes the caller the sender if nothing is being sent.
func (o *outbox) claimIdle() bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	return !o.over && o.claim()
}

// release ends a claim of claimIdle. It reports whether the caller is still
// the sender, since something was queued in the meantime.
func (o *outbox) release() (sender bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.sending = len(o.queue) > 0 || o.end != nil
	return o.sending
}

// fail gives up: a write did not go through.
func (o *outbox) fail() {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.over = true
	o.drop()
}

// ending reports whether the connection is being closed.
func (o *outbox) ending() bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.end != nil || o.over
}

func (o *outbox) claim() bool {
	if o.sending {
		return false
	}
	o.sending = true
	return true
}

func (o *outbox) drop() {
	for _, f := range o.queue {
		f.release()
	}
	o.queue = nil
}
