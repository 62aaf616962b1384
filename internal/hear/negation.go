package hear

func isNegator(word string) bool {
	switch word {
	case "not", "no", "never", "without", "neither", "nor", "nothing", "nobody", "none", "hardly", "barely", "nowhere":
		return true
	}
	return false
}

// reach is how many words of content a "not" reaches over.
const reach = 4

// exclaims reports whether the "no" at i is an answer of its own and not a
// word that denies the next one: "no, it is", "no wait", but "no bubbles".
func exclaims(tokens []token, i int) bool {
	if tokens[i].word != "no" {
		return false
	}
	if tokens[i].ends || i+1 == len(tokens) {
		return true
	}
	if i > 0 && !tokens[i-1].ends && !startsTurn[tokens[i-1].word] {
		return false
	}
	switch tokens[i+1].word {
	case "it", "i", "we", "he", "she", "they", "that", "there", "this", "the", "my", "wait", "actually", "sorry", "not",
		"no", "yes", "but", "just", "because", "only", "a", "all", "you", "its", "these", "those", "and", "never", "nothing":
		return true
	}
	return false
}

// startsTurn are words that may stand before an answering no or yes.
var startsTurn = map[string]bool{"um": true, "er": true, "erm": true, "uh": true, "well": true, "oh": true, "no": true,
	"hm": true, "hmm": true, "so": true, "ah": true, "wait": true, "ok": true, "okay": true, "sorry": true, "yes": true}

// turns reports whether what follows the word is another statement, which a
// "not" before it does not reach.
func turns(word string) bool {
	switch word {
	case "but", "because", "although", "though", "instead", "rather", "just", "only", "then", "so", "while", "however", "yet":
		return true
	}
	return false
}
