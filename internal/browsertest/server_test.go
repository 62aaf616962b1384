package browsertest

import (
	"context"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"sync"
	"testing"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/serve"
	"sparehand/internal/talk"
	"sparehand/rules"
	"sparehand/web"
)

// theBook is read once, and made ready to talk once: neither changes.
var (
	theBook      = sync.OnceValues(func() (*book.Book, error) { return book.Load(rules.Files) })
	theAssistant = sync.OnceValues(func() (*talk.Assistant, error) {
		b, err := theBook()
		if err != nil {
			return nil, err
		}
		return talk.New(b), nil
	})
)

func assistant(t *testing.T) *talk.Assistant {
	t.Helper()
	a, err := theAssistant()
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// startServer runs the real server behind a wire that tests can cut.
func startServer(t *testing.T) *wire {
	t.Helper()
	return startServerBehind(t, func(h http.Handler) http.Handler { return h })
}

// startServerBehind does so with a handler of the test's own before it.
func startServerBehind(t *testing.T, before func(http.Handler) http.Handler) *wire {
	t.Helper()
	server := serve.New(serve.Config{Assistant: serve.Talks(assistant(t)), Assets: web.Files})
	behind := httptest.NewUnstartedServer(before(server.Handler()))
	behind.Config.ReadHeaderTimeout = 5 * time.Second
	behind.Start()
	w := newWire(t, behind.Listener.Addr().String())
	t.Cleanup(func() {
		w.close()
		behind.Close()
		ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		if err := server.Shutdown(ctx); err != nil {
			t.Errorf("shutdown: %v", err)
		}
	})
	return w
}

// wire carries bytes to and from the server, and breaks when told to.
type wire struct {
	listener net.Listener
	server   string

	mu    sync.Mutex
	conns map[net.Conn]bool
	down  bool // new connections are dropped at once
	deaf  bool // what the server says is lost
	made  int  // connections so far
}

func newWire(t *testing.T, server string) *wire {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	w := &wire{listener: listener, server: server, conns: map[net.Conn]bool{}}
	go w.accept()
	return w
}

func (w *wire) url() string { return "http://" + w.listener.Addr().String() + "/" }

func (w *wire) accept() {
	for {
		client, err := w.listener.Accept()
		if err != nil {
			return
		}
		if !w.hold(client) {
			client.Close()
			continue
		}
		w.mu.Lock()
		w.made++
		w.mu.Unlock()
		go w.carry(client)
	}
}

func (w *wire) carry(client net.Conn) {
	defer w.drop(client)
	server, err := net.Dial("tcp", w.server)
	if err != nil || !w.hold(server) {
		return
	}
	defer w.drop(server)
	go func() {
		_, _ = io.Copy(server, client)
		w.drop(server)
	}()
	_, _ = io.Copy(deafWriter{w, client}, server)
}

// deafWriter loses what is written to it while the wire is deaf.
type deafWriter struct {
	wire *wire
	to   io.Writer
}

func (d deafWriter) Write(p []byte) (int, error) {
	d.wire.mu.Lock()
	deaf := d.wire.deaf
	d.wire.mu.Unlock()
	if deaf {
		return len(p), nil
	}
	return d.to.Write(p)
}

func (w *wire) hold(c net.Conn) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.down {
		return false
	}
	w.conns[c] = true
	return true
}

func (w *wire) drop(c net.Conn) {
	c.Close()
	w.mu.Lock()
	delete(w.conns, c)
	w.mu.Unlock()
}

// cut breaks every connection; with down, none can be made until mend.
func (w *wire) cut(down bool) {
	w.mu.Lock()
	w.down, w.deaf = down, false
	var all []net.Conn
	for c := range w.conns {
		all = append(all, c)
	}
	w.mu.Unlock()
	for _, c := range all {
		c.Close()
	}
}

// deafen loses the server's words until the next cut.
func (w *wire) deafen() {
	w.mu.Lock()
	w.deaf = true
	w.mu.Unlock()
}

func (w *wire) connections() int {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.made
}

func (w *wire) mend() {
	w.mu.Lock()
	w.down = false
	w.mu.Unlock()
}

func (w *wire) close() {
	w.listener.Close()
	w.cut(true)
}

// The page comes with the policy that it was made for.
func TestPageIsServedUnderItsPolicy(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	client := http.Client{Timeout: 5 * time.Second}
	answer, err := client.Get(w.url())
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK || answer.Header.Get("Content-Security-Policy") == "" {
		t.Errorf("got status %d and policy %q", answer.StatusCode, answer.Header.Get("Content-Security-Policy"))
	}
}
