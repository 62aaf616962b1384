package logic_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"sparehand/internal/logic"
)

// wreck is what can be known about a barnacle crust for the ferryman's brow.
var wreck = []logic.Fact{
	{Name: "leak_place", Kind: logic.Choice, Options: []string{"rim", "base", "pour_hole"}},
	{Name: "glue", Kind: logic.Choice, Options: []string{"water", "silicone", "spirit", "rim"}},
	{Name: "paste", Kind: logic.Choice, Options: []string{"flour"}},
	{Name: "water_g", Kind: logic.Number},
	{Name: "gelatin_g", Kind: logic.Number},
	{Name: "sticky", Kind: logic.YesNo},
	{Name: "warm", Kind: logic.YesNo},
}

func wreckBuilder(tb testing.TB) *logic.Builder {
	b, err := logic.NewBuilder(wreck, someFuncs)
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

// spot is a fault as the table below writes it: parts of its message and hint.
// What it points at stands between ⟦ and ⟧ in the text.
type spot struct{ message, hint string }

var faultTable = []struct {
	marked string
	spots  []spot
}{
	{"⟦⟧", []spot{{"condition is empty", ""}}},
	{"⟦  ⟧", []spot{{"condition is empty", ""}}},

	// names
	{"⟦watr_g⟧ > 3", []spot{{`no fact is called "watr_g"`, `did you mean "water_g"?`}}},
	{`⟦watr_g⟧ > 3 and ⟦stiky⟧ and ⟦glu⟧ == "water"`, []spot{
		{`"watr_g"`, `"water_g"`}, {`"stiky"`, `"sticky"`}, {`"glu"`, `"glue"`}}},
	{"⟦nonesuch⟧", []spot{{"no fact", "facts: sticky, warm"}}},
	{"leak_place == ⟦rim⟧", []spot{{"rim is an answer and needs quotes", `write "rim"`}}},
	{"leak_place == ⟦rimm⟧", []spot{{`no fact is called "rimm"`, `"rim", in quotes`}}},
	{"sticky == ⟦yes⟧", []spot{{"no fact", "write true"}}},
	{"sticky == ⟦True⟧", []spot{{"not known", "write true"}}},
	{"⟦rooot⟧(water_g) > 2", []spot{{"no function", `"root"`}}},
	{"⟦root⟧ > 2", []spot{{"is a function", "root(..)"}}},
	{"⟦sticky⟧() and warm", []spot{{"takes no brackets", ""}}},
	{"⟦root⟧(water_g, 2) > 3", []spot{{"given 2 numbers and needs 1", "root(a)"}}},

	// options
	{`glue == ⟦"watre"⟧`, []spot{{`glue has no option "watre"`, `did you mean "water"? options: "water", "silicone", "spirit", "rim"`}}},
	{`glue in [⟦"watre"⟧, ⟦"tar"⟧, "spirit"]`, []spot{
		{"no option", `"water"`}, {"no option", "options:"}}},
	{"glue in [⟦watre⟧, ⟦spirit⟧, ⟦3⟧, ⟦sticky⟧]", []spot{
		{"no option", `"water"`}, {"needs quotes", `"spirit"`},
		{"glue is a choice, compared with a number", ""}, {"only constants", ""}}},
	{"⟦glue == paste⟧", []spot{{"no option in common", ""}}},

	// kinds
	{"leak_place == ⟦3⟧", []spot{{"leak_place is a choice, compared with a number", `"rim", "base"`}}},
	{"⟦3⟧ == leak_place", []spot{{"leak_place is a choice, compared with a number", ""}}},
	{`⟦leak_place⟧ > "rim"`, []spot{{"has no order", "=="}}},
	{`sticky == ⟦"yes"⟧`, []spot{{`sticky is yes or no, compared with "yes"`, "not sticky"}}},
	{"sticky == ⟦1⟧", []spot{{"sticky is yes or no, compared with a number", ""}}},
	{"⟦sticky⟧ > false", []spot{{"has no order", ""}}},
	{`water_g == ⟦"3"⟧`, []spot{{"in quotes", "write 3"}}},
	{`water_g in [⟦"3"⟧, 4]`, []spot{{"in quotes", "write 3"}}},
	{`water_g > ⟦"warm"⟧`, []spot{{"not a number", ""}}},
	{"⟦water_g == glue⟧", []spot{{"water_g is a number, compared with glue, a choice", ""}}},
	{"(⟦water_g + gelatin_g⟧) == sticky", []spot{{"compared with a number", ""}}},
	{"water_g + ⟦sticky⟧ > 3", []spot{{"yes or no, not a number", ""}}},
	{"⟦not water_g⟧ == 3", []spot{{"not covers only water_g", "not (..)"}}},
	{`⟦"a" == "b"⟧`, []spot{{"words are compared with words", ""}}},
	{"water_g in ⟦[]⟧", []spot{{"list is empty", ""}}},
	{"water_g in ⟦gelatin_g⟧", []spot{{"needs a list", ""}}},
	{"water_g in [⟦gelatin_g⟧]", []spot{{"only constants", ""}}},
	{"sticky == ⟦nil⟧", []spot{{"nil", "unknown by itself"}}},
	{"⟦water_g / 0⟧ > 1", []spot{{"divides by zero", ""}}},
	{"water_g > ⟦root(-1)⟧", []spot{{"cannot be worked out", ""}}},

	// not a condition
	{"⟦water_g⟧", []spot{{"is a number, not a condition", "water_g > 0"}}},
	{"⟦leak_place⟧", []spot{{"is a choice, not a condition", `leak_place == "rim"`}}},
	{`warm and ⟦"wet"⟧`, []spot{{"is words, not a condition", ""}}},
	{"(⟦water_g + 1⟧)", []spot{{"is a number, not a condition", ""}}},

	// slips, with the other faults behind them
	{"water_g ⟦=⟧ 3", []spot{{`"="`, "use =="}}},
	{`water_g ⟦=⟧ 3 and ⟦glu⟧ == "water"`, []spot{{`"="`, "=="}, {"no fact", `"glue"`}}},
	{`water_g⟦=⟧3 and ⟦glu⟧ == "water"`, []spot{{`"="`, "=="}, {"no fact", `"glue"`}}},
	{"sticky ⟦&⟧ warm", []spot{{`"&"`, "use and"}}},
	{"sticky ⟦|⟧ warm", []spot{{`"|"`, "use or"}}},
	{"glue == ⟦⟦“⟧watre⟦”⟧⟧", []spot{{"not used", `use "`}, {"no option", `"water"`}, {"not used", `use "`}}},
	{"water_g ⟦≥⟧ 3", []spot{{"not used", "use >="}}},
	{"water_g ⟦<>⟧ 3", []spot{{"not used", "use !="}}},
	{"sticky ⟦AND⟧ warm", []spot{{"not known", "write and"}}},
	{"water_g > ⟦3g⟧", []spot{{"not a number", "without a unit"}}},
	{"water_g > 3⟦%⟧", []spot{{"not used", "without a unit"}}},

	// unfinished
	{"sticky ⟦and⟧", []spot{{`ends after "and"`, "take it out"}}},
	{"sticky or warm ⟦and⟧  ", []spot{{`ends after "and"`, ""}}},
	{"water_g ⟦>=⟧", []spot{{`ends after ">="`, ""}}},
	{"⟦(⟧sticky", []spot{{"never closed", ""}}},
	{"sticky⟦)⟧", []spot{{"closes nothing", ""}}},
	{`glue == ⟦"wat⟧`, []spot{{"quote is never closed", ""}}},
	{"sticky ⟦warm⟧", []spot{{"not expected", "and, or"}}},
	{"sticky and ⟦and⟧ warm", []spot{{"not expected", ""}}},
	{"⟦()⟧", []spot{{"nothing in these brackets", ""}}},
	{`glue == "\⟦q⟧"`, []spot{{"not followed by something known", ""}}},
	{"water_g > ⟦99999999999999999999⟧", []spot{{"not a number that can be used", ""}}},

	// forms that conditions do not have
	{"⟦len⟧(⟦glue⟧) > 2", []spot{{"no function", ""}, {"not a number", ""}}},
	{"⟦all⟧(glue, ⟦#⟧ > 1)", []spot{{"no function", ""}, {"not used", ""}}},
	{"water_g in ⟦1..3⟧", []spot{{"needs a list", ""}}},
	{"⟦1..3⟧ == 2", []spot{{`".."`, ""}}},
	{"sticky⟦;⟧", []spot{{"not used", ""}}},
	{"sticky ⟦?⟧ true ⟦:⟧ false", []spot{{"not used", ""}, {"not used", ""}}},
	{"⟦glue.size⟧ > 2", []spot{{"have no parts", ""}}},
	{`⟦glue["a"]⟧ == 3`, []spot{{"have no parts", ""}}},
	{`⟦$⟧⟦env⟧.glue == "water"`, []spot{{"not used", ""}, {"no fact", ""}}},
	{`⟦glue matches "w.*"⟧`, []spot{{`"matches" is not used`, ""}}},
	{"water_g ⟦//⟧ ⟦note⟧", []spot{{"not used", ""}, {"no fact", ""}}},
	{"⟦+water_g⟧ > 3", []spot{{`"+" before a number`, "take it out"}}},
}

// unmark takes the marks out of a text and returns where they stood: the runes
// between each pair, in the order of faults.
func unmark(marked string) (text string, spans [][2]int) {
	var open []int
	at := 0
	for _, r := range marked {
		switch r {
		case '⟦':
			open = append(open, at)
		case '⟧':
			spans = append(spans, [2]int{open[len(open)-1], at})
			open = open[:len(open)-1]
		default:
			text += string(r)
			at++
		}
	}
	slices.SortFunc(spans, func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
	return text, spans
}

// TestFaults holds every kind of fault to its place, counted in runes.
func TestFaults(t *testing.T) {
	for _, tt := range faultTable {
		text, spans := unmark(tt.marked)
		t.Run(text, func(t *testing.T) {
			_, faults := wreckBuilder(t).Add(text)
			if len(faults) != len(tt.spots) || len(faults) != len(spans) {
				t.Fatalf("%d faults, want %d at %v: %v", len(faults), len(tt.spots), spans, faults)
			}
			for i, f := range faults {
				want := tt.spots[i]
				if [2]int{f.From, f.To} != spans[i] {
					t.Errorf("%q is at %d-%d, want %v", f.Message, f.From, f.To, spans[i])
				}
				if !strings.Contains(f.Message, want.message) || !strings.Contains(f.Hint, want.hint) {
					t.Errorf("says %q (%q), want %q (%q)", f.Message, f.Hint, want.message, want.hint)
				}
			}
		})
	}
}

// engineTalk are words of the machinery that a maker should never meet.
var engineTalk = regexp.MustCompile(`(?i)\b(token|operator|identifier|float64|int|bool|string|nature|interface|node|ast|expr|EOF|literal|parser|runtime|unexpected|compil\w*)\b`)

func checkWording(t *testing.T, text string, faults []logic.Fault) {
	t.Helper()
	n := utf8.RuneCountInString(text)
	for i, f := range faults {
		if f.From < 0 || f.To < f.From || f.To > n {
			t.Errorf("%q: fault at %d-%d of %d", text, f.From, f.To, n)
		}
		if i > 0 && f.From < faults[i-1].From {
			t.Errorf("%q: faults out of order", text)
		}
		if f.Message == "" || strings.HasSuffix(f.Message, ".") {
			t.Errorf("%q: message %q", text, f.Message)
		}
	}
}

func TestFaultsSpeakPlainly(t *testing.T) {
	for _, tt := range faultTable {
		text, _ := unmark(tt.marked)
		_, faults := wreckBuilder(t).Add(text)
		checkWording(t, text, faults)
		for _, f := range faults {
			if m := engineTalk.FindString(f.Message + " " + f.Hint); m != "" {
				t.Errorf("%q: %q speaks of %q", text, f.Message, m)
			}
		}
	}
}

// TestLimits feeds texts that would overflow or stall a parser.
func TestLimits(t *testing.T) {
	chain := func(n int, part, between string) string {
		return strings.TrimSuffix(strings.Repeat(part+between, n), between)
	}
	tests := map[string]struct{ text, message string }{
		"a million brackets":   {strings.Repeat("(", 1_000_000), "bytes long"},
		"a huge text":          {strings.Repeat("sticky and ", 1_000_000) + "sticky", "bytes long"},
		"brackets too deep":    {strings.Repeat("(", 65) + "sticky" + strings.Repeat(")", 65), "more than 64 deep"},
		"lists too deep":       {strings.Repeat("[", 4000), "more than 64 deep"},
		"nots too deep":        {strings.Repeat("not ", 900) + "sticky", "more than 64 deep"},
		"exclamation marks":    {strings.Repeat("!", 4000) + "sticky", "there are more than 1000"},
		"minus signs":          {strings.Repeat("-", 900) + "water_g > 3", "more than 64 deep"},
		"too many parts":       {chain(600, "warm", "||"), "there are more than 1000"},
		"calls inside calls":   {strings.Repeat("root(", 65) + "1" + strings.Repeat(")", 65) + " > 1", "more than 64 deep"},
		"not text":             {"sticky \xff", "not readable text"},
		"a mountain of quotes": {chain(2000, `"`, " "), ""},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			_, faults := wreckBuilder(t).Add(tt.text)
			if len(faults) == 0 || !strings.Contains(fmt.Sprint(faults), tt.message) {
				t.Errorf("faults %.300v, want %q", faults, tt.message)
			}
			checkWording(t, tt.text, faults)
		})
	}
	for name, text := range map[string]string{
		"64 brackets":   strings.Repeat("(", 60) + "sticky" + strings.Repeat(")", 60),
		"a long chain":  chain(400, "warm", " and "),
		"300 different": chain(300, "water_g != %d", " and "),
	} {
		for i := 0; strings.Contains(text, "%d"); i++ {
			text = strings.Replace(text, "%d", fmt.Sprint(i), 1)
		}
		if len(text) > logic.MaxText {
			text = text[:strings.LastIndex(text[:logic.MaxText], " and ")]
		}
		if _, faults := wreckBuilder(t).Add(text); len(faults) > 0 {
			t.Errorf("%s: %v", name, faults)
		}
	}
}

func TestNewBuilderRefuses(t *testing.T) {
	fn := func(...float64) (float64, error) { return 0, nil }
	tests := map[string]struct {
		facts []logic.Fact
		funcs []logic.Func
		want  string
	}{
		"no name":        {facts: []logic.Fact{{Kind: logic.YesNo}}, want: "cannot be a name"},
		"spaces":         {facts: []logic.Fact{{Name: "a b", Kind: logic.YesNo}}, want: "cannot be a name"},
		"keyword":        {facts: []logic.Fact{{Name: "not", Kind: logic.YesNo}}, want: "meaning of its own"},
		"twice":          {facts: []logic.Fact{{Name: "a", Kind: logic.YesNo}, {Name: "a", Kind: logic.Number}}, want: "used twice"},
		"no options":     {facts: []logic.Fact{{Name: "a", Kind: logic.Choice}}, want: "needs options"},
		"option twice":   {facts: []logic.Fact{{Name: "a", Options: []string{"x", "x"}}}, want: "given twice"},
		"stray options":  {facts: []logic.Fact{{Name: "a", Kind: logic.Number, Options: []string{"x"}}}, want: "only a choice"},
		"no kind":        {facts: []logic.Fact{{Name: "a", Kind: 9}}, want: "there is no"},
		"no function":    {funcs: []logic.Func{{Name: "f"}}, want: "does nothing"},
		"fact and func":  {facts: []logic.Fact{{Name: "f", Kind: logic.YesNo}}, funcs: []logic.Func{{Name: "f", Fn: fn}}, want: "used twice"},
		"function twice": {funcs: []logic.Func{{Name: "f", Fn: fn}, {Name: "f", Fn: fn}}, want: "used twice"},
	}
	for name, tt := range tests {
		if _, err := logic.NewBuilder(tt.facts, tt.funcs); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", name, err, tt.want)
		}
	}
}
