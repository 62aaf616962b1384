package book

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Warning is something about a sound book that its authors should mend. It
// prints as file:line:column: what is odd.
type Warning struct {
	Place
	Message string
}

func (w Warning) String() string { return w.Place.String() + ": " + w.Message }

// Warnings looks for what loads without a fault and yet is of no use, unclear,
// hard to understand by ear, unsourced or thin. They are in the order of their
// places. A book loaded without its cases has no warnings about its texts.
func (b *Book) Warnings() []Warning {
	l := &lint{book: b}
	for _, look := range []func(){
		l.unusedFacts, l.idleSigns, l.sharedSayings, l.sharedAnswers, l.longSentences, l.hardWords, l.sources, l.thinPages,
	} {
		look()
	}
	slices.SortStableFunc(l.found, func(a, b Warning) int {
		return cmp.Or(strings.Compare(a.File, b.File), a.Line-b.Line, a.Column-b.Column)
	})
	return slices.Compact(l.found)
}

// lint collects warnings.
type lint struct {
	book  *Book
	found []Warning
}

func (l *lint) warn(at Place, format string, args ...any) {
	l.found = append(l.found, Warning{at, fmt.Sprintf(format, args...)})
}

// of names the owner of a text before what is said of it.
func (w *written) of(message string) string {
	if w.owner == "" {
		return message
	}
	return w.owner + ": " + message
}
