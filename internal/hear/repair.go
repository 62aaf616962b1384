package hear

import (
	"slices"
	"strings"
)

// repair puts the book's words in the place of slips: words that a recogniser
// split or misheard, known slips of the trade, and misspellings. Words that
// the book or everyday English knows are left alone.
func (h *Hearing) repair(tokens []token) []token {
	tokens = h.joinSounds(slices.Clone(tokens))
	for i := range tokens {
		t := &tokens[i]
		if t.digits || t.slip {
			continue
		}
		if word := h.slipOf(tokens, i); word != "" {
			h.replace(t, word)
			continue
		}
		if t.known = h.spell.isWord(t.word) || isUnitWord(t.word); t.known || i >= maxRepairs {
			continue
		}
		if word := h.spell.nearest(t.word); word != "" {
			h.replace(t, word)
		} else if word := h.spell.heardAs(t.word); word != "" {
			h.replace(t, word)
		}
	}
	return tokens
}

// maxRepairs is how many words into an utterance misspellings are mended.
const maxRepairs = 80

func (h *Hearing) replace(t *token, word string) {
	t.first = t.word[0]
	t.word, t.stem, t.slip = word, h.stem(word), true
}

// joinSounds replaces runs of two to four words that together sound like one
// word of the trade: "sore bit all" for sorbitol. Runs that the book knows as
// neighbours are ordinary English and stay.
func (h *Hearing) joinSounds(tokens []token) []token {
	for i := 0; i < len(tokens) && i < maxRepairs; i++ {
		if i > 0 && isCount(tokens[i-1]) && isUnitWord(tokens[i].word) {
			continue // "3 ml holds" is no moulds
		}
		for n := min(4, len(tokens)-i); n >= 2; n-- {
			word := h.joined(tokens[i : i+n])
			if word == "" {
				continue
			}
			last := tokens[i+n-1]
			h.replace(&tokens[i], word)
			tokens[i].to, tokens[i].ends = last.to, last.ends
			tokens = slices.Delete(tokens, i+1, i+n)
			break
		}
	}
	return tokens
}

func (h *Hearing) joined(run []token) string {
	text := ""
	for i, t := range run {
		if t.digits || isNegator(t.word) || isNumberWord(t.word) || isArticle(t.word) || len(t.word) > 2 && isUnitWord(t.word) || bys[t.word] || t.word == "t" || i < len(run)-1 && t.ends {
			return ""
		}
		if i > 0 && (h.pairs[pair{run[i-1].stem, t.stem}] || h.bayes.neighbours(run[i-1], t)) {
			return ""
		}
		text += t.word
	}
	if len(run) == 2 && run[0].from == run[1].from {
		return "" // the two halves of a contraction
	}
	if _, known := h.spell.known[text]; known {
		return text
	}
	found := h.spell.heardAs(text)
	if strings.HasPrefix(found, run[0].word) || light[found] || isNegator(found) {
		return "" // "dust in" is not dusting
	}
	if i, known := h.spell.known[found]; known && !h.spell.words[i].trade {
		return "" // "cold shed" is not collapsed: only words of answers are put together
	}
	return found
}

// neighbours reports whether the sayings hold the two words side by side.
func (b *bayes) neighbours(one, two token) bool {
	own := hash(hash(fnvOffset, string(wordGram)), one.stem)
	_, known := b.features[hash(hash(own, " "), two.stem)]
	return known
}

func isArticle(word string) bool {
	switch word {
	case "the", "a", "an", "my", "your", "his", "her", "our", "their", "is", "are", "was", "it", "i", "and":
		return true
	}
	return false
}

// slipOf gives the trade's word for one that a recogniser puts in its place
// wherever its neighbours show that it was meant, or "".
func (h *Hearing) slipOf(tokens []token, i int) string {
	for _, s := range slips {
		if tokens[i].word != s.heard {
			continue
		}
		if _, known := h.spell.known[s.meant]; known && s.fits(tokens, i) {
			return s.meant
		}
	}
	return ""
}

type slip struct {
	heard, meant string
	fits         func(tokens []token, i int) bool
}

// slips are common practice, no source: homophones that offline recognisers
// write for the words of this trade.
var slips = []slip{
	{"damn", "dam", isNoun}, {"damned", "dam", isNoun}, {"mode", "mould", always}, {"mole", "mould", isNoun}, {"modes", "mould", always},
	{"blew", "glue", isNoun}, {"jell", "gel", always}, {"plastic", "plaster", isPoured}, {"caste", "cast", always}, {"plasta", "plaster", always},
	{"leek", "leak", always}, {"leeks", "leaks", always}, {"leeking", "leaking", always}, {"seem", "seam", isNoun},
}

func always([]token, int) bool { return true }

// isNoun: an article or nothing before it, and a verb or nothing after it.
func isNoun(tokens []token, i int) bool {
	if i == 0 {
		return i+1 < len(tokens) && !tokens[i].ends && followsNoun(tokens[i+1].word)
	}
	if !isArticle(tokens[i-1].word) && tokens[i-1].word != "clay" {
		return false
	}
	return i+1 == len(tokens) || tokens[i].ends || followsNoun(tokens[i+1].word)
}

// isPoured: "plastic" that pours, sets or mixes is plaster.
func isPoured(tokens []token, i int) bool {
	for j := max(0, i-3); j < min(len(tokens), i+4); j++ {
		switch tokens[j].stem {
		case "pour", "set", "mix", "powder", "slurri":
			return true
		}
	}
	return false
}

func followsNoun(word string) bool {
	switch word {
	case "is", "was", "has", "will", "does", "did", "keeps", "gave", "broke", "leaks", "leaked", "leaking", "burst",
		"collapsed", "fell", "are", "wall", "cracked", "split", "sprung", "failed", "and", "got", "came", "sticks", "shows":
		return true
	}
	return false
}
