package hear

import (
	"slices"
	"strings"

	"sparehand/internal/craft"
)

// amount is a number with the units it can have, as said.
type amount struct {
	value   float64
	units   []craft.Unit // none: said without a unit; several: ambiguous
	article bool         // "a cup": one, if it is a number at all
	pack    string       // what was counted: sachet in "6 sachets of 12 g"; or ""
	chain   int          // 1, 2, 3 in "6 by 4 by 1"; 0 alone
	counts  bool         // how many there are: 6 in "6x 30x20x8 mm"
	from    int          // tokens
	bare    int          // end of the number, where a unit may follow
	to      int
}

// readAmounts finds every amount in the line, in order.
func readAmounts(l *line) []amount {
	var list []amount
	for i := 0; i < len(l.tokens); {
		a, ok := readAmount(l.tokens, i)
		if !ok {
			i++
			continue
		}
		list = append(list, a)
		i = a.to
	}
	list = joinRanges(l.tokens, joinParts(l.tokens, list))
	shareDegrees(l.tokens, list)
	return celsiusOrCups(l, linkChains(l.tokens, joinPacks(l.tokens, list)))
}

// readAmount reads one amount that begins at token i.
func readAmount(tokens []token, i int) (amount, bool) {
	n, ok := readNumber(tokens, i)
	if ok {
		n = spokenHundreds(tokens, i, n)
		ok = !standsForAThing(tokens, i) && !ofAVessel(tokens, n)
	}
	if !ok {
		n, ok = misheardMember(tokens, i)
	}
	if ok {
		a := amount{value: n.value, from: i, bare: n.end, to: n.end}
		if n.end < len(tokens) && !tokens[n.end-1].ends {
			a.takeUnit(tokens, afterOf(tokens, n.end, n.value))
		}
		return a, true
	}
	start := i
	if isOneOf(wordAt(tokens, i), "a", "an") {
		i++
	} else if wordAt(tokens, i+1) != "and" {
		return amount{}, false
	}
	if i >= len(tokens) || len(tokens[i].word) < 3 && !isOneOf(tokens[i].word, "oz", "uk", "us") {
		return amount{}, false
	}
	a := amount{value: 1, article: true, from: start, bare: i + 1, to: i}
	a.takeUnit(tokens, i)
	if a.units == nil || a.from == i && a.article {
		return amount{}, false // a bare unit counts only as "inch and a half"
	}
	if name := a.units[0].Name; isOneOf(name, "litre", "kilogram") || isOneOf(name[strings.LastIndex(name, " ")+1:], "pint", "quart", "gallon") {
		a.article = false // no vessel is called so
	}
	return a, true
}

// misheardMember takes "to" for two and the like beside the "by" of a chain,
// on whose other side there is a number.
func misheardMember(tokens []token, i int) (numeral, bool) {
	value, ok := misheardNumbers[wordAt(tokens, i)]
	if !ok || !afterBy(tokens, i) && !(bys[wordAt(tokens, i+1)] && i+2 < len(tokens) && isCount(tokens[i+2])) {
		return numeral{}, false
	}
	return numeral{value, i + 1}, true
}

// afterBy reports whether token i follows a number and "by".
func afterBy(tokens []token, i int) bool {
	if i < 2 || !bys[tokens[i-1].word] {
		return false
	}
	before := tokens[i-2]
	return isCount(before) || isUnitWord(before.word) || misheardNumbers[before.word] > 0 && afterBy(tokens, i-2)
}

// afterOf steps over "of a", "a" and "an" between a number and its unit.
func afterOf(tokens []token, i int, value float64) int {
	at := i
	if wordAt(tokens, at) == "of" {
		at++
	}
	if isOneOf(wordAt(tokens, at), "a", "an") && value < 1 {
		at++
	}
	return at
}

// takeUnit reads the unit at token i, and "and a half" after it.
func (a *amount) takeUnit(tokens []token, i int) {
	if i >= len(tokens) {
		return
	}
	units, end := readUnit(tokens, i)
	if units == nil {
		return
	}
	a.units, a.to = units, end
	if wordAt(tokens, end) != "and" || tokens[end-1].ends {
		return
	}
	if part, ok := readPart(tokens, end+1); ok && !unitFollows(tokens, part.end) {
		a.value += part.value
		a.to = part.end
		a.article = false
	}
}

func unitFollows(tokens []token, i int) bool {
	units, _ := readUnit(tokens, afterOf(tokens, i, 0.5))
	return i < len(tokens) && units != nil
}

// joinParts adds "5 feet 6 inches" and "an hour and twenty minutes" up.
func joinParts(tokens []token, list []amount) []amount {
	var out []amount
	for _, a := range list {
		if n := len(out); n > 0 {
			last := &out[n-1]
			gap := a.from - last.to
			together := gap == 0 || gap == 1 && wordAt(tokens, last.to) == "and"
			if _, thick := axisWords[wordAt(tokens, a.to)]; thick && gap == 1 && slices.ContainsFunc(a.units, isMetricLength) {
				together = false // "20 cm and 3 mm thick"
			}
			if together && !tokens[last.to-1].ends && continues(*last, a) {
				last.value += a.value * a.units[0].Factor / last.units[0].Factor
				last.bare, last.to = a.to, a.to
				last.article = false
				continue
			}
		}
		out = append(out, a)
	}
	return out
}

func isMetricLength(u craft.Unit) bool {
	return isOneOf(u.Name, "millimetre", "centimetre", "metre")
}

// continues reports whether b goes on with a in a smaller unit.
func continues(a, b amount) bool {
	if len(a.units) == 0 || len(b.units) == 0 || a.units[0].Dimension == craft.Temperature || b.article {
		return false
	}
	one, two := a.units[0], b.units[0]
	for _, u := range b.units {
		if u.Dimension == one.Dimension {
			two = u
		}
	}
	ok := one.Dimension == two.Dimension && two.Factor < one.Factor && b.value*two.Factor < one.Factor
	if ok {
		b.units[0] = two
	}
	return ok
}

// joinRanges makes "10 to 12" and "between 10 and 12" their middle.
func joinRanges(tokens []token, list []amount) []amount {
	var out []amount
	for _, a := range list {
		n := len(out)
		if n == 0 || !isRange(tokens, out[n-1], a) {
			out = append(out, a)
			continue
		}
		last := &out[n-1]
		last.value = (last.value + a.value) / 2
		if a.units != nil {
			last.units = a.units
		}
		last.bare, last.to = a.bare, a.to
	}
	return out
}

func isRange(tokens []token, a, b amount) bool {
	if b.from-a.to != 1 || a.article || b.article || b.value <= a.value || tokens[a.to-1].ends {
		return false
	}
	if a.units != nil && (b.units == nil || a.units[0] != b.units[0]) {
		return false
	}
	switch tokens[a.to].word {
	case "to", "or", "till", "until":
		return !risesFrom(tokens, a.from) && !(wordAt(tokens, a.from-1) == "from" && isTemperature(b))
	case "and":
		return a.from > 0 && tokens[a.from-1].word == "between"
	}
	return false
}

// shareDegrees gives both ends of "from 5 degrees to 65" the same unit.
func shareDegrees(tokens []token, list []amount) {
	for i := 1; i < len(list); i++ {
		a, b := &list[i-1], &list[i]
		if b.from != a.to+1 || wordAt(tokens, a.to) != "to" || wordAt(tokens, a.from-1) != "from" {
			continue
		}
		if isTemperature(*a) && b.units == nil {
			b.units = a.units
		} else if isTemperature(*b) && a.units == nil {
			a.units = b.units
		}
	}
}

// risesFrom reports whether the number at token i is where something rose
// from: "the water went from 400 to 450 ml".
func risesFrom(tokens []token, i int) bool {
	if wordAt(tokens, i-1) != "from" {
		return false
	}
	for j := max(0, i-4); j < i-1; j++ {
		if isOneOf(tokens[j].word, "went", "goes", "rose", "rises", "level", "up") {
			return true
		}
	}
	return false
}
