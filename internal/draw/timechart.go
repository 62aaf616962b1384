package draw

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"
)

// TimeChart is a schedule: a row for each step, time from left to right.
type TimeChart struct {
	ID    string // begins with a small letter; "time-chart" where it is ""
	Title string
	Now   time.Time // the left edge; what began before is drawn from there
	Call  time.Time // marked where it is not zero
	Rows  []TimeRow
}

// TimeRow is one step, with its hands part, its wait, or both.
type TimeRow struct {
	Name     string
	Hands    Span
	Wait     Span
	Critical bool // on the longest chain: what delays it delays everything
}

// Span is a stretch of time; none where both ends are zero.
type Span struct{ From, To time.Time }

func (s Span) given() bool { return !s.To.IsZero() }

const (
	chartRowHigh = 2*rowHigh + 2
	barHigh      = 9.0
	barLeft      = 8.0
	barRight     = pageWidth - 8
	thinnest     = 1.5
)

// Draw draws the chart. It is an error if there is no row, or if a span
// ends before it begins.
func (c TimeChart) Draw() (Picture, error) {
	id, err := idOr(c.ID, "time-chart")
	if err != nil {
		return Picture{}, err
	}
	end, err := c.end()
	if err != nil {
		return Picture{}, err
	}
	d := &drawing{id: id}
	scale := func(t time.Time) float64 {
		share := float64(t.Sub(c.Now)) / float64(end.Sub(c.Now))
		return barLeft + math.Max(0, math.Min(1, share))*(barRight-barLeft)
	}
	top := rowHigh + 6
	bottom := top + float64(len(c.Rows))*chartRowHigh
	c.hours(d, scale, end, top, bottom)
	for i, row := range c.Rows {
		row.draw(d, scale, top+float64(i)*chartRowHigh)
	}
	if !c.Call.IsZero() {
		x := scale(c.Call)
		d.add(el("line", "class", "call", "x1", num(x), "y1", num(top-2), "x2", num(x), "y2", num(bottom),
			"stroke", clayColour, "stroke-width", num(boldWide)))
		call := newLabel("call " + c.Call.Format("15:04"))
		call.bold = true
		d.labels = append(d.labels, call.centred(x, bottom+1).held())
	}
	foot := d.notes([]string{"Filled: hands at work. Hatched: waiting. Dark: what delays it delays everything."}, bottom+rowHigh+4)
	p := Picture{ID: id, Title: c.Title, Description: c.describe(), Columns: []string{"Step", "From", "To", "Then waits until"}, Rows: c.table()}
	p.SVG, err = d.write(foot+4, c.Title, p.Description, d.hatch("wait", 5, "1.6", "0.7"))
	return p, err
}

// end is the right edge: the end of the last row, or the call.
func (c TimeChart) end() (time.Time, error) {
	end := c.Call
	if len(c.Rows) == 0 {
		return end, errors.New("the time chart has no rows: give it what is still to be done")
	}
	for _, row := range c.Rows {
		for _, s := range []Span{row.Hands, row.Wait} {
			if s.given() && s.To.Before(s.From) {
				return end, fmt.Errorf("the row %q of the time chart ends before it begins", row.Name)
			}
			if s.To.After(end) {
				end = s.To
			}
		}
	}
	if !end.After(c.Now) {
		end = c.Now.Add(time.Minute)
	}
	return end, nil
}

func (r TimeRow) draw(d *drawing, scale func(time.Time) float64, y float64) {
	name := newLabel(shortened(r.Name, barRight-barLeft-2))
	name.x, name.y, name.from, name.bold = barLeft, y, true, r.Critical
	d.labels = append(d.labels, name)
	class, ink := "bar", "0.45"
	if r.Critical {
		class, ink = "bar critical", "0.95"
	}
	if r.Hands.given() {
		from, to := scale(r.Hands.From), scale(r.Hands.To)
		d.rect(class, "currentColor", from, y+rowHigh+1, math.Max(thinnest, to-from), barHigh, "fill-opacity", ink)
	}
	if r.Wait.given() {
		from, to := scale(r.Wait.From), scale(r.Wait.To)
		d.rect("wait", d.fill("wait"), from, y+rowHigh+1, math.Max(thinnest, to-from), barHigh, "stroke", "currentColor", "stroke-width", "0.8", "stroke-opacity", ink)
	}
}

// hours draws lines at round hours, so few that their names have room.
func (c TimeChart) hours(d *drawing, scale func(time.Time) float64, end time.Time, top, bottom float64) {
	mostLines := func(step time.Duration) time.Duration { // a day's name takes room
		if step >= 12*time.Hour {
			return 4
		}
		return 6
	}
	steps := []time.Duration{15 * time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour, 3 * time.Hour, 6 * time.Hour, 12 * time.Hour, 24 * time.Hour, 48 * time.Hour, 7 * 24 * time.Hour}
	at := slices.IndexFunc(steps, func(s time.Duration) bool { return end.Sub(c.Now) <= mostLines(s)*s })
	if at < 0 {
		return
	}
	_, offset := c.Now.Zone()
	local := time.Duration(offset) * time.Second
	first := c.Now.Add(local).Truncate(steps[at]).Add(steps[at] - local)
	for t := first; t.Before(end); t = t.Add(steps[at]) {
		d.line("grid", "0.8", scale(t), top-4, scale(t), bottom, "stroke-opacity", "0.3")
		name := t.Format("15:04")
		if steps[at] >= 12*time.Hour {
			name = t.Format("Mon 15:04")
		}
		d.labels = append(d.labels, newLabel(name).centred(scale(t), 2).held())
	}
}

func (c TimeChart) describe() string {
	words := fmt.Sprintf("%d steps from %s.", len(c.Rows), c.Now.Format("15:04"))
	if !c.Call.IsZero() {
		words += fmt.Sprintf(" The call is at %s.", c.Call.Format("15:04"))
	}
	return words
}

func (c TimeChart) table() [][]string {
	var rows [][]string
	for _, r := range c.Rows {
		rows = append(rows, []string{r.Name, moment(r.Hands.From), moment(r.Hands.To), moment(r.Wait.To)})
	}
	return rows
}

func moment(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format("Mon 15:04")
}
