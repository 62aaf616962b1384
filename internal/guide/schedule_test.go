package guide

import (
	"math"
	"slices"
	"strings"
	"testing"
)

var noCall = math.Inf(1)

// just is the range of what always takes the same.
func just(minutes float64) Range { return Range{minutes, minutes, minutes} }

// worked is a line of a published solution: activity, what it comes after by
// name, duration, earliest start and finish, latest start and finish, slack.
type worked struct {
	id, after                           string
	takes, start, finish, latestS, late float64
	slack                               float64
}

func TestWorkedExamples(t *testing.T) {
	tests := []struct {
		name  string
		lines []worked
		chain string
	}{
		// Network and durations: Hillier and Lieberman, Introduction to
		// Operations Research, the Reliable Construction Co. example. The times
		// from memory; a longest path of 44 weeks is the textbook's.
		{"plant", []worked{
			{"A", "", 2, 0, 2, 0, 2, 0},
			{"B", "A", 4, 2, 6, 2, 6, 0},
			{"C", "B", 10, 6, 16, 6, 16, 0},
			{"D", "C", 6, 16, 22, 20, 26, 4},
			{"E", "C", 4, 16, 20, 16, 20, 0},
			{"F", "E", 5, 20, 25, 20, 25, 0},
			{"G", "D", 7, 22, 29, 26, 33, 4},
			{"H", "E G", 9, 29, 38, 33, 42, 4},
			{"I", "C", 7, 16, 23, 18, 25, 2},
			{"J", "F I", 8, 25, 33, 25, 33, 0},
			{"K", "J", 4, 33, 37, 34, 38, 1},
			{"L", "J", 5, 33, 38, 33, 38, 0},
			{"M", "H", 2, 38, 40, 42, 44, 4},
			{"N", "K L", 6, 38, 44, 38, 44, 0},
		}, "A B C E F J L N"},
		// Taylor, Introduction to Management Science, chapter 8 (Project
		// Management), solutions to the problems; activities are named by the
		// two events that they join, and begin when all that end there are over.
		{"seven activities", []worked{
			{"1-2", "", 7, 0, 7, 2, 9, 2},
			{"1-3", "", 10, 0, 10, 0, 10, 0},
			{"2-4", "1-2", 6, 7, 13, 9, 15, 2},
			{"3-4", "1-3", 5, 10, 15, 10, 15, 0},
			{"3-5", "1-3", 4, 10, 14, 14, 18, 4},
			{"4-5", "2-4 3-4", 3, 15, 18, 15, 18, 0},
			{"5-6", "3-5 4-5", 2, 18, 20, 18, 20, 0},
		}, "1-3 3-4 4-5 5-6"},
		{"thirteen activities", []worked{
			{"1-2", "", 8, 0, 8, 1, 9, 1},
			{"1-3", "", 10, 0, 10, 0, 10, 0},
			{"1-4", "", 9, 0, 9, 6, 15, 6},
			{"2-5", "1-2", 6, 8, 14, 9, 15, 1},
			{"2-6", "1-2", 4, 8, 12, 16, 20, 8},
			{"3-5", "1-3", 5, 10, 15, 10, 15, 0},
			{"4-5", "1-4", 0, 9, 9, 15, 15, 6},
			{"4-7", "1-4", 7, 9, 16, 20, 27, 11},
			{"5-7", "2-5 3-5 4-5", 12, 15, 27, 15, 27, 0},
			{"5-8", "2-5 3-5 4-5", 15, 15, 30, 16, 31, 1},
			{"6-9", "2-6", 18, 12, 30, 20, 38, 8},
			{"7-8", "4-7 5-7", 4, 27, 31, 27, 31, 0},
			{"8-9", "5-8 7-8", 7, 31, 38, 31, 38, 0},
		}, "1-3 3-5 5-7 7-8 8-9"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			number := map[string]int{}
			var tasks []Task
			for i, l := range test.lines {
				number[l.id] = i
				task := Task{ID: l.id, Takes: just(l.takes)}
				for _, a := range strings.Fields(l.after) {
					task.After = append(task.After, number[a])
				}
				tasks = append(tasks, task)
			}
			plan, err := Schedule(tasks, noCall)
			if err != nil {
				t.Fatal(err)
			}
			for i, l := range test.lines {
				want := Placed{l.start, l.finish, l.latestS, l.late, l.slack, l.slack == 0}
				if plan.Tasks[i] != want {
					t.Errorf("%s: got %+v, want %+v", l.id, plan.Tasks[i], want)
				}
			}
			var chain []string
			for _, i := range plan.Critical {
				chain = append(chain, tasks[i].ID)
			}
			if got := strings.Join(chain, " "); got != test.chain {
				t.Errorf("longest chain %s, want %s", got, test.chain)
			}
			if want := test.lines[len(test.lines)-1].finish; plan.Finish != want {
				t.Errorf("finish %v, want %v", plan.Finish, want)
			}
		})
	}
}

// While the pour sets the hands can mix; sweeping stands last in the list and
// so waits for the trimming, though it comes after nothing.
func TestHandsOneAtATime(t *testing.T) {
	tasks := []Task{
		{ID: "pour", Takes: just(10), Hands: true},
		{ID: "set", Takes: just(30), After: []int{0}},
		{ID: "mix", Takes: just(25), Hands: true},
		{ID: "trim", Takes: just(5), After: []int{1}, Hands: true},
		{ID: "sweep", Takes: just(8), Hands: true},
	}
	plan, err := Schedule(tasks, 60)
	if err != nil {
		t.Fatal(err)
	}
	want := []Placed{
		{0, 10, 7, 17, 7, true},
		{10, 40, 17, 47, 7, true},
		{10, 35, 22, 47, 12, false},
		{40, 45, 47, 52, 7, true},
		{45, 53, 52, 60, 7, true},
	}
	if !slices.Equal(plan.Tasks, want) {
		t.Errorf("got %+v, want %+v", plan.Tasks, want)
	}
	if !slices.Equal(plan.Critical, []int{0, 1, 3, 4}) || plan.Finish != 53 {
		t.Errorf("chain %v, finish %v", plan.Critical, plan.Finish)
	}
}

func TestRunningTasks(t *testing.T) {
	takes := Range{10, 20, 40}
	tests := []struct {
		spent, ahead float64
	}{
		{0, 20}, {5, 15}, {19, 1}, // to the minute that it mostly takes
		{20, 10}, {30, 5}, {39, 0.5}, // half of the time until To
		{40, 0}, {100, 0},
	}
	for _, test := range tests {
		tasks := []Task{
			{ID: "earlier", Takes: just(7), Hands: true},
			{ID: "running", Takes: takes, Hands: true, Begun: true, Spent: test.spent, After: []int{0}},
			{ID: "wait", Takes: just(3), After: []int{1}},
		}
		plan, err := Schedule(tasks, noCall)
		if err != nil {
			t.Fatal(err)
		}
		a := test.ahead
		for i, want := range []Placed{{Start: a, Finish: a + 7}, {Start: -test.spent, Finish: a}, {Start: a, Finish: a + 3}} {
			if got := plan.Tasks[i]; got.Start != want.Start || got.Finish != want.Finish {
				t.Errorf("spent %v: %s from %v to %v, want %v to %v", test.spent, tasks[i].ID, got.Start, got.Finish, want.Start, want.Finish)
			}
		}
	}
	// Not begun is not the same as begun just now where it mostly takes nothing.
	plan, err := Schedule([]Task{{ID: "look", Takes: Range{0, 0, 8}}, {ID: "seen", Takes: Range{0, 0, 8}, Begun: true}}, noCall)
	if err != nil || plan.Tasks[0].Finish != 0 || plan.Tasks[1].Finish != 4 {
		t.Errorf("got %+v, %v", plan, err)
	}
}

func TestNothingToDo(t *testing.T) {
	plan, err := Schedule(nil, 30)
	if err != nil || len(plan.Tasks) != 0 || plan.Finish != 0 || plan.Critical != nil {
		t.Errorf("got %+v, %v", plan, err)
	}
}

func TestScheduleErrors(t *testing.T) {
	nan := math.NaN()
	tests := []struct {
		name  string
		tasks []Task
		call  float64
		want  string
	}{
		{"call", nil, nan, "call at NaN: give the minutes from now, +Inf for none"},
		{"call long gone", nil, math.Inf(-1), "call at -Inf"},
		{"nan", []Task{{ID: "pour", Takes: Range{nan, 1, 2}}}, 9, `task "pour": takes NaN to 2, mostly 1 minutes`},
		{"nan to", []Task{{ID: "pour", Takes: Range{0, 1, nan}}}, 9, `task "pour": takes`},
		{"negative", []Task{{ID: "pour", Takes: Range{-1, 1, 2}}}, 9, `task "pour": takes -1`},
		{"unordered", []Task{{ID: "pour", Takes: Range{2, 1, 3}}}, 9, `task "pour": takes 2 to 3, mostly 1`},
		{"endless", []Task{{ID: "pour", Takes: Range{0, 1, math.Inf(1)}}}, 9, `task "pour": takes 0 to +Inf`},
		{"spent", []Task{{ID: "pour", Begun: true, Spent: nan}}, 9, `task "pour": NaN minutes are spent`},
		{"not begun", []Task{{ID: "pour", Spent: 3}}, 9, `task "pour": 3 minutes are spent on it, but it is not begun`},
		{"index", []Task{{ID: "pour"}, {ID: "set", After: []int{2}}}, 9, `task "set": comes after task number 2 of 2: count from 0`},
		{"below", []Task{{ID: "pour", After: []int{-1}}}, 9, `task "pour": comes after task number -1 of 1`},
		{"itself", []Task{{ID: "pour", After: []int{0}}}, 9, `tasks wait for one another: "pour" after "pour"`},
		{"circle", []Task{{ID: "glue"}, {ID: "pour", After: []int{2}}, {ID: "set", After: []int{0, 1}}, {ID: "trim", After: []int{2}}},
			9, `"pour" after "set" after "pour"`},
		{"list order", []Task{{ID: "trim", Hands: true, After: []int{1}}, {ID: "set", After: []int{2}}, {ID: "pour", Hands: true}},
			9, `"trim" after "set" after "pour" after "trim" (those that need the hands`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := Schedule(test.tasks, test.call)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want %s", err, test.want)
			}
		})
	}
}
