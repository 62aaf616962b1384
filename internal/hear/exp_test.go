package hear

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"
)

func TestExp(t *testing.T) {
	var labels []string
	ids := map[string]int{}
	var ss []sample
	for _, f := range []string{"first-half", "second-half"} {
		data, _ := os.ReadFile("/work/shared/sayings/" + f + ".tsv")
		for _, l := range strings.Split(string(data), "\n") {
			id, s, ok := strings.Cut(l, "\t")
			if !ok {
				continue
			}
			if _, ok := ids[id]; !ok {
				ids[id] = len(ids)
				labels = append(labels, id)
			}
			ss = append(ss, sample{ids[id], tokenise(fold(s), stemOf)})
		}
	}
	st := time.Now()
	train(ss, len(ids))
	fmt.Println("train", time.Since(st), len(ss))
	dev, _ := os.ReadFile("/tmp/spare/hear-dev.tsv")
	full := train(ss, len(ids))
	f1, f3, nn, ll := 0, 0, 0, map[float64]float64{}
	for _, l := range strings.Split(string(dev), "\n") {
		id, s, ok := strings.Cut(l, "\t")
		if !ok {
			continue
		}
		sc := full.scores(tokenise(fold(s), stemOf))
		n := 0
		c := ids[id]
		best := 0
		for o, v := range sc {
			if v > sc[c] && o != c {
				n++
			}
			if v > sc[best] {
				best = o
			}
		}
		nn++
		for _, sharp := range []float64{0.5, 1, 1.5, 2, 3, 4, 6} {
			ll[sharp] -= math.Log(shares(sc, sharp)[c])
		}
		if n == 0 {
			f1++
		} else if os.Getenv("SHOW") != "" {
			fmt.Println(id, n, s, "->", labels[best])
		}
		if n < 3 {
			f3++
		}
	}
	fmt.Println("first DEV", f1, f3, nn, ll)
	const K = 45
	type res struct {
		sc []float64
		c  int
	}
	var rs []res
	for k := 0; k < K; k++ {
		var tr, te []sample
		for i, s := range ss {
			if i%K == k {
				te = append(te, s)
			} else {
				tr = append(tr, s)
			}
		}
		b := train(tr, len(ids))
		for _, s := range te {
			rs = append(rs, res{b.scores(s.words), s.class})
		}
	}
	first, three := 0, 0
	for _, r := range rs {
		n := 0
		for c, v := range r.sc {
			if v > r.sc[r.c] && c != r.c {
				n++
			}
		}
		if n == 0 {
			first++
		}
		if n < 3 {
			three++
		}
	}
	fmt.Printf("first %.4f three %.4f\n", float64(first)/float64(len(rs)), float64(three)/float64(len(rs)))
	for _, sharp := range []float64{0.5, 0.75, 1, 1.5, 2, 3} {
		ll := 0.0
		for _, r := range rs {
			ll -= math.Log(shares(r.sc, sharp)[r.c])
		}
		fmt.Printf("%.2f:%.3f ", sharp, ll/float64(len(rs)))
	}
	fmt.Println()
}
