package logic

import "slices"

// maxPast is how many moves can be undone.
const maxPast = 1024

// past is a ring of the answers that were there before.
type past struct {
	moves []before // grows to maxPast, then the oldest is written over
	next  int      // where the next goes
	size  int      // how many can be undone
}

// before is a fact and the answer that it had.
type before struct {
	fact FactID
	was  float64
}

func (p *past) push(f FactID, was float64) {
	switch {
	case p.next < len(p.moves):
		p.moves[p.next] = before{f, was}
	case len(p.moves) < maxPast:
		p.moves = append(p.moves, before{f, was})
	default:
		p.next = 0
		p.moves[0] = before{f, was}
	}
	p.next++
	p.size = min(p.size+1, maxPast)
}

func (p *past) pop() (FactID, float64, bool) {
	if p.size == 0 {
		return 0, 0, false
	}
	if p.next == 0 {
		p.next = len(p.moves)
	}
	p.next--
	p.size--
	m := p.moves[p.next]
	return m.fact, m.was, true
}

func (p *past) clone() past {
	return past{slices.Clone(p.moves), p.next, p.size}
}
