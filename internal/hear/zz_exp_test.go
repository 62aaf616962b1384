package hear

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestZZRank(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, folder := range []string{"tuning", "scored"} {
		files, _ := filepath.Glob("../../testdata/hearing/" + folder + "/*.tsv")
		for _, file := range files {
			data, _ := os.ReadFile(file)
			n, first, three := 0, 0, 0
			for line := range strings.Lines(string(data)) {
				id, words, _ := strings.Cut(strings.TrimSpace(line), "\t")
				if b.ProblemByID(id) == nil {
					continue
				}
				n++
				l := h.listen(words)
				tr, talk := h.troubles(Context{}, l, h.rank(l))
				at := 9
				for i, c := range tr[:5] {
					if c.ID == id {
						at = i
					}
				}
				if at == 0 {
					first++
				}
				if at < 3 {
					three++
				}
				if folder == "tuning" && at > 0 {
					fmt.Printf("%d %-26s %-26s %.2f %.2f talk %.2f | %s\n", at, id, tr[0].ID, tr[0].Share, tr[1].Share, talk, words)
				}
			}
			fmt.Printf("%s %s: %d lines %.3f first %.3f three\n", folder, filepath.Base(file), n, float64(first)/float64(n), float64(three)/float64(n))
		}
	}
}
