package hear

import (
	"slices"
	"strings"
)

// thing is what the words before a size speak of last.
type thing uint8

const (
	nothingNamed thing = iota
	ofPiece
	ofContainer
)

func thingBefore(l *line, from, to int) thing {
	last := nothingNamed
	for _, t := range l.tokens[min(from, to):to] {
		switch word := singular(t.word); {
		case t.word == "for":
			last = nothingNamed // "a one litre bowl for 6 by 4 inches"
		case containers[word]:
			last = ofContainer
		case isOneOf(word, "piece", "sculpt", "cast", "copy", "prosthetic", "appliance"):
			last = ofPiece
		}
	}
	return last
}

// inContainer reports whether a container is named right after the chain that
// begins with list[i], as in "6 by 4 inch tray".
func (l *line) inContainer(list []amount, i int) bool {
	to := list[i].to
	for j := i + 1; j < len(list) && list[j].chain > list[j-1].chain && list[j-1].chain > 0; j++ {
		to = list[j].to
	}
	for k := to; k < len(l.tokens) && k < to+3 && !l.tokens[k-1].ends; k++ {
		word := l.tokens[k].word
		if isOneOf(word, "in", "into", "for", "from", "and") {
			return false
		}
		if containers[singular(word)] {
			return true
		}
	}
	return false
}

func singular(word string) string { return strings.TrimSuffix(word, "s") }

// axesOf gives the ways that list[i] measures: none where it is no size, two
// for "4 inches square".
func (h *Hearing) axesOf(c Context, l *line, found []match, list []amount, i int, prefixed bool, sizes []size) []axis {
	a := list[i]
	if a.chain == 0 && h.namesAnother(c, l, found, list, i) {
		return nil
	}
	ax := suffixAxis(l, a)
	if before := prefixAxis(l, a); a.chain == 0 && before < axes && (prefixed || ax == axes) {
		ax = before
	}
	switch {
	case ax < axes:
		return []axis{ax}
	case a.chain > 0:
		return []axis{axis(a.chain - 1)}
	case len(a.units) == 0 && len(sizes) == 0:
		return nil
	case wordAt(l.tokens, a.to) == "square":
		return []axis{lengthwise, widthwise}
	case i > 0 && list[i-1].chain == 2 && len(a.units) > 0 && a.from-list[i-1].to <= 1:
		return []axis{upright} // "6 by 4 inches and an inch"
	case saysRound(l, a) && len(a.units) > 0:
		return []axis{across}
	}
	return nil
}

// namesAnother reports whether the amount is called something that is no size
// of the piece or the tray: a skirt, a wall.
func (h *Hearing) namesAnother(c Context, l *line, found []match, list []amount, i int) bool {
	if h.saidOfOther(l, list, i) {
		return true
	}
	named := h.namesOf(c, l, found, list[i])
	return len(named) > 0 && !slices.ContainsFunc(named, func(v match) bool { return h.isSize(&h.book.Facts[v.phrase.fact]) })
}

// saidOfOther reports whether list[i] is said of a thing that is neither the
// piece nor the tray.
func (h *Hearing) saidOfOther(l *line, list []amount, i int) bool {
	at := l.subject(l.sameSubject(list, i))
	return at >= 0 && h.otherThings[l.tokens[at].stem]
}

// sameSubject gives the first of the amounts that end with list[i] and are said
// of one thing: a foot in "the wall is a foot long and half a foot wide".
func (l *line) sameSubject(list []amount, i int) amount {
	for i > 0 {
		from := list[i-1].to
		if _, ok := axisWords[wordAt(l.tokens, from)]; !ok || list[i].from-from != 2 || l.tokens[from+1].word != "and" {
			break
		}
		i--
	}
	return list[i]
}

// subject gives the token of the word of meaning right before an amount, or
// before "is" and an amount, or -1: wall in "the wall is 5 cm high".
func (l *line) subject(a amount) int {
	is := false
	for i := a.from - 1; i >= 0 && i > a.from-5 && !l.tokens[i].ends; i-- {
		if word := l.tokens[i].word; !light[word] {
			if is || i == a.from-1 {
				return i
			}
			return -1
		} else if isOneOf(word, "is", "are", "was") {
			is = true
		}
	}
	return -1
}

// suffixAxis reads "6 inches long" and "2 inches in diameter"; axes is none.
func suffixAxis(l *line, a amount) axis {
	if l.tokens[a.to-1].ends {
		return axes
	}
	at := a.to
	if wordAt(l.tokens, at) == "in" {
		at++
	}
	if ax, ok := axisWords[wordAt(l.tokens, at)]; ok {
		return ax
	}
	return axes
}

// prefixAxis reads "length 6 inches" and "the width is 4".
func prefixAxis(l *line, a amount) axis {
	for i := a.from - 1; i >= 0 && i >= a.from-nameBefore && !l.tokens[i].ends; i-- {
		if ax, ok := axisWords[l.tokens[i].word]; ok && !l.asking[i] {
			return ax
		}
		if !light[l.tokens[i].word] {
			break
		}
	}
	return axes
}

// saysRound reports whether "round" stands beside the amount.
func saysRound(l *line, a amount) bool {
	for i := max(0, a.from-4); i < min(len(l.tokens), a.to+2); i++ {
		if isOneOf(l.tokens[i].word, "round", "circular", "circle", "disc") && wordAt(l.tokens, i-1) != "all" {
			return true
		}
	}
	return false
}
