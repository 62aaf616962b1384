package voice

import (
	"context"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"net"
	"net/url"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"

	"github.com/gorilla/websocket"

	"sparehand/internal/aloud"
)

// Remote recognises with a speech server of the maker's, over a websocket
// (RFC 6455), one connection for each utterance:
//
//   - sent first: {"config": {"sample_rate": 16000}}
//   - then sound in binary messages, 16-bit little-endian samples, one channel;
//     the server answers each with {"partial": "words so far"}, or where it
//     found a pause with {"text": "words", "result": [{"word": "w", "conf": 0.9}]}
//   - sent last: {"eof": 1}, which is answered with a text like that.
//
// That is how the open servers made with Kaldi's recognisers speak. They know
// nothing of what is expected, so what they hear is compared with it here.
type Remote struct {
	url      string
	host     string
	most     chan struct{} // holds one for each utterance under way
	dialer   websocket.Dialer
	patience time.Duration // for words after the end
}

const (
	remoteMost     = 4
	remotePatience = 5 * time.Second
	remoteBytes    = 1 << 20 // of an answer
)

// NewRemote takes the address of a speech server: ws://HOST:PORT or wss://.
// It is first called when somebody speaks.
func NewRemote(address string) (*Remote, error) {
	u, err := url.Parse(address)
	if err != nil || u.Scheme != "ws" && u.Scheme != "wss" || u.Host == "" {
		return nil, fmt.Errorf("%q is not the address of a speech server: it begins with ws:// or wss://, such as ws://127.0.0.1:2700", address)
	}
	return &Remote{url: address, host: u.Host, most: make(chan struct{}, remoteMost), dialer: websocket.Dialer{HandshakeTimeout: remotePatience}, patience: remotePatience}, nil
}

// Name says what recognises.
func (r *Remote) Name() string { return "the speech server at " + r.host }

// Beyond reports whether sound leaves this machine for it.
func (r *Remote) Beyond() bool {
	host := r.host
	if h, _, err := net.SplitHostPort(host); err == nil {
		host = h
	}
	ip := net.ParseIP(strings.Trim(host, "[]"))
	return host != "localhost" && (ip == nil || !ip.IsLoopback())
}

// Close does nothing: each utterance ends its own connection.
func (r *Remote) Close() error { return nil }

// Listen begins an utterance.
func (r *Remote) Listen(ctx context.Context, e Expected) (Utterance, error) {
	select {
	case r.most <- struct{}{}:
	default:
		return nil, ErrBusy
	}
	u := &remoteUtterance{remote: r, expected: e, graph: grammarOf(e, nil), orders: make(chan []byte, 1024), over: make(chan struct{})}
	u.ctx, u.cancel = context.WithTimeout(ctx, 2*LongestUtterance)
	go u.run()
	return u, nil
}

// remoteUtterance is one connection. Sound waits in orders; nil is its end.
type remoteUtterance struct {
	remote   *Remote
	expected Expected
	graph    *graph
	orders   chan []byte
	ctx      context.Context
	cancel   context.CancelFunc
	over     chan struct{} // closed when the connection is
	pause    pause

	mu      sync.Mutex
	sent    []int // samples in all, after each message of sound
	ending  bool  // no more sound comes
	answers []remoteAnswer
	err     error
}

// remoteAnswer is what the server says to a message.
type remoteAnswer struct {
	Partial *string `json:"partial"`
	Text    *string `json:"text"`
	Result  []struct {
		Conf *float64 `json:"conf"`
	} `json:"result"`
}

func (u *remoteUtterance) run() {
	defer func() { <-u.remote.most }()
	defer close(u.over)
	conn, answer, err := u.remote.dialer.DialContext(u.ctx, u.remote.url, nil)
	if err != nil {
		u.fail(fmt.Errorf("%s does not answer: see whether it runs, or type it", u.remote.Name()))
		return
	}
	answer.Body.Close()
	conn.SetReadLimit(remoteBytes)
	leave := context.AfterFunc(u.ctx, func() { conn.Close() })
	defer conn.Close()
	defer leave()
	var reading sync.WaitGroup
	reading.Go(func() { u.read(conn) })
	u.write(conn)
	reading.Wait()
}

// write sends sound until its end. What fails is seen by who reads.
func (u *remoteUtterance) write(conn *websocket.Conn) {
	err := conn.WriteMessage(websocket.TextMessage, fmt.Appendf(nil, `{"config": {"sample_rate": %d}}`, Rate))
	for err == nil {
		select {
		case pcm := <-u.orders:
			if pcm == nil {
				_ = conn.WriteMessage(websocket.TextMessage, []byte(`{"eof": 1}`))
				return
			}
			err = conn.WriteMessage(websocket.BinaryMessage, pcm)
		case <-u.ctx.Done():
			return
		}
	}
}

// read takes answers up to the last one. Then the connection is over.
func (u *remoteUtterance) read(conn *websocket.Conn) {
	for {
		var a remoteAnswer
		_, data, err := conn.ReadMessage()
		switch {
		case err != nil:
			u.hungUp()
			return
		case json.Unmarshal(data, &a) != nil || a.Text == nil && a.Partial == nil:
			u.fail(fmt.Errorf("%s answers what is not understood here: see DEVELOPERS.md for how it has to", u.remote.Name()))
			return
		}
		u.mu.Lock()
		u.answers = append(u.answers, a)
		last := u.ending && a.Text != nil && len(u.answers) > len(u.sent)
		u.mu.Unlock()
		if last {
			return
		}
	}
}

// hungUp is right after the end only: some servers answer no message but that.
func (u *remoteUtterance) hungUp() {
	u.mu.Lock()
	whole := u.ending && len(u.answers) > 0 && u.answers[len(u.answers)-1].Text != nil
	u.mu.Unlock()
	if !whole {
		u.fail(fmt.Errorf("%s hung up: say it again, or type it", u.remote.Name()))
	}
}

func (u *remoteUtterance) fail(why error) {
	u.mu.Lock()
	defer u.mu.Unlock()
	if u.err == nil {
		u.err = why
	}
	u.cancel()
}

// Write takes sound.
func (u *remoteUtterance) Write(pcm []int16, speech bool) (over bool, err error) {
	u.pause.add(len(pcm), speech)
	u.mu.Lock()
	err = u.err
	u.sent = append(u.sent, u.pause.total)
	u.mu.Unlock()
	if err != nil {
		return true, err
	}
	data := make([]byte, 0, 2*len(pcm))
	for _, v := range pcm {
		data = binary.LittleEndian.AppendUint16(data, uint16(v))
	}
	select {
	case u.orders <- data:
	default:
		return true, ErrStuck
	}
	return u.pause.over(u.graph, u.soFar()), nil
}

// soFar is what was heard, if that is of all speech there was.
func (u *remoteUtterance) soFar() Heard {
	u.mu.Lock()
	defer u.mu.Unlock()
	n := min(len(u.answers), len(u.sent))
	if n == 0 || u.sent[n-1] < u.pause.spoken {
		return Heard{}
	}
	return u.heard()
}

// SoFar gives what was made out.
func (u *remoteUtterance) SoFar() string {
	u.mu.Lock()
	defer u.mu.Unlock()
	return u.heard().Words
}

// unrated is how sure words are taken to be where the server does not say: what
// is expected is believed, and other words are asked about.
const (
	unratedExpected = 0.85
	unratedOther    = 0.6
)

// heard makes of the answers what was heard. An answer is as sure as its least
// sure word, a description as its words are on the whole.
func (u *remoteUtterance) heard() Heard {
	var words []string
	var rates []float64
	for i, a := range u.answers {
		switch {
		case a.Text != nil:
			words = append(words, spokenForm(*a.Text)...)
			for _, r := range a.Result {
				if r.Conf != nil {
					rates = append(rates, max(0, min(*r.Conf, 1)))
				}
			}
		case i == len(u.answers)-1:
			words = append(words, spokenForm(*a.Partial)...)
		}
	}
	h := Heard{Words: strings.Join(words, " ")}
	if h.Words == "" {
		return h
	}
	whole, _ := u.graph.stands(h.Words)
	h.Free = !whole
	switch {
	case len(rates) > 0 && whole:
		h.Sure = slices.Min(rates)
	case len(rates) > 0:
		for _, r := range rates {
			h.Sure += r / float64(len(rates))
		}
	case whole:
		h.Sure = unratedExpected
	default:
		h.Sure = unratedOther
	}
	return h
}

// spokenForm gives the words of a text: figures as they are said, no marks.
func spokenForm(text string) []string {
	return strings.FieldsFunc(strings.ToLower(aloud.Words(text)), func(r rune) bool {
		return r != '\'' && !unicode.IsLetter(r)
	})
}

// End ends the utterance and waits for the words.
func (u *remoteUtterance) End() (Heard, error) {
	u.mu.Lock()
	u.ending = true
	u.mu.Unlock()
	defer u.cancel()
	select {
	case u.orders <- nil:
	default:
		return Heard{}, ErrStuck
	}
	late := time.NewTimer(u.remote.patience)
	defer late.Stop()
	select {
	case <-u.over:
	case <-late.C:
		return Heard{}, ErrStuck
	}
	u.mu.Lock()
	defer u.mu.Unlock()
	if u.err != nil {
		return Heard{}, u.err
	}
	return cautiously(u.expected, u.heard()), nil
}

// Drop ends it without its words.
func (u *remoteUtterance) Drop() { u.cancel() }
