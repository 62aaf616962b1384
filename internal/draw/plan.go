package draw

import (
	"fmt"
	"math"
)

// Sizes on the paper, in units of the viewBox.
const (
	tallest     = 230.0 // of what stands on the plate
	leastHigh   = 6.0   // below this, heights are stretched
	leastWall   = 5.0
	leastSkirt  = 2.5
	plateHigh   = 7.0
	plateJut    = 6.0  // the plate beyond the wall
	dimGap      = 12.0 // from the wall to a dimension line
	labelGap    = 7.0  // from a dimension line to its label
	namesBottom = 1 + rowHigh
	leaderHigh  = 16.0 // from the names down to the wall
)

// plan is where everything of a section lies on the paper.
type plan struct {
	Section
	scale   float64 // units per mm
	stretch float64 // heights are drawn this many times as tall; a whole number
	wall    float64 // drawn thickness
	skirt   float64 // drawn thickness
	left    float64 // outer face of the left wall
	plate   float64 // top of the plate

	heights, standing []label // beside the drawing, right and left
}

func newPlan(s Section) plan {
	p := plan{Section: s, heights: s.heightLabels(), standing: s.standingLabels()}
	before, after := dimGap+labelGap+widest(p.standing), dimGap+labelGap+widest(p.heights)
	room := pageWidth - 4 - before - after
	p.scale = room / (s.inside() + 2*s.WallThickness)
	if s.WallThickness*p.scale < leastWall {
		p.scale = (room - 2*leastWall) / s.inside()
	}
	top := max(s.WallHeight, s.level())
	p.scale = min(p.scale, tallest/top)
	p.stretch = s.stretched(p.scale, top)
	p.wall = max(leastWall, s.WallThickness*p.scale)
	if s.skirted() {
		p.skirt = min(max(leastSkirt, p.up(s.SkirtThickness)), p.up(s.Height))
	}
	p.left = 2 + before + (room-p.across(s.inside())-2*p.wall)/2
	p.plate = namesBottom + leaderHigh + p.up(top)
	return p
}

// stretched is how many times as tall heights must be for the least of them to
// be seen, as far as the paper allows.
func (s Section) stretched(scale, top float64) float64 {
	least := s.Cover
	if !s.tray() {
		least = min(least, s.Height)
	}
	wished := math.Ceil(leastHigh / (least * scale))
	return max(1, min(wished, math.Floor(tallest/(top*scale))))
}

func (p plan) across(mm float64) float64 { return mm * p.scale }
func (p plan) up(mm float64) float64     { return mm * p.scale * p.stretch }
func (p plan) y(mm float64) float64      { return p.plate - p.up(mm) }
func (p plan) length() float64           { return p.across(p.Length) }

// Faces of the wall and ends of the piece, from left to right.
func (p plan) innerLeft() float64  { return p.left + p.wall }
func (p plan) pieceLeft() float64  { return p.innerLeft() + p.across(p.Margin) }
func (p plan) pieceRight() float64 { return p.pieceLeft() + p.length() }
func (p plan) innerRight() float64 { return p.innerLeft() + p.across(p.inside()) }
func (p plan) right() float64      { return p.innerRight() + p.wall }
func (p plan) middle() float64     { return (p.pieceLeft() + p.pieceRight()) / 2 }

// notes say where the drawing is not to scale.
func (p plan) notes() []string {
	var notes []string
	if p.stretch > 1 {
		notes = append(notes, fmt.Sprintf("Heights are drawn %s times as tall as they are.", plain(p.stretch)))
	}
	if p.wall > p.WallThickness*p.scale+0.01 {
		notes = append(notes, fmt.Sprintf("The wall is drawn thicker than its %s mm.", plain(p.WallThickness)))
	}
	if p.skirt > p.up(p.SkirtThickness)+0.01 {
		notes = append(notes, fmt.Sprintf("The skirt is drawn thicker than its %s mm.", plain(p.SkirtThickness)))
	}
	if len(notes) == 0 {
		return []string{"Drawn to scale."}
	}
	return append(notes, "The rest is to scale.")
}

// heightLabels stand right of the drawing, from the top down, two lines each.
func (s Section) heightLabels() []label {
	if s.tray() {
		return []label{newLabel("depth"), newLabel(mm(s.Cover))}
	}
	return []label{newLabel("cover"), newLabel(mm(s.Cover)), newLabel("height"), newLabel(mm(s.Height))}
}

// standingLabels stand left of the drawing, from the top down.
func (s Section) standingLabels() []label {
	return []label{newLabel("wall"), newLabel(mm(s.WallHeight)), newLabel("plate")}
}

func mm(x float64) string { return plain(x) + " mm" }

func widest(labels []label) float64 {
	w := 0.0
	for _, l := range labels {
		w = max(w, l.width)
	}
	return w
}
