package hear

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// maxText is the longest text heard, in bytes; the rest is cut at a word.
const maxText = 4096

// signs are folded before Unicode's own folding, which would glue "1½" into
// "11/2" and lose the degree sign.
var signs = strings.NewReplacer(
	"½", " 1/2 ", "⅓", " 1/3 ", "⅔", " 2/3 ", "¼", " 1/4 ", "¾", " 3/4 ",
	"⅛", " 1/8 ", "⅜", " 3/8 ", "⅝", " 5/8 ", "⅞", " 7/8 ", "⁄", "/",
	"°", " deg ", "º", " deg ", "℃", " deg c ", "℉", " deg f ",
	"×", " x ", "′", "'", "’", "'", "‘", "'", "ʼ", "'", "`", "'", "″", `"`, "“", `"`, "”", `"`,
	"–", "-", "—", " , ", "−", "-", "‐", "-", "‑", "-", "±", " about ", "≈", " about ", "~", " about ",
)

var plainSigns = strings.NewReplacer("~", " about ", "`", "'")

// fold lower-cases the text, strips accents and control characters and gives
// one form to the signs that makers and their telephones write.
func fold(text string) string {
	text = cut(text)
	if !plainASCII(text) {
		text = unaccented(norm.NFKD.String(signs.Replace(strings.ToValidUTF8(text, " "))))
	} else {
		text = plainSigns.Replace(text)
	}
	return cut(strings.ToLower(text))
}

func plainASCII(text string) bool {
	for i := range len(text) {
		if text[i] >= 0x80 {
			return false
		}
	}
	return true
}

func unaccented(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r):
			return -1
		case unicode.IsControl(r):
			return ' '
		}
		return r
	}, text)
}

// cut shortens a text that is too long at the last space that fits.
func cut(text string) string {
	if len(text) <= maxText {
		return text
	}
	text = text[:maxText]
	if i := strings.LastIndexByte(text, ' '); i > 0 {
		text = text[:i]
	}
	return strings.ToValidUTF8(text, "")
}

// british spells a lower-case word as the book does, so that both spellings
// are one word.
func british(word string) string {
	if len(word) < 4 {
		return word
	}
	switch word {
	case "gray", "grays", "graying":
		return "grey" + word[4:]
	case "gelatine", "gelatines", "jelatine", "jelatin":
		return "gelatin"
	case "glycerine", "glycerol":
		return "glycerin"
	case "fiber", "fibers":
		return "fibre" + word[5:]
	}
	word = respell(word, "mold", "mould")
	word = respell(word, "color", "colour")
	if len(word) >= 8 {
		word = respell(word, "ize", "ise")
		word = respell(word, "izing", "ising")
	}
	return word
}

func respell(word, from, to string) string {
	if i := strings.Index(word, from); i >= 0 {
		return word[:i] + to + word[i+len(from):]
	}
	return word
}
