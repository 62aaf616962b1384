package book

import (
	"slices"
	"strings"
	"testing"
)

// TestSyllables: words of plain English, divided as dictionaries divide them.
func TestSyllables(t *testing.T) {
	for n, list := range map[int]string{
		1: "a the cast mould piece edge scraped used hours guard build squeeze quick yes screw tongue warmed weighed glues please through coarse one",
		2: "region moisture plaster table tables water syrup brushes edges rhythm wanted little loosely cleaner hardened rescue careful before patches prism being useful kitchen wetted onion",
		3: "gelatin glycerin microwave sorbitol carefully performance adhesive silicone completely another powdery several video measuring properly medium usual somebody everything",
		4: "humidity temperature material emergency thermometer plasticity consistency original situation gradually ordinary ingredient variety anybody everybody differently separately",
		5: "immediately electricity university refrigerator vocabulary particularly imagination",
	} {
		for _, word := range strings.Fields(list) {
			if got := syllables(word); got != n {
				t.Errorf("%s has %d syllables, not %d", word, n, got)
			}
		}
	}
}

func TestSentences(t *testing.T) {
	for text, want := range map[string][]string{
		"":                                {},
		"One.":                            {"One."},
		"No mark at the end":              {"No mark at the end"},
		"One. Two! Three?":                {"One.", "Two!", "Three?"},
		"A film of 0.5 mm. Then wait.":    {"A film of 0.5 mm.", "Then wait."},
		"Wait 2 min. and stir.":           {"Wait 2 min. and stir."},
		"Ask Dr. Green first. Then pour.": {"Ask Dr. Green first.", "Then pour."},
		"Wax, e.g. Beeswax. Warm it.":     {"Wax, e.g. Beeswax.", "Warm it."},
		"Say \"stop.\" Then go.":          {"Say \"stop.\"", "Then go."},
		"Wait (an hour.) Then go.":        {"Wait (an hour.)", "Then go."},
		"Heat it. 60 °C is enough.":       {"Heat it.", "60 °C is enough."},
		"Wet it: once; twice. Done.":      {"Wet it: once; twice.", "Done."},
		"Two lines.\nNext one.":           {"Two lines.", "Next one."},
		"Really?! Yes.":                   {"Really?!", "Yes."},
		". Odd.":                          {".", "Odd."},
	} {
		if got := sentences(text); !slices.Equal(got, want) {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

func TestWordCount(t *testing.T) {
	for text, want := range map[string]int{
		"":                        0,
		"Pour it.":                2,
		"Wait - then go":          3,
		"60 °C, 50 % at the most": 7,
		"0.5 mm (a thumbnail)":    4,
	} {
		if got := wordCount(text); got != want {
			t.Errorf("%q: got %d words, want %d", text, got, want)
		}
	}
}

func TestLongWords(t *testing.T) {
	for text, want := range map[string]string{
		"The temperature, and the emergency's number": "temperature emergency",
		"NHS UNESCO 12345678 a1b2iououou":             "",
		"non-crystallising, hand-over-hand":           "crystallising",
		"Humidity! don't anybody’s":                   "humidity anybody",
	} {
		if got := strings.Join(longWords(text), " "); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}
