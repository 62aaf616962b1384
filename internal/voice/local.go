package voice

import (
	"context"
	"fmt"
	"os"
	"sync"
	"time"

	"sparehand/internal/voice/sphinx"
)

// LocalConfig says how the local recogniser runs. Numbers that are not above
// zero take the default that their comment names.
type LocalConfig struct {
	// Command runs Ear with its standard input and output; Env is added to its
	// environment.
	Command  []string
	Env      []string
	Most     int           // 4 utterances at once
	Patience time.Duration // 15 s for words after the end; then the process is ended
	Idle     time.Duration // 2 min without work: the process goes
}

// Local recognises with the PocketSphinx library, in processes of our own
// that can be ended.
type Local struct {
	config LocalConfig
	models *models
	dir    string // for the processes' files

	mu     sync.Mutex
	idle   []*process
	busy   int
	closed bool
}

// models are what all utterances share.
type models struct {
	acoustic   string
	dictionary *Dictionary
	loop       string

	mu   sync.Mutex
	free *freeModel
}

// NewLocal finds the library and its model. The error wraps sphinx.ErrMissing
// where they are not installed.
func NewLocal(c LocalConfig) (*Local, error) {
	m, err := sphinx.Find()
	if err != nil {
		return nil, err
	}
	d, err := ReadDictionary(m.Dictionary)
	if err != nil {
		return nil, err
	}
	if c.Most <= 0 {
		c.Most = 4
	}
	if c.Patience <= 0 {
		c.Patience = 15 * time.Second
	}
	if c.Idle <= 0 {
		c.Idle = 2 * time.Minute
	}
	dir, err := os.MkdirTemp("", "sparehand-ears")
	if err != nil {
		return nil, fmt.Errorf("no room for the recogniser's files: %w", err)
	}
	return &Local{config: c, dir: dir, models: &models{acoustic: m.Acoustic, dictionary: d, loop: loopOf().text()}}, nil
}

// Name says what recognises.
func (l *Local) Name() string { return "PocketSphinx on this machine" }

// Listen begins an utterance.
func (l *Local) Listen(ctx context.Context, e Expected) (Utterance, error) {
	p, err := l.claim()
	if err != nil {
		return nil, err
	}
	g := grammarOf(e, l.models.dictionary)
	u := newLocalUtterance(ctx, l, p, e, g)
	u.orders <- order{Setup: l.models.setupOf(e, g)}
	return u, nil
}

// claim gives an idle process or a new one.
func (l *Local) claim() (*process, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	switch {
	case l.closed:
		return nil, ErrClosed
	case l.busy >= l.config.Most:
		return nil, ErrBusy
	}
	for n := len(l.idle); n > 0; n = len(l.idle) {
		p := l.idle[n-1]
		l.idle = l.idle[:n-1]
		if p.rest.Stop() {
			l.busy++
			return p, nil
		}
	}
	p, err := startProcess(l.config.Command, append(l.config.Env, "TMPDIR="+l.dir))
	if err == nil {
		l.busy++
	}
	return p, err
}

// release takes a process back that did its work, or ends one that did not.
func (l *Local) release(p *process, sound bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.busy--
	if !sound || l.closed {
		p.end()
		return
	}
	p.rest = time.AfterFunc(l.config.Idle, p.end)
	l.idle = append(l.idle, p)
}

// Close ends what runs; utterances under way fail.
func (l *Local) Close() error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.closed = true
	for _, p := range l.idle {
		if p.rest.Stop() {
			p.end()
		}
	}
	l.idle = nil
	return os.RemoveAll(l.dir)
}

// Knows reports whether all words of a text are in the dictionary.
func (l *Local) Knows(text string) bool { return len(l.models.dictionary.sayable([]string{text})) == 1 }
