package hear

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestZZAlarm(t *testing.T) {
	b := realBook(t)
	h := New(b)
	files, _ := filepath.Glob("../../testdata/hearing/tuning/*.tsv")
	for _, file := range files {
		data, _ := os.ReadFile(file)
		for line := range strings.Lines(string(data)) {
			id, words, _ := strings.Cut(strings.TrimSpace(line), "\t")
			m := h.Hear(Context{}, words)
			l := h.listen(words)
			r := h.rank(l)
			_, share := h.likelyEmergency(r)
			alarm := m.Emergency + m.MaybeEmergency
			isE := b.EmergencyByID(id) != nil
			if isE && alarm == "" || !isE && (alarm != "" || share > 0.3) {
				fmt.Printf("%-8s %-18s alarm %-18s share %.2f hurts %d body %v | %s\n", map[bool]string{true: "MISSED", false: "false"}[isE], id, alarm, share, h.hurts(l), l.ofSomebody(), words)
			}
		}
	}
}
