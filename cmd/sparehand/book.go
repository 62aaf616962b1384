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
	Rules string `help:"A folder of rules to use in place of the embedded book." placeholder:"DIR"`
}

// load reads the book. The faults of a bad book are the error, a line each.
func (f rulesFlag) load() (*book.Book, error) {
	if f.Rules != "" {
		if info, err := os.Stat(f.Rules); err != nil || !info.IsDir() {
			return nil, fmt.Errorf("no folder of rules at %s", f.Rules)
		}
	}
	b, err := book.Load(f.files())
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
	return os.DirFS(f.Rules)
}
