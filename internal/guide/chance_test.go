package guide

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

const testTrials = 40_000

// sigmas is how many standard errors a share may be off: one right test in
// 16,000 would fail, and with fixed seeds none does.
const sigmas = 4

func law(r Range) distuv.Triangle { return distuv.NewTriangle(r.From, r.To, r.Mostly, nil) }

// checkShare compares a simulated share with its true value, known to within
// grid.
func checkShare(t *testing.T, what string, got, want, grid float64) {
	t.Helper()
	if off := sigmas*math.Sqrt(want*(1-want)/testTrials) + grid; math.Abs(got-want) > off {
		t.Errorf("%s: share %.4f, want %.4f within %.4f", what, got, want, off)
	}
}

func mustSimulate(t *testing.T, tasks []Task, call float64) Odds {
	t.Helper()
	odds, err := Simulate(tasks, call, testTrials, 7)
	if err != nil {
		t.Fatal(err)
	}
	return odds
}

func TestTriangularLawAgainstGonum(t *testing.T) {
	for _, r := range []Range{{10, 20, 40}, {0, 0, 30}, {5, 30, 30}, {0, 1, 1000}, {3, 3, 3.5}} {
		g := law(r)
		for k := range 101 {
			v := float64(k) / 100
			if got, want := r.exceeded(v), g.Quantile(1-v); math.Abs(got-want) > 1e-9*r.To {
				t.Errorf("%v: beyond %v lies %v, gonum %v", r, got, v, want)
			}
			x := r.From + v*(r.To-r.From)
			if got, want := r.beyond(x), g.Survival(x); math.Abs(got-want) > 1e-12 {
				t.Errorf("%v: beyond %v lies %v, gonum %v", r, x, got, want)
			}
		}
	}
	if fixed := just(5); fixed.exceeded(0) != 5 || fixed.exceeded(1) != 5 || fixed.beyond(4) != 1 || fixed.beyond(6) != 0 {
		t.Error("a task that takes just 5 minutes does not")
	}
}

func TestOneTaskAgainstItsLaw(t *testing.T) {
	for _, r := range []Range{{10, 20, 40}, {0, 0, 30}, {5, 30, 30}} {
		g := law(r)
		for _, p := range []float64{0.02, 0.3, 0.5, 0.8, 0.99} {
			call := g.Quantile(p)
			odds := mustSimulate(t, []Task{{ID: "set", Takes: r}}, call)
			checkShare(t, "chance", odds.Chance, p, 0)
			checkShare(t, "early", g.CDF(odds.Early), 0.1, 0)
			checkShare(t, "middle", g.CDF(odds.Middle), 0.5, 0)
			checkShare(t, "late", g.CDF(odds.Late), 0.9, 0)
		}
	}
}

// Of a running task is known that it is longer than Spent: the law is cut off
// there, and what remains of it counts as all.
func TestRunningTaskAgainstItsLaw(t *testing.T) {
	r := Range{10, 20, 40}
	g := law(r)
	for _, spent := range []float64{0, 8, 15, 20, 25, 39.9} {
		task := Task{ID: "set", Takes: r, Begun: true, Spent: spent}
		for _, share := range []float64{0.1, 0.5, 0.95} {
			call := max(0, r.From-spent) + share*(r.To-max(spent, r.From))
			want := 1 - g.Survival(call+spent)/g.Survival(spent)
			checkShare(t, "running", mustSimulate(t, []Task{task}, call).Chance, want, 0)
		}
	}
	over := Task{ID: "set", Takes: r, Begun: true, Spent: 40}
	if odds := mustSimulate(t, []Task{over}, 0); odds != (Odds{Chance: 1}) {
		t.Errorf("past the most that it takes: %+v", odds)
	}
}

func TestParallelIsAProduct(t *testing.T) {
	tasks := []Task{
		{ID: "set", Takes: Range{10, 20, 40}},
		{ID: "dry", Takes: Range{5, 30, 35}},
		{ID: "soak", Takes: Range{0, 15, 45}},
	}
	for _, call := range []float64{18, 25, 30, 38} {
		want := 1.0
		for _, task := range tasks {
			want *= law(task.Takes).CDF(call)
		}
		checkShare(t, "side by side", mustSimulate(t, tasks, call).Chance, want, 0)
	}
}

// Every combination of the middles of slices of equal share.
func TestAgainstAllCombinations(t *testing.T) {
	const slicesOf = 60
	a, b, c := Range{10, 20, 40}, Range{5, 30, 35}, Range{0, 0, 45}
	series := func(x, y, z float64) float64 { return x + y + z }
	tests := []struct {
		name  string
		tasks []Task
		end   func(x, y, z float64) float64
	}{
		{"in series", []Task{{ID: "a", Takes: a}, {ID: "b", Takes: b, After: []int{0}}, {ID: "c", Takes: c, After: []int{1}}}, series},
		{"one pair of hands", []Task{{ID: "a", Takes: a, Hands: true}, {ID: "b", Takes: b, Hands: true}, {ID: "c", Takes: c, Hands: true}}, series},
		{"fork", []Task{{ID: "a", Takes: a}, {ID: "b", Takes: b, After: []int{0}}, {ID: "c", Takes: c, After: []int{0}}},
			func(x, y, z float64) float64 { return x + max(y, z) }},
		{"join, listed backwards", []Task{{ID: "c", Takes: c, After: []int{1, 2}}, {ID: "a", Takes: a}, {ID: "b", Takes: b}},
			func(x, y, z float64) float64 { return max(x, y) + z }},
	}
	middles := func(r Range) []float64 {
		out := make([]float64, slicesOf)
		for k := range out {
			out[k] = law(r).Quantile((float64(k) + 0.5) / slicesOf)
		}
		return out
	}
	as, bs, cs := middles(a), middles(b), middles(c)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			ends := make([]float64, 0, slicesOf*slicesOf*slicesOf)
			for _, x := range as {
				for _, y := range bs {
					for _, z := range cs {
						ends = append(ends, test.end(x, y, z))
					}
				}
			}
			slices.Sort(ends)
			below := func(call float64) float64 { return stat.CDF(call, stat.Empirical, ends, nil) }
			for _, p := range []float64{0.05, 0.25, 0.5, 0.75, 0.95} {
				call := stat.Quantile(p, stat.Empirical, ends, nil)
				checkShare(t, "chance", mustSimulate(t, test.tasks, call).Chance, below(call), 0.002)
			}
			odds := mustSimulate(t, test.tasks, noCall)
			checkShare(t, "early", below(odds.Early), 0.1, 0.002)
			checkShare(t, "middle", below(odds.Middle), 0.5, 0.002)
			checkShare(t, "late", below(odds.Late), 0.9, 0.002)
		})
	}
}

func TestQuantileAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sorted := rapid.SliceOfN(rapid.Float64Range(0, 100), 1, 60).Draw(t, "ends")
		slices.Sort(sorted)
		for _, p := range []float64{0.1, 0.5, 0.9} {
			if got, want := quantile(sorted, p), stat.Quantile(p, stat.Empirical, sorted, nil); got != want {
				t.Fatalf("%v of %v: %v, gonum %v", p, sorted, got, want)
			}
		}
	})
}

// No trial is over before all tasks could be or after all must be, and a task
// of one duration is not left to chance.
func TestOddsLieBetweenTheEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tasks := drawTasks(t)
		extreme := func(pick func(Range) float64) float64 {
			fixed := slices.Clone(tasks)
			for i := range fixed {
				fixed[i].Takes = just(max(pick(tasks[i].Takes), tasks[i].Spent))
			}
			plan, err := Schedule(fixed, noCall)
			if err != nil {
				t.Fatal(err)
			}
			sure, err := Simulate(fixed, plan.Finish, 3, 1)
			if want := (Odds{1, plan.Finish, plan.Finish, plan.Finish}); err != nil || sure != want {
				t.Fatalf("fixed durations: %+v %v, want %+v", sure, err, want)
			}
			return plan.Finish
		}
		first := extreme(func(r Range) float64 { return r.From })
		last := extreme(func(r Range) float64 { return r.To })
		seed := rapid.Uint64().Draw(t, "seed")
		odds, err := Simulate(tasks, last+1e-9, 50, seed)
		if err != nil {
			t.Fatal(err)
		}
		if odds.Chance != 1 {
			t.Fatalf("chance %v when all must be over", odds.Chance)
		}
		if !slices.IsSorted([]float64{first - 1e-9, odds.Early, odds.Middle, odds.Late, last + 1e-9}) {
			t.Fatalf("%+v, but it ends between %v and %v", odds, first, last)
		}
		none, err := Simulate(tasks, first-1e-9, 50, seed)
		if err != nil {
			t.Fatal(err)
		}
		if none.Chance != 0 {
			t.Fatalf("chance %v when nothing can be over", none.Chance)
		}
		if none.Chance = 1; none != odds {
			t.Fatalf("same tasks and seed: %+v and %+v", none, odds)
		}
	})
}

func TestSimulateErrors(t *testing.T) {
	fine := []Task{{ID: "set", Takes: Range{1, 2, 3}}}
	tests := []struct {
		name   string
		tasks  []Task
		call   float64
		trials int
		want   string
	}{
		{"none", fine, 5, 0, "0 trials: want 1 to 1000000"},
		{"too many", fine, 5, mostTrials + 1, "1000001 trials"},
		{"call", fine, math.NaN(), 9, "call at NaN"},
		{"task", []Task{{ID: "set", Takes: Range{3, 2, 1}}}, 5, 9, `task "set": takes`},
	}
	for _, test := range tests {
		if _, err := Simulate(test.tasks, test.call, test.trials, 1); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %v, want %s", test.name, err, test.want)
		}
	}
}

func benchTasks() []Task {
	tasks := make([]Task, 30)
	for i := range tasks {
		tasks[i] = Task{ID: "t", Takes: Range{5, 12, 30}, Hands: i%3 == 0}
		if i > 1 {
			tasks[i].After = []int{i - 1 - i%2, i - 2}
		}
	}
	return tasks
}

func TestTrialsAllocateNothing(t *testing.T) {
	tasks := benchTasks()
	count := func(trials int) float64 {
		return testing.AllocsPerRun(5, func() {
			if _, err := Simulate(tasks, 100, trials, 1); err != nil {
				t.Fatal(err)
			}
		})
	}
	if few, many := count(100), count(1000); many > few {
		t.Errorf("%v allocations for a hundred trials, %v for a thousand", few, many)
	}
}

func BenchmarkSimulate(b *testing.B) {
	tasks := benchTasks()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Simulate(tasks, 200, 1000, 1); err != nil {
			b.Fatal(err)
		}
	}
}
