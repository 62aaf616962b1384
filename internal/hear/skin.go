package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
)

// contactFact is the temperature of what touches skin.
const contactFact = "contact_c"

var (
	skinParts = wordSet(`skin face cheek chin nose forehead neck arm hand finger leg him her me myself himself herself somebody someone actor actors lip`)
	laid      = wordSet("put brush paint pour apply dab stipple lay wear")
	burns     = wordSet("burn scald redden")
	hurtPast  = wordSet("burned burnt burning burns scalded scalding blistered blistering hurts hurting screaming help got spilled splashed bleeding")
	wondering = wordSet("will would can could does do is may might should")
)

// heatOnSkin hears a question whether something of a temperature may go on
// skin, or burns it: "can I brush it on his face at 50 degrees". It gives the
// temperature, and the sum that works with it, or nil.
func (h *Hearing) heatOnSkin(l *line) (*book.Amount, amount) {
	f := h.factNamed(contactFact)
	if f == nil || !l.asks() || slices.ContainsFunc(l.tokens, func(t token) bool { return t.word == plaster }) || !l.meetsSkin() || l.asksAfterSomebody() {
		return nil, amount{}
	}
	at := slices.IndexFunc(h.book.Amounts, func(a *book.Amount) bool { return h.reached[a.ID][f.ID] })
	list := l.amounts()
	hot := slices.IndexFunc(list, isTemperature)
	if hot < 0 {
		hot = slices.IndexFunc(list, func(a amount) bool {
			return len(a.units) == 0 && a.chain == 0 && wordAt(l.tokens, a.from-1) == "at"
		})
	}
	if at < 0 || hot < 0 || !dimensionFits(f, list[hot]) {
		return nil, amount{}
	}
	return h.book.Amounts[at], list[hot]
}

func isTemperature(a amount) bool {
	return slices.ContainsFunc(a.units, func(u craft.Unit) bool { return u.Dimension == craft.Temperature })
}

// meetsSkin reports whether the line speaks of something laid on skin, or
// burning it.
func (l *line) meetsSkin() bool {
	if l.fearsBurn() {
		return true
	}
	for i, t := range l.tokens {
		switch {
		case t.word == "skin", t.word == "touch" && isOneOf(wordAt(l.tokens, i+1), "it", "this", "that"):
			return true
		case skinParts[t.word]:
			for j := max(0, i-3); j < i; j++ {
				if isOneOf(l.tokens[j].word, "on", "onto", "over", "against", "touch", "touches", "hurt", "burn", "scald", "harm") && !l.endsBetween(j, i) {
					return true
				}
			}
		case laid[t.word] && l.laidAt(i+1):
			return true
		}
	}
	return false
}

// laidAt reports whether something is laid on or worn at a temperature: "put it
// on at 42". i is the token after the verb.
func (l *line) laidAt(i int) bool {
	if isOneOf(wordAt(l.tokens, i), "it", "this", "that") {
		i++
	}
	worn := wordAt(l.tokens, i-1) != "on" && l.saysAny(max(0, i-2), i, "wear")
	if wordAt(l.tokens, i) == "on" {
		i++
	} else if !worn {
		return false
	}
	return i == len(l.tokens) || isOneOf(wordAt(l.tokens, i), "at", "when", "if")
}

// asks reports whether the line holds a question.
func (l *line) asks() bool {
	for i, t := range l.tokens {
		if askingWords[t.word] && (i == 0 || l.tokens[i-1].ends) || t.word == "how" {
			return true
		}
	}
	return l.inverted(0, len(l.tokens)) || l.opensWithVerb()
}

// opensWithVerb: "is 45 degrees all right".
func (l *line) opensWithVerb() bool {
	i := 0
	for i < len(l.tokens) && courtesies[l.tokens[i].word] && !askingVerbs[l.tokens[i].word] {
		i++
	}
	return askingVerbs[wordAt(l.tokens, i)] && wordAt(l.tokens, i+1) != "not"
}

// mostWondered is how many tokens a mere question about burning has.
const mostWondered = 12

// asksAfterSomebody reports whether the question is how somebody fares: "will
// he be all right".
func (l *line) asksAfterSomebody() bool {
	for i, t := range l.tokens {
		if askingVerbs[t.word] && isOneOf(wordAt(l.tokens, i+1), "he", "she", "they", "somebody", "someone") {
			return true
		}
	}
	return false
}

// fearsBurn reports whether all of the line wonders if something will burn, so
// that nothing has happened yet: "will it burn me at 60 degrees".
func (l *line) fearsBurn() bool {
	feared := false
	for i, t := range l.tokens {
		if hurtPast[l.said(i, i+1)] || hurtPast[t.word] || t.ends && i < len(l.tokens)-1 {
			return false
		}
		feared = feared || burns[t.word]
	}
	i := 0
	for i < len(l.tokens) && courtesies[l.tokens[i].word] && !wondering[l.tokens[i].word] {
		i++
	}
	return feared && wondering[wordAt(l.tokens, i)] && !l.asksAfterSomebody() && len(l.tokens) <= mostWondered
}
