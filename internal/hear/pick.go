package hear

import (
	"slices"
	"strconv"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/craft"
)

// fillers stand around the number of an option: "I'd say number two please".
var fillers = wordSet(`the number option answer choice it is i pick choose please that would be say go with for um er well
oh think think probably maybe its yes yeah ok okay definitely one's mine am going an so`)

var ordinals = map[string]int{
	"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "1st": 1, "2nd": 2, "3rd": 3, "4th": 4,
	"5th": 5, "6th": 6, "former": 1, "a": 1, "b": 2, "c": 3, "d": 4, "e": 5, "f": 6,
	"won": 1, "to": 2, "too": 2, "tree": 3, "for": 4,
}

// index reads the whole line as the number of one of n options, 1-based; 0
// when it is not one.
func index(l *line, n int) int {
	var rest []token
	for _, t := range l.tokens {
		if !fillers[t.word] || len(l.tokens) == 1 {
			rest = append(rest, t)
		}
	}
	if len(rest) == 2 && rest[1].word == "one" {
		rest = rest[:1]
	}
	if len(rest) != 1 {
		return 0
	}
	word := rest[0].word
	k := ordinals[word]
	if x, ok := smallNumbers[word]; ok {
		k = int(x)
	}
	if rest[0].digits {
		k, _ = strconv.Atoi(word)
	}
	if word == "last" || word == "latter" && n == 2 {
		k = n
	}
	if len(word) == 1 && word[0] >= 'a' && len(l.tokens) > 2 {
		return 0
	}
	if k < 1 || k > n {
		return 0
	}
	return k
}

// isNone: "none of these", "neither".
func isNone(l *line) bool {
	for i, t := range l.tokens {
		if i > 3 {
			return false
		}
		if t.word == "neither" || t.word == "none" {
			return true
		}
	}
	return false
}

// pickOption reads the line as one of the options shown, 1-based, or 0.
func (h *Hearing) pickOption(options []book.Option, l *line) int {
	if n := index(l, len(options)); n > 0 {
		return n
	}
	best, found, tie := 0, 0, false
	for i, o := range options {
		score := h.likeness(o, l)
		switch {
		case score > best:
			best, found, tie = score, i+1, false
		case score == best && score > 0:
			tie = true
		}
	}
	if tie || best == 0 {
		return 0
	}
	return found
}

// pickUnit reads a line that is nothing but a unit as the one option that is
// told in it, 1-based, or 0: "cm" for "6 by 4 by 1 centimetres".
func (h *Hearing) pickUnit(options []book.Option, l *line) int {
	var unit []craft.Unit
	for i := 0; i < len(l.tokens); {
		units, end := readUnit(l.tokens, i)
		switch word := l.tokens[i].word; {
		case units != nil && unit == nil && word != "in":
			unit, i = units, end
		case light[word] || fillers[word] || courtesies[word] || isNegator(word) || word == "wait":
			i++
		default:
			return 0
		}
	}
	found := 0
	for n, o := range options {
		tokens := tokenise(fold(o.Label), h.stem)
		told := slices.ContainsFunc(readAmounts(newLine("", tokens)), func(a amount) bool {
			return slices.ContainsFunc(a.units, func(u craft.Unit) bool { return slices.Contains(unit, u) })
		})
		if told && found > 0 {
			return 0
		} else if told {
			found = n + 1
		}
	}
	return found
}

// likeness counts what the line shares with an option: whole phrases count
// most, then single words of meaning.
func (h *Hearing) likeness(o book.Option, l *line) int {
	best := 0
	for _, s := range append([]string{o.Label, strings.ReplaceAll(o.Value, "-", " ")}, o.Says...) {
		words := h.phraseOf(s)
		if len(words) == 0 {
			continue
		}
		shared := 0
		for _, w := range words {
			shared += l.holds(w)
		}
		if shared == len(words) {
			shared += 10
		}
		best = max(best, shared)
	}
	if best < 10 && 2*best < len(l.words) {
		return 0 // most of the line is about something else
	}
	return best
}

// holds is 1 when the stem is said and not denied.
func (l *line) holds(stem string) int {
	for i, w := range l.words {
		if w.stem == stem && !w.negate && !l.denied(i) {
			return 1
		}
	}
	return 0
}
