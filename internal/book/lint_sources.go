package book

import (
	"regexp"
	"slices"
	"strings"

	"sparehand/internal/logic"
)

// A source is a published one, by its name or year, or an honest word that
// there is none.
const (
	ownPractice = "common practice"
	ownMemory   = "from memory"
	namedWords  = 3 // that make a published name
)

var year = regexp.MustCompile(`\b(1[89]|20)\d\d\b`)

// sourced reports whether a text says where something is from.
func sourced(s string) bool {
	lower := strings.ToLower(s)
	return strings.Contains(lower, ownPractice) || strings.Contains(lower, ownMemory) ||
		year.MatchString(s) || wordCount(s) >= namedWords
}

func (l *lint) sources() {
	for _, c := range l.book.Cautions {
		l.needsSource(c.Place, "caution "+c.ID, c.Source)
	}
	for _, p := range l.book.Problems {
		for _, c := range p.Causes {
			l.needsSource(c.Place, "cause "+c.ID, c.Sources...)
		}
	}
	for _, r := range l.book.Recipes {
		l.needsSource(r.Place, "recipe "+r.ID, r.Source)
	}
	for i := range l.book.Emergencies {
		e := &l.book.Emergencies[i]
		l.needsSource(e.Place, "emergency "+e.ID, e.Source)
	}
	l.sourcesOfNumbers()
}

func (l *lint) sourcesOfNumbers() {
	for _, m := range l.book.Materials {
		l.needsSource(m.Place, "material "+m.ID, m.Source)
	}
	for _, s := range l.book.Steps {
		l.needsSource(s.Place, "step "+s.ID, s.Source)
		if s.Guide != nil {
			l.needsSource(s.Guide.Place, "guide "+s.ID, s.Guide.Source)
		}
	}
	for i := range l.book.Facts {
		if f := &l.book.Facts[i]; f.Usual != nil {
			l.needsSource(f.Place, "the usual value of "+f.Name, f.Usual.Source)
		}
	}
	for _, a := range l.book.Amounts {
		if a.Source != "" || a.hasConstant() {
			l.needsSource(a.Place, "amount "+a.ID, a.Source)
		}
	}
}

func (l *lint) needsSource(at Place, what string, sources ...string) {
	if len(sources) == 0 {
		sources = []string{""}
	}
	for _, s := range sources {
		switch {
		case s == "":
			l.warn(at, "%s has no source: name a published one, or write %q", what, "common practice, no source")
		case !sourced(s):
			l.warn(at, "%s: %q names no source: give a title or a year, %q or %q", what, s, "common practice, no source", ownMemory)
		}
	}
}

// numeral finds a number that is no part of a name.
var numeral = regexp.MustCompile(`(?:^|[^\w.])(\d+(?:\.\d+)?)`)

// plainNumbers need no source in a sum: nothing, one, and percents and parts
// of a thousand, as units are changed.
var plainNumbers = setOf("0 1 100 1000")

// hasConstant reports whether the sums of an amount hold a number that somebody
// has to have measured or chosen.
func (a *Amount) hasConstant() bool {
	if a.Mix != nil && (hasNumeral(a.Mix.Ml.Text()) || a.Mix.Least > 0) {
		return true
	}
	return slices.ContainsFunc(a.Parts, func(p Part) bool {
		if p.Material == nil && p.Density != 0 && p.Density != 1 {
			return true
		}
		return slices.ContainsFunc([]*logic.Formula{p.Of, p.From, p.To, p.Other}, func(sum *logic.Formula) bool {
			return sum != nil && hasNumeral(sum.Text())
		})
	})
}

func hasNumeral(sum string) bool {
	return slices.ContainsFunc(numeral.FindAllStringSubmatch(sum, -1), func(m []string) bool { return !plainNumbers[m[1]] })
}
