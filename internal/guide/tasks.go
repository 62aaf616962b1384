package guide

import (
	"math"
	"slices"
	"time"

	"sparehand/internal/book"
)

// Worn is the step before which the piece has to be ready.
const Worn = "wear"

// Part is what one task of a schedule stands for.
type Part struct {
	Step *book.Step
	Wait bool // the wait after the hands part
}

// Tasks gives what is still to be done until the piece is worn as a graph: for
// each step its hands part, and its wait where it has one. A wait follows the
// hands part, and a step what has to be over before it. The hands parts stand
// in the order in which a maker comes to them.
func (b *Build) Tasks(k Known, now time.Time) ([]Task, []Part) {
	var tasks []Task
	var parts []Part
	add := func(t Task, p Part) []int {
		tasks, parts = append(tasks, t), append(parts, p)
		return []int{len(tasks) - 1}
	}
	ends := map[*book.Step][]int{} // the tasks that must be over for a step to be
	at := b.AtHand(k)
	for i := range b.steps {
		s := &b.steps[i]
		if s.ID == Worn {
			break
		}
		if b.done[i].Stage == Over {
			continue
		}
		var before []int
		for _, a := range s.Guide.After {
			before = append(before, ends[a]...)
		}
		if !Applies(k, s) {
			ends[s] = before
			continue
		}
		_, wait := Times(k, s)
		if b.done[i].Stage == Todo {
			before = add(b.handsTask(k, s, s == at, now, before), Part{Step: s})
		}
		if wait.To > 0 {
			before = add(b.waitTask(k, s, now, before), Part{s, true})
		}
		ends[s] = before
	}
	return inOrder(tasks, parts)
}

func (b *Build) handsTask(k Known, s *book.Step, atHand bool, now time.Time, before []int) Task {
	hands, _ := Times(k, s)
	t := Task{ID: s.ID, After: before, Takes: hands, Hands: true}
	if p := b.done[s.Index]; atHand && p.Shown {
		t.Begun, t.Spent = true, math.Max(0, now.Sub(p.Begun).Minutes())
	}
	return t
}

func (b *Build) waitTask(k Known, s *book.Step, now time.Time, before []int) Task {
	_, wait := Times(k, s)
	t := Task{ID: s.ID + " wait", After: before, Takes: wait}
	p := b.done[s.Index]
	if p.Stage != Waiting {
		return t
	}
	t.Begun, t.Spent = true, math.Max(0, now.Sub(p.Waits).Minutes())
	if seen := p.Until.Sub(p.Waits).Minutes(); !p.Until.IsZero() { // it was looked at, and was not ready
		t.Takes = Range{math.Max(wait.From, seen), math.Max(wait.Mostly, seen), math.Max(wait.To, seen)}
	}
	return t
}

// inOrder sorts the hands parts as a maker comes to them, who always takes the
// first that can be begun and otherwise waits for the one that can be begun
// soonest. Waits follow at the end.
func inOrder(tasks []Task, parts []Part) ([]Task, []Part) {
	finish := make([]float64, len(tasks))
	done := make([]bool, len(tasks))
	order := make([]int, 0, len(tasks))
	free := 0.0
	begins := func(i int) (float64, bool) {
		at := 0.0
		for _, before := range tasks[i].After {
			if !done[before] {
				return 0, false
			}
			at = math.Max(at, finish[before])
		}
		return at, true
	}
	for {
		settleWaits(tasks, finish, done, begins)
		next, soonest := -1, math.Inf(1)
		for i := range tasks {
			at, can := begins(i)
			if done[i] || !tasks[i].Hands || !can {
				continue
			}
			if at = math.Max(at, free); tasks[i].Begun {
				at = -1
			}
			if at < soonest {
				next, soonest = i, at
			}
		}
		if next < 0 {
			break
		}
		free = math.Max(soonest, 0) + tasks[next].ahead()
		finish[next], done[next] = free, true
		order = append(order, next)
	}
	for i := range tasks {
		if !tasks[i].Hands {
			order = append(order, i)
		}
	}
	return reordered(tasks, parts, order)
}

// settleWaits finishes the waits that can begin.
func settleWaits(tasks []Task, finish []float64, done []bool, begins func(int) (float64, bool)) {
	for i := range tasks {
		if at, can := begins(i); can && !done[i] && !tasks[i].Hands {
			finish[i], done[i] = at+tasks[i].ahead(), true
		}
	}
}

func reordered(tasks []Task, parts []Part, order []int) ([]Task, []Part) {
	outTasks, outParts := make([]Task, len(order)), make([]Part, len(order))
	for at, i := range order {
		outTasks[at], outParts[at] = tasks[i], parts[i]
		outTasks[at].After = nil
		for _, before := range tasks[i].After {
			outTasks[at].After = append(outTasks[at].After, slices.Index(order, before))
		}
	}
	return outTasks, outParts
}
