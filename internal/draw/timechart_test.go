package draw

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var chartNow = time.Date(2026, 11, 28, 12, 0, 0, 0, time.UTC)

// Bars are as long as what they stand for, and the call stands where it is due.
func TestTimeChartIsToScale(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var c TimeChart
		c.Now, c.Title = chartNow, "Time chart"
		at := chartNow
		for range rapid.IntRange(1, 12).Draw(r, "rows") {
			hands := time.Duration(rapid.IntRange(10, 240).Draw(r, "hands")) * time.Minute
			wait := time.Duration(rapid.IntRange(0, 300).Draw(r, "wait")) * time.Minute
			row := TimeRow{Name: "the barnacles", Hands: Span{at, at.Add(hands)}}
			if wait > 0 {
				row.Wait = Span{at.Add(hands), at.Add(hands + wait)}
			}
			c.Rows = append(c.Rows, row)
			at = at.Add(hands + wait)
		}
		c.Call = at.Add(-time.Minute)
		p, err := c.Draw()
		if err != nil {
			r.Fatal(err)
		}
		root := sheetChecks(r, p)
		unit := (barRight - barLeft) / at.Sub(chartNow).Minutes()
		bars := root.named("rect", "bar")
		if len(bars) != len(c.Rows) || len(p.Rows) != len(c.Rows) {
			r.Fatalf("%d bars and %d rows of the table for %d rows", len(bars), len(p.Rows), len(c.Rows))
		}
		for i, bar := range bars {
			want := c.Rows[i].Hands.To.Sub(c.Rows[i].Hands.From).Minutes() * unit
			near(r, "bar", bar.number(r, "width"), max(want, thinnest), 0.11)
			near(r, "its left end", bar.number(r, "x"), barLeft+c.Rows[i].Hands.From.Sub(chartNow).Minutes()*unit, 0.11)
		}
		near(r, "call", root.named("line", "call")[0].number(r, "x1"), barLeft+c.Call.Sub(chartNow).Minutes()*unit, 0.11)
	})
}

func TestTimeChartFaults(t *testing.T) {
	if _, err := (TimeChart{Now: chartNow}).Draw(); err == nil || !strings.Contains(err.Error(), "no rows") {
		t.Errorf("without rows: %v", err)
	}
	back := TimeChart{Now: chartNow, Rows: []TimeRow{{Name: "rope", Hands: Span{chartNow.Add(time.Hour), chartNow}}}}
	if _, err := back.Draw(); err == nil || !strings.Contains(err.Error(), "rope") {
		t.Errorf("a row that ends before it begins: %v", err)
	}
}
