package main

import (
	"context"
	"fmt"
	"hash/fnv"
	"io/fs"
	"log/slog"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/journal"
	"sparehand/internal/serve"
)

// lookEvery is how often a folder of rules is looked at for changes; a variable
// for tests.
var lookEvery = 500 * time.Millisecond

// stampedBook is a book with the stamp of its files from before they were read,
// so that what changes while they are read is noticed afterwards.
type stampedBook struct {
	book  *book.Book
	stamp uint64
}

func (f rulesFlag) loadStamped() (stampedBook, error) {
	before := stamp(f.files())
	b, err := f.load()
	return stampedBook{b, before}, err
}

// watch reloads the book when the maker's folder is not as it was when it was
// used, and has been left alone for one look. A book with faults is not taken:
// the old one stays.
func (f rulesFlag) watch(ctx context.Context, used uint64, server *serve.Server, store *journal.Journal, log *slog.Logger) {
	last := used
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		now := stamp(f.files())
		if settled := now == last; now == used || !settled {
			last = now
			continue
		}
		used = now
		b, err := f.load()
		if err != nil {
			log.Error("the rules have changed, but the old book stays in use", "why", err)
			continue
		}
		server.Use(assistantOf(b, store))
		log.Info("the rules have changed and are in use", "problems", len(b.Problems))
	}
}

// stamp is a number that changes when any file's name, size, time or mode does;
// of a link, those of the file it leads to.
func stamp(fsys fs.FS) uint64 {
	sum := fnv.New64a()
	_ = fs.WalkDir(fsys, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			fmt.Fprintln(sum, name, err)
			return nil
		}
		info, err := e.Info()
		if e.Type()&fs.ModeSymlink != 0 {
			info, err = fs.Stat(fsys, name)
		}
		if err != nil {
			fmt.Fprintln(sum, name, err)
			return nil
		}
		fmt.Fprintln(sum, name, info.Size(), info.ModTime().UnixNano(), info.Mode())
		return nil
	})
	return sum.Sum64()
}
