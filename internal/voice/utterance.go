package voice

import (
	"context"
	"errors"
	"sync"
	"time"
)

// localUtterance is one utterance in a recogniser's process. At each pause
// the process decodes what there is; that is the result unless speech goes on.
type localUtterance struct {
	local    *Local
	p        *process
	expected Expected
	graph    *graph
	orders   chan order
	ctx      context.Context
	cancel   context.CancelFunc
	writing  sync.WaitGroup
	pause    pause

	mu      sync.Mutex
	looking bool          // a look is under way
	fresh   chan struct{} // closed when it is done
	heard   Heard
	covers  int // samples that heard is of
	err     error
}

func newLocalUtterance(ctx context.Context, l *Local, p *process, e Expected, g *graph) *localUtterance {
	u := &localUtterance{local: l, p: p, expected: e, graph: g, orders: make(chan order, 1024)}
	u.ctx, u.cancel = context.WithTimeout(ctx, 2*LongestUtterance)
	u.writing.Go(u.write)
	return u
}

// write carries orders to the process, so that nobody waits for it.
func (u *localUtterance) write() {
	for {
		select {
		case o := <-u.orders:
			if u.p.send.Encode(o) != nil {
				u.fail(ErrStuck)
				return
			}
		case <-u.ctx.Done():
			return
		}
	}
}

// await takes what a look finds and has it weighed against what else it may be.
func (u *localUtterance) await() {
	var first, whole finding
	if !u.find(&first) {
		return
	}
	weigh := order{Weigh: true}
	if g := rivalOf(u.expected, u.graph, first.Best, u.local.models.dictionary); g != nil {
		weigh.Rival = g.text()
	}
	u.orders <- weigh
	if !u.find(&whole) {
		return
	}
	h := judge(u.expected, whole, u.local.models.dictionary)
	u.mu.Lock()
	u.heard, u.covers, u.looking = h, whole.Samples, false
	close(u.fresh)
	u.mu.Unlock()
}

func (u *localUtterance) find(f *finding) bool {
	if u.p.take.Decode(f) != nil {
		u.fail(ErrStuck)
		return false
	}
	if f.Fault != "" {
		u.fail(errors.New(f.Fault))
		return false
	}
	return true
}

func (u *localUtterance) fail(why error) {
	u.mu.Lock()
	defer u.mu.Unlock()
	if u.err == nil {
		u.err = why
	}
	u.cancel()
}

// look asks for a decoding unless one is under way, and gives the channel
// that is closed when it is done.
func (u *localUtterance) look() <-chan struct{} {
	u.mu.Lock()
	defer u.mu.Unlock()
	if !u.looking {
		u.looking, u.fresh = true, make(chan struct{})
		u.orders <- order{Look: true}
		go u.await()
	}
	return u.fresh
}

// Write takes sound.
func (u *localUtterance) Write(pcm []int16, speech bool) (over bool, err error) {
	if err := u.broken(); err != nil {
		return true, err
	}
	select {
	case u.orders <- order{Sound: pcm}:
	default:
		return true, ErrStuck
	}
	u.pause.add(len(pcm), speech)
	if u.pause.worthALook() {
		u.look()
	}
	u.mu.Lock()
	heard, covers := u.heard, u.covers
	u.mu.Unlock()
	if covers < u.pause.spoken {
		heard = Heard{}
	}
	return u.pause.over(u.graph, heard), nil
}

func (u *localUtterance) broken() error {
	u.mu.Lock()
	defer u.mu.Unlock()
	return u.err
}

// SoFar gives what was made out at the last pause.
func (u *localUtterance) SoFar() string {
	u.mu.Lock()
	defer u.mu.Unlock()
	return u.heard.Words
}

// End ends the utterance and waits for the words.
func (u *localUtterance) End() (Heard, error) {
	late := time.AfterFunc(u.local.config.Patience, func() {
		u.fail(ErrStuck)
		u.p.end() // which frees the reading end
	})
	defer late.Stop()
	for {
		u.mu.Lock()
		heard, done, err := u.heard, !u.looking && u.covers >= u.pause.spoken && u.covers > 0, u.err
		u.mu.Unlock()
		switch {
		case err != nil:
			u.close(false)
			return Heard{}, err
		case done:
			u.close(true)
			return heard, nil
		}
		select {
		case <-u.look():
		case <-u.ctx.Done():
			u.fail(ErrStuck)
		}
	}
}

// Drop ends the utterance without its words.
func (u *localUtterance) Drop() {
	u.close(false)
}

// close lets the process go: to the next utterance if it is sound and has
// nothing more to say.
func (u *localUtterance) close(sound bool) {
	u.cancel()
	if !sound {
		u.p.end() // which frees whoever waits at its pipes
	}
	u.writing.Wait()
	u.local.release(u.p, sound)
}
