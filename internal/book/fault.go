package book

import (
	"fmt"
	"slices"
	"strings"

	edlib "github.com/hbollon/go-edlib"
)

// Fault is one thing wrong with a book. It prints as
// file:line:column: what is wrong, hint.
type Fault struct {
	Place
	Message string
	Hint    string // such as `did you mean "look"?`; may be empty
}

func (f Fault) Error() string {
	text := fmt.Sprintf("%s:%d:%d: %s", f.File, f.Line, f.Column, f.Message)
	if f.Line == 0 { // a fault of the file as a whole has no line to point at
		text = fmt.Sprintf("%s: %s", f.File, f.Message)
	}
	if f.Hint != "" {
		text += ", " + f.Hint
	}
	return text
}

// Faults are all the faults of a book, in the order of their places.
type Faults []Fault

func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, fault := range f {
		lines[i] = fault.Error()
	}
	return strings.Join(lines, "\n")
}

// sorted orders the faults by place and drops doubles.
func (f Faults) sorted() Faults {
	slices.SortStableFunc(f, func(a, b Fault) int {
		if c := strings.Compare(a.File, b.File); c != 0 {
			return c
		}
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Column - b.Column
	})
	return slices.Compact(f)
}

// suggest names the nearest of the allowed words, and lists them all when
// they are few.
func suggest(word string, allowed []string) string {
	var parts []string
	if near := nearest(word, allowed); near != "" {
		parts = append(parts, fmt.Sprintf("did you mean %q?", near))
	}
	if n := len(allowed); n > 0 && n <= 8 {
		parts = append(parts, "allowed: "+strings.Join(allowed, ", "))
	}
	return strings.Join(parts, " ")
}

// nearest finds the allowed word within an edit of a short word, two of a
// longer and a third of a long one, or "".
func nearest(word string, allowed []string) string {
	limit := len(word) / 3
	switch {
	case len(word) <= 3:
		limit = 1
	case len(word) <= 8:
		limit = 2
	}
	best, at := limit+1, ""
	for _, a := range allowed {
		if d := edlib.OSADamerauLevenshteinDistance(word, a); d < best {
			best, at = d, a
		}
	}
	return at
}
