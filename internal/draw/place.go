package draw

import (
	"cmp"
	"math"
	"slices"
)

// Costs of a place for the name of a curve; the cheapest place is taken.
const (
	costCrossed   = 6.0   // for each unit of width in which a curve runs through it
	costRuled     = 12.0  // a line of a room or the zero line runs through it
	costNearer    = 60.0  // it lies nearer to another curve
	costCrowded   = 200.0 // another curve is near, over the distance
	costAcross    = 6.0   // the line to it crosses another curve, for each piece crossed
	costFar       = 0.8   // for each unit between the name and its curve
	leaderFrom    = 9.0   // a name farther from its curve than this has a line to it
	placeStep     = 6.0
	nameWidth     = 190.0
	boldWider     = 1.08 // bold letters against plain ones
	nameClearance = 2.5
)

// name writes each curve's name at its line, and what the band means. The
// chosen mix has the first pick of the room, then the widest names. No name
// lies on another.
func (ch *chart) name(lines [][]point) {
	names := make([]label, len(lines))
	var order []int
	for i, line := range lines {
		names[i] = newLabel(shortened(ch.Curves[i].Name, nameWidth))
		if ch.Curves[i].Chosen {
			names[i].bold = true
			names[i].width *= boldWider
		}
		if len(line) > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(names[j].rank(), names[i].rank()) })
	for _, i := range order {
		ch.nameAt(names[i], i, lines)
	}
	if ch.Tolerance > 0 {
		ch.nameBand(lines)
	}
}

// rank is higher for a name that is to be placed earlier.
func (l label) rank() float64 {
	if l.bold {
		return math.Inf(1)
	}
	return l.width
}

// nameAt places the name of curve i.
func (ch *chart) nameAt(l label, i int, lines [][]point) {
	best, least, to := l, math.Inf(1), point{}
	for y := ch.top + 2; y+l.height < ch.bottom(); y += placeStep / 2 {
		for x := chartLeft + 3; x+l.width < chartRight-2; x += placeStep {
			l.x, l.y = x, y
			far, foot := nearest(l.box, lines[i])
			if far*costFar >= least {
				continue // it can't become the cheapest
			}
			if cost := ch.cost(l, far, foot, i, lines); cost < least {
				best, least, to = l, cost, foot
			}
		}
	}
	if from := middleTo(best.box, to); math.Hypot(from.x-to.x, from.y-to.y) > leaderFrom {
		ch.line("leader", "0.9", from.x, from.y, to.x, to.y)
		ch.dot(to.x, to.y)
	}
	ch.labels = append(ch.labels, best)
}

// cost is how bad a place is for the name of curve i, whose nearest point is
// foot, this far away.
func (ch *chart) cost(l label, far float64, foot point, i int, lines [][]point) float64 {
	cost := ch.crossed(l, lines) + far*costFar
	if math.IsInf(cost, 1) {
		return cost
	}
	closest := math.Inf(1)
	for j, line := range lines {
		if j != i {
			other, _ := nearest(l.box, line)
			closest = min(closest, other)
			cost += costAcross * float64(leaderCrosses(l.box, foot, line))
		}
	}
	if closest < far {
		cost += costNearer
	}
	return cost + costCrowded/(closest+5)
}

// crossed is how much runs through a label at its place, infinite where
// another label lies.
func (ch *chart) crossed(l label, lines [][]point) float64 {
	cost := 0.0
	for _, o := range ch.labels {
		if l.overlaps(o.box) {
			return math.Inf(1)
		}
	}
	wide := box{l.x - nameClearance, l.y - nameClearance, l.width + 2*nameClearance, l.height + 2*nameClearance}
	for _, line := range lines {
		for k := 1; k < len(line); k++ {
			if !line[k].lifted && crosses(wide, line[k-1], line[k]) {
				cost += costCrossed * (line[k].x - line[k-1].x)
			}
		}
	}
	if zero := ch.y(0); l.y < zero && zero < l.bottom() {
		cost += costRuled
	}
	for j, room := range ch.rooms {
		if x := ch.x(ch.Rooms[j].Humidity); room.text != "" && l.x < x && x < l.right() {
			cost += costRuled
		}
	}
	return cost
}

// crosses says whether the box of the short line from a to b meets the box.
func crosses(o box, a, b point) bool {
	return min(a.x, b.x) <= o.right() && o.x <= max(a.x, b.x) && min(a.y, b.y) <= o.bottom() && o.y <= max(a.y, b.y)
}

// nearest gives how far the nearest point of a line is from a box, counted
// along both axes, and that point.
func nearest(b box, line []point) (float64, point) {
	least, at := math.Inf(1), point{}
	for _, p := range line {
		dx := max(b.x-p.x, 0, p.x-b.right())
		dy := max(b.y-p.y, 0, p.y-b.bottom())
		// where all the width is as near, the middle is the better foot
		if d := dx + dy + math.Abs(p.x-b.x-b.width/2)*0.01; d < least {
			least, at = d, p
		}
	}
	return least, at
}

// leaderCrosses counts the pieces of a line that lie on the way from a name to
// its own curve.
func leaderCrosses(b box, to point, line []point) int {
	from := middleTo(b, to)
	way := box{min(from.x, to.x), min(from.y, to.y), math.Abs(from.x - to.x), math.Abs(from.y - to.y)}
	n := 0
	for k := 1; k < len(line); k++ {
		if !line[k].lifted && crosses(way, line[k-1], line[k]) {
			n++
		}
	}
	return n
}

// middleTo is the point of the box's edge that a line to p should start from.
func middleTo(b box, p point) point {
	return point{x: min(max(p.x, b.x+4), b.right()-4), y: min(max(p.y, b.y), b.bottom())}
}

// nameBand says what the band is, over or under it.
func (ch *chart) nameBand(lines [][]point) {
	l := newLabel("within ±" + plain(ch.Tolerance) + " %")
	best, least := l, math.Inf(1)
	for _, y := range []float64{ch.y(min(ch.Tolerance, ch.high)) - rowHigh - 1, ch.y(max(-ch.Tolerance, ch.low)) + 1} {
		for x := chartRight - 3 - l.width; x > chartLeft+2; x -= placeStep {
			l.x, l.y = x, y
			if y < ch.top || l.bottom() > ch.bottom() {
				continue
			}
			if cost := ch.crossed(l, lines); cost < least {
				best, least = l, cost
			}
		}
	}
	if !math.IsInf(least, 1) {
		ch.labels = append(ch.labels, best)
	}
}
