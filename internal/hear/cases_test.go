package hear

import (
	"fmt"
	"testing"
	"sparehand/internal/logic"
)

func TestCasesReal(t *testing.T) {
	b := realBook(t)
	h := New(b)
	n, bad, sn, sbad := 0, 0, 0, 0
	for _, cs := range b.Cases {
		p := b.ProblemByID(cs.Expect.Problem)
		for fact, words := range cs.Answers {
			f := b.FactByName(fact)
			if f == nil { continue }
			n++
			m := h.Hear(Context{Problem: p, Asked: &Asked{Fact: f, Kind: f.Kind, Options: f.Options}}, words)
			ok := m.NotSure || len(m.Facts) > 0 && m.Facts[0].Fact == f.ID || len(m.Denied) > 0
			if !ok { bad++; fmt.Printf("ANSWER %s %v: %q -> %s | spare %s | %s\n", fact, f.Kind, words, said(b, m), m.Spare, m.Complaint) }
			if len(m.Facts) > 1 { fmt.Printf("EXTRA %s: %q -> %s\n", fact, words, said(b, m)) }
			_ = logic.Choice
		}
		if cs.Expect.Problem == "" { continue }
		if len(cs.Say) > 0 {
			sn++
			m := h.Hear(Context{}, cs.Say[0])
			ok := m.Problem == cs.Expect.Problem
			for _, a := range m.Alternatives { ok = ok || a.ID == cs.Expect.Problem }
			if !ok || m.Problem != "" && m.Problem != cs.Expect.Problem { sbad++; fmt.Println("SAY", cs.Expect.Problem, cs.Say[0], "->", said(b, m), m.Alternatives) }
			if len(m.Facts) > 0 { fmt.Printf("VOL %q -> %s\n", cs.Say[0], said(b, m)) }
		}
	}
	fmt.Println("answers", n, bad, "says", sn, sbad)
}
