package book

import (
	"io/fs"
	"testing"
	"testing/fstest"
)

func TestOver(t *testing.T) {
	base := fstest.MapFS{"mould/a.yaml": {Data: []byte("base a")}, "mould/b.yaml": {Data: []byte("base b")}}
	own := fstest.MapFS{"mould/b.yaml": {Data: []byte("own b")}, "mine.yaml": {Data: []byte("mine")}}
	both := Over(own, base)
	for name, want := range map[string]string{"mould/a.yaml": "base a", "mould/b.yaml": "own b", "mine.yaml": "mine"} {
		if got, err := fs.ReadFile(both, name); err != nil || string(got) != want {
			t.Errorf("%s holds %q (%v), want %q", name, got, err, want)
		}
	}
	var names []string
	fs.WalkDir(both, ".", func(name string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			names = append(names, name)
		}
		return err
	})
	if len(names) != 3 {
		t.Errorf("the walk finds %v", names)
	}
}
