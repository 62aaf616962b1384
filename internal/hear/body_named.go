package hear

import (
	"slices"
	"strings"
)

// adjectives may stand between an owner and a part.
var adjectives = wordSet(`left right whole entire full other both two big little small large broken upper lower top middle index ring new old poor
long sore dry wet hairy fat thin bare clean own young pet live real actual first second very same each every size sized
a an the this that these those some one of's`)

// phraseStart gives where the phrase begins that names the body at i, and
// whether it tells whose the body is.
func (b *bodyTalk) phraseStart(i int) (start int, owned bool) {
	start = i
	for start > 0 && !b.tokens[start-1].ends {
		w, r := b.tokens[start-1].word, b.role[start-1]
		switch {
		case r.any(made, wares, setting) || prepositions[w]:
			return start, owned || b.looselyOwned(start, i)
		case r.any(owners), r.any(beings, players) && w != "me", strings.HasSuffix(b.said(start-1), "'s") && !isPronoun(w):
			owned = true
		case adjectives[w], r.any(bodyParts, features), isCount(b.tokens[start-1]):
		case r == 0 && start > 1 && !light[w] && !laying[w] && (articles[b.tokens[start-2].word] || owner(b.tokens, start-2)):
			// "an adult foot"
		default:
			return start, owned || b.looselyOwned(start, i)
		}
		start--
	}
	return start, owned
}

var (
	prepositions = wordSet("for of on onto over round around about in into inside to with by from at under against across upon through up off near between along and or")
	articles     = wordSet("a an the this that")
)

// looselyOwned hears an owner past a word that is not known: "my wrinkly chin".
func (b *bodyTalk) looselyOwned(start, i int) bool {
	for j := start - 1; j >= max(0, start-2) && i-j <= 4 && !b.tokens[j].ends; j-- {
		w, r := b.tokens[j].word, b.role[j]
		if r.any(owners) && w != "me" {
			return true
		}
		if r.any(made, wares, setting, acts) || prepositions[w] || articles[w] || light[w] {
			return false
		}
	}
	return false
}

// straight reports whether something goes straight on what begins at start.
func (b *bodyTalk) straight(start int) bool {
	if isOneOf(wordAt(b.tokens, start-1), "straight", "directly") {
		return true // its "on" may have been taken for part of a time of day
	}
	if !isOneOf(wordAt(b.tokens, start-1), "on", "onto", "over", "to", "against", "at", "in", "round", "around") {
		return false
	}
	return isOneOf(wordAt(b.tokens, start-2), "straight", "directly", "direct", "right")
}

// modifies: "a nose piece", "cheek rope scar".
func (b *bodyTalk) modifies(i int) bool {
	if b.tokens[i].ends || i+1 >= len(b.tokens) {
		return false
	}
	if b.role[i+1].any(made) {
		return true
	}
	w := b.tokens[i+1].word
	return i+2 < len(b.tokens) && b.role[i+2].any(made) && !b.tokens[i+1].ends && !prepositions[w] && !light[w] && !b.role[i+1].any(setting, acts, bodyParts)
}

// modified: "a clay nose", "the mould's face", "a dummy hand".
func (b *bodyTalk) modified(start, i int) bool {
	from := max(0, start-1)
	if b.role[start].any(owners) || articles[b.tokens[start].word] || b.tokens[start].word == "the" {
		from = start // "mould my face" is no face of a mould
	}
	for j := from; j < i; j++ {
		if b.role[j].any(made, wares) && !b.tokens[j].ends && (j >= start || !b.role[j].any(bodyParts)) {
			return true
		}
	}
	return false
}

// ofThing: "the foot of the wall". Of a creature, or of mine, it is owned.
func (b *bodyTalk) ofThing(i int, owned *bool) bool {
	if b.tokens[i].ends || wordAt(b.tokens, i+1) != "of" {
		return false
	}
	for j := i + 2; j < min(len(b.tokens), i+6); j++ {
		switch r := b.role[j]; {
		case r.any(beings, players, owners, bodyParts):
			*owned = true
			return false
		case r.any(made, wares, setting):
			return true
		}
		if b.tokens[j].ends {
			break
		}
	}
	return !b.role[i].any(bodyParts)
}

// sculpted: a part may be told afterwards to be made: "a hand that I sculpted", "in clay".
func (b *bodyTalk) sculpted(i int, owned bool) bool {
	for j := i + 1; j < min(len(b.tokens), i+7); j++ {
		w := b.tokens[j].word
		switch {
		case b.role[j].any(made):
			return true
		case !owned && isOneOf(w, "plate", "board", "tile"):
			return true
		case b.role[j].any(bodyParts, features) && wordAt(b.tokens, j-1) == "and":
		case !(between[w] || light[w]) || isOneOf(w, "with", "for", "to", "and"):
			return false
		}
	}
	return false
}

var between = wordSet("which that out of on in from pressed made whole flat lying")

// denied: "not for a hand", "nothing on skin", "instead of his face".
func (b *bodyTalk) denied(start int) bool {
	for j := start - 1; j >= max(0, start-5) && !b.tokens[j].ends; j-- {
		w := b.tokens[j].word
		switch {
		case isOneOf(w, "not", "nothing", "never", "no", "without", "nobody", "than"):
			return !isOneOf(wordAt(b.tokens, j-1), "can", "could", "why", "is", "should") || j == start-1 || wordAt(b.tokens, j-1) == "is" && j > 1
		case w == "of" && wordAt(b.tokens, j-1) == "instead":
			return true
		case !(prepositions[w] || articles[w] || isOneOf(w, "really", "actually", "going", "meant", "it", "any", "straight", "directly", "being", "put", "used", "cast", "is")):
			return false
		}
	}
	return false
}

// measures: "two fingers deep".
func (b *bodyTalk) measures(i int) bool {
	return isOneOf(b.tokens[i].stem, "finger", "hand", "thumb", "knuckl", "palm") && isOneOf(wordAt(b.tokens, i+1), "deep", "thick", "wide", "high", "tall", "across") && !isCount(token{word: wordAt(b.tokens, i+2)}) && !owner(b.tokens, i-1)
}

func owner(tokens []token, i int) bool {
	return isOneOf(wordAt(tokens, i), "my", "his", "her", "their", "your")
}

// inSome: "his hand in alginate" and prints pressed in clay are moulds already.
func (b *bodyTalk) inSome(i int) bool {
	return isOneOf(wordAt(b.tokens, i+1), "in", "into") && i+2 < len(b.tokens) && b.role[i+2].any(made)
}

// onHand: "the plaster I have on hand".
func (b *bodyTalk) onHand(i int, owned bool) bool {
	return b.tokens[i].word == "hand" && !owned && wordAt(b.tokens, i-1) == "on" &&
		slices.ContainsFunc(b.tokens[:i], func(t token) bool { return isOneOf(t.word, "have", "got", "keep", "left") })
}

// inState: "my hands are full".
func (b *bodyTalk) inState(i int) bool {
	for j := i + 1; j < min(len(b.tokens), i+5) && !b.tokens[j-1].ends; j++ {
		if b.role[j].any(states) {
			return true
		}
		if !isOneOf(b.tokens[j].word, "is", "are", "was", "were", "get", "gets", "got", "getting", "feel", "feels", "so", "too", "all", "really", "very", "always", "keep", "keeps", "both", "still", "a", "bit", "have", "am", "will", "not", "going", "went", "be", "and", "from", "do") {
			return false
		}
	}
	return false
}

// helps: "with my hands", "by my own hand".
func (b *bodyTalk) helps(start, i int) bool {
	if isOneOf(wordAt(b.tokens, start-1), "with", "by", "between", "from") {
		return !isOneOf(wordAt(b.tokens, i+1), "in", "inside", "into")
	}
	return isOneOf(wordAt(b.tokens, start-1), "use", "using", "wash", "dry", "wipe", "grease", "burn") && !b.amount && !b.sized
}

// feels: "put my hand on the plaster" is to feel how warm it is.
func (b *bodyTalk) feels(i int) bool {
	return !b.amount && !b.sized && isOneOf(wordAt(b.tokens, i+1), "on", "against") && (wordAt(b.tokens, i+2) == plaster || wordAt(b.tokens, i+3) == plaster)
}
