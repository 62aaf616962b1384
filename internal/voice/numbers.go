package voice

import "strings"

// Number words. Digits never occur: what is heard is read by the hearing,
// which takes words.
var (
	ones  = []string{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	teens = []string{"ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"}
	tens  = []string{"twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}
)

// whole adds ways to say a whole number up to a bound: below ten, below a
// hundred, or below ten thousand.
func (g *graph) whole(from, to int, high float64) {
	g.belowHundred(from, to, high)
	if high < 100 {
		return
	}
	g.times("hundred", from, to, func(after int) { g.belowHundred(after, to, 99) })
	if high < 1000 {
		return
	}
	g.times("thousand", from, to, func(after int) {
		g.belowHundred(after, to, 99)
		for _, w := range ones {
			g.join(after, to, 0, w, "hundred")
		}
	})
}

// times adds ways to say a number of hundreds or thousands, and what may come
// after them, with "and" or without.
func (g *graph) times(word string, from, to int, rest func(after int)) {
	many, after := g.state(), g.state()
	g.phrases(from, many, 0, append([]string{"a"}, ones...))
	g.join(many, to, 0, word)
	g.join(many, after, 0, word)
	g.join(many, after, 0, word, "and")
	rest(after)
}

func (g *graph) belowHundred(from, to int, high float64) {
	g.join(from, to, 0, "zero")
	for _, w := range ones {
		g.join(from, to, 0, w)
	}
	if high < 10 {
		return
	}
	for _, w := range teens {
		g.join(from, to, 0, w)
	}
	unit := g.state()
	for _, w := range tens {
		g.join(from, to, 0, w)
		g.join(from, unit, 0, w)
	}
	for _, w := range ones {
		g.join(unit, to, 0, w)
	}
}

// fraction adds ways to go on after a whole number: "point five", "and a
// half", "and three quarters".
func (g *graph) fraction(from, to int) {
	point := g.state()
	g.join(from, point, 0, "point")
	for _, w := range append([]string{"zero", "oh"}, ones...) {
		g.join(point, to, 0, w)
	}
	g.join(from, to, 0, "and", "a", "half")
	g.join(from, to, 0, "and", "a", "quarter")
	g.join(from, to, 0, "and", "three", "quarters")
}

// number adds ways to say a number with one of its units, or with none.
func (g *graph) number(from, to int, high float64, units []string) {
	value, exact := g.state(), g.state()
	g.whole(from, value, high)
	g.join(from, exact, 0, "point", "five")
	g.fraction(value, exact)
	g.join(value, exact, 0)
	g.join(exact, to, unitless)
	for _, u := range units {
		g.phrases(exact, to, 0, []string{u, singular(u)})
		one := article(singular(u))
		g.phrases(from, to, 0, []string{one, "half " + one, "a quarter of " + one, "three quarters of " + one})
	}
}

// unitless is what it costs to leave a unit out, in nats.
const unitless = 1

// singular gives the one of a unit's plural.
func singular(unit string) string {
	switch unit {
	case "feet":
		return "foot"
	case "inches":
		return "inch"
	case "degrees", "degrees celsius", "percent":
		return unit
	}
	if n := len(unit); n > 1 && unit[n-1] == 's' {
		return unit[:n-1]
	}
	return unit
}

func article(word string) string {
	if word == "hour" || strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// clock adds ways to tell a time of day.
func (g *graph) clock(from, to int) {
	hour, part := g.state(), g.state()
	g.join(from, hour, 0)
	g.join(from, hour, 0, "at")
	g.belowHundred(hour, to, 12)
	g.belowHundred(hour, part, 12)
	g.join(part, to, 0, "o'clock")
	g.join(part, to, 0, "thirty")
	g.join(part, to, 0, "fifteen")
	g.join(part, to, 0, "forty", "five")
	for _, w := range []string{"half past", "quarter past", "quarter to"} {
		past := g.state()
		g.phrases(hour, past, 0, []string{w})
		g.belowHundred(past, to, 12)
	}
}
