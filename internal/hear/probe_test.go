package hear

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"
)

func TestProbe(t *testing.T) {
	b := realBook(t)
	h := New(b)
	f, err := os.Open("/tmp/spare/hear-probe.txt")
	if err != nil {
		t.Skip()
	}
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		line := sc.Text()
		if line == "" {
			fmt.Println()
			continue
		}
		parts := strings.Split(line, "|")
		c := Context{}
		if len(parts) == 3 {
			c.Problem = b.ProblemByID(parts[0])
			if fct := b.FactByName(parts[1]); fct != nil {
				c.Asked = &Asked{Fact: fct, Kind: fct.Kind, Options: fct.Options}
			} else if parts[1] != "" {
				fmt.Println("NO FACT", parts[1])
			}
		}
		words := parts[len(parts)-1]
		m := h.Hear(c, words)
		alt := ""
		for _, a := range m.Alternatives {
			alt += fmt.Sprintf(" %s %.2f", a.ID, a.Share)
		}
		fmt.Printf("%-70s => %s [%s] {%s} %s\n", line, said(b, m), alt, m.Spare, m.Complaint)
	}
}
