package logic_test

import (
	"testing"

	"sparehand/internal/logic"
)

// FuzzCondition reads any text. It must not panic; a fault must lie within the
// text; what is accepted must come out as the reference says, unanswered and
// with two sets of answers.
func FuzzCondition(f *testing.F) {
	for _, tt := range faultTable {
		text, _ := unmark(tt.marked)
		f.Add(text)
	}
	for _, text := range []string{
		"sticky", "not sticky or warm && !warm", `glue in ["water", 'rim']`, "30 < water_g <= 60",
		"water_g / gelatin_g >= 2.5", "larger(water_g, 3) != -gelatin_g", "glue == leak_place", "sticky == (water_g in [1, 2])",
		"water_g not in [1e3, .5, 0x1F, 1_000]", "true and false", "not (sticky and warm) != true", "glue == `water`",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		b := wreckBuilder(t)
		c, faults := b.Add(text)
		checkWording(t, text, faults)
		if _, faults := b.Formula(text); len(faults) == 0 && c >= 0 {
			t.Errorf("%q is a condition and a formula", text)
		}
		if len(faults) > 0 {
			return
		}
		base := b.Build()
		s := base.NewState()
		same(t, base, s, c)
		for _, values := range [][]logic.Value{
			{logic.Option(0), logic.Option(3), logic.Option(0), logic.Num(30), logic.Num(0), logic.Yes(true), logic.Yes(false)},
			{logic.Option(2), logic.Option(1), logic.Option(0), logic.Num(-1), logic.Num(2.5), logic.Yes(false), logic.Yes(true)},
		} {
			for i, v := range values {
				set(t, s, answer{logic.FactID(i), v})
				same(t, base, s, c)
			}
		}
	})
}

func same(t *testing.T, base *logic.Base, s *logic.State, c logic.Cond) {
	t.Helper()
	got := s.Truth(c)
	if want := logic.Reference(base, s.Value, c); got != want {
		t.Errorf("%q is %v, want %v", base.Text(c), got, want)
	}
	if k := base.Constant(c); k != logic.Unknown && got == k.Not() {
		t.Errorf("%q is called always %v and is %v", base.Text(c), k, got)
	}
	for _, p := range s.Parts(c) {
		if p.From >= p.To || string([]rune(base.Text(c))[p.From:p.To]) != p.Text {
			t.Errorf("%q: part %q at %d-%d", base.Text(c), p.Text, p.From, p.To)
		}
	}
}
