package hear

import (
	"fmt"
	"os"
	"sort"
	"strings"
	"testing"
	"time"

	"sparehand/internal/book"
	"sparehand/rules"
)

func TestReal(t *testing.T) {
	b, err := book.Load(rules.Files)
	fmt.Println(err)
	if err != nil {
		t.Skip()
	}
	st := time.Now()
	h := New(b)
	fmt.Println(time.Since(st), len(h.classes), len(h.spell.words), len(h.lexicon.phrases), len(h.heard.phrases))
	st = time.Now()
	h = New(b)
	fmt.Println(time.Since(st))
	sizes := map[string]int{}
	tmp := &Hearing{book: b, stems: map[string]string{}, spread: map[string]int{}, spell: newSpeller()}
	for _, s := range tmp.samples(b) {
		sizes[tmp.classes[s.class].id]++
	}
	fmt.Println(sizes)
	var al []string
	for k := range h.alarmed {
		al = append(al, k)
	}
	sort.Strings(al)
	fmt.Println(al)
	files := []string{"tuning"}
	if os.Getenv("SCORED") != "" {
		files = append(files, "scored")
	}
	for _, file := range files {
		data, _ := os.ReadFile("../../testdata/hearing/" + file + ".tsv")
		show := file == "tuning"
		var pn, p1, p3, pclear, pwrong, pe, en, ec, em, eright, nn, nbad, nprob int
		for _, line := range strings.Split(string(data), "\n") {
			id, text, ok := strings.Cut(line, "\t")
			if !ok {
				continue
			}
			m := h.Hear(Context{}, text)
			r := h.Rank(text)
			top := fmt.Sprintf("%s %.2f %s %.2f", r[0].ID, r[0].Share, r[1].ID, r[1].Share)
			switch {
			case id == "none":
				nn++
				if m.Emergency != "" || m.MaybeEmergency != "" {
					nbad++
					if show {
						fmt.Println("FALSE ALARM", text, m.Emergency, m.MaybeEmergency, top)
					}
				}
				if m.Problem != "" {
					nprob++
					if show {
						fmt.Println("NONE->", m.Problem, text)
					}
				}
			case b.EmergencyByID(id) != nil:
				en++
				if m.Emergency != "" {
					ec++
				} else if m.MaybeEmergency != "" {
					em++
					if show {
						fmt.Println("maybe", id, text, top)
					}
				} else if show {
					fmt.Println("MISSED", id, text, top)
				}
				if m.Emergency == id || m.MaybeEmergency == id {
					eright++
				} else if show {
					fmt.Println("OTHER", id, text, m.Emergency, m.MaybeEmergency)
				}
			default:
				pn++
				if m.Emergency != "" || m.MaybeEmergency != "" {
					pe++
					if show {
						fmt.Println("ALARM on problem", text, m.Emergency, m.MaybeEmergency, top)
					}
				}
				var rr []Candidate
				if m.Problem != "" {
					rr = append(rr, Candidate{m.Problem, 1})
				}
				if m.Elsewhere != "" {
					rr = append(rr, Candidate{m.Elsewhere, 1})
				}
				for _, a := range m.Alternatives {
					if a.ID != m.Problem {
						rr = append(rr, a)
					}
				}
				r = append(rr, Candidate{}, Candidate{}, Candidate{})
				if r[0].ID == id {
					p1++
				} else if show {
					fmt.Println("WRONG", id, "|", text, "|", top)
				}
				if r[0].ID == id || r[1].ID == id || r[2].ID == id {
					p3++
				} else if show {
					fmt.Println("NOT IN 3")
				}
				if m.Problem == id {
					pclear++
				} else if m.Problem != "" {
					pwrong++
					if show {
						fmt.Println("CLEARLY WRONG", id, text, m.Problem)
					}
				}
			}
		}
		fmt.Printf("%s: problems %d first %.3f three %.3f clear %.3f clearly wrong %d alarms %d | emergencies %d certain %d maybe %d right %d | none %d alarms %d problems %d\n", file, pn, float64(p1)/float64(pn), float64(p3)/float64(pn), float64(pclear)/float64(pn), pwrong, pe, en, ec, em, eright, nn, nbad, nprob)
	}
}
