package main

import (
	"context"
	"fmt"
	"hash/fnv"
	"io/fs"
	"log/slog"
	"time"

	"sparehand/internal/serve"
	"sparehand/internal/talk"
)

// lookEvery is how often a folder of rules is looked at for changes.
const lookEvery = 500 * time.Millisecond

// watch reloads the book when the maker's folder has changed and been left
// alone for one look. A book with faults is not taken: the old one stays.
func (f rulesFlag) watch(ctx context.Context, server *serve.Server, log *slog.Logger) {
	used := stamp(f.files())
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
		server.Use(serve.Talks(talk.New(b)))
		log.Info("the rules have changed and are in use", "problems", len(b.Problems))
	}
}

// stamp is a number that changes when any file's name, size or time does.
func stamp(fsys fs.FS) uint64 {
	sum := fnv.New64a()
	_ = fs.WalkDir(fsys, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			fmt.Fprintln(sum, name, err)
			return nil
		}
		if info, err := e.Info(); err == nil {
			fmt.Fprintln(sum, name, info.Size(), info.ModTime().UnixNano())
		}
		return nil
	})
	return sum.Sum64()
}
