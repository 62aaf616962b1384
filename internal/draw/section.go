package draw

import (
	"errors"
	"fmt"
	"strings"
)

// The longest measure drawn, in mm.
const longest = 10000

// Section is a sculpt on its plate inside its wall, cut through the middle
// along its length. Everything is in mm.
type Section struct {
	ID             string  // of the picture; "" for "section"
	Length         float64 // of the piece over the skirt, or of the tray
	Height         float64 // of the piece above the plate; 0 for a tray with nothing in it
	SkirtWidth     float64 // from the edge of the mound outwards
	SkirtThickness float64 // where the skirt meets the mound; it thins to nothing
	Margin         float64 // from the skirt to the wall
	Cover          float64 // plaster over the highest point; in a tray, its depth
	WallHeight     float64 // above the plate
	WallThickness  float64
	Round          bool // the wall is round
}

// Draw gives the picture: to scale, but for what would be too thin to see.
func (s Section) Draw() (Picture, error) {
	id, err := idOr(s.ID, "section")
	if err != nil {
		return Picture{}, err
	}
	if err := s.check(); err != nil {
		return Picture{}, err
	}
	plan := newPlan(s)
	if plan.length() < 8 {
		return Picture{}, errors.New("the piece is too small to be seen beside its wall: check the length, the margin and the height of the wall")
	}
	p := Picture{ID: id, Title: s.title(), Columns: []string{"What", "mm"}, Rows: s.rows()}
	p.Description = s.description(plan.notes())
	p.SVG, err = plan.draw(id, p.Title, p.Description)
	return p, err
}

func (s Section) tray() bool { return s.Height == 0 }

func (s Section) level() float64 { return s.Height + s.Cover }

func (s Section) inside() float64 { return s.Length + 2*s.Margin }

func (s Section) check() error {
	const seen = 0.1 // less is not seen and hardly measured
	err := sound(
		measure{"length", s.Length, seen, longest, "mm"},
		measure{"height", s.Height, 0, longest, "mm"},
		measure{"width of the skirt", s.SkirtWidth, 0, longest, "mm"},
		measure{"thickness of the skirt", s.SkirtThickness, 0, longest, "mm"},
		measure{"margin", s.Margin, 0, longest, "mm"},
		measure{"cover", s.Cover, seen, longest, "mm"},
		measure{"height of the wall", s.WallHeight, seen, longest, "mm"},
		measure{"thickness of the wall", s.WallThickness, seen, longest, "mm"})
	switch {
	case err != nil:
		return err
	case !s.tray() && 2*s.SkirtWidth >= s.Length:
		return fmt.Errorf("a skirt of %s mm all round leaves no mound on a piece %s mm long: take a narrower skirt", plain(s.SkirtWidth), plain(s.Length))
	case !s.tray() && s.SkirtThickness > s.Height:
		return fmt.Errorf("a skirt %s mm thick is thicker than the piece, which is %s mm high", plain(s.SkirtThickness), plain(s.Height))
	case s.WallHeight < s.level()-1e-6:
		return fmt.Errorf("a wall of %s mm is lower than the plaster, which stands %s mm high: build it higher", plain(s.WallHeight), plain(s.level()))
	}
	return nil
}

func (s Section) title() string {
	if s.tray() {
		return "The tray, cut through the middle"
	}
	return "The piece on its plate, cut through the middle"
}

// rows is every measure that the picture shows.
func (s Section) rows() [][]string {
	var rows [][]string
	row := func(what string, mm float64, there bool) {
		if there {
			rows = append(rows, []string{what, plain(mm)})
		}
	}
	across := "Length"
	if s.Round {
		across = "Width across"
	}
	row(across+" of the tray", s.Length, s.tray())
	row(across+" of the piece over the skirt", s.Length, !s.tray())
	row("Height of the piece", s.Height, !s.tray())
	row("Width of the skirt", s.SkirtWidth, s.skirted())
	row("Thickness of the skirt at the mound", s.SkirtThickness, s.skirted())
	row("Margin from the skirt to the wall", s.Margin, s.Margin > 0)
	row(s.insideWords(), s.inside(), s.Margin > 0)
	row("Plaster over the highest point", s.Cover, !s.tray())
	row("Plaster level above the plate", s.level(), true)
	row("Wall height above the plate", s.WallHeight, true)
	row("Wall thickness", s.WallThickness, true)
	return rows
}

func (s Section) skirted() bool { return !s.tray() && s.SkirtWidth > 0 }

func (s Section) insideWords() string {
	if s.Round {
		return "Inside the round wall, across"
	}
	return "Inside the wall, from end to end"
}

func (s Section) description(notes []string) string {
	var b strings.Builder
	if s.tray() {
		fmt.Fprintf(&b, "Plaster stands %s mm deep between walls %s mm high.", plain(s.level()), plain(s.WallHeight))
	} else {
		fmt.Fprintf(&b, "A piece %s mm long and %s mm high lies on a plate, thinning out to a skirt at both ends. ", plain(s.Length), plain(s.Height))
		fmt.Fprintf(&b, "The wall stands %s mm away on both sides and is %s mm high. ", plain(s.Margin), plain(s.WallHeight))
		fmt.Fprintf(&b, "Plaster fills the inside to %s mm over the highest point.", plain(s.Cover))
	}
	return b.String() + " " + strings.Join(notes, " ")
}
