package hear

import "slices"

// intentions open a wish to lay something on.
var (
	intentions = wordSet("can could may should want safe ok okay going gonna let let's will plan fine allowed might dare alright")
	laying     = wordSet(`pour put dip stick cast mould cover wrap coat leave lay spread brush paint slap smear press encase make build apply use do
plaster plastering casting moulding dunk plunge drop keep place dribble ladle spoon pack slop stand go put puts dips pouring putting dipping
covering wrapping stay stays`)
)

// mishap reports whether the line tells that it got on somebody, or asks how it
// comes off, rather than wants it there.
func (b *bodyTalk) mishap() bool {
	if b.amount && !b.under || b.sized && !b.under {
		return false
	}
	told := false
	for i := range b.tokens {
		told = told || b.role[i].any(mishaps)
		if intentions[b.tokens[i].word] {
			for j := i + 1; j < min(len(b.tokens), i+6); j++ {
				if laying[b.tokens[j].word] && !b.role[j].any(mishaps) && !isOneOf(b.tokens[j].word, "make", "do", "use", "take") {
					return false
				}
			}
		}
	}
	return told
}

// governed reports whether what the body at start is named for is what sets:
// the nearest thing said before it, else after it.
func (b *bodyTalk) governed(start, i int, owned bool) bool {
	laidOn := isOneOf(wordAt(b.tokens, start-1), "on", "onto", "over", "round", "around", "upon", "against")
	joined := start > 1 && isOneOf(b.tokens[start-1].word, "and", "or", "plus", "also") && !b.role[start-2].any(bodyParts, features)
	for j := start - 1; j >= 0; j-- {
		r := b.role[j]
		if r.any(idiomRole) && !r.any(setting) {
			continue
		}
		switch {
		case r.any(setting):
			return true
		case r.any(acts) && b.madeOf(j):
			return false
		case r.any(acts) && (b.tokens[j].word != "pour" || laidOn || isOneOf(wordAt(b.tokens, start-1), "in", "into")):
			return true
		case r.any(wearing):
			return false
		case r.any(made):
			if joined && owned || b.copied(j, start, owned) || owned && j == start-1 && b.tokens[j].ends {
				return true
			}
			return laidOn && owned && b.laidUnder(j)
		}
	}
	return !b.gets(i)
}

// copied: "a mask of my face" is taken from it.
func (b *bodyTalk) copied(j, start int, owned bool) bool {
	return owned && wordAt(b.tokens, start-1) == "of" && j == start-2 && isOneOf(b.tokens[j].word, "mask", "bust", "statue")
}

// madeOf: "the alginate mould of his hand" is no body any more.
func (b *bodyTalk) madeOf(j int) bool {
	if b.tokens[j].word != "of" {
		return false
	}
	for j > 0 && b.role[j].any(acts) {
		j--
	}
	return b.role[j].any(made)
}

// laidUnder: plaster over the clay that is on somebody.
func (b *bodyTalk) laidUnder(j int) bool {
	for j > 0 && (b.role[j].any(made) || adjectives[b.tokens[j].word] || b.role[j].any(features)) {
		j--
	}
	return isOneOf(b.tokens[j].word, "over", "onto", "round", "around") || b.tokens[j].word == "on" && isOneOf(wordAt(b.tokens, j-1), plaster, "it", "pour")
}

// gets: "his cheek gets a barnacle".
func (b *bodyTalk) gets(i int) bool {
	for j := i + 1; j < len(b.tokens); j++ {
		if b.role[j].any(setting, acts) {
			return false
		}
		if b.role[j].any(made) {
			return true
		}
	}
	return false
}

// onBeing: laid on a creature, taken of it, or so much for it.
func (b *bodyTalk) onBeing(start, i int) bool {
	before := wordAt(b.tokens, start-1)
	player := b.role[i].any(players) && !b.role[i].any(beings)
	switch {
	case isOneOf(before, "on", "onto", "over", "round", "around", "upon", "against"):
		return b.amount || b.sized || b.straight(start) || b.laid(start, i)
	case isOneOf(before, "of") && (b.amount || b.sized || b.laid(start, i)):
		return !isOneOf(b.tokens[i].word, "them", "us", "you")
	case before == "for" && wordAt(b.tokens, i+1) == "who":
		return false
	case before == "for":
		return !player && (b.amount || b.sized) || !player && b.role[max(0, start-2)].any(setting)
	case before == plaster && !b.plasters(start-1):
		return false
	case isOneOf(before, "cast", "dip", "plaster", "cover", "wrap", "mould", "lifecast", "dunk", "casting", "plastering", "covering", "wrapping", "encase", "bury", "coat", "submerge", "mummify", "immerse"):
		return true
	}
	for j := i + 1; j <= i+2 && j < len(b.tokens); j++ {
		if isOneOf(b.tokens[j].word, "touch", "dip", "dips", "dipped", "touches") {
			return true
		}
	}
	return false
}

// laid reports whether words of laying stand by a body, so that no amount need
// be asked for.
func (b *bodyTalk) laid(start, i int) bool {
	before := wordAt(b.tokens, start-1)
	if before == "for" && isOneOf(wordAt(b.tokens, start-2), "safe", "ok", "okay", "fine") {
		return true
	}
	if isOneOf(before, "for", "of") && !isOneOf(wordAt(b.tokens, start-2), "bad", "good", "harsh", "rough", "hard", "bit", "lots", "some") {
		return b.under || b.role[max(0, start-2)].any(setting, acts) || b.lays(0, start)
	}
	if isOneOf(before, "on", "onto", "over", "against", "to") && slices.ContainsFunc(b.tokens, func(t token) bool { return isOneOf(t.word, "safe", "ok", "okay", "fine", "allowed", "alright") }) {
		return true
	}
	if !b.tokens[i].ends && isOneOf(wordAt(b.tokens, i+1), "casting", "moulding") {
		return true
	}
	for j := 0; j+1 < start && isOneOf(before, "on", "onto", "over", "round", "around"); j++ {
		if b.tokens[j].word == "how" && isOneOf(b.tokens[j+1].word, "thick", "thickly", "long", "deep") {
			return true
		}
	}
	return b.lays(0, start) || b.lays(i+1, min(len(b.tokens), i+6)) || b.role[i].any(bodyParts) && isOneOf(b.tokens[i].stem, "lifecast", "handcast", "facecast", "handprint", "footprint", "pawprint", "skin") && b.asks()
}

// lays reports whether among some tokens something is meant to be laid on or
// taken from somebody: what only tells of plaster that is touched is no wish.
func (b *bodyTalk) lays(from, to int) bool {
	for j := max(0, from); j < to; j++ {
		w := b.tokens[j].word
		switch {
		case b.role[j].any(idiomRole):
		case b.role[j].any(acts):
			return true
		case laying[w] && (w != plaster || b.plasters(j)) && b.meant(j):
			return true
		}
	}
	return false
}

// meant reports whether a verb is wished or asked for, or ordered: "can i put",
// "how long do i keep", "make a cast".
func (b *bodyTalk) meant(j int) bool {
	if j == 0 || b.under {
		return true
	}
	for k := j - 1; k >= max(0, j-5); k-- {
		w := b.tokens[k].word
		if k < j-1 && b.tokens[k].ends {
			return false
		}
		if w == "not" {
			return false
		}
		if intentions[w] || isOneOf(w, "how", "like") || k == j-1 && (isOneOf(w, "to", "and", "just") || isOneOf(w, "i", "we") && isOneOf(b.tokens[j].word, "cast", "mould", "dip", "cover", "wrap")) {
			return true
		}
	}
	return false
}

// plasters reports whether "plaster" is what is done: "i plaster his face".
func (b *bodyTalk) plasters(j int) bool {
	if j+1 >= len(b.tokens) || !b.role[j+1].any(owners, beings, bodyParts) && !isOneOf(b.tokens[j+1].word, "a", "the", "over", "up") {
		return false
	}
	w := wordAt(b.tokens, j-1)
	return j == 0 && b.role[1].any(owners) || intentions[w] || isOneOf(w, "i", "to", "we", "just")
}

func (b *bodyTalk) asks() bool {
	return len(b.tokens) > 0 && intentions[b.tokens[0].word] || slices.ContainsFunc(b.tokens, func(t token) bool { return isOneOf(t.word, "can", "could", "safe", "ok", "how", "should") })
}

// scalds: what is liquid and hot is laid on somebody, or they are put in it.
func (b *bodyTalk) scalds(start int, owned bool) bool {
	at := isOneOf(wordAt(b.tokens, start-1), "on", "onto", "over", "round", "around", "upon", "against")
	hot, laid, said := false, false, false
	for j := range b.tokens {
		w, r := b.tokens[j].word, b.role[j]
		said = said && !r.any(made, wearing) || r.any(scalding)
		switch {
		case isOneOf(w, "dip", "dipping", "dunk", "plunge", "submerge", "immerse") && j < start && !r.any(idiomRole):
			return !isOneOf(wordAt(b.tokens, start-1), "with", "for")
		case r.any(mishaps), j == start && !said:
			return false // "a gelatin piece on her face"
		case j >= start && r.any(made, wearing):
			return false
		}
		hot = hot || isOneOf(w, "hot", "melted", "molten", "boiling", "warm", "heat", "liquid", "straight", "directly", "freshly") ||
			w == "melt" && wordAt(b.tokens, j-1) == "the"
		laid = laid || j < start && isOneOf(w, "pour", "pouring", "paint", "brush", "ladle", "spoon", "spread", "drip", "drizzle", "pipe", "put", "slap", "dab", "warm", "heat", "build")
	}
	return at && hot && laid
}
