package hear

import (
	"strings"
	"testing"
)

// Slips are mended; ordinary English is left alone.
func TestMendedWords(t *testing.T) {
	h, _ := smallHearing(t)
	for words, want := range map[string]string{
		"sore bit all":          "sorbitol",
		"glisten in":            "glycerin",
		"jelly tin":             "gelatin",
		"gelitin":               "gelatin",
		"the damn is leaking":   "the dam is leaking",
		"damn that is good":     "damn that is good",
		"my mode":               "my mould",
		"the colour of my mold": "the colour of my mould",
		"he got fired":          "he got fired",
		"dust in the room":      "dust in the room",
		"breeding horses":       "breeding horses",
	} {
		if got := strings.Join(plainWords(h.listen(words).tokens), " "); got != want {
			t.Errorf("%q was mended to %q, want %q", words, got, want)
		}
	}
}

// No label of the book's own options is mended into something else.
func TestLabelsAreLeftAlone(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, f := range b.Facts {
		for _, o := range f.Options {
			for _, tok := range h.listen(o.Label).tokens {
				if tok.slip && tok.word != "mould" && tok.word != "gel" {
					t.Errorf("%s: %q was mended: %q", f.Name, o.Label, tok.word)
				}
			}
		}
	}
}

// Every label, said to its own question, is its own answer.
func TestLabelsAnswerTheirQuestions(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for i := range b.Facts {
		f := &b.Facts[i]
		c := Context{Asked: &Asked{Fact: f, Kind: f.Kind, Options: f.Options}}
		for _, o := range f.Options {
			want := f.Name + "=" + o.Value
			if got := said(b, h.Hear(c, o.Label)); !strings.Contains(" "+got+" ", " "+want+" ") {
				t.Errorf("%q told %q, want %s", o.Label, got, want)
			}
		}
	}
}
