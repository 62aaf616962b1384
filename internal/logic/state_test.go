package logic_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/expr-lang/expr/vm"

	"sparehand/internal/logic"
	"sparehand/internal/logic/logictest"
)

// threeValued is the standard truth table of AND and OR with an unknown: the
// same in Kleene (Introduction to Metamathematics, 1952, section 64) and in SQL
// (ISO/IEC 9075:1992, 8.12, truth tables for AND, OR and NOT; from memory).
var threeValued = []struct{ a, b, and, or logic.Truth }{
	{logic.True, logic.True, logic.True, logic.True},
	{logic.True, logic.False, logic.False, logic.True},
	{logic.True, logic.Unknown, logic.Unknown, logic.True},
	{logic.False, logic.True, logic.False, logic.True},
	{logic.False, logic.False, logic.False, logic.False},
	{logic.False, logic.Unknown, logic.False, logic.Unknown},
	{logic.Unknown, logic.True, logic.Unknown, logic.True},
	{logic.Unknown, logic.False, logic.False, logic.Unknown},
	{logic.Unknown, logic.Unknown, logic.Unknown, logic.Unknown},
}

func setTruth(tb testing.TB, s *logic.State, f logic.FactID, to logic.Truth) {
	if to == logic.Unknown {
		s.Clear(f)
		return
	}
	set(tb, s, answer{f, logic.Yes(to == logic.True)})
}

func TestThreeValuedTable(t *testing.T) {
	base := build(t, wreck, []string{"sticky and warm", "sticky or warm", "not sticky", "!(sticky && warm)"})
	s := base.NewState()
	for _, row := range threeValued {
		setTruth(t, s, 5, row.a)
		setTruth(t, s, 6, row.b)
		want := []logic.Truth{row.and, row.or, opposite(row.a), opposite(row.and)}
		for c, w := range want {
			if got := s.Truth(logic.Cond(c)); got != w {
				t.Errorf("%s with %v, %v is %v, want %v", base.Text(logic.Cond(c)), row.a, row.b, got, w)
			}
		}
	}
}

func opposite(t logic.Truth) logic.Truth {
	return map[logic.Truth]logic.Truth{logic.True: logic.False, logic.False: logic.True}[t]
}

// TestConditions decides single conditions with nothing but these answers:
// leak_place base, glue water, water_g 40, gelatin_g 0, sticky yes.
func TestConditions(t *testing.T) {
	tests := map[string]logic.Truth{
		`leak_place == "base"`:                logic.True,
		`"base" != leak_place`:                logic.False,
		`leak_place in ["rim", "base"]`:       logic.True,
		`leak_place not in ["rim", "base"]`:   logic.False,
		"30 < water_g < 60":                   logic.True,
		"30 < water_g <= 39.9":                logic.False,
		"60 > water_g":                        logic.True,
		"40 <= water_g and water_g <= 40":     logic.True,
		"water_g < 40 or water_g > 40":        logic.False,
		"water_g == 40":                       logic.True,
		"water_g != 40.0":                     logic.False,
		"-water_g < -39":                      logic.True,
		"water_g - 40 == gelatin_g":           logic.True,
		"water_g > gelatin_g":                 logic.True,
		"water_g in [20 * 2, 3]":              logic.True,
		"water_g + 1 in [41]":                 logic.True,
		"water_g / gelatin_g > 1":             logic.Unknown, // divided by nothing
		"not (water_g / gelatin_g > 1)":       logic.Unknown,
		"inverse(gelatin_g) > 1":              logic.Unknown, // the function fails
		"root(-water_g) > 1":                  logic.Unknown, // not a number
		"larger(water_g, 50) == 50":           logic.True,
		"7 / 2 == 3.5":                        logic.True,
		"sticky == (water_g > 30)":            logic.True,
		"sticky != true":                      logic.False,
		"warm":                                logic.Unknown,
		"warm and false":                      logic.False,
		"warm or sticky":                      logic.True,
		"warm or not warm":                    logic.Unknown,
		"warm == warm":                        logic.Unknown,
		"glue == leak_place":                  logic.False,
		`warm and (glue == "water" or warm)`:  logic.Unknown,
		`not (warm and glue == "spirit")`:     logic.True,
		"true":                                logic.True,
		"not true":                            logic.False,
		"larger(1, 2) == 2 && 1 < 2 || false": logic.True,
	}
	texts := slices.Collect(func(yield func(string) bool) {
		for text := range tests {
			if !yield(text) {
				return
			}
		}
	})
	b := wreckBuilder(t)
	for _, text := range texts {
		if _, faults := b.Add(text); len(faults) > 0 {
			t.Fatalf("%s: %v", text, faults)
		}
	}
	s := b.Build().NewState()
	for f, v := range map[logic.FactID]logic.Value{0: logic.Option(1), 1: logic.Option(0), 3: logic.Num(40), 4: logic.Num(0), 5: logic.Yes(true)} {
		set(t, s, answer{f, v})
	}
	for i, text := range texts {
		if got := s.Truth(logic.Cond(i)); got != tests[text] {
			t.Errorf("%s is %v, want %v", text, got, tests[text])
		}
	}
}

func TestSetRefuses(t *testing.T) {
	s := build(t, wreck, []string{"sticky", `leak_place == "rim"`}).NewState()
	set(t, s, answer{0, logic.Option(0)})
	for f, v := range map[logic.FactID]logic.Value{
		0: logic.Option(3), 1: logic.Option(-1), 2: logic.Yes(true), 3: logic.Num(math.NaN()),
		4: logic.Num(math.Inf(-1)), 5: logic.Num(1), 6: logic.Option(0), 99: logic.Yes(true), -1: logic.Yes(true),
	} {
		if err := s.Set(f, v); err == nil {
			t.Errorf("fact %d took %v", f, v)
		}
	}
	if v, ok := s.Value(0); !ok || v != logic.Option(0) || s.Truth(1) != logic.True {
		t.Error("a refused answer changed the state")
	}
	s.Clear(99)
	if got := s.Truth(77); got != logic.Unknown {
		t.Errorf("a condition that is not there is %v", got)
	}
}

// TestUndoIsBounded goes further than the past reaches.
func TestUndoIsBounded(t *testing.T) {
	s := build(t, wreck, []string{"water_g > 10"}).NewState()
	for i := range 3000 {
		set(t, s, answer{3, logic.Num(float64(i))})
	}
	steps := 0
	for s.Undo() {
		steps++
		if v, _ := s.Value(3); v.Number() != float64(2999-steps) {
			t.Fatalf("after %d steps back it is %v", steps, v.Number())
		}
	}
	if steps != 1024 {
		t.Errorf("went back %d steps, want 1024", steps)
	}
	set(t, s, answer{3, logic.Num(1)})
	if !s.Undo() || s.Undo() {
		t.Error("after the past is used up, exactly one new step can be undone")
	}
	s.Reset()
	if _, ok := s.Value(3); ok || s.Truth(0) != logic.Unknown || s.Undo() || len(s.Changed()) > 0 {
		t.Error("a reset state remembers")
	}
}

func TestParts(t *testing.T) {
	base := build(t, wreck, []string{
		`sticky and (warm or water_g > 3) and not (glue == "water")`,
		`(sticky) or 30 < water_g < 60`,
		`not (sticky and warm)`,
		"sticky && ((water_g + 1) > (gelatin_g))",
	})
	s := base.NewState()
	set(t, s, answer{3, logic.Num(40)})
	set(t, s, answer{1, logic.Option(0)})
	want := [][]logic.Part{
		{{"sticky", 0, 6, logic.Unknown}, {"warm or water_g > 3", 12, 31, logic.True}, {`not (glue == "water")`, 37, 58, logic.False}},
		{{"sticky", 1, 7, logic.Unknown}, {"30 < water_g < 60", 12, 29, logic.True}},
		{{"not (sticky and warm)", 0, 21, logic.Unknown}},
		{{"sticky", 0, 6, logic.Unknown}, {"(water_g + 1) > (gelatin_g)", 11, 38, logic.Unknown}},
	}
	for c, w := range want {
		if got := s.Parts(logic.Cond(c)); !reflect.DeepEqual(got, w) {
			t.Errorf("%s: %v, want %v", base.Text(logic.Cond(c)), got, w)
		}
	}
}

func TestMentionsAndCuts(t *testing.T) {
	base := build(t, wreck, []string{
		"water_g > 30 and (60 >= water_g or warm)", "water_g in [30, 2 * 45] and gelatin_g < 5", "water_g > gelatin_g or water_g + 1 > 7",
		"sticky and false",
	})
	for c, want := range [][]logic.FactID{{3, 6}, {3, 4}, {3, 4}, {5}} {
		if got := base.Mentions(logic.Cond(c)); !slices.Equal(got, want) {
			t.Errorf("%s mentions %v, want %v", base.Text(logic.Cond(c)), got, want)
		}
	}
	for _, tt := range []struct {
		fact  logic.FactID
		conds []logic.Cond
		want  []float64
	}{
		{3, nil, []float64{30, 60, 90}}, {4, nil, []float64{5}}, {3, []logic.Cond{0}, []float64{30, 60}},
		{3, []logic.Cond{2}, nil}, {3, []logic.Cond{1, 0}, []float64{30, 60, 90}}, {5, nil, nil}, {3, []logic.Cond{-1, 50}, nil},
	} {
		if got := base.Cuts(tt.fact, tt.conds...); !slices.Equal(got, tt.want) {
			t.Errorf("cuts of %d in %v are %v, want %v", tt.fact, tt.conds, got, tt.want)
		}
	}
	if id, ok := base.FactID("water_g"); !ok || id != 3 || base.Fact(id).Name != "water_g" || base.Facts() != len(wreck) {
		t.Error("facts are not found by name")
	}
}

func TestConstant(t *testing.T) {
	tests := map[string]logic.Truth{
		"1 == 1":                                              logic.True,
		"2 > 3 and sticky":                                    logic.False,
		"sticky or true":                                      logic.True,
		"sticky and not sticky":                               logic.False,
		"sticky or not sticky":                                logic.True,
		"sticky and warm and not sticky":                      logic.False,
		"(sticky or not sticky) and warm":                     logic.Unknown,
		"(sticky or not sticky) and (warm or !warm)":          logic.True,
		`glue == "water" and glue == "spirit"`:                logic.False,
		`glue != "water" or glue != "spirit"`:                 logic.True,
		`glue in ["water", "silicone", "spirit", "rim"]`:      logic.True,
		`glue not in ["water", "silicone", "spirit", "rim"]`:  logic.False,
		`glue in ["water", "silicone"]`:                       logic.Unknown,
		"water_g > 60 and water_g < 30":                       logic.False,
		"60 < water_g < 30":                                   logic.False,
		"water_g >= 30 and water_g <= 30":                     logic.Unknown,
		"water_g > 30 and water_g <= 30":                      logic.False,
		"water_g == 30 and water_g == 40":                     logic.False,
		"water_g < 30 or water_g >= 30":                       logic.True,
		"sticky":                                              logic.Unknown,
		"sticky and (warm and not sticky)":                    logic.False,
		"water_g > gelatin_g and not (water_g > gelatin_g)":   logic.False,
		"(sticky and water_g > 3) or not (sticky and !false)": logic.Unknown,
	}
	for text, want := range tests {
		base := build(t, wreck, []string{text})
		if got := base.Constant(0); got != want {
			t.Errorf("%s is always %v, want %v", text, got, want)
		}
	}
}

// TestConstantIsQuick would run for ever if shared nodes were looked at again
// on each way to them.
func TestConstantIsQuick(t *testing.T) {
	text := "sticky" + strings.Repeat(" == warm == sticky", 30)
	if got := build(t, wreck, []string{text}).Constant(0); got != logic.Unknown {
		t.Errorf("%s is always %v", text, got)
	}
}

func TestFormula(t *testing.T) {
	b := wreckBuilder(t)
	grams := func(f logic.FactID) (float64, bool) { // gelatin has no answer
		return 150, f == 3
	}
	for text, want := range map[string]float64{
		"water_g / 3":               50,
		"-(water_g - 2) * 2 + 1":    -295,
		"larger(water_g, 200) / 8":  25,
		"7 / 2":                     3.5,
		"2 + 3 * 4 - 10 / 4":        11.5,
		"root(water_g + 75) * 2e-1": 3,
	} {
		f, faults := b.Formula(text)
		if len(faults) > 0 {
			t.Errorf("%s: %v", text, faults)
			continue
		}
		if got, err := f.Eval(grams); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%s is %v, %v, want %v", text, got, err, want)
		}
	}
	f, _ := b.Formula("gelatin_g + water_g * gelatin_g")
	if !slices.Equal(f.Facts(), []logic.FactID{3, 4}) {
		t.Errorf("needs %v", f.Facts())
	}
	for text, want := range map[string]string{
		"gelatin_g + 1": "gelatin_g has no answer", "1 / (water_g - 150)": "divided", "root(-water_g)": "not a usable number",
		"inverse(water_g - 150)": "nothing to turn over", "water_g * 1e308": "not a usable number",
	} {
		f, _ := b.Formula(text)
		if x, err := f.Eval(grams); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s is %v, %v, want an error with %q", text, x, err, want)
		}
	}
	for text, want := range map[string]string{
		"water_g > 3": "is a condition, not a number", "glue": "is a choice, not a number", "sticky + 1": "yes or no, not a number",
		"": "formula is empty", `"3"`: "in quotes", "watr_g": "no fact", "1 / 0": "divides by zero", "2 *": "ends after",
	} {
		if _, faults := b.Formula(text); len(faults) != 1 || !strings.Contains(faults[0].Message, want) {
			t.Errorf("%s: %v, want %q", text, faults, want)
		}
	}
}

// TestSharing looks at what cannot be seen otherwise: that conditions written
// in another order cost one node.
func TestSharing(t *testing.T) {
	one := build(t, wreck, []string{`sticky and (glue == "water" or water_g < 3)`})
	two := build(t, wreck, []string{
		`sticky and (glue == "water" or water_g < 3)`, `(water_g < 3 or glue == "water") && sticky`,
		`not (not sticky or not ("water" == glue or not (water_g >= 3)))`,
	})
	a, b := logic.Nodes(one), logic.Nodes(two)
	if a != b {
		t.Errorf("three ways to say one thing take %d nodes, one takes %d", b, a)
	}
}

// TestWorkloadIsExpr compares a State with expr itself, an outside evaluator of
// the same syntax, on 1,000 rules with all facts answered.
func TestWorkloadIsExpr(t *testing.T) {
	facts, rules := logictest.Workload(1000, 3)
	s := build(t, facts, rules).NewState()
	first, ring := changes(facts, 100)
	env := map[string]any{}
	for _, a := range first {
		set(t, s, a)
		put(env, facts, a)
	}
	programs := compileAll(t, env, rules)
	var machine vm.VM
	for _, a := range ring {
		set(t, s, a)
		put(env, facts, a)
		for c, p := range programs {
			out, err := machine.Run(p, env)
			if err != nil {
				t.Fatal(err)
			}
			if got := s.Truth(logic.Cond(c)); got != map[any]logic.Truth{true: logic.True, false: logic.False}[out] {
				t.Fatalf("%s is %v, expr says %v", rules[c], got, out)
			}
		}
	}
}

// TestSetDoesNotAllocate holds for everything but sums, which expr runs.
func TestSetDoesNotAllocate(t *testing.T) {
	facts, rules := logictest.Workload(1000, 4)
	s := build(t, facts, rules).NewState()
	first, ring := changes(facts, 1024)
	for range 2 {
		for _, a := range slices.Concat(first, ring) {
			set(t, s, a)
		}
	}
	i := 0
	if n := testing.AllocsPerRun(len(ring), func() {
		set(t, s, ring[i%len(ring)])
		i++
	}); n > 0 {
		t.Errorf("%v allocations for one answer", n)
	}
}

// TestStatesShareOneBase is for the race detector.
func TestStatesShareOneBase(t *testing.T) {
	facts, rules := logictest.Workload(200, 6)
	rules = append(rules, "amount_0 + amount_1 > amount_2 / amount_3", "pick_0 == pick_1",
		"root(amount_4) > larger(amount_5, 3)")
	base := build(t, facts, rules)
	first, ring := changes(facts, 200)
	results := make([]string, 4)
	var group sync.WaitGroup
	for g := range results {
		group.Go(func() {
			s := base.NewState()
			for _, a := range slices.Concat(first, ring) {
				if err := s.Set(a.fact, a.value); err != nil {
					results[g] = err.Error()
					return
				}
				results[g] += fmt.Sprint(len(s.Changed()), s.Parts(3), s.Parts(202), base.Constant(4), " ")
			}
		})
	}
	group.Wait()
	for _, r := range results[1:] {
		if r != results[0] || r == "" {
			t.Error("sessions on one base disagree")
		}
	}
}

// TestCopyGoesItsOwnWay changes a copy and its original apart.
func TestCopyGoesItsOwnWay(t *testing.T) {
	base := build(t, wreck, []string{"sticky and warm", "water_g > gelatin_g"})
	s := base.NewState()
	for f, v := range map[logic.FactID]logic.Value{3: logic.Num(5), 4: logic.Num(3), 5: logic.Yes(true)} {
		set(t, s, answer{f, v})
	}
	c := s.Copy()
	set(t, c, answer{6, logic.Yes(true)})
	set(t, c, answer{3, logic.Num(1)})
	if s.Truth(0) != logic.Unknown || s.Truth(1) != logic.True || c.Truth(0) != logic.True || c.Truth(1) != logic.False {
		t.Error("a copy and its original touch each other")
	}
	for c.Undo() {
	}
	if _, ok := c.Value(5); ok {
		t.Error("a copy cannot go back beyond the copying")
	}
	if s.Truth(1) != logic.True {
		t.Error("undoing a copy reached the original")
	}
}
