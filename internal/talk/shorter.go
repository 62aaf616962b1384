package talk

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/guide"
	"sparehand/internal/logic"
)

// likely is the chance above which a plan is left as it is.
const likely = 0.8

// shorterWays lists what can still be done otherwise to save time, where the
// call needs it: of those that
// make it likely the first of the book, where the cheapest stands first.
func (s *state) shorterWays(now time.Time) []ShorterShown {
	list := []ShorterShown{}
	p := s.plan(now)
	if p == nil || s.due.IsZero() || p.odds.Chance >= likely {
		return list
	}
	for _, w := range s.a.book.Shorter {
		if !s.canShorten(w) {
			continue
		}
		with := s.shortened(w, now)
		if saves := p.plan.Finish - with.plan.Finish; saves >= 1 && with.odds.Chance > p.odds.Chance {
			chance := with.odds.Chance
			list = append(list, ShorterShown{ID: w.ID, Title: w.Title, Say: w.Say, Costs: w.Costs, Saves: math.Round(saves), Chance: &chance})
		}
	}
	slices.SortStableFunc(list, func(a, b ShorterShown) int {
		return cmp.Compare(math.Min(likely, *b.Chance), math.Min(likely, *a.Chance))
	})
	return list
}

// rough is a span of time for a sentence that says "about" itself.
func rough(m float64) string {
	if m >= 90 && m < 72*60 { // "two days" is too rough for a wait of 36 hours
		return craft.FormatCount(math.Round(m/30)/2) + " hours"
	}
	return strings.TrimPrefix(minutes(m), "about ")
}

// allShorter is the chance where every shorter way is taken.
func (s *state) allShorter(now time.Time) float64 {
	all := &book.Shorter{}
	for _, w := range s.a.book.Shorter {
		if s.canShorten(w) {
			all.Sets = append(all.Sets, w.Sets...)
		}
	}
	return s.shortened(all, now).odds.Chance
}

// canShorten reports whether a shorter way makes sense: it is not gone yet, and
// not past.
func (s *state) canShorten(w *book.Shorter) bool {
	if w.Before == nil || w.Before.Guide == nil || s.build.Progress(w.Before).Stage == guide.Over || w.HasOnlyIf && s.Truth(w.OnlyIf) == logic.False {
		return false
	}
	return slices.ContainsFunc(w.Sets, func(f book.SetFact) bool {
		v, known := s.known.Value(f.Fact.ID)
		return !known || v != f.Value
	})
}

// shortened works the schedule out as it would be.
func (s *state) shortened(w *book.Shorter, now time.Time) *scheduled {
	type before struct {
		v     logic.Value
		known bool
	}
	was := make([]before, len(w.Sets))
	worked := s.worked
	s.worked = nil
	for i, f := range w.Sets {
		was[i].v, was[i].known = s.known.Value(f.Fact.ID)
		_ = s.known.Set(f.Fact.ID, f.Value) // parsed for this fact
	}
	with := s.scheduleAt(now)
	for i, f := range slices.Backward(w.Sets) { // two ways may set the same fact
		if s.known.Clear(f.Fact.ID); was[i].known {
			_ = s.known.Set(f.Fact.ID, was[i].v)
		}
	}
	s.worked = worked
	return with
}
