package draw

import (
	"fmt"
	"strings"
)

// draw puts the plan on paper.
func (p plan) draw(id, title, description string) (string, error) {
	d := &drawing{id: id}
	p.materials(d)
	p.names(d)
	low := max(p.plate+plateHigh, p.heightDims(d), p.wallDim(d))
	low = p.lengthDims(d, low+4)
	low = d.notes(p.notes(), low+6)
	return d.write(low+4, title, description, d.stipple("plaster", 7), d.hatch("wall", 5, "1.1", "0.75"), d.hatch("plate", 3, "1.2", "0.9"))
}

// materials draws what is cut through: plaster, piece, wall and plate. Faces
// that are cut are hatched; dimension lines end in oblique strokes.
// Source: ISO 128 and ISO 129-1, from memory.
func (p plan) materials(d *drawing) {
	level, top := p.y(p.level()), p.y(p.WallHeight)
	d.rect("plaster", d.fill("plaster"), p.innerLeft(), level, p.innerRight()-p.innerLeft(), p.plate-level)
	if !p.tray() {
		d.add(el("path", "class", "piece", "d", p.profile(), "fill", clayWash, "stroke", clayColour, "stroke-width", "2", "stroke-linejoin", "round"))
	}
	d.line("level", "1.6", p.innerLeft(), level, p.innerRight(), level)
	for _, x := range []float64{p.left, p.innerRight()} {
		d.rect("paper", paperColour, x, top, p.wall, p.plate-top)
		d.rect("wall", d.fill("wall"), x, top, p.wall, p.plate-top, "stroke", "currentColor", "stroke-width", "1.6")
	}
	width := p.right() - p.left + 2*plateJut
	d.rect("plate", d.fill("plate"), p.left-plateJut, p.plate, width, plateHigh, "stroke", "currentColor", "stroke-width", "1.2")
}

// profile is the outline of the piece: the skirt rises evenly, the mound is a
// parabola. A quadratic curve with its handle at twice the height is one.
func (p plan) profile() string {
	s := p.across(p.SkirtWidth)
	edge, top := p.plate-p.skirt, p.y(p.Height)
	var b strings.Builder
	fmt.Fprintf(&b, "M%s %s", num(p.pieceLeft()), num(p.plate))
	fmt.Fprintf(&b, "L%s %s", num(p.pieceLeft()+s), num(edge))
	fmt.Fprintf(&b, "Q%s %s %s %s", num(p.middle()), num(2*top-edge), num(p.pieceRight()-s), num(edge))
	fmt.Fprintf(&b, "L%s %sZ", num(p.pieceRight()), num(p.plate))
	return b.String()
}

// surface is the y of the top of the piece at x, or of the plate.
func (p plan) surface(x float64) float64 {
	half := p.length()/2 - p.across(p.SkirtWidth)
	u := (x - p.middle()) / half
	if p.tray() || u*u > 1 {
		return p.plate
	}
	edge := p.plate - p.skirt
	return edge - (edge-p.y(p.Height))*(1-u*u)
}

// names writes what each part is, in a row over it, with a line down to it.
func (p plan) names(d *drawing) {
	type part struct {
		name string
		at   point
	}
	parts := []part{{"wall", point{x: p.left + p.wall/2, y: p.y(p.WallHeight) + 2}}}
	if !p.tray() {
		x := p.middle() - p.length()*0.12
		parts = append(parts, part{"sculpt", point{x: x, y: (p.surface(x) + p.plate) / 2}})
	}
	x := p.middle() + p.length()*0.3
	parts = append(parts, part{"plaster", point{x: x, y: (p.y(p.level()) + p.surface(x)) / 2}})
	var middles, widths []float64
	for _, part := range parts {
		middles = append(middles, part.at.x)
		widths = append(widths, newLabel(part.name).width+8)
	}
	for i, x := range spread(middles, widths, 1, pageWidth-1) {
		d.labels = append(d.labels, newLabel(parts[i].name).centred(x, 1))
		at := parts[i].at
		d.line("leader", "0.8", x, namesBottom, at.x, at.y)
		d.dot(at.x, at.y)
	}
}

// tick is the short slanting stroke at the end of a dimension line.
func tick(d *drawing, x, y float64) { d.line("dim", "1.4", x-3, y+3, x+3, y-3) }

// heightDims draws the heights right of the wall, and gives the lowest y used.
func (p plan) heightDims(d *drawing) float64 {
	x := p.right() + dimGap
	ends := []float64{p.level(), p.Height, 0}
	if p.tray() {
		ends = []float64{p.level(), 0}
	}
	for i, end := range ends {
		from := p.innerRight() + 2
		if i == 1 && !p.tray() {
			from = p.middle()
		}
		d.line("extension", "0.7", from, p.y(end), x+4, p.y(end), "stroke-dasharray", "4 2.5")
		tick(d, x, p.y(end))
	}
	d.line("dim", "0.9", x, p.y(ends[0]), x, p.plate)
	var middles, sizes []float64
	for i := range len(ends) - 1 {
		middles = append(middles, (p.y(ends[i])+p.y(ends[i+1]))/2)
		sizes = append(sizes, 2*rowHigh+4)
	}
	return p.beside(d, p.heights, spread(middles, sizes, namesBottom+2, pageWidth*2), middles, x, 1)
}

// wallDim draws the height of the wall on its left, and the plate's name under
// it; it gives the lowest y used.
func (p plan) wallDim(d *drawing) float64 {
	x := p.left - dimGap
	top := p.y(p.WallHeight)
	d.line("extension", "0.7", x-4, top, p.left, top)
	d.line("extension", "0.7", x-4, p.plate, p.left-plateJut, p.plate)
	d.line("dim", "0.9", x, top, x, p.plate)
	tick(d, x, top)
	tick(d, x, p.plate)
	middle := []float64{(top + p.plate) / 2}
	p.beside(d, p.standing[:2], spread(middle, []float64{2 * rowHigh}, namesBottom+2, pageWidth*2), middle, x, -1)
	plate := p.standing[2]
	plate.x, plate.y = x-labelGap-plate.width, max(p.plate+2, d.labels[len(d.labels)-1].bottom())
	d.labels = append(d.labels, plate)
	d.line("leader", "0.8", plate.right(), plate.y+rowHigh/2, p.left-plateJut+3, p.plate+plateHigh/2)
	return plate.bottom()
}

// beside writes labels of two lines each beside a dimension line at x, right
// of it (side 1) or left (side -1), joined to where they belong.
func (p plan) beside(d *drawing, lines []label, at, middles []float64, x, side float64) float64 {
	low := 0.0
	for i, y := range at {
		width := max(lines[2*i].width, lines[2*i+1].width)
		for j := range 2 {
			l := lines[2*i+j].centred(x+side*(labelGap+width/2), y-rowHigh+float64(j)*rowHigh)
			d.labels = append(d.labels, l)
			low = max(low, l.bottom())
		}
		d.line("leader", "0.8", x, middles[i], x+side*labelGap, y)
	}
	return low
}

// lengthDims draws the lengths in rows below the plate, from y down, and gives
// the lowest y used.
func (p plan) lengthDims(d *drawing, y float64) float64 {
	length, inside := "length ", "inside "
	if p.Round {
		length, inside = "across ", "inside across "
	}
	rows := []struct {
		text     string
		from, to float64
		there    bool
	}{
		{"skirt " + mm(p.SkirtWidth), p.pieceLeft(), p.pieceLeft() + p.across(p.SkirtWidth), p.skirted()},
		{"margin " + mm(p.Margin), p.pieceRight(), p.innerRight(), p.Margin > 0},
		{length + mm(p.Length), p.pieceLeft(), p.pieceRight(), true},
		{inside + mm(p.inside()), p.innerLeft(), p.innerRight(), p.Margin > 0},
	}
	for _, r := range rows {
		if !r.there {
			continue
		}
		middle := y + rowHigh/2
		for _, x := range []float64{r.from, r.to} {
			d.line("extension", "0.7", x, p.plate+plateHigh, x, middle+4)
			tick(d, x, middle)
		}
		d.line("dim", "0.9", r.from, middle, r.to, middle)
		d.labels = append(d.labels, along(newLabel(r.text), r.from, r.to, y))
		y += rowHigh + 3
	}
	return y
}

// along places a label on the line from one x to the other, or beside it where
// it is too short.
func along(l label, from, to, y float64) label {
	const gap = 7.0
	switch {
	case l.width+2*gap <= to-from:
		return l.centred((from+to)/2, y)
	case to+gap+l.width < pageWidth:
		return l.centred(to+gap+l.width/2, y)
	}
	return l.centred(from-gap-l.width/2, y).held()
}
