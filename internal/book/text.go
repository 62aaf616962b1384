package book

import (
	"fmt"
	"slices"
	"strconv"
)

func quote(s string) string { return strconv.Quote(s) }

func (p Place) String() string { return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column) }

// plainID reports whether an id is small letters and digits in words joined
// by sep.
func plainID(id string, sep rune) bool {
	last := sep
	for _, r := range id {
		letter := r >= 'a' && r <= 'z' || r >= '0' && r <= '9'
		if !letter && (r != sep || last == sep) {
			return false
		}
		last = r
	}
	return last != sep && (id[0] < '0' || id[0] > '9' || sep == '-')
}

// wordsOf lists the words of a table in a fixed order.
func wordsOf[K ~string, V any](table map[K]V) []string {
	words := make([]string, 0, len(table))
	for k := range table {
		words = append(words, string(k))
	}
	slices.Sort(words)
	return words
}
