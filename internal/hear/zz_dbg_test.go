package hear

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestZZGrid(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, w := range []string{"the clay is cracking on me", "something is wrong with the stage blood", "this gelatin just never gels any more", "the gelatin spat all over the microwave"} {
		l := h.listen(w)
		r := h.rank(l)
		tr, talk := h.troubles(Context{}, l, r)
		fmt.Printf("%s: top %s %.2f nbtalk %.3f idle %.3f\n", w, tr[0].ID, tr[0].Share, 2*talk-l.idle, l.idle)
	}
	type row struct {
		share, second, nb, idle float64
		none, right             bool
		w                       string
	}
	var rows []row
	files, _ := filepath.Glob("../../testdata/hearing/tuning/*.tsv")
	for _, file := range files {
		data, _ := os.ReadFile(file)
		for line := range strings.Lines(string(data)) {
			id, words, _ := strings.Cut(strings.TrimSpace(line), "\t")
			if b.EmergencyByID(id) != nil {
				continue
			}
			l := h.listen(words)
			r := h.rank(l)
			tr, talk := h.troubles(Context{}, l, r)
			rows = append(rows, row{tr[0].Share, tr[1].Share, 2*talk - l.idle, l.idle, id == "none", tr[0].ID == id, words})
		}
	}
	for _, T := range []float64{.05, .08, .1, .12, .16, .2, .25} {
		for _, A := range []float64{.3, .4, .5, .6, .7} {
			clear, wrong, taken, n, nn := 0, 0, 0, 0, 0
			for _, r := range rows {
				talk := math.Pow(r.nb+1e-9, A) * math.Pow(r.idle, 1-A)
				ok := r.share >= .6 && r.share >= 2*r.second && talk <= T
				if r.none {
					nn++
					if ok {
						taken++
					}
				} else {
					n++
					if ok && r.right {
						clear++
					} else if ok {
						wrong++
					}
				}
			}
			fmt.Printf("T %.2f A %.1f: clear %d wrong %d of %d, none taken %d of %d\n", T, A, clear, wrong, n, taken, nn)
		}
	}
}
