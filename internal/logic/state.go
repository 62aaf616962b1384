package logic

import (
	"fmt"
	"math"
	"slices"

	"github.com/expr-lang/expr/vm"
)

// State holds the answers of one session and the truth of every condition. It
// is for one goroutine; the Base behind it is shared.
type State struct {
	base    *Base
	answers []float64 // of each fact: number, option or 0/1; NaN while unanswered
	counts  []uint16  // of each node, see weight
	sums    []Truth   // of each comparison that expr runs
	changed []Change
	work    *work // only while an answer is moving
	past    past
	machine *machine
}

// Change is a condition that the last Set, Clear or Undo has turned.
type Change struct {
	Cond     Cond
	From, To Truth
}

// NewState returns a State in which nothing is answered.
func (base *Base) NewState() *State {
	s := &State{
		base:    base,
		answers: make([]float64, len(base.facts)),
		counts:  slices.Clone(base.start),
	}
	if len(base.programs) > 0 {
		s.sums = make([]Truth, len(base.programs))
	}
	s.forget()
	return s
}

func (s *State) forget() {
	for i := range s.answers {
		s.answers[i] = notKnown
	}
}

// Set answers fact f. It is an error for v to be of another kind, an option out
// of range, or a number that is not finite; the State is then as it was.
func (s *State) Set(f FactID, v Value) error {
	if err := s.base.accept(f, v); err != nil {
		return err
	}
	s.past.push(f, s.answers[f])
	s.move(f, v.x)
	return nil
}

// accept reports why v cannot answer f.
func (base *Base) accept(f FactID, v Value) error {
	if f < 0 || int(f) >= len(base.facts) {
		return fmt.Errorf("there is no fact %d", f)
	}
	fact := &base.facts[f]
	switch {
	case fact.Kind != v.kind:
		return fmt.Errorf("%s is a %s, answered with a %s", fact.Name, fact.Kind, v.kind)
	case infinite(v.x):
		return fmt.Errorf("%s is answered with %v, which is not a number", fact.Name, v.x)
	case v.kind == Choice && (v.x < 0 || int(v.x) >= len(fact.Options)):
		return fmt.Errorf("%s has no option %d", fact.Name, int(v.x))
	}
	return nil
}

// Clear takes the answer to f back.
func (s *State) Clear(f FactID) {
	if f < 0 || int(f) >= len(s.answers) {
		s.changed = s.changed[:0]
		return
	}
	s.past.push(f, s.answers[f])
	s.move(f, notKnown)
}

// Undo reverts the last Set or Clear and reports whether there was one. The
// last 1,024 are kept.
func (s *State) Undo() bool {
	f, was, ok := s.past.pop()
	if !ok {
		s.changed = s.changed[:0]
		return false
	}
	s.move(f, was)
	return true
}

// Value returns the answer to f, and false while there is none.
func (s *State) Value(f FactID) (Value, bool) {
	if f < 0 || int(f) >= len(s.answers) || math.IsNaN(s.answers[f]) {
		return Value{}, false
	}
	return Value{s.answers[f], s.base.facts[f].Kind}, true
}

// Truth returns what is known of c; Unknown for a Cond not of this Base.
func (s *State) Truth(c Cond) Truth {
	if !s.base.has(c) {
		return Unknown
	}
	r := s.base.roots[c]
	t := truthOfCounts(s.counts[r.gate()])
	if r.neg() {
		return t.Not()
	}
	return t
}

// Changed returns the conditions that the last Set, Clear or Undo has turned,
// each once. The slice is valid until the next of them.
func (s *State) Changed() []Change { return s.changed }

// Copy returns a State with the same answers that goes its own way.
func (s *State) Copy() *State {
	return &State{
		base:    s.base,
		answers: slices.Clone(s.answers),
		counts:  slices.Clone(s.counts),
		sums:    slices.Clone(s.sums),
		changed: slices.Clone(s.changed),
		past:    s.past.clone(),
	}
}

// Reset forgets all answers and the way they came; nothing counts as changed.
func (s *State) Reset() {
	s.forget()
	copy(s.counts, s.base.start)
	clear(s.sums)
	s.changed = s.changed[:0]
	s.past = past{moves: s.past.moves[:0]}
	s.machine = nil
}

// machine runs comparisons in expr's virtual machine.
type machine struct {
	vm  vm.VM
	env map[string]any // answered facts by name; options as their words
}
