package voice

import (
	"bytes"
	_ "embed"
	"fmt"
	"os"
	"strings"
)

// ourWords are pronunciations of words of the trade that the model's
// dictionary lacks or says otherwise.
//
//go:embed words.dict
var ourWords []byte

// Dictionary tells how words are spoken, in the phones of the acoustic model
// (ARPAbet without stress).
type Dictionary struct {
	text []byte
	at   map[string]int // of a word's first line in text
	ours map[string][]string
}

// ReadDictionary reads the dictionary of an acoustic model: lines of a word
// and its phones; "word(2)" is another way to say it.
func ReadDictionary(file string) (*Dictionary, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, fmt.Errorf("the dictionary of the speech model can't be read: %w", err)
	}
	d := &Dictionary{text: text, at: make(map[string]int, 1<<17), ours: map[string][]string{}}
	for from := 0; from < len(text); {
		line, next := lineAt(text, from)
		if word, _, ok := bytes.Cut(line, []byte(" ")); ok && !bytes.HasSuffix(word, []byte(")")) {
			d.at[string(word)] = from
		}
		from = next
	}
	for line := range strings.Lines(string(ourWords)) {
		if word, phones, ok := strings.Cut(strings.TrimSpace(line), " "); ok && !strings.HasPrefix(word, "#") {
			word, _, _ = strings.Cut(word, "(")
			d.ours[word] = append(d.ours[word], strings.TrimSpace(phones))
		}
	}
	return d, nil
}

func lineAt(text []byte, from int) (line []byte, next int) {
	if n := bytes.IndexByte(text[from:], '\n'); n >= 0 {
		return text[from : from+n], from + n + 1
	}
	return text[from:], len(text)
}

// Say gives the ways to say a word, or none where it is not known: as we
// wrote it, as the dictionary has it, or put together from parts.
func (d *Dictionary) Say(word string) []string {
	if ways := append(d.ours[word], d.listed(word)...); len(ways) > 0 {
		return ways
	}
	if ways := d.ended(word); len(ways) > 0 {
		return ways
	}
	return d.compound(word)
}

// listed gives the ways in the dictionary's own lines.
func (d *Dictionary) listed(word string) []string {
	from, ok := d.at[word]
	if !ok {
		return nil
	}
	var ways []string
	for from < len(d.text) {
		line, next := lineAt(d.text, from)
		name, phones, _ := strings.Cut(string(line), " ")
		if base, _, _ := strings.Cut(name, "("); base != word {
			break
		}
		ways = append(ways, strings.TrimSpace(phones))
		from = next
	}
	return ways
}

// compound puts a word together from two that are known: "clingfilm".
func (d *Dictionary) compound(word string) []string {
	for i := len(word) - 3; i >= 3; i-- {
		if a, b := d.listed(word[:i]), d.listed(word[i:]); len(a) > 0 && len(b) > 0 {
			return []string{a[0] + " " + b[0]}
		}
	}
	return nil
}

// endings are added to a known word; how an s or a d sounds depends on what
// comes before it.
func (d *Dictionary) ended(word string) []string {
	for _, e := range []struct{ ending, instead, phones string }{
		{"'s", "", "s"}, {"s", "", "s"}, {"es", "", "s"}, {"ed", "", "d"}, {"ed", "e", "d"},
		{"ing", "", "IH NG"}, {"ing", "e", "IH NG"}, {"y", "", "IY"}, {"y", "e", "IY"}, {"er", "", "ER"}, {"er", "e", "ER"}, {"ly", "", "L IY"}, {"less", "", "L AH S"}, {"ness", "", "N AH S"},
	} {
		stem, ok := strings.CutSuffix(word, e.ending)
		if !ok || len(stem) < 2 {
			continue
		}
		roots := []string{stem + e.instead}
		if n := len(stem); e.instead == "" && n > 2 && stem[n-1] == stem[n-2] {
			roots = append(roots, stem[:n-1])
		}
		for _, root := range roots {
			var ways []string
			for _, way := range append(d.ours[root], d.listed(root)...) {
				ways = append(ways, way+" "+sounded(way, e.phones))
			}
			if len(ways) > 0 {
				return ways
			}
		}
	}
	for _, p := range []struct{ prefix, phones string }{{"un", "AH N"}, {"re", "R IY"}, {"de", "D IY"}, {"over", "OW V ER"}, {"under", "AH N D ER"}, {"non", "N AA N"}} {
		if root, ok := strings.CutPrefix(word, p.prefix); ok {
			if ways := d.listed(root); len(ways) > 0 {
				return []string{p.phones + " " + ways[0]}
			}
		}
	}
	return nil
}

// sounded gives the phones of an ending after a word.
func sounded(way, ending string) string {
	last := way[strings.LastIndexByte(way, ' ')+1:]
	switch ending {
	case "s":
		switch last {
		case "S", "Z", "SH", "ZH", "CH", "JH":
			return "IH Z"
		case "P", "T", "K", "F", "TH":
			return "S"
		}
		return "Z"
	case "d":
		switch last {
		case "T", "D":
			return "IH D"
		case "P", "K", "F", "S", "SH", "CH", "TH":
			return "T"
		}
		return "D"
	}
	return ending
}
