package web

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// luminance is the relative luminance of #rrggbb, 0 to 1.
// Source: WCAG 2.2, definition of relative luminance.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	if err != nil || len(hex) != 7 {
		t.Fatalf("%q is not a colour", hex)
	}
	linear := func(c uint64) float64 {
		s := float64(c&255) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8) + 0.0722*linear(n)
}

// contrast is the contrast ratio, 1 to 21. Source: WCAG 2.2, definition of
// contrast ratio.
func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	high, low := luminance(t, a), luminance(t, b)
	if high < low {
		high, low = low, high
	}
	return (high + 0.05) / (low + 0.05)
}

// Published values: WCAG 2.2 gives 21:1 for black on white; WebAIM's contrast
// article gives 4.54:1 for #767676 and 4:1 for red on white (from memory).
func TestContrastAgainstPublishedValues(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#767676", "#ffffff", 4.54}, {"#ff0000", "#ffffff", 4.0}} {
		if got := contrast(t, c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("contrast of %s on %s is %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

// schemes reads the colours of colour.css, light and dark.
func schemes(t *testing.T) map[string]map[string]string {
	t.Helper()
	light, dark, found := strings.Cut(text(t, "css/colour.css"), "@media (prefers-color-scheme: dark)")
	if !found {
		t.Fatal("colour.css has no dark scheme")
	}
	colour := regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6});`)
	read := func(into map[string]string, css string) map[string]string {
		for _, m := range colour.FindAllStringSubmatch(css, -1) {
			into[m[1]] = m[2]
		}
		return into
	}
	return map[string]map[string]string{
		"light": read(map[string]string{}, light),
		"dark":  read(read(map[string]string{}, light), dark),
	}
}

// Text on the sheet has 7:1 (success criterion 1.4.6), other text 4.5:1
// (1.4.3), and what shows a control or its state 3:1 (1.4.11).
func TestContrastOfThePage(t *testing.T) {
	pairs := []struct {
		least float64
		on    string
		text  string
	}{
		{7, "sheet", "ink ink-soft clay"},
		{7, "answer", "ink ink-soft"},
		{7, "clay-wash", "ink"},
		{7, "plate", "plate-ink"},
		{7, "stop", "stop-ink"},
		{7, "care", "care-ink"},
		{7, "note", "note-ink"},
		{4.5, "bench", "bench-ink bench-soft"},
		{4.5, "board", "chalk chalk-soft"},
		{3, "sheet", "answer-line plate focus clay"},
		{3, "bench", "focus bench-line"},
		{3, "board", "chalk-clay chalk-soft"},
	}
	for scheme, colours := range schemes(t) {
		for _, p := range pairs {
			for name := range strings.FieldsSeq(p.text) {
				front, back := colours[name], colours[p.on]
				if got := contrast(t, front, back); got < p.least {
					t.Errorf("%s: %s (%s) on %s (%s) has %.2f:1, want %g:1", scheme, name, front, p.on, back, got, p.least)
				}
			}
		}
	}
}
