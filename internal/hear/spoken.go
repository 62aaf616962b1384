package hear

import "slices"

// spokenHundreds reads "one ten by eighty" as 110, where the next word could be
// no number of its own: between a number and "by" or a length, or all alone.
func spokenHundreds(tokens []token, i int, n numeral) numeral {
	hundreds, small := smallNumbers[wordAt(tokens, i)]
	if !small || hundreds < 1 || hundreds > 9 || n.end != i+1 || n.end >= len(tokens) || tokens[i].ends || tokens[n.end].digits {
		return n
	}
	rest, ok := readCardinal(tokens, n.end, 0)
	if !ok || rest.value < 10 || rest.value > 99 {
		return n
	}
	units, _ := readUnit(tokens, rest.end)
	alone := i == 0 && rest.end == len(tokens)
	if alone || bys[wordAt(tokens, rest.end)] || afterBy(tokens, i) || slices.ContainsFunc(units, isLength) {
		return numeral{100*hundreds + rest.value, rest.end}
	}
	return n
}

// standsForAThing reports whether the "one" at token i is no number: "the
// sorbitol one", "one is 7 grams".
func standsForAThing(tokens []token, i int) bool {
	if tokens[i].word != "one" {
		return false
	}
	next, before := wordAt(tokens, i+1), wordAt(tokens, i-1)
	ends := tokens[i].ends || i+1 == len(tokens)
	switch {
	case !ends && isOneOf(next, "is", "was", "holds", "takes", "weighs", "has"):
		return true
	case isOneOf(before, "this", "that", "which", "each", "every", "other", "another", "same"):
		return true
	case !ends && (isUnitWord(next) || bys[next] || isNumberWord(next) || sizeWord(next) || isOneOf(next, "and", "point", "hundred")):
		return false
	}
	if i < 2 || light[before] || isUnitWord(before) || sizeWord(before) || isCount(tokens[i-1]) || tokens[i-1].ends {
		return false
	}
	for j := i - 2; j >= 0 && j >= i-3; j-- {
		if isOneOf(tokens[j].word, "the", "a", "this", "that", "my") {
			return true
		}
	}
	return false
}

// ofAVessel reports whether a part of something is told that nobody knows the
// size of: "half a bucket", "a quarter of the bag".
func ofAVessel(tokens []token, n numeral) bool {
	if n.value >= 1 || fractionWords[wordAt(tokens, n.end-1)] == 0 || tokens[n.end-1].ends {
		return false
	}
	at := n.end
	for isOneOf(wordAt(tokens, at), "of", "a", "an", "the", "my") {
		at++
	}
	word := singular(wordAt(tokens, at))
	return at > n.end && (containers[word] || packWords[word])
}
