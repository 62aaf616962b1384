package book

import (
	"cmp"
	"errors"
	"io/fs"
	"slices"
)

// Over lays a maker's own folder over a book: a file of the same name takes the
// place of the book's, all others are added. What can't be read in the folder
// is an error and not passed over.
func Over(own, base fs.FS) fs.FS { return layers{own, base} }

type layers struct{ own, base fs.FS }

func (l layers) Open(name string) (fs.File, error) {
	f, err := l.own.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return l.base.Open(name)
	}
	return f, err
}

// ReadDir lists the entries of both, each name once, in order.
func (l layers) ReadDir(name string) ([]fs.DirEntry, error) {
	own, err := fs.ReadDir(l.own, name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	base, baseErr := fs.ReadDir(l.base, name)
	if err != nil && baseErr != nil {
		return nil, err
	}
	for _, e := range base {
		if !slices.ContainsFunc(own, func(o fs.DirEntry) bool { return o.Name() == e.Name() }) {
			own = append(own, e)
		}
	}
	slices.SortFunc(own, func(a, b fs.DirEntry) int { return cmp.Compare(a.Name(), b.Name()) })
	return own, nil
}
