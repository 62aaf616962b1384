package hear

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparehand/internal/book"
)

type exLine struct {
	id  string
	tok []token
}

func exSet(h *Hearing, b *book.Book, folder string) (out []exLine) {
	files, _ := filepath.Glob("../../testdata/hearing/" + folder + "/*.tsv")
	for _, file := range files {
		data, _ := os.ReadFile(file)
		for line := range strings.Lines(string(data)) {
			id, words, _ := strings.Cut(strings.TrimSpace(line), "\t")
			if b.ProblemByID(id) == nil {
				continue
			}
			out = append(out, exLine{id, h.listen(words).tokens})
		}
	}
	return
}

func TestZZVariants(t *testing.T) {
	b := realBook(t)
	h := New(b)
	set := exSet(h, b, "tuning")
	eval := func(name string, score func(tok []token) []float64, classes []class) {
		first, three := 0, 0
		for _, l := range set {
			s := score(l.tok)
			at, mine := 0, -1e99
			for i, c := range classes {
				if c.id == l.id {
					mine = s[i]
				}
			}
			for i, c := range classes {
				if c.kind == isProblem && c.id != l.id && s[i] > mine {
					at++
				}
			}
			if at == 0 {
				first++
			}
			if at < 3 {
				three++
			}
		}
		fmt.Printf("%-30s %.3f %.3f\n", name, float64(first)/float64(len(set)), float64(three)/float64(len(set)))
	}
	h2 := &Hearing{book: b, stems: map[string]string{}, spread: map[string]int{}, stageOf: map[string]string{}}
	all := h2.samples(b)
	base := train(all, len(h2.classes))
	eval("base", base.scores, h2.classes)
	more := append([]sample(nil), all...)
	for _, p := range b.Problems {
		ci := -1
		for i, c := range h2.classes {
			if c.id == p.ID {
				ci = i
			}
		}
		for _, c := range p.Causes {
			more = append(more, sample{ci, h2.read(c.Title)})
		}
	}
	m1 := train(more, len(h2.classes))
	eval("cause titles", m1.scores, h2.classes)
	more2 := append([]sample(nil), more...)
	for _, p := range b.Problems {
		ci := -1
		for i, c := range h2.classes {
			if c.id == p.ID {
				ci = i
			}
		}
		for _, c := range p.Causes {
			for _, s := range c.Signs {
				if s.Because != "" {
					more2 = append(more2, sample{ci, h2.read(s.Because)})
				}
			}
		}
	}
	m2 := train(more2, len(h2.classes))
	eval("titles, because", m2.scores, h2.classes)
	more3 := append([]sample(nil), more...)
	for _, p := range b.Problems {
		ci := -1
		for i, c := range h2.classes {
			if c.id == p.ID {
				ci = i
			}
		}
		for id := range factsOf(b, p) {
			f := &b.Facts[id]
			for _, o := range f.Options {
				for _, s := range o.Says {
					more3 = append(more3, sample{ci, h2.read(s)})
				}
			}
		}
	}
	m3 := train(more3, len(h2.classes))
	eval("titles, says", m3.scores, h2.classes)
	// combos: base + w * knn
	type vec = counts
	vecs := make([]counts, len(all))
	for i, s := range all {
		vecs[i] = base.count(s.words, false)
		base.scale(&vecs[i])
	}
	inv := map[int32][]struct {
		doc int
		v   float32
	}{}
	for i, v := range vecs {
		for _, block := range [][]entry{v.words, v.letters} {
			for _, e := range block {
				inv[e.feature] = append(inv[e.feature], struct {
					doc int
					v   float32
				}{i, e.value})
			}
		}
	}
	knn := func(tok []token, k int) []float64 {
		d := base.count(tok, false)
		base.scale(&d)
		sim := make([]float64, len(all))
		for _, block := range [][]entry{d.words, d.letters} {
			for _, e := range block {
				for _, x := range inv[e.feature] {
					sim[x.doc] += float64(e.value) * float64(x.v)
				}
			}
		}
		tops := make([][]float64, len(h2.classes))
		for i, s := range sim {
			c := all[i].class
			tops[c] = append(tops[c], s)
		}
		out := make([]float64, len(h2.classes))
		for c, list := range tops {
			for r := 0; r < k; r++ {
				best := -1
				for i, s := range list {
					if best < 0 || s > list[best] {
						best = i
					}
				}
				if best >= 0 {
					out[c] += list[best] / float64(k)
					list[best] = -1
				}
			}
		}
		return out
	}
	for _, k := range []int{1, 3, 5, 8} {
		eval(fmt.Sprint("knn ", k), func(tok []token) []float64 { return knn(tok, k) }, h2.classes)
		for _, w := range []float64{5, 10, 20, 40} {
			eval(fmt.Sprint("base+knn ", k, " w ", w), func(tok []token) []float64 {
				s := base.scores(tok)
				for i, x := range knn(tok, k) {
					s[i] += w * x
				}
				return s
			}, h2.classes)
		}
	}
	for _, w := range []float64{0.3, 0.6, 1} {
		eval(fmt.Sprint("base+says ", w), func(tok []token) []float64 {
			s := base.scores(tok)
			for i, x := range m3.scores(tok) {
				s[i] += w * x
			}
			return s
		}, h2.classes)
		eval(fmt.Sprint("base+because ", w), func(tok []token) []float64 {
			s := base.scores(tok)
			for i, x := range m2.scores(tok) {
				s[i] += w * x
			}
			return s
		}, h2.classes)
	}
}
