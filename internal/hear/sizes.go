package hear

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// axis is which way a size is measured.
type axis uint8

const (
	lengthwise axis = iota
	widthwise
	upright
	across
	axes
)

// The facts of sizes, by axis, of the piece and of what is poured full.
var (
	pieceFacts = [axes]string{"piece_length_mm", "piece_width_mm", "piece_height_mm", "piece_across_mm"}
	trayFacts  = [axes]string{"tray_length_mm", "tray_width_mm", "tray_depth_mm", "tray_across_mm"}
)

var axisWords = map[string]axis{
	"long": lengthwise, "length": lengthwise, "longest": lengthwise, "wide": widthwise, "width": widthwise, "broad": widthwise,
	"high": upright, "height": upright, "tall": upright, "thick": upright, "deep": upright, "depth": upright, "thickness": upright,
	"across": across, "diameter": across,
}

// containers are what a maker fills to the brim with plaster or mix.
var containers = wordSet("tray tub box frame dish container tin pan bowl bucket punnet")

// sizeWords say nothing more where sizes are told.
var sizeWords = wordSet("round circular square piece sculpt size sized")

func sizeWord(word string) bool {
	_, isAxis := axisWords[word]
	return isAxis || sizeWords[word] || containers[singular(word)]
}

// solid holds the facts of the sizes of a thing.
type solid [axes]*book.Fact

func (h *Hearing) buildSolids() {
	h.piece, h.tray = h.solid(pieceFacts), h.solid(trayFacts)
	if h.tray[lengthwise] == nil {
		h.tray = h.piece
	}
	h.otherThings = make(map[string]bool)
	for i := range h.book.Facts {
		f := &h.book.Facts[i]
		if f.Unit != "mm" || h.isSize(f) {
			continue
		}
		for _, name := range f.Says {
			for _, t := range h.read(name) {
				if !sizeWord(t.word) && !light[t.word] && !isOneOf(t.word, "each", "one") {
					h.otherThings[t.stem] = true
				}
			}
		}
	}
}

func (h *Hearing) solid(names [axes]string) solid {
	var s solid
	for i, name := range names {
		if f := h.factNamed(name); f != nil && f.Kind == logic.Number {
			s[i] = f
		}
	}
	if s[across] == nil {
		s[across] = s[widthwise]
	}
	return s
}

// isSize reports whether a fact is a size of the piece or the tray.
func (h *Hearing) isSize(f *book.Fact) bool {
	return f != nil && (slices.Contains(h.piece[:], f) || slices.Contains(h.tray[:], f))
}

// factNamed is FactByName for a book that may have no facts at all.
func (h *Hearing) factNamed(name string) *book.Fact {
	if h.book.Base == nil {
		return nil
	}
	return h.book.FactByName(name)
}

// size is an amount that tells a size.
type size struct {
	fact *book.Fact
	amount
}

// tellSizes tells the sizes of the line: chains ("6 by 4 by 1"), and amounts
// with a word for the way they were measured ("an inch deep"). It reports
// whether there were any.
func (h *Hearing) tellSizes(c Context, l *line, found []match, list []amount, m *Meaning) bool {
	if complainOfMiles(l, list, m) {
		return true
	}
	sizes, several := h.sizesOf(c, l, found, list)
	if several {
		m.Complaint = first(m.Complaint, "One piece at a time: tell me how many of one size, and ask again for the others.")
		for _, a := range list {
			l.claim(a.from, a.to)
		}
		return true
	}
	if len(sizes) == 0 {
		return false
	}
	unit := lineUnit(l, list)
	var bare []size
	for _, s := range sizes {
		if s.units == nil {
			s.units = h.sharedUnit(c, list, s, unit)
		}
		if s.units == nil {
			bare = append(bare, s)
			continue
		}
		h.tellAmong(c, []*book.Fact{s.fact}, l, s.amount, m)
	}
	told := h.tellBare(c, l, bare, m)
	l.claimBys(list)
	return told || len(bare) < len(sizes)
}

// complainOfMiles refuses sizes that are told in no unit for a piece.
func complainOfMiles(l *line, list []amount, m *Meaning) bool {
	at := slices.IndexFunc(list, func(a amount) bool { return a.units == nil && tooLong[l.said(a.to, a.to+1)] })
	if at < 0 {
		return false
	}
	m.Complaint = first(m.Complaint, l.said(list[at].from, list[at].to+1)+" is no size of a piece: give me inches, centimetres or millimetres.")
	for _, a := range list {
		if lengthFits(a) {
			l.claim(a.from, a.to)
		}
	}
	return true
}

// claimSizeWords notes the words that say nothing more once sizes are told.
func (h *Hearing) claimSizeWords(l *line, m *Meaning) {
	facts := m.Facts
	for _, r := range m.Readings {
		facts = slices.Concat(facts, r.Facts)
	}
	if !slices.ContainsFunc(facts, func(t Heard) bool { return h.isSize(&h.book.Facts[t.Fact]) }) {
		return
	}
	for i, t := range l.tokens {
		if sizeWord(t.word) {
			l.claim(i, i+1)
		}
	}
}

// sizesOf finds the amounts that tell sizes, each with its fact. What is said
// after a correction replaces what was said before it.
func (h *Hearing) sizesOf(c Context, l *line, found []match, list []amount) (sizes []size, several bool) {
	of, end := h.piece, 0
	if c.Asked != nil && slices.Contains(h.tray[:], c.Asked.Fact) {
		of = h.tray
	}
	sheet := l.isSheet() && (len(c.scope.groups) == 0 || h.tray[upright] != nil && c.scope.has(h.tray[upright].ID))
	if sheet {
		of = h.tray
	}
	prefixed := len(list) > 0 && prefixAxis(l, list[0]) < axes
	for i, a := range list {
		if l.claimed[a.from] || !lengthFits(a) || a.chain > 3 {
			continue
		}
		from := end
		if i > 0 {
			from = max(end, list[i-1].to)
		}
		switch thing := thingBefore(l, from, a.from); {
		case sheet:
		case thing == ofContainer || thing == nothingNamed && l.inContainer(list, i):
			of = h.tray
		case thing == ofPiece || a.chain == 1 && len(sizes) > 0 && !correctedBetween(l, end, a.from):
			of = h.piece
		}
		for _, ax := range h.axesOf(c, l, found, list, i, prefixed, sizes) {
			if f := of[ax]; f != nil {
				several = several || isAnother(l, sizes, size{f, a})
				sizes = replace(l, sizes, size{f, a})
				end = a.to
			}
		}
	}
	return sizes, several
}

// isAnother reports whether a size in a row of sizes goes on to another piece.
func isAnother(l *line, sizes []size, s size) bool {
	return slices.ContainsFunc(sizes, func(o size) bool {
		return o.fact == s.fact && o.chain > 0 && s.chain > 0 && o.value != s.value && !correctedBetween(l, o.to, s.from) && !l.deniedToken(s.from)
	})
}

// isSheet reports whether the line speaks of a flat sheet of even thickness,
// which is as a tray poured so deep.
func (l *line) isSheet() bool {
	for i, t := range l.tokens {
		switch {
		case isOneOf(t.word, "clay", "wall"):
			return false
		case isOneOf(singular(t.word), "slab", "sheet"), t.word == "over" && isOneOf(wordAt(l.tokens, i-1), "all", "thick"):
			return true
		}
	}
	return false
}

func replace(l *line, sizes []size, s size) []size {
	i := slices.IndexFunc(sizes, func(o size) bool { return o.fact == s.fact })
	switch {
	case i < 0:
		return append(sizes, s)
	case correctedBetween(l, sizes[i].to, s.from):
		sizes[i] = s
	}
	return sizes
}

func lengthFits(a amount) bool {
	return len(a.units) == 0 || slices.ContainsFunc(a.units, isLength)
}

func isLength(u craft.Unit) bool { return u.Dimension == craft.Length }

// lineUnit gives the unit that is said for all of the line: "in inches".
func lineUnit(l *line, list []amount) []craft.Unit {
	for i := 1; i < len(l.tokens); i++ {
		inside := slices.ContainsFunc(list, func(a amount) bool { return i >= a.from && i < a.to })
		if units := craft.Readings(l.tokens[i].word); !inside && wordAt(l.tokens, i-1) == "in" && slices.ContainsFunc(units, isLength) {
			return units
		}
	}
	return nil
}

// sharedUnit gives the unit that a bare size has from the one said before it,
// else after it, in the line, else from earlier lines, where it is believable.
func (h *Hearing) sharedUnit(c Context, list []amount, s size, unit []craft.Unit) []craft.Unit {
	var before, after []craft.Unit
	for _, o := range list {
		switch {
		case !slices.ContainsFunc(o.units, isLength):
		case o.from < s.from:
			before = o.units
		case after == nil:
			after = o.units
		}
	}
	for _, units := range [][]craft.Unit{before, after, unit, {c.LastUnit}} {
		i := slices.IndexFunc(units, isLength)
		if i < 0 || units[i].Name == "" {
			continue
		}
		if base, err := units[i].Base(s.value); err == nil && believable(s.fact, base) {
			return units[i : i+1]
		}
	}
	return nil
}
