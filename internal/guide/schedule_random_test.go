package guide

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/graph/path"
	"gonum.org/v1/gonum/graph/simple"
	"gonum.org/v1/gonum/graph/topo"
	"pgregory.net/rapid"
)

// drawTasks draws tasks in whole minutes, so that all sums are exact. Those
// that come after one another lie in the order of a shuffled list, which among
// hands tasks is the list itself.
func drawTasks(t *rapid.T) []Task {
	n := rapid.IntRange(1, 14).Draw(t, "tasks")
	turns := make([]int, n)
	for i := range turns {
		turns[i] = i
	}
	turns = rapid.Permutation(turns).Draw(t, "turns")
	minutes := rapid.IntRange(0, 30)
	tasks := make([]Task, n)
	top := -1 // the latest turn of a hands task so far: turns of hands tasks rise
	for i := range tasks {
		from := float64(minutes.Draw(t, "from"))
		mostly := from + float64(minutes.Draw(t, "mostly"))
		to := mostly + float64(2*minutes.Draw(t, "to"))
		tasks[i] = Task{ID: fmt.Sprint("t", i), Takes: Range{from, mostly, to}}
		if turns[i] > top && rapid.Bool().Draw(t, "hands") {
			tasks[i].Hands, top = true, turns[i]
		}
		if rapid.IntRange(0, 5).Draw(t, "begun") == 0 {
			tasks[i].Begun, tasks[i].Spent = true, float64(2*minutes.Draw(t, "spent"))
		}
		for b := range tasks {
			if turns[b] < turns[i] && rapid.IntRange(0, 3).Draw(t, "after") == 0 {
				tasks[i].After = append(tasks[i].After, b)
			}
		}
	}
	return tasks
}

// waitPairs are the pairs (b, a) where a waits for b, by the words of Schedule.
func waitPairs(tasks []Task) [][2]int {
	var pairs [][2]int
	for a := range tasks {
		for b := range tasks {
			if tasks[a].Begun {
				continue
			}
			hands := tasks[a].Hands && tasks[b].Hands && (tasks[b].Begun || b < a)
			if hands || slices.Contains(tasks[a].After, b) {
				pairs = append(pairs, [2]int{b, a})
			}
		}
	}
	return pairs
}

// longestFrom gives the longest way from one end to each task with gonum's
// Bellman and Ford; an edge carries the duration of the task that it leaves.
func longestFrom(t *rapid.T, ahead []float64, pairs [][2]int) []float64 {
	end := int64(len(ahead))
	g := simple.NewWeightedDirectedGraph(0, math.Inf(1))
	for i := range ahead {
		g.SetWeightedEdge(g.NewWeightedEdge(simple.Node(end), simple.Node(i), 0))
	}
	for _, p := range pairs {
		g.SetWeightedEdge(g.NewWeightedEdge(simple.Node(p[0]), simple.Node(p[1]), -ahead[p[0]]))
	}
	shortest, ok := path.BellmanFordFrom(simple.Node(end), g)
	if !ok {
		t.Fatal("the graph goes round")
	}
	far := make([]float64, len(ahead))
	for i := range far {
		far[i] = -shortest.WeightTo(int64(i))
	}
	return far
}

func TestScheduleAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tasks := drawTasks(t)
		plan, err := Schedule(tasks, noCall)
		if err != nil {
			t.Fatal(err)
		}
		ahead := make([]float64, len(tasks))
		for i, task := range tasks {
			ahead[i] = task.Takes.Mostly - task.Spent
			if task.Begun && ahead[i] <= 0 {
				ahead[i] = max(0, task.Takes.To-task.Spent) / 2
			}
		}
		pairs := waitPairs(tasks)
		starts := longestFrom(t, ahead, pairs)
		for k, p := range pairs {
			pairs[k] = [2]int{p[1], p[0]}
		}
		tails := longestFrom(t, ahead, pairs) // from the end of a task to the end of all
		var finish float64
		for i := range tasks {
			finish = max(finish, starts[i]+ahead[i])
		}
		if plan.Finish != finish {
			t.Fatalf("finish %v, gonum %v", plan.Finish, finish)
		}
		for i, at := range plan.Tasks {
			slack := finish - tails[i] - ahead[i] - starts[i]
			start := starts[i]
			if tasks[i].Begun {
				start = -tasks[i].Spent
			}
			want := Placed{start, starts[i] + ahead[i], start + slack, finish - tails[i], slack, slack == 0}
			if at != want {
				t.Fatalf("task %d: %+v, gonum %+v", i, at, want)
			}
		}
		checkChain(t, plan, ahead, pairs)
	})
}

// checkChain wants a chain of critical tasks that wait for one another and
// take until the finish together. The pairs are turned round.
func checkChain(t *rapid.T, plan Plan, ahead []float64, turned [][2]int) {
	var sum float64
	for k, i := range plan.Critical {
		sum += ahead[i]
		if !plan.Tasks[i].Critical {
			t.Fatalf("task %d is on the chain and not critical", i)
		}
		if k > 0 && !slices.Contains(turned, [2]int{i, plan.Critical[k-1]}) {
			t.Fatalf("task %d does not wait for the one before it on the chain %v", i, plan.Critical)
		}
	}
	if sum != plan.Finish {
		t.Fatalf("the chain %v takes %v, finish is %v", plan.Critical, sum, plan.Finish)
	}
}

func TestSlackIsWhatATaskMayTakeLonger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tasks := drawTasks(t)
		plan, err := Schedule(tasks, noCall)
		if err != nil {
			t.Fatal(err)
		}
		i := rapid.IntRange(0, len(tasks)-1).Draw(t, "task")
		if tasks[i].Begun {
			t.Skip("it is running")
		}
		for extra := range 2 {
			more := plan.Tasks[i].Slack + float64(extra)
			longer := slices.Clone(tasks)
			r := tasks[i].Takes
			longer[i].Takes = Range{r.From, r.Mostly + more, r.To + more}
			late, err := Schedule(longer, noCall)
			if err != nil {
				t.Fatal(err)
			}
			if late.Finish != plan.Finish+float64(extra) {
				t.Fatalf("task %d takes %v longer than its slack: finish %v was %v", i, extra, late.Finish, plan.Finish)
			}
		}
	})
}

func TestCallOnlyMovesTheLatestTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tasks := drawTasks(t)
		call := float64(rapid.IntRange(-100, 500).Draw(t, "call"))
		free, err := Schedule(tasks, noCall)
		if err != nil {
			t.Fatal(err)
		}
		bound, err := Schedule(tasks, call)
		if err != nil {
			t.Fatal(err)
		}
		for i, at := range free.Tasks {
			by := call - free.Finish
			want := Placed{at.Start, at.Finish, at.LatestStart + by, at.LatestFinish + by, at.Slack + by, at.Critical}
			if bound.Tasks[i] != want {
				t.Fatalf("task %d: %+v, want %+v", i, bound.Tasks[i], want)
			}
		}
	})
}

// Thirds and tenths don't add up exactly, and the longest chain is still found.
func TestRoundingHidesNoChain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tasks := drawTasks(t)
		for i := range tasks {
			r := tasks[i].Takes
			tasks[i].Takes = Range{r.From / 3, r.Mostly / 3, r.To / 3}
			tasks[i].Spent /= 10
		}
		plan, err := Schedule(tasks, noCall)
		if err != nil {
			t.Fatal(err)
		}
		if len(plan.Critical) == 0 {
			t.Fatal("no longest chain")
		}
		for i, at := range plan.Tasks {
			if at.Slack < 0 || at.Critical && at.Slack != 0 {
				t.Fatalf("task %d: %+v", i, at)
			}
		}
		for _, i := range plan.Critical {
			if !plan.Tasks[i].Critical {
				t.Fatalf("task %d is on the chain and not critical", i)
			}
		}
	})
}

func TestCirclesAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tasks := make([]Task, rapid.IntRange(1, 10).Draw(t, "tasks"))
		for i := range tasks {
			tasks[i] = Task{ID: fmt.Sprint("t", i), Takes: just(1), Hands: rapid.IntRange(0, 2).Draw(t, "hands") == 0}
			for b := range tasks {
				if b != i && rapid.IntRange(0, 6).Draw(t, "after") == 0 {
					tasks[i].After = append(tasks[i].After, b)
				}
			}
		}
		g := simple.NewDirectedGraph()
		for i := range tasks {
			g.AddNode(simple.Node(i))
		}
		pairs := waitPairs(tasks)
		for _, p := range pairs {
			g.SetEdge(g.NewEdge(simple.Node(p[0]), simple.Node(p[1])))
		}
		_, sortErr := topo.Sort(g)
		_, err := Schedule(tasks, noCall)
		if (sortErr == nil) != (err == nil) {
			t.Fatalf("got %v, gonum %v", err, sortErr)
		}
		if err == nil {
			return
		}
		names, _, _ := strings.Cut(strings.TrimPrefix(err.Error(), "tasks wait for one another: "), " (")
		round := strings.Split(names, " after ")
		if len(round) < 3 || round[0] != round[len(round)-1] {
			t.Fatalf("no circle: %v", err)
		}
		for k := range round[1:] {
			var a, b int
			if _, scanErr := fmt.Sscanf(round[k]+round[k+1], `"t%d""t%d"`, &a, &b); scanErr != nil {
				t.Fatal(scanErr)
			}
			if !slices.Contains(pairs, [2]int{b, a}) {
				t.Fatalf("task %d does not wait for %d: %v", a, b, err)
			}
		}
	})
}
