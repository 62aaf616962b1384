package aloud

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/runenames"
	"pgregory.net/rapid"
)

// written is text as replies have it, and worse.
var written = rapid.Custom(func(t *rapid.T) string {
	piece := rapid.OneOf(
		rapid.SampledFrom([]string{
			"1", "20", "3.25", "0.5", ".5", "1/2", "2 3/4", "1,000", "07:30", "24:61", "M3", "2026-11-28", "2 May 2026", "3rd", "½", "²", "٣", "ⅷ",
			"99999999999999999999", "mm", "cm2", "cm²", "g/ml", "°C", "°", "%", "a", "an", "the", "plaster", "hours", "No.", "pm", "x",
			" ", " ", " ", "-", "–", " to ", "/", ":", ".", ", ", "? ", "(", ")", "“", "'", "±", "~", "≤", "→", "\n",
		}),
		rapid.String(),
	)
	return strings.Join(rapid.SliceOfN(piece, 0, 12).Draw(t, "pieces"), "")
})

// moreRunes bounds how much longer a text gets: the most for its length is a
// time of day, or a sign that takes three words.
const moreRunes = 20

func TestNoFigureIsLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := written.Draw(t, "text")
		said := Words(text)
		if strings.ContainsFunc(said, unicode.IsNumber) {
			t.Fatalf("%q is said %q", text, said)
		}
		if again := Words(said); again != said {
			t.Fatalf("%q is said %q, and that %q", text, said, again)
		}
		if n, most := utf8.RuneCountInString(said), moreRunes*utf8.RuneCountInString(text); n > most {
			t.Fatalf("%q is said in %d characters, past %d: %q", text, n, most, said)
		}
	})
}

func TestWordsStay(t *testing.T) {
	word := rapid.StringMatching(`[A-Z]?[a-zéü]+('[a-z]+)?(-[a-z]+)?`)
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(word, 1, 20).Draw(t, "words"), rapid.SampledFrom([]string{" ", ", ", ". ", "; ", ": ", "? "}).Draw(t, "between"))
		if said := Words(text); said != text {
			t.Fatalf("%q is said %q", text, said)
		}
	})
}

// A number in words means what it did in digits, wherever it stands.
func TestCardinalsMeanTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 1_000_000).Draw(t, "number")
		if got := meant(Cardinal(n)); got != n {
			t.Fatalf("%d is %q, which is %d", n, Cardinal(n), got)
		}
	})
}

// meant reads a cardinal back by the words' values: a hundred and a thousand
// multiply what stands before them.
func meant(words string) int {
	total, run := 0, 0
	for _, word := range strings.FieldsFunc(words, func(r rune) bool { return r == ' ' || r == '-' }) {
		switch word {
		case "and":
		case "hundred":
			run *= 100
		case "thousand":
			total, run = total+run*1000, 0
		case "million":
			total, run = total+run*1_000_000, 0
		default:
			if at := slices.Index(small, word); at >= 0 {
				run += at
			} else {
				run += 10 * slices.Index(tens, word)
			}
		}
	}
	return total + run
}

// Each script's digits have their names from the Unicode Character Database
// ("ARABIC-INDIC DIGIT FIVE"), by golang.org/x/text.
func TestDigitsOfAllScripts(t *testing.T) {
	names := strings.Fields("ZERO ONE TWO THREE FOUR FIVE SIX SEVEN EIGHT NINE")
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if !unicode.Is(unicode.Nd, r) {
			continue
		}
		name := runenames.Name(r)
		if name == "" {
			continue // newer than the names
		}
		if want := slices.Index(names, name[strings.LastIndex(name, " ")+1:]); int(value(r)) != want {
			t.Errorf("%s is taken for %d", name, value(r))
		}
	}
}
