package lan

import (
	"image"
	"image/color"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

// picture makes an image of half blocks, each module 4 pixels wide.
func picture(drawn string, ink, paper color.Gray) image.Image {
	const wide = 4
	lines := strings.Split(strings.TrimSuffix(drawn, "\n"), "\n")
	img := image.NewGray(image.Rect(0, 0, wide*len([]rune(lines[0])), 2*wide*len(lines)))
	for y, line := range lines {
		for x, r := range []rune(line) {
			for py := range 2 * wide {
				dark := r == '█' || r == '▀' && py < wide || r == '▄' && py >= wide
				for px := range wide {
					c := paper
					if dark {
						c = ink
					}
					img.SetGray(x*wide+px, 2*y*wide+py, c)
				}
			}
		}
	}
	return img
}

// TestQRIsReadBack: by ZXing's reader, of the text as it is printed.
func TestQRIsReadBack(t *testing.T) {
	for _, text := range []string{
		"https://10.0.0.1:8443/join#0123ABCD",
		"https://192.168.100.200:8443/join#ZYXWVTSR",
		"https://[fd12:3456:789a:bcde:f012:3456:789a:bcde]:8443/join#7KQ2M4XD",
		"https://" + strings.Repeat("long-name.", 12) + "local:65535/join#7KQ2M4XD",
	} {
		for _, colour := range []bool{false, true} {
			drawn, err := QR(text, colour)
			if err != nil {
				t.Fatal(err)
			}
			if colour {
				for line := range strings.Lines(drawn) {
					if !strings.HasPrefix(line, "\x1b[38;5;16;48;5;231m") || !strings.HasSuffix(line, "\x1b[0m\n") {
						t.Fatalf("a line does not set its colours, or leaves them set: %q", line)
					}
				}
				drawn = strings.NewReplacer(inkOn, "", inkOff, "").Replace(drawn)
			}
			wantQuiet(t, drawn)
			bitmap, err := gozxing.NewBinaryBitmapFromImage(picture(drawn, color.Gray{0}, color.Gray{255}))
			if err != nil {
				t.Fatal(err)
			}
			read, err := qrcode.NewQRCodeReader().Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_PURE_BARCODE: true})
			if err != nil {
				t.Fatalf("%s can't be read: %v\n%s", text, err, drawn)
			}
			if read.GetText() != text {
				t.Errorf("read as %q, want %q", read.GetText(), text)
			}
			if level, _ := read.GetResultMetadata()[gozxing.ResultMetadataType_ERROR_CORRECTION_LEVEL].(string); !strings.Contains("MQH", level) || level == "" {
				t.Errorf("error correction level %q, want M or better", level)
			}
		}
	}
	if _, err := QR(strings.Repeat("x", 3000), false); err == nil { // the most is 2331 bytes at level M: ISO/IEC 18004, table 7
		t.Error("a text that is too long is drawn")
	}
}

// wantQuiet: four light modules on every side (ISO/IEC 18004).
func wantQuiet(t *testing.T, drawn string) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(drawn, "\n"), "\n")
	for i, line := range lines {
		if (i < 2 || i >= len(lines)-2) && strings.Trim(line, " ") != "" {
			t.Errorf("line %d is not quiet: %q", i, line)
		}
		if !strings.HasPrefix(line, "    ") || !strings.HasSuffix(line, "    ") {
			t.Errorf("line %d has no quiet sides: %q", i, line)
		}
	}
}
