package book

import (
	"slices"
	"strings"
)

// syllables counts the syllables of a word in small letters by the rules of
// spelling: its groups of vowels, less the endings that are not spoken, more
// the vowels side by side that are spoken apart. It is right for nearly all
// words of plain English; a name or a loan word may be one out.
func syllables(word string) int {
	word = spoken(inner.Replace(word))
	n := 0
	for i := range len(word) {
		if isVowel(word, i) && (i == 0 || !isVowel(word, i-1) || apart(word, i)) {
			n++
		}
	}
	if strings.HasSuffix(word, "sm") || strings.HasSuffix(word, "thm") { // prism, rhythm
		n++
	}
	return max(n, 1)
}

// inner drops silent letters inside words that many others are made of.
var inner = strings.NewReplacer("every", "evry", "some", "som")

// spoken leaves out the silent e of a word's endings.
func spoken(word string) string {
	for _, end := range []string{"fully", "less", "ment", "ments", "ful", "ly", "ness"} { // care-ful-ly
		if root, ok := strings.CutSuffix(word, "e"+end); ok && silentE(root) && len(root) > 1 {
			return root + end
		}
	}
	switch {
	case hasEnding(word, "ed") && !hasEnding(word, "ted", "ded", "ied"):
		return strings.TrimSuffix(word, "ed")
	case hasEnding(word, "es") && !hasEnding(word, "ses", "zes", "xes", "ces", "ges", "ches", "shes", "ies") && silentE(word[:len(word)-2]):
		return strings.TrimSuffix(word, "es")
	case hasEnding(word, "gue", "que"): // tongue, technique
		return word[:len(word)-2]
	case hasEnding(word, "e") && silentE(word[:len(word)-1]):
		return strings.TrimSuffix(word, "e")
	}
	return word
}

// silentE reports whether an e that follows root is silent: in "car-e", not in
// "th-e", "ta-bl-e" or "tre-e".
func silentE(root string) bool {
	n := len(root)
	if n < 2 || isVowel(root, n-1) || !hasVowel(root) {
		return false
	}
	return root[n-1] != 'l' || isVowel(root, n-2)
}

func hasVowel(word string) bool {
	for i := range len(word) {
		if isVowel(word, i) {
			return true
		}
	}
	return false
}

func hasEnding(word string, ends ...string) bool {
	return slices.ContainsFunc(ends, func(end string) bool { return strings.HasSuffix(word, end) })
}

// isVowel reports whether the letter is spoken as a vowel: not the y of "yes",
// nor the u of "quick" and "guard".
func isVowel(word string, i int) bool {
	before := i+1 < len(word) && strings.IndexByte("aeiou", word[i+1]) >= 0
	switch word[i] {
	case 'a', 'e', 'i', 'o':
		return true
	case 'u':
		return !(before && i > 0 && (word[i-1] == 'q' || word[i-1] == 'g'))
	case 'y':
		return i > 0 && (!before || word[i+1] == 'i')
	}
	return false
}

// apart reports whether a vowel after another one begins a syllable of its own:
// ma-te-ri-al, u-su-al, be-ing; not in "station", "special" or "onion".
func apart(word string, i int) bool {
	rest := word[i:]
	soft := i >= 2 && strings.IndexByte("tcsgx", word[i-2]) >= 0 ||
		rest == "on" && i >= 2 && (word[i-2] == 'n' || word[i-2] == 'l')
	if strings.HasPrefix(rest, "ing") {
		return true
	}
	switch word[i-1 : i+1] {
	case "ia", "io", "iu", "eo":
		return !soft
	case "ie":
		return !soft && hasPrefix(rest, "ent", "enc", "ety")
	case "ua", "uo":
		return true
	}
	return false
}

func hasPrefix(word string, starts ...string) bool {
	return slices.ContainsFunc(starts, func(start string) bool { return strings.HasPrefix(word, start) })
}
