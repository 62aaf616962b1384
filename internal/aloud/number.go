package aloud

import (
	"regexp"
	"strconv"
	"strings"
)

// number is one figure as it was written: 2, 2.5, 1/2 or 2 1/2.
type number struct {
	whole    string // digits without commas; "" where there is only a fraction
	decimals string // after the point
	num, den int    // of the fraction; den 0 for none
}

var (
	mixed    = regexp.MustCompile(`^(\d+) (\d+)/(\d+)`)
	fraction = regexp.MustCompile(`^()(\d+)/(\d+)`)
	grouped  = regexp.MustCompile(`^(\d{1,3}(?:,\d{3})+)(?:\.(\d+))?`)
	pointed  = regexp.MustCompile(`^(\d*)(?:\.(\d+))?`)

	// Decimals that are said as a fraction.
	quarters = map[string][2]int{"25": {1, 4}, "5": {1, 2}, "75": {3, 4}}
)

// finest bounds the parts of a fraction: 1/16 is one, 24/365 is not.
const finest = 64

// numberAt reads the number that text begins with, and how long it is there.
func numberAt(text string) (number, int) {
	for _, form := range []*regexp.Regexp{mixed, fraction} {
		m := form.FindStringSubmatch(text)
		if m == nil || followed(text[len(m[0]):], "/") {
			continue
		}
		num, _ := strconv.Atoi(m[2])
		den, _ := strconv.Atoi(m[3]) // too long a number is past the bound
		if 0 < num && num < den && den <= finest {
			return number{whole: m[1], num: num, den: den}, len(m[0])
		}
	}
	m := grouped.FindStringSubmatch(text)
	if m == nil || followed(text[len(m[0]):], ",") {
		m = pointed.FindStringSubmatch(text)
	}
	n := number{whole: strings.ReplaceAll(m[1], ",", ""), decimals: m[2]}
	return n, len(m[0])
}

// counted makes decimals a fraction where people say one: two and a half cups.
func (n number) counted() number {
	if part, ok := quarters[n.decimals]; ok {
		n.num, n.den, n.decimals = part[0], part[1], ""
		if n.whole == "0" {
			n.whole = ""
		}
	}
	return n
}

// followed reports whether a number goes on: with a digit, or with a digit
// after this mark.
func followed(rest, mark string) bool {
	return rest != "" && digit(rest[0]) || len(rest) > 1 && rest[:1] == mark && digit(rest[1])
}

func digit(b byte) bool { return '0' <= b && b <= '9' }

// part reports whether it is a fraction below one.
func (n number) part() bool { return n.den > 0 && n.whole == "" }

// single reports whether what is counted stands in the singular.
func (n number) single() bool { return n.whole == "1" && n.decimals == "" && n.den == 0 }

// words says the number alone: "two and a half", "nought point seven".
func (n number) words() string {
	switch {
	case n.den == 0 && n.decimals == "":
		return whole(n.whole)
	case n.den == 0 && strings.Trim(n.whole, "0") == "":
		return "nought point " + oneByOne(n.decimals)
	case n.den == 0:
		return whole(n.whole) + " point " + oneByOne(n.decimals)
	case !n.part() && n.num == 1:
		return whole(n.whole) + " and a " + parts(1, n.den)
	case !n.part():
		return whole(n.whole) + " and " + parts(n.num, n.den)
	case n.num == 1 && n.den > 2:
		return "a " + parts(1, n.den)
	}
	return parts(n.num, n.den)
}

// of says a fraction of one thing: "half an hour", "three quarters of a cup".
func (n number) of(one string) string {
	article := " a "
	if strings.Contains("aeiou", one[:1]) || strings.HasPrefix(one, "hour") {
		article = " an "
	}
	if n.den == 2 {
		return n.words() + article + one
	}
	return n.words() + " of" + article + one
}

// parts names the parts: half, third, three quarters.
func parts(num, den int) string {
	name := ordinal(den)
	switch den {
	case 2:
		name = "half"
	case 4:
		name = "quarter"
	}
	if num == 1 {
		return name
	}
	return Cardinal(num) + " " + name + "s"
}
