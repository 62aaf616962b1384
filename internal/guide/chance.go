package guide

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// Odds is how the trials ended: the share that was over by the call, and the
// minutes from now by which one in ten, half, and nine in ten were over.
type Odds struct{ Chance, Early, Middle, Late float64 }

// mostTrials bounds the memory that one call takes.
const mostTrials = 1_000_000

// Simulate plays the tasks through trials times, waiting for one another as in
// Schedule. Durations are drawn from the triangular law over each Range, each
// on its own; that of a begun task given that it is longer than Spent. The
// call is in minutes from now, +Inf for none. Same arguments and seed: same
// odds. The chance is off by 1/sqrt(trials) at the very most, 19 times in 20.
//
// It is an error where Schedule has one, and if trials is not 1 to a million.
func Simulate(tasks []Task, call float64, trials int, seed uint64) (Odds, error) {
	before, sorted, err := arrange(tasks, call)
	if err != nil {
		return Odds{}, err
	}
	if trials < 1 || trials > mostTrials {
		return Odds{}, fmt.Errorf("%d trials: want 1 to %d", trials, mostTrials)
	}
	s := trial{tasks: tasks, before: before, sorted: sorted,
		tails: make([]float64, len(tasks)), over: make([]float64, len(tasks)),
		rand: rand.New(rand.NewPCG(seed, 0))}
	for i, t := range tasks {
		s.tails[i] = t.Takes.beyond(t.Spent)
	}
	ends := make([]float64, trials)
	for k := range ends {
		ends[k] = s.run()
	}
	slices.Sort(ends)
	kept, _ := slices.BinarySearchFunc(ends, call, func(end, call float64) int {
		if end <= call {
			return -1
		}
		return 1
	})
	return Odds{
		Chance: float64(kept) / float64(trials),
		Early:  quantile(ends, 0.1),
		Middle: quantile(ends, 0.5),
		Late:   quantile(ends, 0.9),
	}, nil
}

// trial is what the trials share.
type trial struct {
	tasks  []Task
	before [][]int
	sorted []int
	tails  []float64 // share of the law of each task beyond its Spent
	over   []float64 // when each task was over, by the trial that runs
	rand   *rand.Rand
}

// run plays everything through once and returns when the last task was over.
func (s *trial) run() float64 {
	var end float64
	for _, i := range s.sorted {
		var start float64
		for _, b := range s.before[i] {
			start = max(start, s.over[b])
		}
		t := &s.tasks[i]
		takes := t.Takes.exceeded(s.tails[i] * (1 - s.rand.Float64()))
		s.over[i] = start + max(0, takes-t.Spent)
		end = max(end, s.over[i])
	}
	return end
}

// quantile is the least of the sorted values that the share p of them doesn't
// pass: definition 1 of Hyndman and Fan, Sample quantiles in statistical
// packages, The American Statistician 50(4), 1996.
func quantile(sorted []float64, p float64) float64 {
	return sorted[int(math.Ceil(p*float64(len(sorted))))-1]
}

// beyond is the share of the triangular law over r that lies beyond x, one
// less its distribution function (Kotz and van Dorp, Beyond Beta, World
// Scientific 2004, chapter 1).
func (r Range) beyond(x float64) float64 {
	switch width := r.To - r.From; {
	case x <= r.From:
		return 1
	case x >= r.To:
		return 0
	case x < r.Mostly:
		return 1 - (x-r.From)/width*((x-r.From)/(r.Mostly-r.From))
	default:
		return (r.To - x) / width * ((r.To - x) / (r.To - r.Mostly))
	}
}

// exceeded is the duration beyond which the share v lies: the inverse of
// beyond, from the same source.
func (r Range) exceeded(v float64) float64 {
	width := r.To - r.From
	if v*width <= r.To-r.Mostly {
		return r.To - math.Sqrt(v*width*(r.To-r.Mostly))
	}
	return r.From + math.Sqrt((1-v)*width*(r.Mostly-r.From))
}
