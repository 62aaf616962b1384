package hear

import (
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"
)

func TestZZAlarm(t *testing.T) {
	b := realBook(t)
	h := New(b)
	files, _ := filepath.Glob("../../testdata/hearing/tuning/*.tsv")
	type row struct {
		p float64
		s string
	}
	var rows []row
	for _, file := range files {
		data, _ := os.ReadFile(file)
		for line := range strings.Lines(string(data)) {
			id, words, _ := strings.Cut(strings.TrimSpace(line), "\t")
			l := h.listen(words)
			h.rank(l)
			c, m := h.alarm(l)
			isE := b.EmergencyByID(id) != nil
			if isE || c+m != "" || l.hurtful > .3 {
				rows = append(rows, row{l.hurtful, fmt.Sprintf("%.3f %-5v certain %-18s maybe %-18s harm %-5s | %s %s", l.hurtful, isE, c, m, h.harmed(l, id), id, words)})
			}
		}
	}
	sort.Slice(rows, func(i, j int) bool { return rows[i].p < rows[j].p })
	for i, r := range rows {
		if i < 60 || !strings.Contains(r.s, " true ") {
			fmt.Println(r.s)
		}
	}
}
