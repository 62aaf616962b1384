package hear

import (
	"sparehand/internal/book"
	"sparehand/internal/craft"
)

// packWords are what makers buy and count: "6 sachets of 12 g each".
var packWords = wordSet("sachet packet pack bag envelope bottle tub box tin sack jar pot carton pouch")

// inSachets are those that a kitchen ingredient comes in. (Common practice, no
// source.)
var inSachets = wordSet("sachet packet envelope")

// mostPacks is how many packs one line may count.
const mostPacks = 200

// joinPacks multiplies "6 sachets of 12 g each" and "3 packets, one is 7
// grams" out.
func joinPacks(tokens []token, list []amount) []amount {
	var out []amount
	for i := 0; i < len(list); i++ {
		a := list[i]
		if i+1 < len(list) && isPacked(tokens, a, list[i+1]) {
			b := list[i+1]
			b.pack = singular(tokens[a.to].word)
			b.value, b.from = a.value*b.value, a.from
			if isOneOf(wordAt(tokens, b.to), "each", "apiece") && !tokens[b.to-1].ends {
				b.to++
			}
			a = b
			i++
		} else if bag := singular(wordAt(tokens, a.from-2)); wordAt(tokens, a.from-1) == "of" && inSachets[bag] && len(a.units) > 0 {
			a.pack = bag // "a packet of 12 g"
		}
		out = append(out, a)
	}
	return out
}

func isPacked(tokens []token, a, b amount) bool {
	weighs := len(b.units) > 0 && weighed(b.units[0])
	if len(a.units) > 0 || a.article || a.chain > 0 || b.article || !weighs || a.value < 1 || a.value > mostPacks || a.value != float64(int(a.value)) {
		return false
	}
	if a.to >= len(tokens) || !packWords[singular(tokens[a.to].word)] || b.from-a.to > 6 {
		return false
	}
	each := isOneOf(wordAt(tokens, b.to), "each", "apiece")
	for i := a.to + 1; i < b.from; i++ {
		switch tokens[i].word {
		case "each", "one":
			each = true
		case "of", "with", "at":
			each = each || i == b.from-1 && i == a.to+1
		}
	}
	return each
}

// takesEach reports whether an amount is said of each copy: "each cast takes 5
// grams", "5 grams per cast".
func (l *line) takesEach(a amount) bool {
	if a.pack != "" || len(a.units) == 0 || !weighed(a.units[0]) {
		return false
	}
	each := l.saysAny(max(0, a.from-4), a.from, "each", "every") && l.saysAny(max(0, a.from-3), a.from, "takes", "needs", "uses", "weighs", "holds", "is")
	return each || isOneOf(wordAt(l.tokens, a.to), "each", "apiece", "per")
}

// tellEach takes what each copy holds. What it weighs is not asked for.
func (h *Hearing) tellEach(c Context, l *line, list []amount, m *Meaning) {
	f := h.factNamed(volumeFact)
	if f == nil || !c.scope.has(f.ID) {
		return
	}
	for _, a := range list {
		switch {
		case l.claimed[a.from] || !l.takesEach(a):
		case a.units[0].Dimension == craft.Volume:
			h.tellAmong(c, []*book.Fact{f}, l, a, m)
		default:
			m.Complaint = first(m.Complaint, "I work from the size of one: give me its length, width and height, or how many millilitres it holds.")
			l.claim(a.from, a.to)
		}
	}
}

// volumeFact is how much one piece holds.
const volumeFact = "sculpt_ml"

// tellPacks takes packs for what they are named with, and sachets without a
// name for gelatin.
func (h *Hearing) tellPacks(c Context, l *line, found []match, a amount, m *Meaning) {
	var facts []*book.Fact
	for i := range found {
		v := &found[i]
		f := &h.book.Facts[v.phrase.fact]
		from, to := l.span(v)
		if v.phrase.option == quantity && len(v.phrase.words) == 1 && from > a.from && to <= a.to && dimensionFits(f, a) && !m.has(f.ID) {
			facts = append(facts, f)
		}
	}
	if len(facts) == 0 && inSachets[a.pack] {
		for _, name := range []string{"have_gelatin_g", "have_gelatin_ml"} {
			if f := h.factNamed(name); f != nil && c.scope.has(f.ID) && dimensionFits(f, a) && !m.has(f.ID) {
				facts = append(facts, f)
			}
		}
	}
	if len(facts) == 1 {
		h.tellAmong(c, facts, l, a, m)
	}
}
