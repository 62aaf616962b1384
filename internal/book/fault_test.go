package book

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"sparehand/rules"
)

// TestEmbeddedBookLoads: the book that sparehand comes with has no fault.
func TestEmbeddedBookLoads(t *testing.T) {
	b, err := Load(rules.Files)
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Problems) == 0 || len(b.Emergencies) == 0 {
		t.Errorf("%d problems and %d emergencies", len(b.Problems), len(b.Emergencies))
	}
}

// TestBrokenBooks loads each testdata/broken/NAME.yaml beside the sound
// testdata/sound.yaml. The comment lines at its top that begin with "# want "
// are the faults it should give, all of them and no others, each as
// line:column: a part of the message.
func TestBrokenBooks(t *testing.T) {
	files, err := filepath.Glob("testdata/broken/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no broken books: %v", err)
	}
	for _, name := range files {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".yaml"), func(t *testing.T) {
			data := read(t, name)
			b, err := Load(fstest.MapFS{
				"sound.yaml":  {Data: read(t, "testdata/sound.yaml")},
				"broken.yaml": {Data: data},
			})
			if b != nil {
				t.Error("a part of a broken book was returned")
			}
			var got []string
			if faults, ok := err.(Faults); ok {
				for _, f := range faults {
					got = append(got, strings.TrimPrefix(f.Error(), "broken.yaml:"))
				}
			}
			compareFaults(t, got, wanted(string(data)))
		})
	}
}

func read(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func wanted(text string) (want []string) {
	for line := range strings.Lines(text) {
		if rest, ok := strings.CutPrefix(line, "# want "); ok {
			want = append(want, strings.TrimSpace(rest))
		}
	}
	return want
}

// compareFaults wants each fault or warning to hold its place and a part of its
// message, and no others.
func compareFaults(t *testing.T, got, want []string) {
	t.Helper()
	for i := range max(len(got), len(want)) {
		switch {
		case i >= len(got):
			t.Errorf("missing: %s", want[i])
		case i >= len(want):
			t.Errorf("not expected: %s", got[i])
		default:
			place, message, _ := strings.Cut(want[i], ": ")
			if !strings.HasPrefix(got[i], place+": ") || !strings.Contains(got[i], message) {
				t.Errorf("got  %s\nwant %s", got[i], want[i])
			}
		}
	}
}

func TestSoundBookLoads(t *testing.T) {
	if _, err := Load(fstest.MapFS{"sound.yaml": {Data: read(t, "testdata/sound.yaml")}}); err != nil {
		t.Fatal(err)
	}
}

func TestEmptyFolder(t *testing.T) {
	_, err := Load(fstest.MapFS{})
	if err == nil || !strings.Contains(err.Error(), "no rules here") {
		t.Errorf("got %v", err)
	}
}

// FuzzLoad: whatever stands in a file, loading gives a book or faults with
// places inside the file, and never both.
func FuzzLoad(f *testing.F) {
	files, _ := filepath.Glob("testdata/broken/*.yaml")
	for _, name := range append(files, "testdata/sound.yaml") {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := Load(fstest.MapFS{"fuzz.yaml": {Data: data}})
		if (b == nil) == (err == nil) {
			t.Fatalf("book %v, error %v", b, err)
		}
		faults, _ := err.(Faults)
		lines := 1 + strings.Count(string(data), "\n")
		for _, fault := range faults {
			if fault.Line < 0 || fault.Line > lines || fault.Message == "" {
				t.Errorf("%d lines, fault %v", lines, fault)
			}
		}
	})
}
