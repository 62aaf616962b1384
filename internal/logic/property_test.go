package logic_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"sparehand/internal/logic"
)

// someFuncs are offered to random conditions; root fails below zero.
var someFuncs = []logic.Func{
	{Name: "larger", Params: []string{"a", "b"}, Fn: func(x ...float64) (float64, error) { return math.Max(x[0], x[1]), nil }},
	{Name: "root", Params: []string{"a"}, Fn: func(x ...float64) (float64, error) { return math.Sqrt(x[0]), nil }},
	{Name: "inverse", Params: []string{"a"}, Fn: func(x ...float64) (float64, error) {
		if x[0] == 0 {
			return 0, fmt.Errorf("nothing to turn over")
		}
		return 1 / x[0], nil
	}},
}

// drawFacts returns at least one fact of each kind.
func drawFacts(t *rapid.T) []logic.Fact {
	var facts []logic.Fact
	for i := range rapid.IntRange(1, 3).Draw(t, "choices") {
		options := []string{"rim", "brow", "scar", "rope", "crust"}[:rapid.IntRange(1, 5).Draw(t, "options")]
		facts = append(facts, logic.Fact{Name: fmt.Sprintf("place_%d", i), Kind: logic.Choice, Options: options})
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "numbers") {
		facts = append(facts, logic.Fact{Name: fmt.Sprintf("grams_%d", i), Kind: logic.Number})
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "yesnos") {
		facts = append(facts, logic.Fact{Name: fmt.Sprintf("seen_%d", i), Kind: logic.YesNo})
	}
	return facts
}

func ofKind(facts []logic.Fact, k logic.Kind) []logic.Fact {
	return slices.DeleteFunc(slices.Clone(facts), func(f logic.Fact) bool { return f.Kind != k })
}

// phrases draws random text over some facts.
type phrases struct {
	*rapid.T
	facts []logic.Fact
}

func (p phrases) pick(words ...string) string { return rapid.SampledFrom(words).Draw(p.T, "word") }

func (p phrases) fact(k logic.Kind) logic.Fact {
	return rapid.SampledFrom(ofKind(p.facts, k)).Draw(p.T, "fact")
}

func (p phrases) condition(depth int) string {
	if depth == 0 {
		return p.leaf()
	}
	switch rapid.IntRange(0, 9).Draw(p.T, "form") {
	case 0, 1, 2:
		return "(" + p.condition(depth-1) + p.pick(" and ", " && ") + p.condition(depth-1) + ")"
	case 3, 4, 5:
		return "(" + p.condition(depth-1) + p.pick(" or ", " || ") + p.condition(depth-1) + ")"
	case 6, 7:
		return p.pick("not ", "!", "not not ") + "(" + p.condition(depth-1) + ")"
	case 8:
		return "(" + p.condition(depth-1) + ")" + p.pick(" == ", " != ") + "(" + p.condition(depth-1) + ")"
	}
	return p.leaf()
}

func (p phrases) leaf() string {
	switch rapid.IntRange(0, 9).Draw(p.T, "leaf") {
	case 0:
		return p.pick("true", "false")
	case 1:
		return p.fact(logic.YesNo).Name
	case 2:
		return p.fact(logic.YesNo).Name + p.pick(" == ", " != ") + p.pick("true", "false")
	case 3, 4:
		f := p.fact(logic.Choice)
		return f.Name + p.pick(" == ", " != ") + fmt.Sprintf("%q", p.pick(f.Options...))
	case 5:
		f := p.fact(logic.Choice)
		return fmt.Sprintf("%s%s[%q, %q]", f.Name, p.pick(" in ", " not in "), p.pick(f.Options...), p.pick(f.Options...))
	case 6:
		return fmt.Sprintf("%s%s[%s, %s]", p.side(1), p.pick(" in ", " not in "), p.constant(), p.constant())
	case 7:
		return p.constant() + p.pick(" < ", " <= ") + p.side(0) + p.pick(" < ", " <= ") + p.side(0)
	}
	return p.side(2) + p.pick(" == ", " != ", " < ", " <= ", " > ", " >= ") + p.side(1)
}

// constant stays on a coarse grid, so that answers meet the thresholds.
func (p phrases) constant() string {
	return p.pick("0", "1", "2", "2.5", "3", "-1", "-2.5", "(1 + 2)", "3 * 1", "-(5 / 2)", "larger(1, 2)")
}

func (p phrases) side(depth int) string {
	n := rapid.IntRange(0, 9).Draw(p.T, "side")
	switch {
	case n < 4 || depth == 0 && n < 7:
		return p.fact(logic.Number).Name
	case n < 6 || depth == 0:
		return p.constant()
	case n < 8:
		return "(" + p.side(depth-1) + p.pick(" + ", " - ", " * ", " / ") + p.side(depth-1) + ")"
	}
	return p.pick("root(", "inverse(", "-(") + p.side(depth-1) + ")"
}

func drawValue(t *rapid.T, f logic.Fact) logic.Value {
	switch f.Kind {
	case logic.Choice:
		return logic.Option(rapid.IntRange(0, len(f.Options)-1).Draw(t, "option"))
	case logic.Number:
		return logic.Num(rapid.SampledFrom([]float64{-3, -2.5, -1, 0, 1, 2, 2.25, 2.5, 3, 4, 1e308}).Draw(t, "number"))
	}
	return logic.Yes(rapid.Bool().Draw(t, "yes"))
}

// TestStateIsReference drives random bases with random moves. After each the
// State must agree with the reference evaluator, and Changed with the
// difference between before and after.
func TestStateIsReference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		facts := drawFacts(t)
		b, err := logic.NewBuilder(facts, someFuncs)
		if err != nil {
			t.Fatal(err)
		}
		var conds []logic.Cond
		for range rapid.IntRange(1, 8).Draw(t, "conditions") {
			text := phrases{t, facts}.condition(rapid.IntRange(0, 3).Draw(t, "depth"))
			c, faults := b.Add(text)
			if len(faults) == 0 {
				conds = append(conds, c)
			} else if !strings.Contains(faults[0].Message, "divides by zero") && !strings.Contains(faults[0].Message, "worked out") {
				t.Fatalf("%s: %v", text, faults)
			}
		}
		drive(t, b.Build(), facts, conds)
	})
}

func drive(t *rapid.T, base *logic.Base, facts []logic.Fact, conds []logic.Cond) {
	s := base.NewState()
	var past [][]logic.Value // answers before each move, nil kind as absent
	now := make([]logic.Value, len(facts))
	known := make([]bool, len(facts))
	var pastKnown [][]bool
	for range rapid.IntRange(1, 30).Draw(t, "moves") {
		before := truths(s, conds)
		f := rapid.IntRange(0, len(facts)-1).Draw(t, "which")
		switch rapid.IntRange(0, 5).Draw(t, "move") {
		case 0:
			if s.Undo() != (len(past) > 0) {
				t.Fatal("undo disagrees about the past")
			}
			if n := len(past); n > 0 {
				now, known = past[n-1], pastKnown[n-1]
				past, pastKnown = past[:n-1], pastKnown[:n-1]
			}
		case 1:
			past, pastKnown = append(past, slices.Clone(now)), append(pastKnown, slices.Clone(known))
			s.Clear(logic.FactID(f))
			known[f] = false
		default:
			past, pastKnown = append(past, slices.Clone(now)), append(pastKnown, slices.Clone(known))
			now[f], known[f] = drawValue(t, facts[f]), true
			if err := s.Set(logic.FactID(f), now[f]); err != nil {
				t.Fatal(err)
			}
		}
		agree(t, base, s, conds, func(f logic.FactID) (logic.Value, bool) { return now[f], known[f] })
		sameChanges(t, before, truths(s, conds), s.Changed())
		if rapid.IntRange(0, 9).Draw(t, "copy") == 0 {
			s = s.Copy()
		}
	}
	for _, c := range conds {
		checkConstant(t, base, s, c)
	}
}

func truths(s *logic.State, conds []logic.Cond) []logic.Truth {
	out := make([]logic.Truth, len(conds))
	for i, c := range conds {
		out[i] = s.Truth(c)
	}
	return out
}

func agree(t *rapid.T, base *logic.Base, s *logic.State, conds []logic.Cond, value func(logic.FactID) (logic.Value, bool)) {
	for f := range base.Facts() {
		want, ok := value(logic.FactID(f))
		got, gotOK := s.Value(logic.FactID(f))
		if ok != gotOK || ok && want != got {
			t.Fatalf("fact %d is %v %v, want %v %v", f, got, gotOK, want, ok)
		}
	}
	for _, c := range conds {
		if got, want := s.Truth(c), logic.Reference(base, value, c); got != want {
			t.Fatalf("%s is %v, want %v", base.Text(c), got, want)
		}
	}
}

func sameChanges(t *rapid.T, before, after []logic.Truth, changed []logic.Change) {
	want := map[logic.Cond]logic.Change{}
	for i := range before {
		if before[i] != after[i] {
			want[logic.Cond(i)] = logic.Change{Cond: logic.Cond(i), From: before[i], To: after[i]}
		}
	}
	if len(changed) != len(want) {
		t.Fatalf("changed %v, want %v", changed, want)
	}
	for _, ch := range changed {
		if want[ch.Cond] != ch {
			t.Fatalf("changed %v, want %v", ch, want[ch.Cond])
		}
	}
}

// checkConstant holds Constant to its word: what it calls decided is never
// found to be the other.
func checkConstant(t *rapid.T, base *logic.Base, s *logic.State, c logic.Cond) {
	if k := base.Constant(c); k != logic.Unknown && s.Truth(c) == k.Not() {
		t.Fatalf("%s is called always %v and is %v", base.Text(c), k, s.Truth(c))
	}
}
