package hear

import (
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"
)

func TestZZTalk(t *testing.T) {
	bk := realBook(t)
	h := New(bk)
	h2 := &Hearing{book: bk, stems: map[string]string{}, spread: map[string]int{}, stageOf: map[string]string{}}
	all := h2.samples(bk)
	base := train(all, len(h2.classes))
	var docs [][]entry
	var y []bool
	mk := func(tok []token) []entry {
		d := base.count(tok, false)
		base.scale(&d)
		return append(append([]entry(nil), d.words...), d.letters...)
	}
	for _, s := range all {
		if h2.classes[s.class].kind == isEmergency {
			continue
		}
		docs = append(docs, mk(s.words))
		y = append(y, h2.classes[s.class].kind == isTalk)
	}
	m := trainLR(base, docs, y, 3, 5, .3, 0)
	type row struct {
		p, nb float64
		none  bool
		txt   string
	}
	var rows []row
	files, _ := filepath.Glob("../../testdata/hearing/tuning/*.tsv")
	for _, file := range files {
		data, _ := os.ReadFile(file)
		for line := range strings.Lines(string(data)) {
			id, words, _ := strings.Cut(strings.TrimSpace(line), "\t")
			if bk.EmergencyByID(id) != nil {
				continue
			}
			l := h.listen(words)
			_, talk := h.troubles(Context{}, h.rank(l))
			rows = append(rows, row{m.prob(mk(l.tokens)), talk, id == "none", words})
		}
	}
	for _, by := range []string{"lr", "nb", "both"} {
		v := func(r row) float64 {
			switch by {
			case "lr":
				return r.p
			case "nb":
				return r.nb
			}
			return r.p + r.nb
		}
		sort.Slice(rows, func(i, j int) bool { return v(rows[i]) < v(rows[j]) })
		// none lines among the lowest: how many troubles lost for each none accepted
		nn, tt := 0, 0
		for _, r := range rows {
			if r.none {
				nn++
			} else {
				tt++
			}
		}
		cn, ct := 0, 0
		for _, r := range rows {
			if r.none {
				cn++
				if cn == 3 || cn == 6 || cn == 10 || cn == 20 || cn == 30 {
					fmt.Printf("%s: with %d of %d none passed, %d of %d troubles passed at %.2f\n", by, cn, nn, ct, tt, v(r))
				}
			} else {
				ct++
			}
		}
		if by == "lr" {
			for _, r := range rows {
				if r.none && r.p < .5 || !r.none && r.p > .5 {
					fmt.Printf("   lr %.2f nb %.2f none %v | %s\n", r.p, r.nb, r.none, r.txt)
				}
			}
		}
	}
}
