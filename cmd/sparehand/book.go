package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"sparehand/internal/book"
	"sparehand/rules"
)

// rulesFlag chooses the book.
type rulesFlag struct {
	Rules string `help:"A folder of your own rules, laid over the embedded book: a file of the same name takes its place, others are added." placeholder:"DIR"`
	Alone bool   `help:"Use only the folder given with --rules, and nothing of the embedded book."`
}

// load reads the book without its cases. The faults of a bad book are the
// error, a line each.
func (f rulesFlag) load() (*book.Book, error) { return f.loadBy(book.LoadWithoutCases) }

func (f rulesFlag) loadBy(load func(fs.FS) (*book.Book, error)) (*book.Book, error) {
	if f.Alone && f.Rules == "" {
		return nil, errors.New("--alone needs a folder: name it with --rules")
	}
	if f.Rules != "" {
		if info, err := os.Stat(f.Rules); err != nil || !info.IsDir() {
			return nil, fmt.Errorf("no folder of rules at %s", f.Rules)
		}
	}
	b, err := load(f.files())
	if err != nil {
		return nil, fmt.Errorf("the rules have faults, so nothing of them is used:\n%w", err)
	}
	if len(b.Emergencies) == 0 {
		return nil, errors.New("these rules have no emergencies, so they are not used: copy the folder safety of the book beside them")
	}
	return b, nil
}

func (f rulesFlag) files() fs.FS {
	if f.Rules == "" {
		return rules.Files
	}
	if f.Alone {
		return os.DirFS(f.Rules)
	}
	return book.Over(os.DirFS(f.Rules), rules.Files)
}
