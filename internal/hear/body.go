package hear

import (
	"slices"
	"strings"

	"sparehand/internal/craft"
)

// The lists of the book's vocabulary of bodies, in this order: what may stand on
// a body, what a body is called, and what makes the naming of one harmless.
const (
	setting   = iota // what sets hard and hot
	scalding         // what scalds while liquid
	bodyParts        // a body's own, whoever says them
	features         // sculpted by makers: a body's own only where somebody's
	beings           // whole creatures
	players          // whom pieces are made for: bodies only where it is laid on them
	owners
	acts   // what is done with what sets
	made   // what is made or sculpted, and of what
	wares  // what else has a face or a foot
	states // how hands and heads may be
	mishaps
	wearing
	vocabulary // how many there are

	idiomRole = vocabulary
	wholeRole = vocabulary + 1 // in a name of several words: "life mask"
)

// roles says of a token which lists of the vocabulary it stands in.
type roles uint16

func (r roles) any(list ...int) bool {
	for _, role := range list {
		if r&(1<<role) != 0 {
			return true
		}
	}
	return false
}

// bodyTalk is a line judged by the vocabulary of bodies.
type bodyTalk struct {
	text   string
	tokens []token
	role   []roles
	stuff  int  // setting, or scalding where nothing that sets is named
	under  bool // what sets goes without saying
	amount bool // an amount of it is asked for
	sized  bool
}

// ontoBody reports whether a line puts on a body what sets or scalds, or asks
// how much of it one takes. under says that it is talked of already.
func (h *Hearing) ontoBody(l *line, tokens []token, p pattern, under bool) bool {
	stuff := setting
	if !under && !h.saysOne(tokens, p.groups[setting]) {
		if stuff = scalding; !h.saysOne(tokens, p.groups[scalding]) {
			return false
		}
	}
	tokens = h.inBodyWords(l, tokens, p)
	if !h.saysOne(tokens, p.groups[bodyParts:players+1]...) {
		return false
	}
	b := &bodyTalk{text: l.text, tokens: tokens, stuff: stuff, under: under,
		role: make([]roles, len(tokens))}
	h.giveRoles(b, p)
	if !under && !slices.ContainsFunc(b.role, func(r roles) bool { return r.any(stuff) }) {
		return false // "a plaster for my thumb"
	}
	b.amount, b.sized = b.asksAmount(), under || hasSize(l)
	for i := range tokens {
		if b.named(i) && b.judge(i) {
			return true
		}
	}
	return false
}

// saysOne reports whether one of the phrases of the groups is said.
func (h *Hearing) saysOne(tokens []token, groups ...[]int32) bool {
	for at := range tokens {
		for _, id := range h.heard.first[tokens[at].stem] {
			if !stemsAt(tokens, at, h.heard.phrases[id], h.heard.exact[id]) {
				continue
			}
			for _, group := range groups {
				if slices.Contains(group, id) {
					return true
				}
			}
		}
	}
	return false
}

func (h *Hearing) giveRoles(b *bodyTalk, p pattern) {
	for at := range b.tokens {
		for _, id := range h.heard.first[b.tokens[at].stem] {
			if to := phraseEnd(b.tokens, at, h.heard.phrases[id]); to > 0 {
				for role := range p.groups {
					if slices.Contains(p.groups[role], id) {
						b.give(at, to, role)
						if role == bodyParts && to-at > 1 {
							b.give(at, to, wholeRole)
						}
					}
				}
				if slices.Contains(p.unless, id) {
					b.give(at, to, idiomRole)
				}
			}
		}
	}
	for i, t := range b.tokens {
		switch {
		case b.role[i].any(wholeRole):
			b.role[i] &^= 1 << made
		case isOneOf(wordAt(b.tokens, i-1), "no", "without", "not") && !b.tokens[i-1].ends || isOneOf(wordAt(b.tokens, i-2), "no", "without", "not", "instead") && !b.tokens[i-1].ends:
			b.role[i] &^= 1 << made // "no clay"
		case t.word == "plasters" || t.word == plaster && isOneOf(wordAt(b.tokens, i-1), "a", "sticking") && !copies[wordAt(b.tokens, i+1)]:
			b.role[i] &^= 1 << setting // for a cut
		}
		if strings.HasSuffix(b.said(i), "ly") {
			b.role[i] &^= 1 << made // "wrinkly"
		}
		if t.slip && strings.Contains(b.said(i), " ") {
			b.role[i] &^= 1<<bodyParts | 1<<features // "fingers deep" heard as fingertip
		}
		if b.role[i].any(bodyParts, features) && (strings.HasSuffix(b.said(i), "ing") || strings.HasSuffix(b.said(i), "ed")) &&
			!strings.HasSuffix(b.said(i), "casting") {
			b.role[i] &^= 1<<bodyParts | 1<<features // "backed", "facing"
		}
	}
}

// copies are what "a plaster" is followed by where it is no dressing.
var copies = wordSet("mould cast casting copy mask bust print block plate mix hand foot face life body belly impression replica model of paris handprint footprint pour bath")

func (b *bodyTalk) give(from, to, role int) {
	for i := from; i < to; i++ {
		b.role[i] |= 1 << role
	}
}

// said gives a token as it was written.
func (b *bodyTalk) said(i int) string {
	if t := b.tokens[i]; t.from < t.to && t.to <= len(b.text) {
		return b.text[t.from:t.to]
	}
	return b.tokens[i].word
}

// phraseEnd gives the token after a phrase said without a gap from at on, or 0.
func phraseEnd(tokens []token, at int, stems []string) int {
	for k, stem := range stems {
		if at+k >= len(tokens) || !alarmFits(tokens[at+k], stem) || k > 0 && tokens[at+k-1].ends {
			return 0
		}
	}
	return at + len(stems)
}

// named reports whether a body is named at i and nothing of the kind right
// before: "his hand" is judged at the hand.
func (b *bodyTalk) named(i int) bool {
	r := b.role[i]
	turn := r.any(idiomRole) && !(owner(b.tokens, i-1) && isOneOf(wordAt(b.tokens, i+1), "in", "up", "down", "on", "off", "over"))
	if turn || r.any(made) || b.tokens[i].stem == "" {
		return false // "face down", but "my face down in it"
	}
	if r.any(bodyParts, features) {
		return true
	}
	return r.any(beings, players) && !b.ownsNext(i)
}

// ownsNext reports whether somebody is only named as the owner of something.
func (b *bodyTalk) ownsNext(i int) bool {
	return strings.HasSuffix(b.said(i), "'s") || strings.HasSuffix(b.said(i), "s'") ||
		i+1 < len(b.tokens) && !b.tokens[i].ends && b.role[i+1].any(bodyParts, features, made)
}

// asksAmount reports whether an amount is asked for that is not of another
// thing.
func (b *bodyTalk) asksAmount() bool {
	if b.under {
		return true
	}
	for i, t := range b.tokens {
		if t.word == "how" && isOneOf(wordAt(b.tokens, i+1), "much", "many") {
			return !otherStuff[wordAt(b.tokens, i+2)]
		}
		if isOneOf(t.word, "amount", "quantity", "enough") {
			return true
		}
	}
	return false
}

var otherStuff = wordSet("glue soap vaseline time longer gelatin glycerin sorbitol alginate clay silicone cream makeup barrier grease oil remover")

func hasSize(l *line) bool {
	if !slices.ContainsFunc(l.tokens, isCount) {
		return false
	}
	return slices.ContainsFunc(readAmounts(l), func(a amount) bool {
		return a.chain > 0 || slices.ContainsFunc(a.units, func(u craft.Unit) bool { return u.Dimension == craft.Length || u.Dimension == craft.Volume })
	})
}

// judge reports whether the body named at i is one that it is put on.
func (b *bodyTalk) judge(i int) bool {
	start, owned := b.phraseStart(i)
	part := b.role[i].any(bodyParts, features)
	toSkin := b.straight(start)
	if b.modifies(i) || b.modified(start, i) || b.ofThing(i, &owned) || b.sculpted(i, owned) || b.denied(start) || b.measures(i) ||
		b.inSome(i) || !toSkin && b.onHand(i, owned) {
		return false
	}
	if part && (b.inState(i) || b.helps(start, i) || b.feels(i)) {
		return false
	}
	if !part && b.role[i].any(features) {
		return false
	}
	if b.role[i].any(features) && !b.role[i].any(bodyParts) && !owned && !toSkin {
		return false
	}
	if b.mishap() {
		return false
	}
	if b.stuff == scalding {
		return b.scalds(start, owned)
	}
	if !b.governed(start, i, owned) {
		return false
	}
	if !part {
		return b.onBeing(start, i)
	}
	return b.amount || b.sized || toSkin || b.laid(start, i)
}

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
