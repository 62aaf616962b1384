package hear

import "strings"

// idioms are turns of speech whose words mean none of what they name. (Common
// practice, no source.)
var idioms = [][]string{
	strings.Fields("elbow grease"), strings.Fields("rule of thumb"), strings.Fields("piece of cake"),
	strings.Fields("pinch of salt"), strings.Fields("glued to the"),
}

// withoutIdioms leaves the idioms out: no grease is meant by "elbow grease".
func withoutIdioms(tokens []token) []token {
	var kept []token
	for i := 0; i < len(tokens); {
		n := longestAt(tokens, i, idioms)
		if n == 0 {
			kept = append(kept, tokens[i])
			n = 1
		}
		i += n
	}
	return kept
}
