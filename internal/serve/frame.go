package serve

import (
	"bytes"
	"encoding/json"
	"fmt"
	"sync"
	"sync/atomic"
)

// frame is one encoded message, shared by every connection that is to send
// it. The last one to let go gives it back to the pool.
type frame struct {
	text    bytes.Buffer
	encoder *json.Encoder
	holders atomic.Int32
}

// largestPooled is the largest buffer kept for another message, in bytes.
const largestPooled = 64 << 10

var frames = sync.Pool{New: func() any {
	f := new(frame)
	f.encoder = json.NewEncoder(&f.text)
	f.encoder.SetEscapeHTML(false) // the page sets text nodes, never HTML
	return f
}}

// encode gives the message as a frame that the caller holds.
func encode(m Message) (*frame, error) {
	f := frames.Get().(*frame)
	f.text.Reset()
	f.holders.Store(1)
	m.V = Version
	if err := f.encoder.Encode(&m); err != nil {
		f.release()
		return nil, fmt.Errorf("cannot encode a %s message: %w", m.Kind, err)
	}
	f.text.Truncate(f.text.Len() - 1) // the encoder's line end
	return f, nil
}

func (f *frame) hold() *frame {
	f.holders.Add(1)
	return f
}

func (f *frame) release() {
	if f.holders.Add(-1) == 0 && f.text.Cap() <= largestPooled {
		frames.Put(f)
	}
}
