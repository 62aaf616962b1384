package hear

import "strings"

// sound writes a word roughly as it is heard, so that a recogniser's slip and
// the word it slipped from come out close: "jelly" and "gela" both begin jel.
func sound(word string) string {
	word = soundEnds(soundGroups.Replace(word))
	out := make([]byte, 0, len(word))
	for i := range len(word) {
		c := soundLetter(word, i)
		if c == 0 || len(out) > 0 && out[len(out)-1] == c {
			continue
		}
		out = append(out, c)
	}
	return string(out)
}

var soundGroups = strings.NewReplacer(
	"ough", "u", "igh", "i", "tch", "j", "sch", "sk", "ch", "j", "sh", "s", "dge", "j", "ph", "f", "ck", "k",
	"wh", "w", "qu", "kw", "gh", "g", "th", "t", "stle", "sl", "sten", "sen", "ould", "old", "eau", "o",
	"oo", "u", "ew", "u", "ou", "u", "ee", "i", "ea", "i", "ie", "i", "ai", "e", "ay", "e", "ey", "i", "au", "o", "aw", "o",
)

func soundEnds(word string) string {
	for _, silent := range []string{"kn", "gn", "wr"} {
		if strings.HasPrefix(word, silent) {
			word = word[1:]
		}
	}
	if strings.HasSuffix(word, "mb") || strings.HasSuffix(word, "mn") {
		word = word[:len(word)-1]
	}
	if len(word) > 3 {
		word = strings.TrimSuffix(word, "e")
	}
	return word
}

func soundLetter(word string, i int) byte {
	c := word[i]
	soft := i+1 < len(word) && strings.IndexByte("eiy", word[i+1]) >= 0
	switch c {
	case 'c':
		if soft {
			return 's'
		}
		return 'k'
	case 'g':
		if soft {
			return 'j'
		}
	case 'q':
		return 'k'
	case 'z', 'x':
		return 's'
	case 'y':
		return 'i'
	case 'h', '\'':
		return 0
	case 'd':
		return 't'
	case 'b':
		return 'p'
	case 'v':
		return 'f'
	}
	return c
}

// consonants keeps the first letter of a sound and its consonants.
func consonants(sound string) string {
	out := make([]byte, 0, len(sound))
	for i := range len(sound) {
		if i > 0 && strings.IndexByte("aeiou", sound[i]) >= 0 {
			continue
		}
		if n := len(out); n == 0 || out[n-1] != sound[i] {
			out = append(out, sound[i])
		}
	}
	return string(out)
}
