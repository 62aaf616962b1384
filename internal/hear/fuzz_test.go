package hear

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// contexts gives a question of each kind, and none.
func contexts(b *book.Book) []Context {
	list := []Context{{}, {Problem: b.Problems[0]}}
	for i := range b.Facts {
		f := &b.Facts[i]
		list = append(list, Context{Problem: b.Problems[i%len(b.Problems)], Asked: &Asked{Fact: f, Kind: f.Kind, Options: f.Options}})
	}
	options := []book.Option{{Value: "dam-leaks", Label: "Plaster leaks from the wall"}, {Value: "edges-curl", Label: "Edges curl"}}
	return append(list,
		Context{Asked: &Asked{Special: AskProblem, Kind: logic.Choice, Options: options}},
		Context{Asked: &Asked{Special: AskMeaning, Kind: logic.Choice}},
		Context{Asked: &Asked{Special: AskEmergency, Kind: logic.YesNo}},
		Context{Asked: &Asked{Special: AskDidItWork, Kind: logic.YesNo, Options: options}})
}

// sane fails unless every part of the meaning fits the book and the question.
func sane(t interface{ Fatalf(string, ...any) }, b *book.Book, c Context, m Meaning) {
	seen := map[logic.FactID]bool{}
	facts := append([]Heard(nil), m.Facts...)
	for _, d := range m.Denied {
		facts = append(facts, Heard{d.Fact, d.Value, ""})
	}
	for _, h := range m.Facts {
		if seen[h.Fact] {
			t.Fatalf("fact %d is told twice in %+v", h.Fact, m)
		}
		seen[h.Fact] = true
	}
	for _, r := range m.Readings {
		facts = append(facts, r.Facts...)
	}
	for _, h := range facts {
		if int(h.Fact) < 0 || int(h.Fact) >= len(b.Facts) || !valid(&b.Facts[h.Fact], h.Value) {
			t.Fatalf("fact %d cannot have the value %+v", h.Fact, h.Value)
		}
	}
	if n := len(m.Readings); n == 1 || n > 6 || len(m.Alternatives) > 3 || len(m.Spare) > maxText {
		t.Fatalf("too much or too little is meant: %+v", m)
	}
	if m.Pick < 0 || m.Pick > 2 || m.Pick > 0 && (c.Asked == nil || c.Asked.Fact != nil) {
		t.Fatalf("option %d was picked of %+v", m.Pick, c.Asked)
	}
	if t1 := m.Timer; t1 != nil && (math.IsNaN(t1.Minutes) || math.IsInf(t1.Minutes, 0) || t1.Minutes < 0 || t1.Minutes > 0 && t1.Clock != nil || t1.All && !t1.Stop) {
		t.Fatalf("no timer is %+v", t1)
	}
	if p := m.Past; p != nil && (!isOneOf(p.Do, PastRecall, PastAgain, PastList) || len(p.Words) > mostNames || p.Days < 0 || p.Days > 100) {
		t.Fatalf("nothing past is %+v", p)
	}
	if m.GoTo != "" && !slices.ContainsFunc(b.Steps, func(s book.Step) bool { return s.ID == m.GoTo }) {
		t.Fatalf("no step is called %q", m.GoTo)
	}
	if m.Problem != "" && b.ProblemByID(m.Problem) == nil {
		t.Fatalf("no problem is called %q", m.Problem)
	}
}

func valid(f *book.Fact, v logic.Value) bool {
	if v.Kind() != f.Kind {
		return false
	}
	switch f.Kind {
	case logic.Choice:
		return v.Index() >= 0 && v.Index() < len(f.Options)
	case logic.Number:
		x := v.Number()
		return !math.IsNaN(x) && !math.IsInf(x, 0) && (f.Low == 0 && f.High == 0 || x >= f.Low-0.001 && x <= f.High+0.001)
	}
	return true
}

func FuzzHear(f *testing.F) {
	h, b := smallHearing(f)
	list := contexts(b)
	for i, words := range []string{"", "no it is not sticky", "6 by 4 inches and an inch high", "1/0 oz", "½\" x 3' by 2 mils",
		"two hundred and and a half a dozen", "\xff\xfe", "sore bit all", "- - -5 to -3", "99999999999999999999", "can't 'n't 't", "between 1 and", "İ ſ ﬁ",
		"set a timer for ½ an hour: the jug", "remind me at 19:", "give it another", "three more of the cheek for friday and", "walk me through a",
		"same as last time but less", "stop the", "I'm at the"} {
		f.Add(words, uint8(i))
	}
	f.Fuzz(func(t *testing.T, words string, which uint8) {
		c := list[int(which)%len(list)]
		m := h.Hear(c, words)
		sane(t, b, c, m)
		if again := said(b, h.Hear(c, words)); again != said(b, m) {
			t.Fatalf("%q meant %q and then %q", words, said(b, m), again)
		}
	})
}

// sumContexts gives the states of the talk that sums bring: none, one under
// way, and a question of each of its numbers.
func sumContexts(b *book.Book) []Context {
	list := []Context{{}, {Sums: b.Amounts}}
	for _, a := range b.Amounts {
		c := Context{Sums: []*book.Amount{a}}
		list = append(list, c)
		for _, id := range b.Reach(a) {
			if f := &b.Facts[id]; f.Kind == logic.Number {
				c.Asked = &Asked{Fact: f, Kind: f.Kind}
				c.LastUnit = craft.BaseUnit(craft.Length)
				list = append(list, c)
			}
		}
	}
	return list
}

func FuzzAmounts(f *testing.F) {
	h, b := sumsHearing(f)
	list := sumContexts(b)
	for i, words := range []string{"6 by 4 by 1 inches", "how much plaster for a six buy for tray an inch deep", "4 oz of gelatin", "1/0 t",
		"how many ml in 3 tablespoons", "length 6 width 4, no wait 12 x 4 x 1 x 2", "minus 0 mm by 1e9 cm2", "both cheeks 5 times a dozen of them",
		"800w 60cm2 5mm3", "x by x by to", "2 2 2 by", "a cup and a half of plaster slurry mix"} {
		f.Add(words, uint16(i))
	}
	f.Fuzz(func(t *testing.T, words string, which uint16) {
		for _, a := range readAmounts(h.listen(words)) {
			if math.IsNaN(a.value) || math.IsInf(a.value, 0) || a.from < 0 || a.to <= a.from || a.bare > a.to {
				t.Fatalf("%q holds the amount %+v", words, a)
			}
		}
		c := list[int(which)%len(list)]
		m := h.Hear(c, words)
		sane(t, b, c, m)
		for _, told := range m.Facts {
			if f := &b.Facts[told.Fact]; f.Kind == logic.Number && !believable(f, told.Value.Number()) {
				t.Fatalf("%q told %s = %v", words, f.Name, told.Value.Number())
			}
		}
		if v := m.Convert; v != nil && (math.IsNaN(v.Value) || len(v.From) == 0 || v.To.Name == "") {
			t.Fatalf("%q converts %+v", words, v)
		}
	})
}

// A number with a unit is only ever told to a fact that is measured in such
// units.
func TestNumbersKeepTheirDimension(t *testing.T) {
	h, b := sumsHearing(t)
	list := sumContexts(b)
	units := []string{"g", "kg", "pounds", "ml", "cups", "tablespoons", "mm", "inches", "feet", "minutes", "hours", "celsius",
		"fahrenheit", "percent", "watts", "cm2", "square inches"}
	words := []string{"how", "much", "plaster", "gelatin", "of", "the", "long", "wide", "deep", "tray", "piece", "wall", "skirt", "is", "for",
		"water", "mix", "bloom", "clay", "weighs", "holds", "across", "it", "by", "and", "in", "microwave", "syrup", "copies", "squares",
		"humidity", "on", "stage", "wait", "no", "cap", "bag", "costs", "round", ","}
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(list).Draw(t, "context")
		name := rapid.SampledFrom(units).Draw(t, "unit")
		some := func(label string) string {
			return strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 0, 8).Draw(t, label), " ")
		}
		line := some("before") + " " + rapid.SampledFrom([]string{"3", "40", "0.5", "250", "twenty"}).Draw(t, "number") + " " + name + " " + some("after")
		u, _ := craft.UnitNamed(name)
		for _, told := range h.Hear(c, line).Facts {
			f := &b.Facts[told.Fact]
			dim, measured := dimensionOf(f.Unit)
			price := strings.HasSuffix(f.Name, priceSuffix) && name == "pounds"
			if f.Kind == logic.Number && !price && (!measured || dim != u.Dimension) {
				t.Fatalf("%q told %s", line, f.Name)
			}
		}
	})
}

// Lines made of the very words that hearing looks for are the likeliest to
// trip it.
func TestAnyWordsAreSane(t *testing.T) {
	h, b := smallHearing(t)
	list := contexts(b)
	words := []string{"no", "not", "yes", "under", "the", "wall", "join", "6", "1/2", "by", "x", "inch", "inches", "oz", "cups",
		"and", "a", "half", "two", "hundred", "to", "between", "percent", "humidity", "minus", "sticky", "maybe", "know", "don't",
		"both", "last", "one", "number", ",", ".", "-", "°", "'", "\"", "caps", "fill", "tablespoon", "edges", "curl", "burnt",
		"gelatin", "hand", "stop", "bleeding", "sore", "bit", "all", "now", "how", "much", "plaster", "degrees", "dozen"}
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(list).Draw(t, "context")
		line := ""
		for _, w := range rapid.SliceOfN(rapid.SampledFrom(words), 0, 25).Draw(t, "words") {
			line += w + " "
		}
		sane(t, b, c, h.Hear(c, line))
	})
}

// A yes/no question never takes a plain "no" for yes, whatever small words
// stand around it.
func TestNoIsNeverYes(t *testing.T) {
	h, b := smallHearing(t)
	c := asks(t, b, "sticky", "edges-curl")
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.SampledFrom([]string{"", "um ", "well, ", "oh ", "er... ", "ah "}).Draw(t, "before")
		core := rapid.SampledFrom([]string{"no", "nope", "no it is not", "it isn't sticky", "not sticky", "it's not tacky", "not really"}).Draw(t, "core")
		after := rapid.SampledFrom([]string{"", ".", " at all", ", not at all", " really", " to be honest"}).Draw(t, "after")
		m := h.Hear(c, before+core+after)
		if len(m.Facts) != 1 || m.Facts[0].Value != logic.Yes(false) {
			t.Fatalf("%q told %q", before+core+after, said(b, m))
		}
	})
}
