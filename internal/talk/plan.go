package talk

import (
	"fmt"
	"math"
	"slices"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/draw"
	"sparehand/internal/guide"
	"sparehand/internal/phrase"
)

// PlanShown is the schedule of a build until the piece is worn. Chance and Call
// are null where the call was not told.
type PlanShown struct {
	Call    *time.Time     `json:"call"`
	Finish  time.Time      `json:"finish"`   // by how long things mostly take
	Early   time.Time      `json:"early"`    // one time in ten it is over by then
	Late    time.Time      `json:"late"`     // and nine times in ten by then
	Chance  *float64       `json:"chance"`   // of being ready by the call, 0..1
	Slack   *float64       `json:"slack"`    // minutes to spare, below 0 where they lack
	StartBy *time.Time     `json:"start_by"` // when the step at hand has to begin at the latest
	Tasks   []PlanTask     `json:"tasks"`    // in order of their start
	Shorter []ShorterShown `json:"shorter"`  // ways to save time, the best first
	Chart   draw.Picture   `json:"chart"`
}

// PlanTask is a step's hands part, or its wait.
type PlanTask struct {
	Step     string    `json:"step"`
	Title    string    `json:"title"`
	Waits    bool      `json:"waits"` // hands free
	Start    time.Time `json:"start"`
	Finish   time.Time `json:"finish"`
	From     float64   `json:"from"`   // minutes at the least
	To       float64   `json:"to"`     // and at the most
	Latest   time.Time `json:"latest"` // start at the latest
	Critical bool      `json:"critical"`
	Begun    bool      `json:"begun"`
}

// ShorterShown is a shorter way, with what it brings and what it costs.
type ShorterShown struct {
	ID     string   `json:"id"`
	Title  string   `json:"title"`
	Say    string   `json:"say"`
	Costs  string   `json:"costs"`
	Saves  float64  `json:"saves"`  // minutes
	Chance *float64 `json:"chance"` // of being ready by the call then
}

// scheduled is a plan with what it was made of, worked out once a turn.
type scheduled struct {
	now   time.Time
	tasks []guide.Task
	parts []guide.Part
	plan  guide.Plan
	odds  guide.Odds
}

// The simulation of a plan: so many trials tell a chance within a few percent,
// and the same seed gives the same reply to the same events.
const (
	trials = 1000
	seed   = 1
)

// plan works the schedule out; nil where no build is on, or nothing of it is
// left before the piece is worn.
func (s *state) plan(now time.Time) *scheduled {
	if s.build == nil || now.IsZero() {
		return nil
	}
	if s.planned == nil || !s.planned.now.Equal(now) {
		s.planned = s.scheduleAt(now)
	}
	if len(s.planned.tasks) == 0 {
		return nil
	}
	return s.planned
}

func (s *state) scheduleAt(now time.Time) *scheduled {
	p := &scheduled{now: now}
	p.tasks, p.parts = s.build.Tasks(s, now)
	call := math.Inf(1)
	if !s.due.IsZero() {
		call = s.due.Sub(now).Minutes()
	}
	var err error
	if p.plan, err = guide.Schedule(p.tasks, call); err != nil {
		return &scheduled{now: now} // the book's own order can't have a circle
	}
	if p.odds, err = guide.Simulate(p.tasks, call, trials, seed); err != nil {
		return &scheduled{now: now}
	}
	return p
}

func (p *scheduled) at(minutes float64) time.Time {
	return p.now.Add(inMinutes(minutes)).Truncate(time.Second)
}

func (s *state) planShown(now time.Time) *PlanShown {
	p := s.plan(now)
	if p == nil {
		return nil
	}
	shown := &PlanShown{Finish: p.at(p.plan.Finish), Early: p.at(p.odds.Early), Late: p.at(p.odds.Late), Tasks: []PlanTask{}, Shorter: []ShorterShown{}}
	for i, placed := range p.plan.Tasks {
		part := p.parts[i]
		shown.Tasks = append(shown.Tasks, PlanTask{
			Step: part.Step.ID, Title: taskTitle(part), Waits: part.Wait, Start: p.at(placed.Start), Finish: p.at(placed.Finish),
			From: p.tasks[i].Takes.From, To: p.tasks[i].Takes.To, Latest: p.at(placed.LatestStart), Critical: placed.Critical, Begun: p.tasks[i].Begun,
		})
	}
	slices.SortStableFunc(shown.Tasks, func(a, b PlanTask) int { return a.Start.Compare(b.Start) })
	if !s.due.IsZero() {
		call, chance, slack := s.due, p.odds.Chance, math.Round(s.due.Sub(now).Minutes()-p.plan.Finish)
		startBy := p.at(slack)
		shown.Call, shown.Chance, shown.Slack, shown.StartBy = &call, &chance, &slack, &startBy
	}
	shown.Shorter = s.shorterWays(now)
	shown.Chart = s.chart(p)
	return shown
}

func taskTitle(p guide.Part) string {
	if p.Wait {
		return "waiting: " + p.Step.Title
	}
	return p.Step.Title
}

// planSpoken answers "will I make it?".
func (s *state) planSpoken(now time.Time) string {
	p := s.plan(now)
	if p == nil {
		return "Nothing is left to do before it is worn."
	}
	if s.due.IsZero() {
		return phrase.Speech(
			fmt.Sprintf("About %s are left until it can be worn, so about %s if you go on now", rough(p.plan.Finish), clock(p.at(p.plan.Finish), now)),
			"Tell me when the call is, and I say whether it fits")
	}
	spare := s.due.Sub(now).Minutes() - p.plan.Finish
	room := fmt.Sprintf("with %s to spare", minutes(spare))
	if spare < 0 {
		room = fmt.Sprintf("%s after the call", minutes(-spare))
	}
	say := []string{fmt.Sprintf("Ready at about %s, %s", clock(p.at(p.plan.Finish), now), room), "The chance to make it is " + chanceSpoken(p.odds.Chance)}
	return phrase.Speech(append(say, s.shorterSpoken(now))...)
}

// shorterSpoken says which shorter way helps most, and what it costs.
func (s *state) shorterSpoken(now time.Time) string {
	p := s.plan(now)
	if p == nil || s.due.IsZero() || p.odds.Chance >= likely {
		return ""
	}
	ways, all := s.shorterWays(now), s.allShorter(now)
	if all < 0.03 {
		return phrase.Speech("No shorter way that I know gets it done by then", s.a.book.Unmade)
	}
	if len(ways) == 0 || *ways[0].Chance < all/2 {
		return phrase.Speech("No single shorter way does it; all of them together make it " + chanceSpoken(all))
	}
	w := ways[0]
	return phrase.Speech(
		fmt.Sprintf("A shorter way: %s", phrase.Lower(w.Say)),
		fmt.Sprintf("That saves about %s and makes it %s", rough(w.Saves), chanceSpoken(*w.Chance)), w.Costs)
}

// chanceSpoken says a chance so that nobody takes it for more exact than it is.
func chanceSpoken(x float64) string {
	switch {
	case x >= 0.97:
		return "nearly certain"
	case x <= 0.03:
		return "next to none"
	}
	return fmt.Sprintf("about %.0f in ten", math.Max(1, math.Min(9, math.Round(10*x))))
}

// clock says a moment: the time, and the day where it is another.
func clock(t, now time.Time) string {
	t = t.In(now.Location())
	switch days := dayNumber(t) - dayNumber(now); {
	case days == 0:
		return t.Format("15:04")
	case days == 1:
		return "tomorrow at " + t.Format("15:04")
	default:
		return t.Format("Monday, 2 January, 15:04")
	}
}

func dayNumber(t time.Time) int {
	return int(time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

// chart draws the plan, a row for each step.
func (s *state) chart(p *scheduled) draw.Picture {
	c := draw.TimeChart{Title: "Time chart", Now: p.now, Call: s.due}
	rows := map[*book.Step]int{}
	for i, placed := range p.plan.Tasks {
		step := p.parts[i].Step
		at, there := rows[step]
		if !there {
			at = len(c.Rows)
			rows[step] = at
			c.Rows = append(c.Rows, draw.TimeRow{Name: phrase.Capital(step.Title)})
		}
		span := draw.Span{From: p.at(placed.Start), To: p.at(placed.Finish)}
		if c.Rows[at].Critical = c.Rows[at].Critical || placed.Critical; p.parts[i].Wait {
			c.Rows[at].Wait = span
		} else {
			c.Rows[at].Hands = span
		}
	}
	slices.SortStableFunc(c.Rows, func(a, b draw.TimeRow) int { return begins(a).Compare(begins(b)) })
	picture, err := c.Draw()
	if err != nil {
		return draw.Picture{}
	}
	return picture
}

// begins is when a row of the chart begins.
func begins(r draw.TimeRow) time.Time {
	if r.Hands.To.IsZero() {
		return r.Wait.From
	}
	return r.Hands.From
}
