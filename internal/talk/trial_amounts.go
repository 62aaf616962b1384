package talk

import (
	"math"
	"strconv"
	"strings"
)

// hearWords collects all that a maker is told in words.
func (t *Trial) hearWords(r Reply) {
	t.words.WriteString(" " + r.Say + " " + strings.Join(r.Show, " "))
	for _, a := range r.Amounts {
		t.words.WriteString(" " + a.Text + " " + a.Narrow + " " + strings.Join(a.Notes, " ") + " " + strings.Join(a.Assumes, " "))
	}
}

// judgeAmounts compares the last amounts, and the words of the whole talk,
// with what the case expects.
func (t *Trial) judgeAmounts() {
	for name, want := range t.Case.Expect.Amounts {
		t.judgeAmount(name, want)
	}
	heard := strings.ToLower(t.words.String())
	for _, words := range t.Case.Expect.Says {
		if !strings.Contains(heard, strings.ToLower(words)) {
			t.fault("nothing says %q", words)
		}
	}
}

// usualSlack is how far an amount may be off where a case gives no tolerance:
// a hundredth, and what rounding does to it.
const usualSlack = 0.01

// judgeAmount checks one line against "925 g" or "45 mm ± 2".
func (t *Trial) judgeAmount(name, want string) {
	figure, tolerance, given := strings.Cut(want, "±")
	number, unit, _ := strings.Cut(strings.TrimSpace(figure), " ")
	x, err := strconv.ParseFloat(number, 64)
	slack := max(usualSlack*math.Abs(x), 0.5)
	if given && err == nil {
		slack, err = strconv.ParseFloat(strings.TrimSpace(tolerance), 64)
	}
	if err != nil {
		t.fault("the case's amount %q should be a number and its unit, such as \"925 g\" or \"45 mm ± 2\"", want)
		return
	}
	for _, a := range t.Last.Amounts {
		if a.Name != name {
			continue
		}
		if got, ok := a.in(unit); !ok || math.Abs(got-x) > slack {
			t.fault("%s is %s, expected %s", name, withUnit(a.Value, a.Unit), want)
		}
		return
	}
	t.fault("no amount is called %q", name)
}

// in gives an amount in a unit it is told in.
func (a AmountShown) in(unit string) (float64, bool) {
	switch unit = strings.TrimSpace(unit); {
	case unit == a.Unit:
		return a.Value, true
	case unit == "g" && a.Grams > 0:
		return a.Grams, true
	case unit == "ml" && a.Millilitres > 0:
		return a.Millilitres, true
	}
	for _, m := range a.Measures {
		if m.Measure == unit || m.Measure+"s" == unit {
			return m.Count, true
		}
	}
	return 0, false
}
