package book_test

import (
	"bytes"
	"io/fs"
	"testing"
	"testing/fstest"

	"sparehand/internal/book"
	"sparehand/rules"
)

// plainFiles is the embedded book without its pack.
func plainFiles(t testing.TB) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(rules.Files, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || name == book.PackName {
			return err
		}
		data, err := fs.ReadFile(rules.Files, name)
		files[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// The pack that is committed is that of the rules as they are.
func TestPackIsUpToDate(t *testing.T) {
	want, err := book.Pack(plainFiles(t))
	if err != nil {
		t.Fatal(err)
	}
	got, err := fs.ReadFile(rules.Files, book.PackName)
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("the pack is not that of the rules (%v): run go generate ./rules", err)
	}
}

// A changed file is read as it is, whatever the pack says; and a pack that is
// cut short or garbled is passed over.
func TestStaleAndBrokenPacks(t *testing.T) {
	files := fstest.MapFS{"a.yaml": {Data: []byte("stage: talk\nshop_talk: [hello]\n")}}
	data, err := book.Pack(files)
	if err != nil {
		t.Fatal(err)
	}
	files["a.yaml"] = &fstest.MapFile{Data: []byte("stage: talk\nshop_talk: [other]\n")}
	for n := 0; n <= len(data); n++ {
		files[book.PackName] = &fstest.MapFile{Data: data[:n]}
		b, err := book.Load(files)
		if err != nil || len(b.ShopTalk) != 1 || b.ShopTalk[0] != "other" {
			t.Fatalf("with %d bytes of the pack: %v", n, err)
		}
	}
}

func FuzzPack(f *testing.F) {
	files := fstest.MapFS{"a.yaml": {Data: []byte("stage: talk\nshop_talk: [hello, there]\n")}}
	data, err := book.Pack(files)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Fuzz(func(t *testing.T, pack []byte) {
		files := fstest.MapFS{"a.yaml": files["a.yaml"], book.PackName: {Data: pack}}
		_, _ = book.Load(files) // a book or faults, never a panic
	})
}
