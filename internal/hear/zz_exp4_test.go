package hear

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"
	"time"
)

type lr struct {
	w    []float32
	bias float64
}

func trainLR(b *bayes, docs [][]entry, y []bool, posW float64, epochs int, rate, l2 float64) *lr {
	m := &lr{w: make([]float32, len(b.idf))}
	g2 := make([]float32, len(b.idf))
	n := len(docs)
	step := 7919
	for step%n == 0 || gcd(step, n) != 1 {
		step++
	}
	for e := 0; e < epochs; e++ {
		at := e * 31 % n
		for k := 0; k < n; k++ {
			at = (at + step) % n
			z := m.bias
			for _, f := range docs[at] {
				z += float64(m.w[f.feature]) * float64(f.value)
			}
			p := 1 / (1 + math.Exp(-z))
			t, wt := 0.0, 1.0
			if y[at] {
				t, wt = 1, posW
			}
			d := (t - p) * wt
			if math.Abs(d) < 1e-3 {
				continue
			}
			for _, f := range docs[at] {
				g := d*float64(f.value) - l2*float64(m.w[f.feature])
				g2[f.feature] += float32(g * g)
				m.w[f.feature] += float32(rate * g / math.Sqrt(float64(g2[f.feature])+1e-2))
			}
			m.bias += rate * d * 0.1
		}
	}
	return m
}
func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
func (m *lr) prob(doc []entry) float64 {
	z := m.bias
	for _, f := range doc {
		z += float64(m.w[f.feature]) * float64(f.value)
	}
	return 1 / (1 + math.Exp(-z))
}

func TestZZLR(t *testing.T) {
	bk := realBook(t)
	h := New(bk)
	h2 := &Hearing{book: bk, stems: map[string]string{}, spread: map[string]int{}, stageOf: map[string]string{}}
	all := h2.samples(bk)
	base := train(all, len(h2.classes))
	docs := make([][]entry, len(all))
	y := make([]bool, len(all))
	mk := func(tok []token) []entry {
		d := base.count(tok, false)
		base.scale(&d)
		return append(append([]entry(nil), d.words...), d.letters...)
	}
	for i, s := range all {
		docs[i] = mk(s.words)
		y[i] = h2.classes[s.class].kind == isEmergency
	}
	for _, cfg := range [][4]float64{{5, 5, .3, 0}, {5, 10, .3, 0}, {3, 5, .5, 1e-3}, {10, 5, .3, 1e-3}, {5, 3, .3, 0}} {
		t0 := time.Now()
		m := trainLR(base, docs, y, cfg[0], int(cfg[1]), cfg[2], cfg[3])
		dt := time.Since(t0)
		type row struct {
			p       float64
			e       bool
			id, txt string
			m       Meaning
		}
		var rows []row
		files, _ := filepath.Glob("../../testdata/hearing/tuning/*.tsv")
		for _, file := range files {
			data, _ := os.ReadFile(file)
			for line := range strings.Lines(string(data)) {
				id, words, _ := strings.Cut(strings.TrimSpace(line), "\t")
				l := h.listen(words)
				rows = append(rows, row{m.prob(mk(l.tokens)), bk.EmergencyByID(id) != nil, id, words, h.Hear(Context{}, words)})
			}
		}
		sort.Slice(rows, func(i, j int) bool { return rows[i].p > rows[j].p })
		var pos, neg []float64
		for _, r := range rows {
			if r.e {
				pos = append(pos, r.p)
			} else {
				neg = append(neg, r.p)
			}
		}
		sort.Float64s(pos)
		fmt.Println(cfg, dt, "lowest pos", pos[:16], "highest neg", neg[:16])
		if cfg[1] == 10 {
			for _, r := range rows {
				if r.e && r.m.Emergency+r.m.MaybeEmergency == "" || !r.e && r.p > 0.3 {
					fmt.Printf("%.2f %v %s | %s\n", r.p, r.e, r.id, r.txt)
				}
			}
		}
	}
}
