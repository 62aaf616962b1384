package book

import (
	"bytes"
	"fmt"
	"io/fs"
	"testing"
	"testing/fstest"

	"gopkg.in/yaml.v3"

	"sparehand/internal/book/booktest"
)

// BenchmarkLoad reads a made-up book from bytes: strict, typed, with places.
// Compare with BenchmarkStrictDecode in the same run.
func BenchmarkLoad(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		files := booktest.Files(n, 1)
		b.Run(fmt.Sprintf("rules=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Load(files); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(n), "us/rule")
		})
	}
}

// The types below mirror what booktest writes, for yaml.v3's own decoder.
type (
	plainFile struct {
		Stage    string
		Facts    []plainFact
		Problems []plainProblem
	}
	plainFact struct {
		ID, Kind, Ask, Why, Effort, Unit string
		HowToCheck                       string `yaml:"how_to_check"`
		From, To                         float64
		Options                          []struct {
			Value, Label string
			Says         []string
		}
	}
	plainProblem struct {
		ID, Title, Meaning string
		Sayings            []string
		Fallback           struct {
			Try  []string
			Seek string
		}
		Causes []struct {
			ID, Title, Why, Often string
			Sources               []string
			Signs                 []struct{ When, Points string }
			Remedies              []struct {
				ID, Say, Saves, Works string
				Now                   []string
				NextTime              []string `yaml:"next_time"`
				Minutes               float64
			}
		}
	}
)

// BenchmarkStrictDecode is the anchor: yaml.v3 with KnownFields into plain
// types, without places, checks of meaning or any condition read.
func BenchmarkStrictDecode(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		files := booktest.Files(n, 1)
		b.Run(fmt.Sprintf("rules=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				strictDecode(b, files)
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(n), "us/rule")
		})
	}
}

func strictDecode(b *testing.B, files fstest.MapFS) {
	names, err := fs.Glob(files, "*.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for _, name := range names {
		dec := yaml.NewDecoder(bytes.NewReader(files[name].Data))
		dec.KnownFields(true)
		var f plainFile
		if err := dec.Decode(&f); err != nil {
			b.Fatal(name, err)
		}
	}
}
