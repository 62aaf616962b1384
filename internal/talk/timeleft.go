package talk

import (
	"fmt"
	"math"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
)

// wornStep is the step before which the piece has to be ready.
const wornStep = "wear"

// noteCall keeps the moment of the call when an event tells how long there is.
func (s *state) noteCall(e Event) {
	for _, act := range e.Acts {
		if act.Fact != hear.LeftFact {
			continue
		}
		s.due = time.Time{}
		f := s.a.book.FactByName(act.Fact)
		if v, known := s.known.Value(f.ID); act.Do == doTell && known {
			s.due = e.At.Add(time.Duration(v.Number() * float64(time.Minute)))
		}
	}
}

// tick brings the minutes that are left up to date.
func (s *state) tick(now time.Time) {
	if s.due.IsZero() || now.IsZero() {
		return
	}
	f := s.a.book.FactByName(hear.LeftFact)
	left := math.Max(0, math.Round(s.due.Sub(now).Minutes()))
	if v, known := s.known.Value(f.ID); known && v.Number() != left && s.known.Set(f.ID, logic.Num(left)) == nil {
		s.seen = nil
	}
}

// left gives the minutes until the call, infinite where they were not told.
func (s *state) left() float64 {
	if f := s.a.book.FactByName(hear.LeftFact); f != nil && !s.due.IsZero() {
		if v, known := s.known.Value(f.ID); known {
			return v.Number()
		}
	}
	return math.Inf(1)
}

// after gives the minutes that the rest of the job takes at the very least,
// from the step at which a problem shows until the piece can be worn; of that
// step itself the waiting, as of plaster that has yet to set.
func (a *Assistant) after(p *book.Problem) float64 {
	var sum float64
	for i := range a.book.Steps {
		step := &a.book.Steps[i]
		if step.ID == wornStep {
			return sum
		}
		if p.Step != nil && (i > p.Step.Index || i == p.Step.Index && step.Waits) {
			sum += step.Least
		}
	}
	return 0 // a book without that step knows no call
}

// worn reports whether a problem shows on a piece that is worn or was: the
// call is no bound for what is done then.
func (a *Assistant) worn(p *book.Problem) bool {
	for i := range a.book.Steps {
		if a.book.Steps[i].ID == wornStep {
			return p.Step != nil && p.Step.Index > i
		}
	}
	return true
}

// within gives the minutes that a remedy may take now.
func (s *state) within() float64 {
	if s.problem == nil || s.a.worn(s.problem) {
		return math.Inf(1)
	}
	return s.left() - s.a.after(s.problem)
}

// slim is the chance of working below which a cure that fits into the time is
// no cure, where a better one does not fit.
const slim = 0.2

// hurried reports whether no remedy worth the name fits into the time left.
func (s *state) hurried() bool {
	v := s.view()
	if v == nil || len(v.order) == 0 {
		return false
	}
	if v.order[0].Minutes > s.within() {
		return true
	}
	best := s.best(v)
	return best.Minutes > s.within() && v.model.Chance(v.order[0], v.beliefs) < min(slim, v.model.Chance(best, v.beliefs)/2)
}

// best is the remedy that would come first if there were all the time there is.
func (s *state) best(v *view) *book.Remedy {
	return v.model.Order(s.known, v.beliefs, s.tried(), math.Inf(1))[0]
}

// timeShown is the time left beside what is needed, nil where it was not told.
func (s *state) timeShown() *TimeShown {
	left := s.left()
	if math.IsInf(left, 1) {
		return nil
	}
	t := &TimeShown{Left: left, Fits: true}
	if s.problem == nil || s.a.worn(s.problem) {
		return t
	}
	t.After = s.a.after(s.problem)
	if o := s.offered(); o != nil {
		t.Needed = o.Minutes
		if t.Fits = !s.hurried(); !t.Fits {
			h := s.problem.Hurry
			t.Save, t.Hide, t.Drop = h.Save, h.Hide, h.Drop
			if t.After > t.Left && s.a.book.Unmade != "" {
				t.Save, t.Hide, t.Drop = "", s.a.book.Unmade, "" // whatever is saved now is no piece by then
			}
		}
	}
	return t
}

// spoken says that no cure fits, and what is left to do.
func (t *TimeShown) spoken() string {
	why := fmt.Sprintf("You have %s, and a cure takes %s", minutes(t.Left), minutes(t.Needed))
	if t.After > 0 {
		why += fmt.Sprintf(" with %s of work after it", minutes(t.After))
	}
	return phrase.Speech("No cure fits into the time left", why, t.Save, t.Hide, t.Drop)
}

// fitsSpoken says that the remedy fits, and which better one does not.
func (s *state) fitsSpoken(first *book.Remedy) string {
	left := s.left()
	if math.IsInf(left, 1) || s.a.worn(s.problem) {
		return ""
	}
	v := s.view()
	if best := s.best(v); best != first && best.Minutes > s.within() {
		then := ""
		if after := s.a.after(s.problem); after > 0 {
			then = fmt.Sprintf(" with %s of work after it", minutes(after))
		}
		return fmt.Sprintf("A better cure takes %s%s, too long for the %s you have", minutes(best.Minutes), then, minutes(left))
	}
	return fmt.Sprintf("It fits into the %s you have", minutes(left))
}

// minutesTo gives the minutes from now until the time of day that was said. Of
// the two times that "seven" can mean, the nearer one to come is taken.
func minutesTo(c hear.Clock, now time.Time) float64 {
	day := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	if c.Tomorrow {
		day = day.AddDate(0, 0, 1)
	}
	at := day.Add(time.Duration(c.Minute) * time.Minute)
	step := 24 * time.Hour
	if c.Half {
		step = 12 * time.Hour
	}
	for !at.After(now) {
		at = at.Add(step)
	}
	for c.Half && !c.Tomorrow && at.Sub(now) > step {
		at = at.Add(-step)
	}
	return math.Round(at.Sub(now).Minutes())
}
