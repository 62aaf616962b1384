package sums

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// source says where a sum takes a number from.
type source struct {
	from  origin
	way   *logic.Formula // fromWay
	since int            // of the last thing told that it rests on, 0 for none
	told  []logic.FactID // the told numbers it rests on, each once
	lacks []logic.FactID // nowhere: what has to be told first
}

type origin uint8

const (
	nowhere origin = iota
	fromTold
	fromWay
	fromUsual
)

// sources finds out, once for each fact, where its number comes from. What
// was told last decides: who gives a weight after three lengths means the
// weight. A told number goes before one that follows from as much, and a
// usual value before one that nothing told speaks for.
type sources struct {
	book  *book.Book
	known Known
	found map[logic.FactID]source
}

func (s *sources) of(id logic.FactID) source {
	if found, ok := s.found[id]; ok {
		return found
	}
	found := s.find(&s.book.Facts[id])
	s.found[id] = found
	return found
}

func (s *sources) find(f *book.Fact) source {
	best := source{from: nowhere}
	if _, told := s.known.Value(f.ID); told {
		best = source{from: fromTold, since: s.known.Since(f.ID), told: []logic.FactID{f.ID}}
	} else if f.Usual != nil && len(s.formula(f.Usual.Value).lacks) == 0 {
		best = source{from: fromUsual}
	}
	var lacking []source
	for _, way := range f.Ways {
		w := s.formula(way)
		if len(w.lacks) > 0 {
			lacking = append(lacking, w)
			continue
		}
		later := w.since > best.since || w.since == best.since && len(w.told) > len(best.told)
		if later || best.from == nowhere {
			best = source{from: fromWay, way: way, since: w.since, told: w.told}
		}
	}
	if best.from == nowhere {
		if f.Usual != nil {
			lacking = append([]source{s.formula(f.Usual.Value)}, lacking...)
		}
		best.lacks = toAsk(f, lacking)
	}
	return best
}

// toAsk picks what to ask for: the rest of a way that was begun, else the
// first way where it takes several numbers, else the fact itself.
func toAsk(f *book.Fact, ways []source) []logic.FactID {
	best := -1
	for i, w := range ways {
		if len(w.told) > 0 && (best < 0 || len(w.lacks) < len(ways[best].lacks)) {
			best = i
		}
	}
	switch {
	case best >= 0:
		return ways[best].lacks
	case len(f.Ways) > 0 && len(f.Ways[0].Facts()) > 1:
		return ways[0].lacks
	}
	return []logic.FactID{f.ID}
}

// formula adds up the sources of all that a formula needs.
func (s *sources) formula(f *logic.Formula) source {
	var sum source
	for _, id := range f.Facts() {
		one := s.of(id)
		sum.since = max(sum.since, one.since)
		sum.told = union(sum.told, one.told)
		sum.lacks = union(sum.lacks, one.lacks)
	}
	return sum
}

func union(a, b []logic.FactID) []logic.FactID {
	for _, id := range b {
		if !slices.Contains(a, id) {
			a = append(slices.Clip(a), id)
		}
	}
	return a
}
