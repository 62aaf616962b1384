package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"sparehand/internal/journal"
	"sparehand/internal/talk"
)

// storeFlag says where talks and the notebook are kept.
type storeFlag struct {
	Store string `help:"Where the talks and the notebook are kept: a file, a postgres:// address that several servers may share, or none." placeholder:"FILE" env:"SPAREHAND_STORE"`
}

const (
	noStore   = "none"
	openTime  = 20 * time.Second
	askTime   = 3 * time.Second // for one question of a talk to the notebook
	storeName = "notebook.db"
)

// open opens the store; nil for none. Where nobody said which, the usual file is
// used, and where that can't be had, none, with a word about it.
func (f storeFlag) open(warn io.Writer) (*journal.Journal, error) {
	if f.Store == noStore {
		return nil, nil
	}
	where, err := f.Store, error(nil)
	if where == "" {
		if where, err = usualStore(); err != nil {
			fmt.Fprintf(warn, "sparehand: %v, so nothing is kept: choose a place with --store\n", err)
			return nil, nil
		}
	}
	ctx, done := context.WithTimeout(context.Background(), openTime)
	defer done()
	j, err := journal.Open(ctx, where)
	switch {
	case err == nil:
		return j, nil
	case f.Store == "" && !errors.Is(err, journal.ErrDamaged) && !errors.Is(err, journal.ErrNewer):
		fmt.Fprintf(warn, "sparehand: %v; nothing is kept: choose a place with --store\n", err)
		return nil, nil
	}
	return nil, fmt.Errorf("%w (or go on without one: --store none)", err)
}

// usualStore is the file in the folder that the system keeps for a person's
// data: XDG Base Directory Specification 0.8, or the system's own place.
func usualStore() (string, error) {
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "sparehand", storeName), nil
	}
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		dir, err := os.UserConfigDir()
		return filepath.Join(dir, "sparehand", storeName), err
	}
	home, err := os.UserHomeDir()
	if err != nil || !filepath.IsAbs(home) {
		return "", errors.New("no home folder is known")
	}
	return filepath.Join(home, ".local", "share", "sparehand", storeName), nil
}

// assistantAt seats an assistant at the desk of a store, if there is one.
func assistantAt(a *talk.Assistant, j *journal.Journal) *talk.Assistant {
	if j == nil {
		return a
	}
	return a.At(j.Desk(askTime))
}

// shown names the store for people, without what must stay secret.
func (f storeFlag) shown() string {
	if strings.Contains(f.Store, "://") {
		return "the database"
	}
	if f.Store != "" {
		return f.Store
	}
	where, _ := usualStore() // it was opened already
	return where
}
