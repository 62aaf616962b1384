package hear

import (
	"fmt"
	"os"
	"testing"
)

func TestProbeNeverXQ(t *testing.T) {
	b := realBook(t)
	h := New(b)
	var c Context
	for _, a := range b.Amounts {
		if a.ID == "mould-plaster" {
			c.Sums = append(c.Sums, a)
		}
	}
	chk := func(id, s string) {
		if h.never(Context{}, h.listen(s)) != "" && id != "cast-on-skin" {
			fmt.Println("REF", id, "|", s)
		}
	}
	for _, p := range b.Problems {
		for _, s := range p.Sayings {
			chk(p.ID, s)
		}
	}
	for _, p := range b.Elsewhere {
		for _, s := range p.Sayings {
			chk(p.ID, s)
			if p.ID == "cast-on-skin" && h.never(Context{}, h.listen(s)) == "" {
				fmt.Println("MISS", s)
			}
		}
	}
	for _, s := range b.ShopTalk {
		chk("talk", s)
	}
	for _, p := range b.Emergencies {
		for _, s := range p.Sayings {
			if h.never(Context{}, h.listen(s)) != "" && h.Hear(Context{}, s).Emergency == "" {
				fmt.Println("EMREF", p.ID, "|", s)
			}
		}
	}
	n, k := 0, 0
	for i := range b.Facts {
		f := &b.Facts[i]
		for _, o := range f.Options {
			for _, s := range append([]string{o.Label}, o.Says...) {
				n++
				if h.never(c, h.listen(s)) != "" {
					k++
					fmt.Println("UNDER", f.Name, "|", s)
				}
				if h.never(Context{}, h.listen(s)) != "" {
					fmt.Println("OPT", f.Name, "|", s)
				}
			}
		}
	}
	fmt.Println(n, k)
}
func TestProbeNeverXR(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, f := range []string{"refuse2", "sound2"} {
		d, _ := os.ReadFile("/tmp/" + f + ".txt")
		for _, s := range linesOf(string(d)) {
			m := h.Hear(Context{}, s)
			r := h.never(Context{}, h.listen(s)) != ""
			if r != (f == "refuse2") {
				fmt.Println("BAD", f, "|", s, "|", m.Elsewhere, m.Amount, m.Emergency)
			}
		}
	}
}
