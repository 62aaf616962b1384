package sums

import (
	"sparehand/internal/book"
	"sparehand/internal/draw"
)

// picture adds the drawing that an amount asks for. A drawing that can't be
// made is left out: the figures stand without it.
func (w *work) picture() {
	if w.out.Amount.Picture != "section" {
		return // the humidity picture is drawn with its sum
	}
	section, ok := w.section()
	if !ok {
		return
	}
	if picture, err := section.Draw(); err == nil {
		w.out.Pictures = append(w.out.Pictures, picture)
	}
}

// section gathers the sizes to build to. It needs those of the piece.
func (w *work) section() (draw.Section, bool) {
	across := w.told(w.Book.FactByName("piece_across_mm"))
	length := w.told(w.Book.FactByName("piece_length_mm"))
	s := draw.Section{Round: across.since > length.since}
	for _, size := range []struct {
		fact string
		to   *float64
	}{
		{"piece_length_mm", &s.Length}, {"piece_height_mm", &s.Height}, {"skirt_width_mm", &s.SkirtWidth},
		{"skirt_thickness_mm", &s.SkirtThickness}, {"wall_margin_mm", &s.Margin}, {"cover_mm", &s.Cover},
		{"wall_over_mm", &s.WallHeight}, {"wall_thickness_mm", &s.WallThickness},
	} {
		f := w.Book.FactByName(size.fact)
		if f == nil || w.of(f.ID).from == nowhere {
			return s, false
		}
		x, err := w.value(f.ID)
		if err != nil {
			return s, false
		}
		*size.to = x
	}
	s.SkirtWidth = min(s.SkirtWidth, s.Length/4) // as the volume is reckoned
	s.SkirtThickness = min(s.SkirtThickness, s.Height)
	s.WallHeight += s.Height + s.Cover // it was only what stands above the plaster
	return s, true
}

// The humidities that the curves run over, and the step between points.
const dampest, driest, step = 90, 20, 2

// humidityPicture draws how each recipe changes its size with the air.
func (w *work) humidityPicture(h *book.Climate, rooms []room, chosen *book.Recipe, tolerance float64, m mixed) {
	c := draw.Climate{Tolerance: tolerance}
	for _, at := range rooms {
		c.Rooms = append(c.Rooms, draw.Room{Name: at.name, Humidity: at.humidity})
	}
	for _, r := range w.Book.Recipes {
		mine := mixed{}
		if r == chosen {
			mine = m
		}
		dry, err := w.dry(r, h.Own, mine)
		if err != nil {
			continue
		}
		curve := draw.Curve{Name: shortName(h.Recipe, r), Chosen: r == chosen}
		for rh := driest; rh <= dampest; rh += step {
			if settled, err := dry.At(float64(rh)); err == nil {
				curve.Points = append(curve.Points, draw.Point{Humidity: float64(rh), Size: settled.SizeChange})
			}
		}
		c.Curves = append(c.Curves, curve)
	}
	if picture, err := c.Draw(); err == nil {
		w.out.Pictures = append(w.out.Pictures, picture)
	}
}

// shortName is the label of the answer that picks a recipe.
func shortName(f *book.Fact, r *book.Recipe) string {
	for _, o := range f.Options {
		if o.Value == r.ID {
			return o.Label
		}
	}
	return r.Title
}
