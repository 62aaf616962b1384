package draw

import (
	"fmt"
	"math"
	"slices"
)

// Places on the paper, in units of the viewBox.
const (
	chartLeft  = 48.0
	chartRight = pageWidth - 6
	chartHigh  = 210.0
	stripHigh  = rowHigh + 2 // the strip under the chart that says where it is rough
	lineWide   = 1.7
	boldWide   = 3.2
	drawStep   = 2.0 // percent of humidity from one point of a curve to the next
)

// dashes tell the lines that are not the chosen one apart.
var dashes = []string{"8 4", "2 3.5", "12 4 2 4", "5 2.5", "1.5 6"}

// chart is the ground that curves are drawn on.
type chart struct {
	Climate
	*drawing
	low, high float64 // percent of size at the lower and the upper edge
	top       float64 // y of the upper edge
	rooms     []label // over the chart, in the order of Rooms
	notes     []string
}

func newChart(id string, c Climate) *chart {
	ch := &chart{Climate: c, drawing: &drawing{id: id}}
	ch.low, ch.high = c.sizes()
	rows := ch.placeRooms()
	ch.top = rowHigh + 12 + float64(rows)*rowHigh
	return ch
}

// sizes is the range of sizes to draw, rounded outwards to whole steps.
func (c Climate) sizes() (low, high float64) {
	low, high = -max(c.Tolerance, 4), max(c.Tolerance, 4)
	for _, curve := range c.Curves {
		for h := driest; h <= dampest; h++ {
			if size, known := curve.at(h); known {
				low, high = min(low, size), max(high, size)
			}
		}
	}
	low, high = max(low, smallest), min(high, largest)
	const round = 5
	return math.Floor(low/round) * round, math.Ceil(high/round) * round
}

func (ch *chart) x(humidity float64) float64 {
	return chartLeft + (humidity-driest)/(dampest-driest)*(chartRight-chartLeft)
}

func (ch *chart) y(size float64) float64 {
	return ch.top + (ch.high-size)/(ch.high-ch.low)*chartHigh
}

func (ch *chart) bottom() float64 { return ch.top + chartHigh }

// draw puts the chart on paper.
func (ch *chart) draw(title, description string) (string, error) {
	ch.ground()
	ch.axes()
	lines := ch.curves()
	ch.marks()
	ch.name(lines)
	low := ch.bottom() + stripHigh + 2*rowHigh + 4
	low = ch.drawing.notes(ch.notes, low)
	return ch.write(low+4, title, description, ch.hatch("rough", 6, "0.8", "0.4"))
}

// ground shows the band of tolerance, and hatches where the sum is rough.
func (ch *chart) ground() {
	if ch.Tolerance > 0 {
		above, below := ch.y(min(ch.Tolerance, ch.high)), ch.y(max(-ch.Tolerance, ch.low))
		ch.rect("band", clayWash, chartLeft, above, chartRight-chartLeft, below-above)
		for _, y := range []float64{above, below} {
			ch.line("band-edge", "0.8", chartLeft, y, chartRight, y, "stroke-dasharray", "1 3")
		}
	}
	strip := ch.bottom()
	for _, zone := range [][2]float64{{driest, sureFrom}, {sureUpTo, dampest}} {
		from, to := ch.x(zone[0]), ch.x(zone[1])
		ch.rect("rough", ch.fill("rough"), from, ch.top, to-from, chartHigh+stripHigh)
		ch.labels = append(ch.labels, newLabel("rough").centred((from+to)/2, strip+1))
	}
	for _, h := range []float64{sureFrom, sureUpTo} {
		ch.line("edge", "0.8", ch.x(h), ch.top, ch.x(h), strip+stripHigh, "stroke-opacity", "0.5")
	}
	ch.line("edge", "0.8", chartLeft, strip, chartRight, strip)
}

func (ch *chart) axes() {
	step := 5.0
	if ch.high-ch.low > 30 {
		step = 10
	}
	for size := math.Ceil(ch.low/step) * step; size <= ch.high; size += step {
		width, opacity := "0.8", "0.3"
		if size == 0 {
			width, opacity = "1.6", "1"
		}
		ch.line("grid", width, chartLeft, ch.y(size), chartRight, ch.y(size), "stroke-opacity", opacity)
		l := newLabel(signed(size) + " %")
		ch.labels = append(ch.labels, l.centred(chartLeft-5-l.width/2, ch.y(size)-rowHigh/2))
	}
	low := ch.bottom() + stripHigh
	for h := driest; h <= dampest; h += 10 {
		ch.line("edge", "1", ch.x(h), low, ch.x(h), low+4)
		l := newLabel(plain(h))
		l.width -= 2
		ch.labels = append(ch.labels, l.centred(ch.x(h), low+4).held())
	}
	ch.rect("frame", "none", chartLeft, ch.top, chartRight-chartLeft, chartHigh+stripHigh, "stroke", "currentColor", "stroke-width", "1.2")
	caption := newLabel("size against as cast")
	caption.x, caption.y, caption.from = 4, 2, true
	ch.labels = append(ch.labels, caption,
		newLabel("humidity of the air, %").centred((chartLeft+chartRight)/2, low+4+rowHigh))
}

// curves draws the curves, the chosen one last so that it lies on top, and
// gives the points that are seen of each.
func (ch *chart) curves() [][]point {
	lines := make([][]point, len(ch.Curves))
	var over *node
	dash := 0
	for i, curve := range ch.Curves {
		lines[i] = ch.seen(curve)
		if len(lines[i]) == 0 {
			ch.notes = append(ch.notes, curve.Name+" is off the picture; its numbers are in the table.")
			continue
		}
		n := el("path", "class", "curve", "d", path(lines[i]), "fill", "none", "stroke", "currentColor", "stroke-linejoin", "round")
		if curve.Chosen {
			over = n.attr("class", "curve chosen").attr("stroke-width", num(boldWide)).attr("stroke", clayColour)
			continue
		}
		ch.add(n.attr("stroke-width", num(lineWide)).attr("stroke-dasharray", dashes[dash]))
		dash++
	}
	if over != nil {
		ch.add(over)
	}
	return lines
}

// seen is the part of a curve within the chart.
func (ch *chart) seen(curve Curve) []point {
	var line []point
	off := true // the pen is off the chart
	for h := driest; h < dampest; h += drawStep {
		from, known := curve.at(h)
		to, also := curve.at(h + drawStep)
		t0, t1, within := clip(from, to, ch.low, ch.high)
		if !known || !also || !within {
			off = true
			continue
		}
		if off || t0 > 0 {
			line = append(line, point{x: ch.x(h + t0*drawStep), y: ch.y(from + t0*(to-from)), lifted: true})
		}
		line = append(line, point{x: ch.x(h + t1*drawStep), y: ch.y(from + t1*(to-from))})
		off = t1 < 1
	}
	return line
}

// clip gives the part of the way from one size to another, as shares of it,
// that lies between low and high.
func clip(from, to, low, high float64) (t0, t1 float64, within bool) {
	if max(from, to) < low || min(from, to) > high {
		return 0, 0, false
	}
	if from == to {
		return 0, 1, true
	}
	a, b := (low-from)/(to-from), (high-from)/(to-from)
	return max(0, min(a, b)), min(1, max(a, b)), true
}

// placeRooms puts the names of the rooms over the chart, in as many rows as
// they need, and gives that number.
func (ch *chart) placeRooms() int {
	ch.rooms = make([]label, len(ch.Rooms))
	var rows [][]label
	for i, room := range ch.Rooms {
		if room.Humidity < driest || room.Humidity > dampest {
			ch.notes = append(ch.notes, fmt.Sprintf("%s, at %s %%, is off the picture.", room.Name, plain(room.Humidity)))
			continue
		}
		percent := fmt.Sprintf(" %s %%", plain(room.Humidity))
		l := newLabel(shortened(room.Name, pageWidth-60-textWidth(percent))+percent).centred(ch.x(room.Humidity), 0).held()
		row := slices.IndexFunc(rows, func(row []label) bool {
			return !slices.ContainsFunc(row, func(o label) bool { return l.x < o.right()+6 && o.x < l.right()+6 })
		})
		if row < 0 {
			row, rows = len(rows), append(rows, nil)
		}
		rows[row] = append(rows[row], l)
		ch.rooms[i] = l
		ch.rooms[i].y = float64(row) // its row from below; turned into a y once all are known
	}
	for i := range ch.rooms {
		ch.rooms[i].y = rowHigh + 4 + (float64(len(rows))-1-ch.rooms[i].y)*rowHigh
	}
	return len(rows)
}

// marks draws a line for each room, with a dot where it meets the chosen mix.
func (ch *chart) marks() {
	for i, l := range ch.rooms {
		if l.text == "" {
			continue
		}
		h := ch.Rooms[i].Humidity
		x := ch.x(h)
		ch.line("room", "1.3", x, l.bottom(), x, ch.bottom())
		ch.labels = append(ch.labels, l)
		for _, curve := range ch.Curves {
			if size, known := curve.at(h); known && curve.Chosen && size >= ch.low && size <= ch.high {
				ch.dot(x, ch.y(size))
			}
		}
	}
}
