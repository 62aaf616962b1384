package main

import (
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
	b, err := book.Load(f.files())
	if err != nil {
		return nil, fmt.Errorf("the rules have faults, so nothing of them is used:\n%w", err)
	}
	return b, nil
}

func (f rulesFlag) files() fs.FS {
	if f.Rules == "" {
		return rules.Files
	}
	return os.DirFS(f.Rules)
}
