package voice

import (
	"slices"
	"strings"
)

var vowels = strings.Fields("AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW")

// withoutR gives a way to say a word as in England and wherever else an r is
// only heard before a vowel: plaster ends as sofa does, and a wart rhymes with
// thought. The dictionary has American ways.
func withoutR(way string) string {
	phones := strings.Fields(way)
	said := make([]string, 0, len(phones)+1)
	for i, p := range phones {
		before := i+1 < len(phones) && slices.Contains(vowels, phones[i+1])
		switch {
		case before || p != "ER" && p != "R":
			said = append(said, p)
		case p == "ER":
			said = append(said, "AH")
		case i > 0 && slices.Contains([]string{"IH", "IY", "EH", "UH"}, phones[i-1]): // here, there, cure
			said = append(said, "AH")
		}
	}
	return strings.Join(said, " ")
}

// accents adds to the ways to say a word those of other accents.
func accents(ways []string) []string {
	for _, way := range ways[:len(ways):len(ways)] {
		if other := withoutR(way); other != "" && !slices.Contains(ways, other) {
			ways = append(ways, other)
		}
	}
	return ways
}
