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
