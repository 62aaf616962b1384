package hear

import (
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// small loads the small book of the tests, once.
var small = sync.OnceValues(func() (*book.Book, error) { return book.Load(os.DirFS("testdata/small")) })

func smallHearing(tb testing.TB) (*Hearing, *book.Book) {
	tb.Helper()
	b, err := small()
	if err != nil {
		tb.Fatalf("the small book does not load: %v", err)
	}
	return New(b), b
}

// asks gives the context of a question about a fact, a problem being open.
func asks(tb testing.TB, b *book.Book, fact, problem string) Context {
	tb.Helper()
	c := Context{Problem: b.ProblemByID(problem)}
	if fact == "" {
		return c
	}
	f := b.FactByName(fact)
	if f == nil {
		tb.Fatalf("the small book has no fact %q", fact)
	}
	c.Asked = &Asked{Fact: f, Kind: f.Kind, Options: f.Options}
	return c
}

// said lists what a meaning tells in one form that tests can compare:
// "leak_place=under" and so on, sorted.
func said(b *book.Book, m Meaning) string {
	var list []string
	for _, h := range m.Facts {
		list = append(list, tell(b, h))
	}
	for _, d := range m.Denied {
		list = append(list, "not "+tell(b, Heard{d.Fact, d.Value, ""}))
	}
	for _, r := range m.Readings {
		list = append(list, "?"+r.Label)
	}
	flags := map[string]bool{"not-sure": m.NotSure, "skip": m.Skip, "complaint": m.Complaint != ""}
	for flag, on := range flags {
		if on {
			list = append(list, flag)
		}
	}
	for name, id := range map[string]string{"problem": m.Problem, "command": m.Command, "emergency": m.Emergency,
		"maybe": m.MaybeEmergency, "elsewhere": m.Elsewhere, "amount": m.Amount} {
		if id != "" {
			list = append(list, name+":"+id)
		}
	}
	if len(m.Amounts) > 1 {
		list = append(list, "sums:"+strings.Join(m.Amounts, "+"))
	}
	if c := m.Convert; c != nil {
		text := "convert " + show(c.Value)
		for _, u := range c.From {
			text += " " + u.Name
		}
		list = append(list, strings.TrimSpace(text+" to "+c.To.Name+" "+c.Material))
	}
	if m.Pick > 0 {
		list = append(list, "pick "+show(float64(m.Pick)))
	}
	slices.Sort(list)
	return strings.Join(list, " ")
}

func tell(b *book.Book, h Heard) string {
	f := b.Facts[h.Fact]
	switch f.Kind {
	case logic.Choice:
		return f.Name + "=" + f.Options[h.Value.Index()].Value
	case logic.YesNo:
		if h.Value.Bool() {
			return f.Name + "=yes"
		}
		return f.Name + "=no"
	}
	return f.Name + "=" + show(h.Value.Number())
}

// check runs a table of words and what they should tell.
func check(t *testing.T, c Context, table map[string]string) {
	t.Helper()
	h, b := smallHearing(t)
	for words, want := range table {
		if got := said(b, h.Hear(c, words)); got != want {
			t.Errorf("%q told %q, want %q", words, got, want)
		}
	}
}
