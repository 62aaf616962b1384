// Package draw makes the pictures that go with the sums, as SVG: the piece on
// its plate in cross-section, and how its size follows the air.
//
// A picture is drawn for a width of 340 pixels and carries the same facts as a
// table. It has classes for a page to colour, and attributes that make it look
// right as a file of its own; there is neither style nor script in it. Errors
// are one sentence for the maker.
package draw

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Picture is a drawing with its words, and the table behind it.
type Picture struct {
	ID          string     `json:"id"`          // also begins every id within the SVG
	Title       string     `json:"title"`       // one line
	Description string     `json:"description"` // what is seen, in sentences
	SVG         string     `json:"svg"`         // one svg element
	Columns     []string   `json:"columns"`     // the heads of the table
	Rows        [][]string `json:"rows"`        // as many cells each as there are columns
}

var soundID = regexp.MustCompile(`^[a-z][a-z0-9-]*$`)

// idOr gives the id, or the usual one where there is none.
func idOr(id, usual string) (string, error) {
	if id == "" {
		return usual, nil
	}
	if !soundID.MatchString(id) {
		return "", fmt.Errorf("the picture's id %q must be small letters, digits and hyphens", id)
	}
	return id, nil
}

// measure is a number to check, with the range that can be believed.
type measure struct {
	what      string
	value     float64
	low, high float64
	unit      string
}

// sound gives an error for the first measure outside its range.
func sound(measures ...measure) error {
	for _, m := range measures {
		if math.IsNaN(m.value) {
			return fmt.Errorf("the %s is not a number", m.what)
		}
		if m.value < m.low || m.value > m.high {
			return fmt.Errorf("the %s must lie between %s and %s %s", m.what, plain(m.low), plain(m.high), m.unit)
		}
	}
	return nil
}

// plain writes a number to one decimal place, without trailing zeros and with
// a true minus.
func plain(x float64) string {
	text := strconv.FormatFloat(math.Round(x*10)/10+0, 'f', -1, 64)
	return strings.Replace(text, "-", "−", 1)
}

// signed is plain with its sign, also where it is a plus.
func signed(x float64) string {
	text := plain(x)
	if strings.HasPrefix(text, "−") || text == "0" {
		return text
	}
	return "+" + text
}

var errUndrawable = errors.New("the picture could not be written: check that all its words are plain text")
