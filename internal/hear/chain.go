package hear

import (
	"slices"

	"sparehand/internal/craft"
)

// linkChains numbers the members of "6 by 4 by 1 inches" and gives each the
// unit of the next that has one, else of the last.
func linkChains(tokens []token, list []amount) []amount {
	for i := 0; i < len(list); {
		j := i + 1
		for j < len(list) && isBy(tokens, list[j-1], list[j]) {
			j++
		}
		if j == i+1 && (isBareTriple(tokens, list[i:]) || isListOfThree(tokens, list[i:])) {
			j += 2
		}
		if j-i > 2 && countsChain(tokens, list[i:j]) {
			list[i].counts = true
			i++
		}
		if j-i > 1 {
			linkChain(list[i:j])
		}
		i = j
	}
	return list
}

// countsChain reports whether the first number of a chain is how many there are
// of the rest: "6x 30x20x8 mm", "six times 30 by 20 by 8".
func countsChain(tokens []token, run []amount) bool {
	a, b := run[0], run[1]
	at := a.to
	if len(a.units) > 0 || a.article || a.value < 1 || a.value != float64(int(a.value)) || b.from != at+1 || !isOneOf(tokens[at].word, "x", "times") {
		return false
	}
	glued := func(i int) bool { return tokens[i-1].to == tokens[i].from }
	next := run[1].to
	apart := glued(at) && !glued(b.from) && glued(next) == glued(next+1)
	return len(run) == 4 || apart
}

// sizedThings are spoken of where three bare numbers are sizes.
var sizedThings = wordSet("plaster gelatin mix gel glycerin piece sculpt size mould tray barnacle scar")

// isBareTriple reports whether three numbers stand in a row for sizes: "plaster
// 110 80 18", or nothing else at all.
func isBareTriple(tokens []token, list []amount) bool {
	if len(list) < 3 || len(list) > 3 && list[3].from == list[2].to {
		return false
	}
	for k, a := range list[:3] {
		if a.article || !tokens[a.from].digits || k > 0 && a.from != list[k-1].to || k < 2 && a.units != nil || !lengthFits(a) {
			return false
		}
	}
	only := list[0].from == 0 && list[2].to == len(tokens)
	return only || slices.ContainsFunc(tokens[:list[0].from], func(t token) bool { return sizedThings[t.word] })
}

// isListOfThree reports whether three lengths stand in a row with nothing but
// commas between: "11.5 cm, 8.2 cm, 1.8 cm".
func isListOfThree(tokens []token, list []amount) bool {
	if len(list) < 3 || len(list) > 3 && list[3].from == list[2].to {
		return false
	}
	for k, a := range list[:3] {
		ok := !a.article && len(a.units) > 0 && lengthFits(a)
		and := k == 2 && a.from == list[1].to+1 && tokens[list[1].to].word == "and"
		if _, named := axisWords[wordAt(tokens, a.to)]; !ok || named || isOneOf(wordAt(tokens, a.to), "of", "from") || k > 0 && a.from != list[k-1].to && !and {
			return false
		}
	}
	return true
}

// linkChain numbers a chain and shares its unit out. A last number without one
// takes that of the others only where they have all the same: the 2 of "10 cm
// by 80 mm by 2" may be in either.
func linkChain(run []amount) {
	var said []craft.Unit
	for k := range run {
		run[k].chain = k + 1
		for _, u := range run[k].units {
			if !slices.Contains(said, u) {
				said = append(said, u)
			}
		}
	}
	if last := &run[len(run)-1]; last.units == nil {
		last.units = said
	}
	for k := len(run) - 2; k >= 0; k-- {
		if run[k].units == nil {
			run[k].units = run[k+1].units
		}
	}
}

func isBy(tokens []token, a, b amount) bool {
	at := a.to
	if isOneOf(wordAt(tokens, at), "long", "wide", "high", "deep", "tall", "thick", "across") {
		at++
	}
	return b.from-at == 1 && bys[wordAt(tokens, at)]
}

// bys are the words between the members of a chain, slips of the ear too.
var bys = wordSet("by x times buy bye")

// claimBys notes the "by" and "x" of chains as understood.
func (l *line) claimBys(list []amount) {
	for k := 1; k < len(list); k++ {
		if list[k].chain > 1 && l.claimed[list[k].from] || list[k-1].counts {
			l.claim(list[k-1].to, list[k].from)
		}
	}
}
