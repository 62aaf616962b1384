package book

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

// thin names warnings that every tiny book here gives, since it is tiny.
var thin = []string{"different sayings", "names no step", "no hurry with drop", "has no source"}

// warningsOf loads a tiny book and gives its warnings, each as line: message,
// but for those that are only about it being tiny.
func warningsOf(t *testing.T, yaml string) []string {
	t.Helper()
	b, err := Load(fstest.MapFS{"a.yaml": {Data: []byte(yaml)}})
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, w := range b.Warnings() {
		ofTiny := false
		for _, part := range thin {
			ofTiny = ofTiny || strings.Contains(w.Message, part)
		}
		if !ofTiny {
			out = append(out, fmt.Sprintf("%d: %s", w.Line, w.Message))
		}
	}
	return out
}

// tiny is a book of one problem with two causes. Its first lines are facts, its
// signs stand in lines 11 and 19.
func tiny(facts, firstSigns, secondSigns string) string {
	return `stage: mould
facts: [` + facts + `]
problems:
  - id: leak
    title: It leaks
    meaning: Plaster runs out.
    sayings: [it leaks]
    fallback: {try: [Wait.], seek: Ask.}
    causes:
      - {id: loose, title: It is loose, why: It moved., often: usual, sources: ["common practice, no source"],
         signs: [` + firstSigns + `],
         remedies: [{id: press, say: Press it., now: [Press.], next_time: [Press.], saves: "yes", minutes: 1, works: mostly}]}




      - id: low
        title: It is low
        signs: [` + secondSigns + `]
        why: It was cut low.
        often: rare
        sources: ["common practice, no source"]
        remedies: [{id: raise, say: Raise it., now: [Raise.], next_time: [Raise.], saves: "yes", minutes: 1, works: mostly}]
`
}

func factText(id, kind, more string) string {
	return fmt.Sprintf("{id: %s, kind: %s, ask: 'Which?', how_to_check: Look., why: It tells., effort: look%s}", id, kind, more)
}

var (
	wet    = factText("wet", "yesno", "")
	tall   = factText("tall_mm", "number", ", unit: mm, from: 1, to: 200")
	place  = factText("place", "choice", ", options: [{value: under, label: under it}, {value: over, label: over it}, {value: beside, label: beside it}]")
	hidden = factText("hidden", "yesno", ", only_if: place == \"under\"")
)

func TestLintUnusedFacts(t *testing.T) {
	signs := [2]string{"{when: wet, points: for}", "{when: wet, points: against}"}
	for name, test := range map[string]struct {
		facts string
		want  []string
	}{
		"every fact is used":           {wet, nil},
		"a fact that nothing mentions": {wet + ", " + tall, []string{"2: fact tall_mm is used by no sign"}},
		"used by another's only_if":    {wet + ", " + factText("deep", "yesno", ", only_if: wet") + ", " + place, []string{"2: fact deep is", "2: fact place is"}},
		"used by itself only": {wet + ", " + factText("deep", "yesno", ", follows: [{when: not deep, value: \"no\"}]"),
			[]string{"2: fact deep is"}},
		"used by a way":    {wet + ", " + tall + ", " + factText("w_mm", "number", ", unit: mm, ways: [tall_mm * 2]"), []string{"2: fact w_mm is"}},
		"used by the code": {wet + ", " + factText("measure", "choice", ", options: [{value: a, label: a}, {value: b, label: b}]"), nil},
	} {
		t.Run(name, func(t *testing.T) { compareFaults(t, warningsOf(t, tiny(test.facts, signs[0], signs[1])), test.want) })
	}
	t.Run("used by an amount", func(t *testing.T) {
		compareFaults(t, warningsOf(t, tiny(wet+", "+tall, signs[0], signs[1])+
			"amounts: [{id: fill, title: Fill, parts: [{name: plaster, of: tall_mm * 2, unit: mm}]}]\n"), nil)
	})
}

func TestLintIdleSigns(t *testing.T) {
	for name, test := range map[string]struct {
		facts, first, second string
		want                 []string
	}{
		"told apart":                  {wet, "{when: wet, points: for}", "{when: not wet, points: for}", nil},
		"one cause alone has a sign":  {wet, "{when: wet, points: for}", "{when: wet, points: strongly for}", nil},
		"the same for every cause":    {wet, "{when: wet, points: for}", "{when: wet, points: for}", []string{"11: the signs about wet are the same for every cause of leak"}},
		"the same but for a constant": {wet, "{when: wet, points: for}", "{when: not wet, points: against}", []string{"11: the signs about wet are the same"}},
		"the same by other words": {place, `{when: place == "under", points: for}`, `{when: 'not (place in ["over", "beside"])', points: for}`,
			[]string{"11: the signs about place are the same"}},
		"thresholds apart":     {tall, "{when: tall_mm < 20, points: for}", "{when: tall_mm < 30, points: for}", nil},
		"thresholds the same":  {tall, "{when: tall_mm < 20, points: for}", "{when: tall_mm >= 20, points: against}", []string{"11: the signs about tall_mm are the same"}},
		"at the threshold":     {tall, "{when: tall_mm < 20, points: for}", "{when: tall_mm <= 20, points: for}", nil},
		"beyond what is true":  {tall + ", " + wet, "{when: tall_mm < 500, points: for}, {when: wet, points: for}", "{when: tall_mm < 20, points: for}", []string{"11: this sign is the same for every answer that tall_mm can have"}},
		"twice":                {wet, "{when: wet, points: for}, {when: wet, points: slightly for}", "{when: not wet, points: for}", []string{"11: cause loose has a sign for the same answers already, at line 11"}},
		"twice by other words": {wet, "{when: wet, points: for}, {when: wet == true, points: slightly for}", "{when: not wet, points: for}", []string{"11: cause loose has a sign for the same answers"}},
		"sums are left alone":  {tall, "{when: tall_mm * 2 < 20, points: for}", "{when: tall_mm * 2 < 20, points: for}", nil},
		"two facts, one cause": {wet + ", " + place, `{when: wet and place == "under", points: for}`, "{when: wet, points: for}", nil},
		"two facts, all causes": {wet + ", " + place, `{when: wet and place == "under", points: for}`, `{when: wet and  place == "under", points: for}`,
			[]string{"11: every cause of leak has this very sign"}},
		"two facts, twice": {wet + ", " + place, `{when: wet and place == "under", points: for}, {when: wet and place == "under", points: against}`, "{when: wet, points: for}",
			[]string{"11: cause loose has this sign already"}},
		"never asked": {hidden + ", " + place, `{when: hidden and place == "over", points: for}`, "{when: hidden, points: for}",
			[]string{"11: this sign is true only where one of its facts is never asked"}},
		"asked where it is true": {hidden + ", " + place, `{when: hidden and place == "under", points: for}`, "{when: hidden, points: for}", nil},
	} {
		t.Run(name, func(t *testing.T) {
			compareFaults(t, warningsOf(t, tiny(test.facts, test.first, test.second)), test.want)
		})
	}
}

// talkBook has sayings of all kinds.
const talkBook = `stage: talk
shop_talk:
  - hello there
  - it leaks
elsewhere:
  - id: cold
    title: It is cold
    sayings: [it is so cold, "It's leaking!"]
emergencies:
  - {id: hot, title: Hot, say: Cool it., do: [Cool.], call: Call., source: "from memory", ask: 'Hot?', certain: [{all: [[hot]]}],
     sayings: [it burns, "its leaking", it burns]}
`

func TestLintSharedSayings(t *testing.T) {
	signs := [2]string{"{when: wet, points: for}", "{when: wet, points: against}"}
	b, err := Load(fstest.MapFS{"a.yaml": {Data: []byte(tiny(wet, signs[0], signs[1]))}, "b.yaml": {Data: []byte(talkBook)}})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, w := range b.Warnings() {
		if strings.Contains(w.Message, "the saying") {
			got = append(got, w.String())
		}
	}
	want := []string{
		`b.yaml:4:5: the saying "it leaks" stands for problem leak too, at a.yaml:7:15`,
		`b.yaml:8:30: elsewhere cold: the saying "It's leaking!" stands for emergency hot too, at b.yaml:11:26`,
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestLintSharedAnswers(t *testing.T) {
	for name, test := range map[string]struct {
		under, over string // how else the two options are called
		want        []string
	}{
		"apart":                   {"below, at the foot", "above, at the top", nil},
		"the same":                {"by the edge", "'By the edge!'", []string{`2: fact place: "By the edge!" means over, and but for words that say nothing it means under as well`}},
		"another's label":         {"over it", "above", []string{`2: fact place: "over" means over, and but for words that say nothing it means under as well`}},
		"the same in one option":  {"below, Below", "above", nil},
		"longer, saying the same": {"edge", "at, it is the edge", []string{`2: fact place: "it is the edge" means over`}},
		"longer, saying more":     {"dry", "not dry, nearly dry", nil},
	} {
		t.Run(name, func(t *testing.T) {
			fact := factText("place", "choice", ", options: [{value: under, label: under it, says: ["+test.under+"]}, {value: over, label: right over, says: ["+test.over+"]}]")
			if strings.Contains(test.under, "over it") {
				fact = strings.Replace(fact, "right over", "over it", 1)
			}
			compareFaults(t, warningsOf(t, tiny(fact, `{when: place == "under", points: for}`, `{when: place == "over", points: for}`)), test.want)
		})
	}
}

// words gives a sentence of n words.
func words(n int) string { return strings.TrimSpace(strings.Repeat("hold ", n-1)) + " it." }

func TestLintLongSentences(t *testing.T) {
	signs := [2]string{"{when: wet, points: for}", "{when: wet, points: against}"}
	for name, test := range map[string]struct {
		more string
		want []string
	}{
		"twenty words spoken":       {"cautions: []\namounts: [{id: a, title: A, say: " + words(20) + ", parts: [{name: b, of: \"1\", unit: mm}]}]", nil},
		"one too many":              {"amounts: [{id: a, title: A, say: " + words(21) + ", parts: [{name: b, of: \"1\", unit: mm}]}]", []string{"24: amount a: a sentence of 21 words, and no more than 20"}},
		"two sentences":             {"amounts: [{id: a, title: A, say: " + words(20) + " H" + words(20)[1:] + ", parts: [{name: b, of: \"1\", unit: mm}]}]", nil},
		"a figure is two words":     {"amounts: [{id: a, title: A, say: '{long part name here} " + words(19) + "', parts: [{name: long part name here, of: \"1\", unit: mm}]}]", []string{"24: amount a: a sentence of 21 words"}},
		"a caution may have more":   {"cautions: [{id: a, level: care, source: from memory, text: " + words(25) + "}]", nil},
		"a caution of too many":     {"cautions: [{id: a, level: care, source: from memory, text: " + words(26) + "}]", []string{"24: caution a: a sentence of 26 words, and no more than 25"}},
		"notes are not spoken":      {"amounts: [{id: a, title: A, notes: [" + words(40) + "], parts: [{name: b, of: \"1\", unit: mm}]}]", nil},
		"sayings may be any length": {"elsewhere: [{id: a, title: A, sayings: [" + words(40) + "]}]", nil},
	} {
		t.Run(name, func(t *testing.T) {
			compareFaults(t, warningsOf(t, tiny(wet, signs[0], signs[1])+test.more+"\n"), test.want)
		})
	}
}

func TestLintHardWords(t *testing.T) {
	signs := [2]string{"{when: wet, points: for}", "{when: wet, points: against}"}
	caution := "cautions: [{id: a, level: care, source: from memory, text: Mind the humidity and the humidities.}]\n"
	for name, test := range map[string]struct {
		more string
		want []string
	}{
		"a hard word":         {strings.ReplaceAll(caution, "humidities", "air"), []string{`24: caution a: "humidity" is no plain word`}},
		"allowed":             {strings.ReplaceAll(caution, "humidities", "air") + "plain_words: [humidity]", nil},
		"allowed with an s":   {strings.ReplaceAll(caution, "and the humidities", "of materials") + "plain_words: [humidity, material]", nil},
		"allowed with ies":    {caution + "plain_words: [humidity]", nil},
		"allowed in vain":     {"plain_words: [extraordinary, cat]", []string{`24: no spoken text needs the plain word "extraordinary"`, `24: no spoken text needs the plain word "cat"`}},
		"part names are none": {"amounts: [{id: a, title: A, say: 'Take {extraordinary}.', parts: [{name: extraordinary, of: \"1\", unit: mm}]}]", nil},
	} {
		t.Run(name, func(t *testing.T) {
			compareFaults(t, warningsOf(t, tiny(wet, signs[0], signs[1])+test.more+"\n"), test.want)
		})
	}
}

func TestLintSources(t *testing.T) {
	for name, test := range map[string]struct {
		yaml string
		want []string
	}{
		"caution with a title":   {"cautions: [{id: a, level: care, text: A., source: Pocket Guide to Hazards}]", nil},
		"caution with a year":    {"cautions: [{id: a, level: care, text: A., source: Buffler (1993)}]", nil},
		"caution by practice":    {"cautions: [{id: a, level: care, text: A., source: 'Common practice, no source'}]", nil},
		"caution by hearsay":     {"cautions: [{id: a, level: care, text: A., source: a friend}]", []string{`2: caution a: "a friend" names no source`}},
		"1.27 is no year":        {"cautions: [{id: a, level: care, text: A., source: 3000 g}]", []string{`names no source`}},
		"material":               {"materials: [{id: a, title: A, density: 1}]", []string{"2: material a has no source"}},
		"material from memory":   {"materials: [{id: a, title: A, density: 1, source: from memory}]", nil},
		"recipe":                 {"materials: [{id: a, title: A, density: 1, source: from memory}]\nrecipes: [{id: b, title: B, good_for: A., not_for: A., parts: [{material: a, parts: 1}], source: me}]", []string{`3: recipe b: "me" names no source`}},
		"step":                   {"steps: [{id: a, title: A, least: 5}]", []string{"2: step a has no source"}},
		"usual value":            {"facts: [" + factText("x_mm", "number", ", unit: mm, usual: {value: 5 mm, text: five}") + "]", []string{"2: the usual value of x_mm has no source"}},
		"usual value, sourced":   {"facts: [" + factText("x_mm", "number", ", unit: mm, usual: {value: 5 mm, text: five, source: from memory}") + "]", nil},
		"amount with a constant": {amountOf("2.5 * x_mm", ""), []string{"3: amount a has no source"}},
		"amount, sourced":        {amountOf("2.5 * x_mm", ", source: from memory"), nil},
		"amount without one":     {amountOf("100 * x_mm / 1000 + 1 - 0", ""), nil},
		"names hold digits":      {strings.ReplaceAll(amountOf("x_mm + 1", ""), "x_mm", "x_per_100_mm2"), nil},
		"density of its own":     {"amounts: [{id: a, title: A, parts: [{name: b, of: \"1\", unit: g, density: 0.85}]}]", []string{"2: amount a has no source"}},
		"cause without any": {strings.Replace(tiny(wet, "{when: wet, points: for}", "{when: wet, points: against}"), `sources: ["common practice, no source"],`, "sources: [],", 1),
			[]string{"10: cause loose has no source"}},
		"emergency": {"emergencies: [{id: hot, title: Hot, say: Cool., do: [Cool.], call: Call., source: me, ask: 'Hot?', certain: [{all: [[hot]]}], sayings: [it burns]}]",
			[]string{`2: emergency hot: "me" names no source`}},
	} {
		t.Run(name, func(t *testing.T) {
			yaml := test.yaml + "\n"
			if !strings.HasPrefix(yaml, "stage:") {
				yaml = "stage: bench\n" + yaml
			}
			b, err := Load(fstest.MapFS{"a.yaml": {Data: []byte(yaml)}})
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, w := range b.Warnings() {
				if strings.Contains(w.Message, "source") {
					got = append(got, fmt.Sprintf("%d: %s", w.Line, w.Message))
				}
			}
			if len(test.want) == 1 && !strings.Contains(test.want[0], ": ") {
				test.want[0] = "2: " + test.want[0]
			}
			compareFaults(t, got, test.want)
		})
	}
}

func amountOf(sum, more string) string {
	return "facts: [" + factText("x_mm", "number", "") + "]\namounts: [{id: a, title: A, parts: [{name: b, of: " + sum + ", unit: count}]" + more + "}]"
}

func TestLintThinPages(t *testing.T) {
	var sayings []string
	for i := range 80 {
		sayings = append(sayings, fmt.Sprintf("leak number %d", i))
	}
	sound := strings.Replace(tiny(wet, "{when: wet, points: for}", "{when: wet, points: against}"), "sayings: [it leaks]",
		"step: pour\n    hurry: {drop: Leave it.}\n    sayings: ["+strings.Join(sayings, ", ")+"]", 1) +
		"steps: [{id: pour, title: pouring, least: 5, source: from memory}]\n"
	for name, test := range map[string]struct{ old, new, want string }{
		"sound":         {"", "", ""},
		"no step":       {"step: pour\n", "first: Wait.\n", "problem leak names no step"},
		"no hurry":      {"    hurry: {drop: Leave it.}\n", "", "problem leak has no hurry with drop"},
		"few sayings":   {", leak number 79", "", "problem leak has 79 different sayings"},
		"said it twice": {"leak number 79", "Leak number 78!", "problem leak has 79 different sayings"},
	} {
		t.Run(name, func(t *testing.T) {
			b, err := Load(fstest.MapFS{"a.yaml": {Data: []byte(strings.Replace(sound, test.old, test.new, 1))}})
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, w := range b.Warnings() {
				got = append(got, w.Message)
			}
			if len(got) == 0 != (test.want == "") || len(got) > 1 || len(got) == 1 && !strings.Contains(got[0], test.want) {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}
