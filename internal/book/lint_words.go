package book

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// hardSyllables is how many syllables make a word hard. The Gunning fog index
// calls three complex, but has to leave out names, endings and joined easy
// words by hand for that; by ear gelatin, plasticine and carefully stop nobody.
// From four on a word is long to hear and mostly learned, and the few that the
// trade or every day knows fit into a list.
const hardSyllables = 4

const plainWordsKey = "file.plain_words"

// hardWords warns about long words outside the book's list of plain ones, once
// for a text, and about words in the list that no spoken text needs there.
func (l *lint) hardWords() {
	plainWords := map[string]*written{}
	for i := range l.book.written {
		if w := &l.book.written[i]; w.key == plainWordsKey {
			plainWords[strings.ToLower(w.text)] = w
		}
	}
	met := map[*written]bool{}
	for i := range l.book.written {
		w := &l.book.written[i]
		if _, ok := spokenKeys[w.key]; !ok {
			continue
		}
		var hard []string
		for _, word := range longWords(Slot.ReplaceAllString(w.text, " ")) {
			if known := allowed(word, plainWords); known != nil {
				met[known] = true
			} else if !slices.Contains(hard, word) {
				hard = append(hard, word)
			}
		}
		for _, word := range hard {
			l.warn(w.at, "%s", w.of(fmt.Sprintf("%q is no plain word: say it in shorter ones, or list it in plain_words", word)))
		}
	}
	for _, w := range plainWords {
		if !met[w] {
			l.warn(w.at, "no spoken text needs the plain word %q", w.text)
		}
	}
}

// allowed finds a word or its singular in the list.
func allowed(word string, list map[string]*written) *written {
	if w := list[word]; w != nil {
		return w
	}
	if root, ok := strings.CutSuffix(word, "ies"); ok {
		return list[root+"y"]
	}
	return list[strings.TrimSuffix(word, "s")]
}

// longWords lists the hard words of a text in small letters. Each part of a
// hyphened word counts by itself; what holds a digit is read out otherwise, and
// what is all capitals is spelt.
func longWords(s string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' && r != '’' }) {
		w = strings.ReplaceAll(w, "’", "'")
		w = strings.Trim(strings.TrimSuffix(w, "'s"), "'")
		if strings.ContainsFunc(w, unicode.IsDigit) || w == strings.ToUpper(w) {
			continue
		}
		if w = strings.ToLower(w); len(w) > hardSyllables && syllables(w) >= hardSyllables {
			out = append(out, w)
		}
	}
	return out
}
