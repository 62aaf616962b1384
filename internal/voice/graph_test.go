package voice

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// says reports whether a graph has a way that says just these words.
func (g *graph) says(text string) bool {
	whole, _ := g.stands(text)
	return whole
}

func TestPhrases(t *testing.T) {
	g := newGraph()
	g.phrases(g.start, g.end, 0, []string{"under the wall", "under the rim", "under", "over the top"})
	for text, want := range map[string][2]bool{
		"under the wall": {true, false}, "under": {true, true}, "under the": {false, true},
		"over the top": {true, false}, "the wall": {false, false}, "": {false, true}, "under the wall under": {false, false},
	} {
		if whole, more := g.stands(text); whole != want[0] || more != want[1] {
			t.Errorf("%q is whole %v and goes on %v, want %v", text, whole, more, want)
		}
	}
}

func numbersTo(high float64, units ...string) *graph {
	g := newGraph()
	g.number(g.start, g.end, high, units)
	return g
}

func TestNumbers(t *testing.T) {
	g := numbersTo(600, "millimetres", "inches")
	for _, text := range []string{
		"sixty millimetres", "sixty", "forty five millimetres", "a hundred and twenty millimetres", "one hundred millimetres",
		"two and a half inches", "half an inch", "an inch", "three quarters of an inch", "point five millimetres",
		"seventeen", "one millimetre",
	} {
		if !g.says(text) {
			t.Errorf("%q can't be said", text)
		}
	}
	for _, text := range []string{"sixty five five", "millimetres", "twenty twelve", "sixty teen", "a thousand millimetres", "half a millimetres", "and a half"} {
		if g.says(text) {
			t.Errorf("%q can be said", text)
		}
	}
	if small := numbersTo(9); small.says("twelve") || !small.says("nine") {
		t.Error("a count up to nine takes twelve, or not nine")
	}
}

// Every whole number below ten thousand can be said, as British English says
// it: "and" before what is under a hundred.
func TestEveryNumberCanBeSaid(t *testing.T) {
	g := numbersTo(9999)
	for n := 0; n < 10000; n++ {
		if n >= 1100 && n%1000 >= 100 && n%100 != 0 {
			continue // "one thousand two hundred and fifty" is too long to be told apart
		}
		if text := inWords(n); !g.says(text) {
			t.Errorf("%q can't be said", text)
		}
	}
}

func inWords(n int) string {
	switch {
	case n == 0:
		return "zero"
	case n < 10:
		return ones[n-1]
	case n < 20:
		return teens[n-10]
	case n < 100:
		return strings.TrimSpace(tens[n/10-2] + " " + strings.TrimSuffix(inWords(n%10), "zero"))
	case n < 1000:
		return rest(ones[n/100-1]+" hundred", n%100)
	}
	return rest(ones[n/1000-1]+" thousand", n%1000)
}

func rest(high string, n int) string {
	switch {
	case n == 0:
		return high
	case n < 100:
		return high + " and " + inWords(n)
	}
	return high + " " + inWords(n)
}

// The graph without one sentence says all that the other says but that.
func TestWithout(t *testing.T) {
	word := rapid.SampledFrom([]string{"a", "b", "c"})
	text := rapid.Map(rapid.SliceOfN(word, 1, 4), func(w []string) string { return strings.Join(w, " ") })
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(text, 1, 8).Draw(t, "phrases")
		g := newGraph()
		g.phrases(g.start, g.end, 0, list)
		out := rapid.SampledFrom(list).Draw(t, "left out")
		r := newGraph()
		r.without(g, strings.Fields(out))
		for _, said := range append(list, text.Draw(t, "any")) {
			if want := g.says(said) && said != out; r.says(said) != want {
				t.Fatalf("without %q it says %q: %v", out, said, !want)
			}
		}
	})
	numbers, r := numbersTo(100, "grams"), newGraph()
	r.without(numbers, []string{"fifteen", "grams"})
	if r.says("fifteen grams") || r.says("fifteen gram") || !r.says("fifty grams") || !r.says("fifteen") {
		t.Error("numbers without fifteen grams are not so")
	}
}

// The text form has a line for each arc, and as many states as it tells.
func TestGraphText(t *testing.T) {
	g := newGraph()
	g.phrases(g.start, g.end, 1, []string{"yes", "no thanks"})
	text := g.text()
	want := "FSG_BEGIN g\nNUM_STATES 3\nSTART_STATE 0\nFINAL_STATE 1\nTRANSITION 0 1 0.367879 yes\nTRANSITION 0 2 0.367879 no\nTRANSITION 2 1 1 thanks\nFSG_END\n"
	if text != want {
		t.Errorf("it is\n%s", text)
	}
	if got := fmt.Sprint(g.words()); got != "[yes no thanks]" {
		t.Errorf("its words are %s", got)
	}
}
