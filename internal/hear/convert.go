package hear

import (
	"slices"

	"sparehand/internal/craft"
)

// Conversion is a question such as "how many ml in 3 tablespoons", or "how
// many cups is 300 g of plaster".
type Conversion struct {
	Value    float64
	From     []craft.Unit // several where the word can mean several: ounces
	To       craft.Unit
	Material string // id of the material it is of, or ""
}

// converting are the words that such a question is made of.
var converting = wordSet(`how many much what is are in of to into as convert turn change make makes made equal equals there go goes fit the a
an does do it be would will that if please weigh weighs weight get i you me tell can could out number same about roughly level
come comes contain contains does okay ok right hey so and um er uh well for mean heavy worth no us`)

// weighing asks for grams without naming them.
var weighing = wordSet("weigh weighs weight heavy")

// conversion reads the line as a question about units, or gives nil. All of it
// has to be: one amount, one unit to tell it in, perhaps a material.
func (h *Hearing) conversion(l *line) *Conversion {
	list := readAmounts(l)
	if len(list) == 2 && list[1].article && list[0].units != nil { // "2 cups in a gram"
		return nil
	}
	at := slices.IndexFunc(list, func(a amount) bool { return len(a.units) > 0 })
	if at < 0 || len(list) != 1 {
		return nil
	}
	a := list[at]
	if l.saysAny(0, a.from, "much") && wordAt(l.tokens, a.from-1) == "for" {
		return nil // "how much gelatin for 200 ml in cups" asks for a mix
	}
	conv := &Conversion{Value: a.value}
	var to []craft.Unit
	cue, weighs := false, false
	for i := 0; i < len(l.tokens); {
		if i == a.from {
			i = a.to
			continue
		}
		word := l.tokens[i].word
		if units, end := unitAsked(l, i, a); units != nil {
			if to != nil {
				return nil
			}
			cue = cue || i > a.to && isOneOf(wordAt(l.tokens, i-1), "in", "to", "into", "as")
			to, i = units, end
			continue
		}
		if id := h.materialAt(l, i); id != "" {
			if conv.Material != "" && conv.Material != id {
				return nil
			}
			conv.Material = id
		} else if !converting[word] {
			return nil
		}
		cue = cue || isOneOf(word, "how", "what", "convert", "turn", "change")
		weighs = weighs || weighing[word]
		i++
	}
	if to == nil && weighs && conv.Material != "" {
		to = craft.Readings("gram")
	}
	if !cue || to == nil || !conv.settle(a.units, to) {
		return nil
	}
	if own := craft.Readings(conv.From[0].Name); len(conv.From) == 1 && len(own) == 1 {
		conv.From = own // as the table calls it: pint for US pint
	}
	return conv
}

// unitAsked reads the unit that an amount is to be told in.
func unitAsked(l *line, i int, a amount) ([]craft.Unit, int) {
	if l.tokens[i].word == "in" && i+1 < len(l.tokens) || i < a.from && isOneOf(l.tokens[i].word, "a", "an") {
		return nil, i
	}
	units, end := readUnit(l.tokens, i)
	if i < a.from && end > a.from {
		return nil, i
	}
	return units, end
}

// settle keeps the readings of both units that go over into each other.
func (conv *Conversion) settle(from, to []craft.Unit) bool {
	same := func(u, v craft.Unit) bool { return u.Dimension == v.Dimension && u != v }
	for _, t := range to {
		for _, f := range from {
			if same(f, t) && !slices.Contains(conv.From, f) {
				conv.From, conv.To = append(conv.From, f), t
			}
		}
		if len(conv.From) > 0 {
			break
		}
	}
	for _, t := range to {
		for _, f := range from {
			byMaterial := weighed(f) && weighed(t) && f.Dimension != t.Dimension
			if byMaterial && (len(conv.From) == 0 || conv.Material != "" && conv.To == t) {
				conv.From, conv.To = append(conv.From, f), t
			}
		}
	}
	return len(conv.From) > 0
}

func weighed(u craft.Unit) bool { return u.Dimension == craft.Mass || u.Dimension == craft.Volume }

// LengthUnit gives the unit of length that words were told in last; false
// where there was none, or not one alone.
func (h *Hearing) LengthUnit(words string) (craft.Unit, bool) {
	list := readAmounts(h.listen(words))
	for i := len(list) - 1; i >= 0; i-- {
		if units := list[i].units; len(units) == 1 && isLength(units[0]) {
			return units[0], true
		}
	}
	return craft.Unit{}, false
}

// materialAt gives the material that token i belongs to the name of, or "".
func (h *Hearing) materialAt(l *line, i int) string {
	for _, n := range h.materials {
		for from := max(0, i-len(n.words)+1); from <= i; from++ {
			if wordsAt(l.tokens, from, n.words) > 0 {
				return n.id
			}
		}
	}
	return ""
}

// materialName is what a material is called.
type materialName struct {
	id    string
	words []string
}

func (h *Hearing) buildMaterials() {
	for _, m := range h.book.Materials {
		for _, name := range append([]string{m.Title}, m.Says...) {
			if words := plainWords(h.read(name)); len(words) > 0 {
				h.materials = append(h.materials, materialName{m.ID, words})
			}
		}
	}
	slices.SortStableFunc(h.materials, func(a, b materialName) int { return len(b.words) - len(a.words) })
}
