package guide

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Range is how long something takes, in minutes: at the least, mostly and at
// the most. 0 <= From <= Mostly <= To <= 10 million.
type Range struct{ From, Mostly, To float64 }

// longest bounds every duration, in minutes, so that no sum can overflow.
const longest = 1e7

// Task is a piece of work or a wait.
type Task struct {
	ID    string
	After []int // indices of the tasks that must be over before it begins
	Takes Range
	Hands bool    // needs the maker's hands: such tasks are done one at a time
	Spent float64 // minutes since it began, where it is Begun
	Begun bool
}

// Placed is where a task lies in a plan, in minutes from now. A begun task
// starts before now. Slack is how much later it may end, against the call and
// below nothing where the call can't be kept. Critical says that it lies on a
// longest chain, whatever the call.
type Placed struct {
	Start, Finish             float64
	LatestStart, LatestFinish float64
	Slack                     float64
	Critical                  bool
}

// Plan is when each task is done, in the order of the tasks given.
type Plan struct {
	Tasks    []Placed
	Finish   float64 // minutes from now until everything is over
	Critical []int   // one longest chain, in order
}

// Schedule places every task as early as can be, by how long it mostly takes,
// and as late as the call allows; call is in minutes from now, +Inf for none,
// when the end of the plan stands for it. This is the critical path method of
// Kelley and Walker (Critical-path planning and scheduling, Proceedings of the
// Eastern Joint Computer Conference, 1959).
//
// Tasks that need the hands are done in the order of the list, those that are
// begun before all others. A begun task waits for nothing any more. It goes on
// to the minute that it mostly takes; past that, for half of the time until To.
//
// It is an error if a duration or index is out of range, or if tasks wait for
// one another.
func Schedule(tasks []Task, call float64) (Plan, error) {
	before, sorted, err := arrange(tasks, call)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Tasks: make([]Placed, len(tasks))}
	for _, i := range sorted {
		t, at := &tasks[i], &p.Tasks[i]
		for _, b := range before[i] {
			at.Start = max(at.Start, p.Tasks[b].Finish)
		}
		at.Finish = at.Start + t.ahead()
		if t.Begun {
			at.Start = -t.Spent
		}
		p.Finish = max(p.Finish, at.Finish)
	}
	p.backward(before, sorted)
	p.Critical = p.chain(before, sorted)
	if !math.IsInf(call, 1) {
		p.against(call)
	}
	return p, nil
}

// ahead is how many minutes a task has still to go. Half of what is left until
// To is on the careful side: the mean of a triangular law is a third.
func (t *Task) ahead() float64 {
	if !t.Begun || t.Spent < t.Takes.Mostly {
		return t.Takes.Mostly - t.Spent
	}
	return max(0, (t.Takes.To-t.Spent)/2)
}

// backward finds the latest times that keep the finish. Along a longest chain
// times are the same numbers, not just near, so rounding can't hide it.
func (p *Plan) backward(before [][]int, sorted []int) {
	for i := range p.Tasks {
		p.Tasks[i].LatestFinish = p.Finish
	}
	for _, i := range slices.Backward(sorted) {
		at := &p.Tasks[i]
		at.Slack = at.LatestFinish - at.Finish
		at.LatestStart = at.Start + at.Slack
		at.Critical = at.Slack == 0
		for _, b := range before[i] {
			was := &p.Tasks[b]
			was.LatestFinish = min(was.LatestFinish, at.LatestStart)
		}
	}
}

// chain follows one longest chain back from the end.
func (p *Plan) chain(before [][]int, sorted []int) []int {
	next := slices.Clone(sorted)
	slices.Reverse(next)
	until := p.Finish
	var chain []int
	for {
		k := slices.IndexFunc(next, func(i int) bool { return p.Tasks[i].Finish == until })
		if k < 0 {
			slices.Reverse(chain)
			return chain
		}
		i := next[k]
		chain = append(chain, i)
		next, until = before[i], p.Tasks[i].Start
	}
}

// against moves the latest times from the finish to the call.
func (p *Plan) against(call float64) {
	for i := range p.Tasks {
		at := &p.Tasks[i]
		at.LatestStart += call - p.Finish
		at.LatestFinish += call - p.Finish
		at.Slack += call - p.Finish
	}
}

// arrange checks the tasks and the call. It returns for each task those that it
// waits for, and an order in which none comes before what it waits for.
func arrange(tasks []Task, call float64) (before [][]int, sorted []int, err error) {
	if math.IsNaN(call) || math.IsInf(call, -1) {
		return nil, nil, fmt.Errorf("call at %v: give the minutes from now, +Inf for none", call)
	}
	for i := range tasks {
		if err := tasks[i].check(len(tasks)); err != nil {
			return nil, nil, fmt.Errorf("task %q: %w", tasks[i].ID, err)
		}
	}
	before = waits(tasks)
	sorted, err = sortTasks(tasks, before)
	return before, sorted, err
}

func (t *Task) check(tasks int) error {
	// Written so that NaN fails too.
	if r := t.Takes; !(0 <= r.From && r.From <= r.Mostly && r.Mostly <= r.To && r.To <= longest) {
		return fmt.Errorf("takes %v to %v, mostly %v minutes: want 0 <= from <= mostly <= to <= %v", r.From, r.To, r.Mostly, longest)
	}
	if !(0 <= t.Spent && t.Spent <= longest) {
		return fmt.Errorf("%v minutes are spent on it: want 0 to %v", t.Spent, longest)
	}
	if t.Spent > 0 && !t.Begun {
		return fmt.Errorf("%v minutes are spent on it, but it is not begun", t.Spent)
	}
	for _, b := range t.After {
		if b < 0 || b >= tasks {
			return fmt.Errorf("comes after task number %d of %d: count from 0", b, tasks)
		}
	}
	return nil
}

// waits lists for each task what must be over before it: what it comes after
// and, as there is one pair of hands, the last thing that they do before it.
func waits(tasks []Task) [][]int {
	var hands []int
	for i, t := range tasks {
		if t.Hands && t.Begun {
			hands = append(hands, i)
		}
	}
	before := make([][]int, len(tasks))
	for i, t := range tasks {
		if t.Begun {
			continue
		}
		before[i] = slices.Clone(t.After)
		if t.Hands {
			before[i] = append(before[i], hands...)
			hands = []int{i}
		}
	}
	return before
}

// sortTasks orders the tasks so that each comes after those it waits for.
func sortTasks(tasks []Task, before [][]int) ([]int, error) {
	sorted := make([]int, 0, len(tasks))
	done := make([]bool, len(tasks))
	for len(sorted) < len(tasks) {
		had := len(sorted)
		for i := range tasks {
			if !done[i] && !slices.ContainsFunc(before[i], func(b int) bool { return !done[b] }) {
				sorted, done[i] = append(sorted, i), true
			}
		}
		if len(sorted) == had {
			return nil, circle(tasks, before, done)
		}
	}
	return sorted, nil
}

// circle names tasks that wait for one another. Each that is not done waits for
// another that is not done, so following them must come round.
func circle(tasks []Task, before [][]int, done []bool) error {
	at := slices.Index(done, false)
	var path []int
	for !slices.Contains(path, at) {
		path = append(path, at)
		k := slices.IndexFunc(before[at], func(b int) bool { return !done[b] })
		at = before[at][k]
	}
	path = append(path[slices.Index(path, at):], at)
	names := make([]string, len(path))
	for k, i := range path {
		names[k] = fmt.Sprintf("%q", tasks[i].ID)
	}
	return fmt.Errorf("tasks wait for one another: %s (those that need the hands also wait for the one listed before)",
		strings.Join(names, " after "))
}
