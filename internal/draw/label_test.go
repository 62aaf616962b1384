package draw

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// helvetica is the width of a text in ems. Source: Adobe Font Metrics of
// Helvetica (the core 14), as in the metrics of Nimbus Sans.
func helvetica(text string) float64 {
	widths := map[string]float64{
		"ijl": 222, "fIt ,./:;": 278, "r-()": 333, "cksvxyzJ": 500,
		"abdeghnopqu0123456789L–": 556, "+−±": 584, "FTZ": 611, "ABEKPSVXY": 667,
		"wCDHNRU": 722, "GOQ": 778, "mM": 833, "%": 889, "W": 944, "…": 1000,
	}
	sum := 0.0
	for _, r := range text {
		width := 556.0
		for letters, w := range widths {
			if strings.ContainsRune(letters, r) {
				width = w
			}
		}
		sum += width
	}
	return sum / 1000
}

// The room kept for a text is enough for it, and not so much that it is waste.
func TestRoomForText(t *testing.T) {
	for _, text := range []string{"height", "inside across 1200.5 mm", "gelatin, sorbitol, glycerin", "−30 %", "WIDE MOULD", "illicit"} {
		least := helvetica(text) * textSize
		if got := textWidth(text); got < least || got > 1.7*least {
			t.Errorf("%q is given %.0f, and takes %.0f", text, got, least)
		}
	}
}

func TestSpreadKeepsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		middles := rapid.SliceOfN(rapid.Float64Range(-50, 400), 1, 5).Draw(t, "middles")
		slices.Sort(middles)
		sizes := make([]float64, len(middles))
		for i := range sizes {
			sizes[i] = rapid.Float64Range(1, 60).Draw(t, "size")
		}
		got := spread(middles, sizes, 0, 340)
		low := 0.0
		for i, m := range got {
			if m-sizes[i]/2 < low-1e-9 {
				t.Fatalf("%v: interval %d begins before %g", got, i, low)
			}
			low = m + sizes[i]/2
		}
		if low > 340+1e-9 {
			t.Fatalf("%v runs past the end", got)
		}
	})
}

func TestSpreadLeavesWhatIsApart(t *testing.T) {
	if got := spread([]float64{50, 200}, []float64{40, 40}, 0, 340); !slices.Equal(got, []float64{50, 200}) {
		t.Errorf("got %v", got)
	}
}

func TestShortenedAndWrapped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-zA-Z0-9,% ]{0,80}`).Draw(t, "text")
		width := rapid.Float64Range(40, 300).Draw(t, "width")
		if short := shortened(text, width); textWidth(short) > width {
			t.Fatalf("%q is too wide for %g", short, width)
		}
		lines := wrapped(text, width)
		for _, line := range lines {
			if textWidth(line) > width {
				t.Fatalf("%q is too wide for %g", line, width)
			}
		}
		if got := strings.Join(lines, " "); !strings.Contains(got, "…") && got != strings.Join(strings.Fields(text), " ") {
			t.Fatalf("%q became %q", text, lines)
		}
	})
}

func TestNumbersAsRead(t *testing.T) {
	for x, want := range map[float64]string{12.7: "12.7", 110: "110", -3.44: "−3.4", -0.04: "0", 0.05: "0.1"} {
		if got := plain(x); got != want {
			t.Errorf("%g is written %q, want %q", x, got, want)
		}
	}
	for x, want := range map[float64]string{1.7: "+1.7", -28: "−28", -0.01: "0"} {
		if got := signed(x); got != want {
			t.Errorf("%g is signed %q, want %q", x, got, want)
		}
	}
	if got := num(-0.01); got != "0" {
		t.Errorf("a coordinate is written %q", got)
	}
}
