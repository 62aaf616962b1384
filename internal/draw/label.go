package draw

import (
	"strings"
	"unicode"
)

const (
	textSize = 13.0 // of every label, in units of the viewBox
	rowHigh  = 16.0 // a line of text with its air
)

// box is a rectangle; y grows downwards.
type box struct{ x, y, width, height float64 }

func (b box) right() float64  { return b.x + b.width }
func (b box) bottom() float64 { return b.y + b.height }

func (b box) overlaps(o box) bool {
	return b.x < o.right() && o.x < b.right() && b.y < o.bottom() && o.y < b.bottom()
}

// label is one line of text in its box. It lies on a scrap of paper of its
// own, so that no line runs through it, unless bare is set.
type label struct {
	box
	text string
	bold bool
	bare bool
	from bool // the text begins at the left of its box, and is not centred in it
}

func (l label) nodes() []*node {
	weight := "normal"
	if l.bold {
		weight = "bold"
	}
	x, anchor := l.x+l.width/2, "middle"
	if l.from {
		x, anchor = l.x, "start"
	}
	text := el("text", "class", "label", "x", num(x), "y", num(l.y+l.height*0.77),
		"text-anchor", anchor, "font-weight", weight, "fill", "currentColor").saying(l.text)
	if l.bare {
		return []*node{text}
	}
	return []*node{el("rect", "class", "paper", "x", num(l.x), "y", num(l.y), "width", num(l.width), "height", num(l.height), "fill", paperColour), text}
}

// newLabel is a label of a text, not placed yet.
func newLabel(text string) label {
	return label{box: box{width: textWidth(text) + 2, height: rowHigh}, text: text}
}

// centred puts the label's middle at x, and its top at y.
func (l label) centred(x, y float64) label {
	l.x, l.y = x-l.width/2, y
	return l
}

// held keeps the label between the left and the right edge of the paper.
func (l label) held() label {
	l.x = max(1, min(l.x, pageWidth-1-l.width))
	return l
}

// textWidth is the most room that a text takes in any usual typeface without
// serifs: letter widths in ems, by kind. Too much only leaves air.
func textWidth(text string) float64 {
	ems := 0.0
	for _, r := range text {
		ems += letterWidth(r)
	}
	return ems * textSize
}

func letterWidth(r rune) float64 {
	switch {
	case strings.ContainsRune("ijlI.,:;'| ", r):
		return 0.34
	case strings.ContainsRune("fti()[]-r/", r):
		return 0.42
	case strings.ContainsRune("mwMW%@—…", r):
		return 1
	case unicode.IsUpper(r):
		return 0.8
	case r < 0x250 || strings.ContainsRune("–−±°", r): // Latin letters, digits, signs
		return 0.65
	}
	return 1.1
}

// shortened cuts a text that is wider than width.
func shortened(text string, width float64) string {
	if textWidth(text) <= width {
		return text
	}
	letters := []rune(text)
	for len(letters) > 0 && textWidth(string(letters)+"…") > width {
		letters = letters[:len(letters)-1]
	}
	return strings.TrimSpace(string(letters)) + "…"
}

// wrapped breaks a text at spaces into lines no wider than width.
func wrapped(text string, width float64) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(text) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && textWidth(longer) > width {
			lines, longer = append(lines, line), word
		}
		line = shortened(longer, width)
	}
	if line == "" {
		return lines
	}
	return append(lines, line)
}

// spread moves intervals of these sizes apart, as near to the wished middles
// as their order allows, and gives their new middles. The first begins at low
// or after it; the last ends at high or before it, if there is room.
func spread(middles, sizes []float64, low, high float64) []float64 {
	out := make([]float64, len(middles))
	for i := range middles {
		out[i] = max(middles[i], low+sizes[i]/2)
		low = out[i] + sizes[i]/2
	}
	for i := len(out) - 1; i >= 0; i-- {
		out[i] = min(out[i], high-sizes[i]/2)
		high = out[i] - sizes[i]/2
	}
	return out
}

// notes writes sentences below everything, and gives the new lower edge.
func (d *drawing) notes(sentences []string, y float64) float64 {
	for _, s := range sentences {
		for _, line := range wrapped(s, pageWidth-12) {
			l := newLabel(line)
			l.x, l.y, l.bare, l.from = 4, y, true, true
			d.labels = append(d.labels, l)
			y += rowHigh
		}
	}
	return y
}
