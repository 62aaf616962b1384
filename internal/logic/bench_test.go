package logic_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"

	"sparehand/internal/logic"
	"sparehand/internal/logic/logictest"
)

var sizes = []int{100, 1000, 10000}

// answer is one change of one fact.
type answer struct {
	fact  logic.FactID
	value logic.Value
}

// changes returns n answers, each to one fact and different from the answer
// before it, after first answering all facts; going round them for ever, every
// one is a real change.
func changes(facts []logic.Fact, n int) (first, ring []answer) {
	r := rand.New(rand.NewPCG(2, 3))
	now := make([]logic.Value, len(facts))
	for i, f := range facts {
		now[i] = logictest.Answer(r, f)
		first = append(first, answer{logic.FactID(i), now[i]})
	}
	var back []answer
	for len(ring) < n {
		f := logic.FactID(r.IntN(len(facts)))
		v := logictest.Answer(r, facts[f])
		if v == now[f] {
			continue
		}
		back = append(back, answer{f, now[f]})
		ring = append(ring, answer{f, v})
		now[f] = v
	}
	for i := len(back) - 1; i >= 0; i-- {
		ring = append(ring, back[i])
	}
	return first, ring
}

func build(tb testing.TB, facts []logic.Fact, rules []string) *logic.Base {
	tb.Helper()
	b, err := logic.NewBuilder(facts, someFuncs)
	if err != nil {
		tb.Fatal(err)
	}
	for _, rule := range rules {
		if _, faults := b.Add(rule); len(faults) > 0 {
			tb.Fatalf("%s: %v", rule, faults)
		}
	}
	return b.Build()
}

func set(tb testing.TB, s *logic.State, a answer) {
	if err := s.Set(a.fact, a.value); err != nil {
		tb.Fatal(err)
	}
}

func BenchmarkAnswer(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprintf("rules=%d", n), func(b *testing.B) {
			facts, rules := logictest.Workload(n, 1)
			s := build(b, facts, rules).NewState()
			first, ring := changes(facts, 1024)
			for _, a := range append(first, ring...) {
				set(b, s, a)
			}
			b.ReportAllocs()
			defer reportCPU(b)()
			turned, i := 0, 0
			for b.Loop() {
				set(b, s, ring[i])
				turned += len(s.Changed())
				if i++; i == len(ring) {
					i = 0
				}
			}
			b.ReportMetric(float64(turned)/float64(b.N), "turned/op")
		})
	}
}

// BenchmarkFullReevaluation runs every rule again in expr after each answer.
func BenchmarkFullReevaluation(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprintf("rules=%d", n), func(b *testing.B) {
			facts, rules := logictest.Workload(n, 1)
			first, ring := changes(facts, 1024)
			env := map[string]any{}
			for _, a := range first {
				put(env, facts, a)
			}
			programs := compileAll(b, env, rules)
			for _, a := range ring {
				put(env, facts, a)
			}
			boxed := make([]any, len(ring))
			for i, a := range ring {
				boxed[i] = plain(facts, a)
			}
			var machine vm.VM
			b.ReportAllocs()
			defer reportCPU(b)()
			i := 0
			for b.Loop() {
				env[facts[ring[i].fact].Name] = boxed[i]
				for _, p := range programs {
					if _, err := machine.Run(p, env); err != nil {
						b.Fatal(err)
					}
				}
				if i++; i == len(ring) {
					i = 0
				}
			}
		})
	}
}

func compileAll(tb testing.TB, env map[string]any, rules []string) []*vm.Program {
	programs := make([]*vm.Program, len(rules))
	for i, rule := range rules {
		p, err := expr.Compile(rule, expr.Env(env), expr.AsBool())
		if err != nil {
			tb.Fatal(err)
		}
		programs[i] = p
	}
	return programs
}

func put(env map[string]any, facts []logic.Fact, a answer) {
	env[facts[a.fact].Name] = plain(facts, a)
}

// plain returns an answer as expr reads it.
func plain(facts []logic.Fact, a answer) any {
	f := facts[a.fact]
	switch f.Kind {
	case logic.Choice:
		return f.Options[a.value.Index()]
	case logic.Number:
		return a.value.Number()
	}
	return a.value.Bool()
}

func BenchmarkBuild(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprintf("rules=%d", n), func(b *testing.B) {
			facts, rules := logictest.Workload(n, 1)
			b.ReportAllocs()
			defer reportCPU(b)()
			for b.Loop() {
				build(b, facts, rules)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/rule")
		})
	}
}

// BenchmarkSession answers all 60 facts from nothing known.
func BenchmarkSession(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprintf("rules=%d", n), func(b *testing.B) {
			facts, rules := logictest.Workload(n, 1)
			s := build(b, facts, rules).NewState()
			first, _ := changes(facts, 1)
			b.ReportAllocs()
			for b.Loop() {
				s.Reset()
				for _, a := range first {
					set(b, s, a)
				}
			}
		})
	}
}

// BenchmarkState makes one more session; B/op is its size before any answer.
func BenchmarkState(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprintf("rules=%d", n), func(b *testing.B) {
			facts, rules := logictest.Workload(n, 1)
			base := build(b, facts, rules)
			b.ReportAllocs()
			for b.Loop() {
				base.NewState()
			}
		})
	}
}
