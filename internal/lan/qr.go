package lan

import (
	"fmt"
	"strings"

	qr "github.com/piglig/go-qr"
)

// quiet is the width of the light margin in modules: ISO/IEC 18004.
const quiet = 4

// Black on white of the 256 colours, which themes leave alone, unlike the first
// sixteen (ISO/IEC 8613-6 has the control).
const (
	inkOn  = "\x1b[38;5;16;48;5;231m"
	inkOff = "\x1b[0m"
)

// QR draws a text as a QR code of error correction level M or better, two
// modules to a character, its lines ended. In colour it is dark on light on any
// terminal; else the blocks are the dark modules, as they are on paper.
func QR(text string, colour bool) (string, error) {
	code, err := qr.EncodeText(text, qr.Medium)
	if err != nil {
		return "", fmt.Errorf("can't draw a QR code: %w", err)
	}
	on, off := "", ""
	if colour {
		on, off = inkOn, inkOff
	}
	var b strings.Builder
	for y := -quiet; y < code.Size()+quiet; y += 2 {
		b.WriteString(on)
		for x := -quiet; x < code.Size()+quiet; x++ {
			b.WriteString(half(code.Module(x, y), code.Module(x, y+1)))
		}
		b.WriteString(off + "\n")
	}
	return b.String(), nil
}

func half(above, below bool) string {
	switch {
	case above && below:
		return "█"
	case above:
		return "▀"
	case below:
		return "▄"
	}
	return " "
}
