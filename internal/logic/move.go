package logic

import "math"

// move changes the answer to f and settles everything that hangs on it. x is
// NaN for no answer. It allocates only while its lists grow, and where a
// comparison has to be run by expr.
func (s *State) move(f FactID, x float64) {
	was := s.answers[f]
	s.answers[f] = x
	s.changed = s.changed[:0]
	if was == x || was != was && x != x {
		return
	}
	s.work = s.base.works.borrow(&s.base.net)
	if s.base.facts[f].Kind == Number {
		s.moveNumber(f, was, x)
	} else {
		s.movePick(f, was, x)
	}
	if sums := s.base.sumsOf[f]; len(sums) > 0 {
		s.moveSums(f, sums)
	}
	s.settle()
	s.base.works.give(s.work)
	s.work = nil
}

// moveNumber turns the leaves "f < threshold" between two numbers, or all when
// one of the two is unknown.
func (s *State) moveNumber(f FactID, was, x float64) {
	first, end := s.base.firstLeaf[f], s.base.firstLeaf[f+1]
	switch {
	case math.IsNaN(was):
		at := first + s.base.position(f, x)
		s.turnRange(first, at, Unknown, False)
		s.turnRange(at, end, Unknown, True)
	case math.IsNaN(x):
		at := first + s.base.position(f, was)
		s.turnRange(first, at, False, Unknown)
		s.turnRange(at, end, True, Unknown)
	default:
		from, to := first+s.base.position(f, was), first+s.base.position(f, x)
		s.turnRange(from, to, True, False)
		s.turnRange(to, from, False, True)
	}
}

// movePick turns the leaves of a choice or yes/no fact.
func (s *State) movePick(f FactID, was, x float64) {
	first, end := s.base.firstLeaf[f], s.base.firstLeaf[f+1]
	if s.base.facts[f].Kind == YesNo {
		s.turn(first, yesTruth(was), yesTruth(x))
		return
	}
	switch {
	case math.IsNaN(was):
		at := first + int32(x)
		s.turnRange(first, at, Unknown, False)
		s.turn(at, Unknown, True)
		s.turnRange(at+1, end, Unknown, False)
	case math.IsNaN(x):
		at := first + int32(was)
		s.turnRange(first, at, False, Unknown)
		s.turn(at, True, Unknown)
		s.turnRange(at+1, end, False, Unknown)
	default:
		s.turn(first+int32(was), True, False)
		s.turn(first+int32(x), False, True)
	}
}

func yesTruth(x float64) Truth {
	if math.IsNaN(x) {
		return Unknown
	}
	return truthOf(x == 1)
}

func (s *State) turnRange(from, to int32, was, is Truth) {
	for leaf := from; leaf < to; leaf++ {
		s.turn(leaf, was, is)
	}
}

// turn passes the change of one leaf on to the nodes above it.
func (s *State) turn(leaf int32, was, is Truth) {
	up := s.base.leafUp[2*leaf : 2*leaf+3]
	s.pass(s.base.links[up[0]:up[1]], weight[is]-weight[was])
	s.pass(s.base.links[up[1]:up[2]], weight[is.Not()]-weight[was.Not()])
}

// pass adds a change of counts to nodes, and puts those whose truth it turns on
// the waiting list of their level with the truth that they had. Which nodes turn
// is chance, so the first loop has no branch for it: every node is written to
// the scratch list, and the next one writes over it unless it turned.
func (s *State) pass(nodes []int32, change uint16) {
	counts, scratch := s.counts, s.work.scratch[:len(nodes)]
	n := 0
	for _, node := range nodes {
		was := counts[node]
		is := was + change
		turned := turns(was, is)
		counts[node] = is | uint16(turned)<<15
		scratch[n] = node
		n += int(turned)
	}
	for _, node := range scratch[:n] {
		was := truthOfCounts(counts[node] - change)
		level := s.base.nodes[node].level
		s.work.wait(level, node, was)
	}
}

// passOne is pass for a single node.
func (s *State) passOne(node int32, change uint16) {
	was := s.counts[node]
	is := was + change
	if turns(was, is) == 0 {
		s.counts[node] = is
		return
	}
	s.counts[node] = is | waitingBit
	level := s.base.nodes[node].level
	s.work.wait(level, node, truthOfCounts(was))
}

// turns returns 1 when two counts stand for different truths, else 0. It looks
// at the signs of count-1, negative for true only, and oneFalse-1-count,
// negative for false only. The waiting bit makes both counts look false, so a
// waiting node never turns.
func turns(was, is uint16) uint32 {
	a, b := uint32(was), uint32(is)
	return (((a - 1) ^ (b - 1)) | ((oneFalse - 1 - a) ^ (oneFalse - 1 - b))) >> 31
}

// settle works through the waiting nodes from the lowest level up. A node is
// looked at once, after all its children, so none turns twice.
func (s *State) settle() {
	waiting := s.work.waiting
	for level := range waiting {
		for _, w := range waiting[level] {
			i, was := w>>2, Truth(w&3)
			s.counts[i] &= countMask
			is := truthOfCounts(s.counts[i])
			if is == was {
				continue
			}
			n := &s.base.nodes[i]
			if n.first < n.last {
				s.record(n, was, is)
			}
			s.lift(n, was, is)
		}
		waiting[level] = waiting[level][:0]
	}
}

// lift passes the turn of a node on to the nodes above it.
func (s *State) lift(n *node, was, is Truth) {
	switch n.end - n.up {
	case 0:
	case 1: // an or within one and, the commonest
		if n.up == n.plain {
			was, is = was.Not(), is.Not()
		}
		s.passOne(s.base.links[n.up], weight[is]-weight[was])
	default:
		s.pass(s.base.links[n.up:n.plain], weight[is]-weight[was])
		s.pass(s.base.links[n.plain:n.end], weight[is.Not()]-weight[was.Not()])
	}
}

// record lists the conditions that hang on a node.
func (s *State) record(n *node, was, is Truth) {
	for _, r := range s.base.conds[n.first:n.last] {
		if r.neg() {
			s.changed = append(s.changed, Change{Cond(r.gate()), was.Not(), is.Not()})
			continue
		}
		s.changed = append(s.changed, Change{Cond(r.gate()), was, is})
	}
}

// moveSums runs again the comparisons that mention f.
func (s *State) moveSums(f FactID, sums []int32) {
	if s.machine == nil {
		s.machine = &machine{env: make(map[string]any)}
		for id := range s.answers {
			s.tell(FactID(id))
		}
	}
	s.tell(f)
	firstSum := s.base.firstLeaf[len(s.base.facts)]
	for _, i := range sums {
		was, is := s.sums[i], s.run(i)
		if was != is {
			s.sums[i] = is
			s.turn(firstSum+i, was, is)
		}
	}
}

// tell gives the machine the answer to f.
func (s *State) tell(f FactID) {
	if len(s.base.sumsOf[f]) == 0 {
		return
	}
	fact := &s.base.facts[f]
	switch x := s.answers[f]; {
	case math.IsNaN(x):
		delete(s.machine.env, fact.Name)
	case fact.Kind == Choice:
		s.machine.env[fact.Name] = fact.Options[int(x)]
	case fact.Kind == YesNo:
		s.machine.env[fact.Name] = x == 1
	default:
		s.machine.env[fact.Name] = x
	}
}

// run returns the truth of comparison i: Unknown while a fact in it is
// unanswered, and where it cannot be worked out.
func (s *State) run(i int32) Truth {
	for _, f := range s.base.sumFacts[i] {
		if math.IsNaN(s.answers[f]) {
			return Unknown
		}
	}
	if s.base.programs[i] == nil {
		return Unknown
	}
	out, err := s.machine.vm.Run(s.base.programs[i], s.machine.env)
	is, ok := out.(bool)
	if err != nil || !ok {
		return Unknown
	}
	return truthOf(is)
}
