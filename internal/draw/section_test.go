package draw

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// cheek is the ferryman's barnacle cheek on its plate.
var cheek = Section{Length: 110, Height: 18, SkirtWidth: 10, SkirtThickness: 1, Margin: 25, Cover: 15, WallHeight: 38, WallThickness: 10}

func drawn(t tester, s Section) (Picture, *node) {
	t.Helper()
	p, err := s.Draw()
	if err != nil {
		t.Fatalf("%+v: %v", s, err)
	}
	return p, sheetChecks(t, p)
}

// measured is what is drawn, in units of the viewBox.
type measured struct{ wall, piece, level, length, inside float64 }

func measureDrawn(t tester, root *node) measured {
	t.Helper()
	walls := root.named("rect", "wall")
	plaster := root.named("rect", "plaster")[0]
	m := measured{wall: walls[0].number(t, "height"), level: plaster.number(t, "height"), inside: plaster.number(t, "width")}
	if pieces := root.named("path", "piece"); len(pieces) > 0 {
		x := numbers(t, pieces[0])
		// M end, L joint, Q handle joint, L end
		m.length = x[8] - x[0]
		m.piece = x[1] - bezier(x[3], x[5], x[7], 0.5)
	}
	return m
}

// bezier is a quadratic curve at t. Source: de Casteljau's construction.
func bezier(a, b, c, t float64) float64 {
	ab, bc := a+(b-a)*t, b+(c-b)*t
	return ab + (bc-ab)*t
}

func near(t tester, what string, got, want, by float64) {
	t.Helper()
	if math.Abs(got-want) > by {
		t.Errorf("%s is %.3f, want %.3f", what, got, want)
	}
}

// The drawing keeps proportions: a coordinate is off by 0.05 at most.
func TestSectionIsToScale(t *testing.T) {
	_, root := drawn(t, cheek)
	m := measureDrawn(t, root)
	near(t, "wall to piece", m.wall/m.piece, 38.0/18, 0.02)
	near(t, "plaster to piece", m.level/m.piece, 33.0/18, 0.02)
	near(t, "length to height", m.length/m.piece, 110.0/18, 0.05)
	near(t, "inside to length", m.inside/m.length, 160.0/110, 0.005)
	for _, want := range []string{"length 110 mm", "skirt 10 mm", "margin 25 mm", "inside 160 mm", "height", "18 mm", "cover", "15 mm", "wall", "38 mm", "sculpt", "plaster", "plate"} {
		if !slices.Contains(texts(root), want) {
			t.Errorf("%q is not written on it: %q", want, texts(root))
		}
	}
}

// A mound of height h over half width a stands h(1-(x/a)^2) high at x.
// Source: the parabola, elementary geometry.
func TestMoundIsAParabola(t *testing.T) {
	_, root := drawn(t, cheek)
	x := numbers(t, root.named("path", "piece")[0])
	height := x[3] - bezier(x[3], x[5], x[7], 0.5)
	half := (x[6] - x[2]) / 2
	for _, part := range []float64{0.1, 0.25, 0.4, 0.7, 0.9} {
		at := bezier(x[2], x[4], x[6], part)
		u := (at - (x[2]+x[6])/2) / half
		near(t, "height of the mound", x[3]-bezier(x[3], x[5], x[7], part), height*(1-u*u), 0.05)
	}
}

func TestTableOfSection(t *testing.T) {
	p, _ := drawn(t, cheek)
	for _, want := range [][]string{{"Height of the piece", "18"}, {"Plaster level above the plate", "33"}, {"Inside the wall, from end to end", "160"}, {"Wall height above the plate", "38"}} {
		if !slices.ContainsFunc(p.Rows, func(row []string) bool { return slices.Equal(row, want) }) {
			t.Errorf("the table has no row %q: %q", want, p.Rows)
		}
	}
}

// What is too thin is drawn thicker, what is too flat taller, and it says so.
func TestExaggerationIsTold(t *testing.T) {
	p, root := drawn(t, cheek)
	if !strings.Contains(p.Description, "skirt is drawn thicker than its 1 mm") || strings.Contains(p.Description, "wall is drawn thicker") {
		t.Errorf("got %q", p.Description)
	}
	x := numbers(t, root.named("path", "piece")[0])
	if x[1]-x[3] < leastSkirt-0.1 {
		t.Errorf("the skirt is %g thick", x[1]-x[3])
	}
	flat := Section{Length: 300, Height: 4, SkirtWidth: 15, SkirtThickness: 1, Margin: 30, Cover: 12, WallHeight: 20, WallThickness: 2}
	p, root = drawn(t, flat)
	for _, want := range []string{"Heights are drawn 3 times as tall", "wall is drawn thicker than its 2 mm"} {
		if !strings.Contains(p.Description, want) {
			t.Errorf("%q does not say %q", p.Description, want)
		}
	}
	m := measureDrawn(t, root)
	near(t, "heights against lengths", (m.wall/m.length)/(20.0/300), 3, 0.05)
	near(t, "wall to plaster", m.wall/m.level, 20.0/16, 0.02)
	thick := cheek
	thick.SkirtThickness, thick.Length, thick.SkirtWidth = 3, 60, 8
	if p, _ := drawn(t, thick); !strings.Contains(p.Description, "Drawn to scale.") {
		t.Errorf("got %q", p.Description)
	}
}

func TestTrayAndRoundWall(t *testing.T) {
	_, root := drawn(t, Section{Length: 152.4, Cover: 38.1, WallHeight: 45, WallThickness: 3})
	if len(root.named("path", "piece")) > 0 || !slices.Contains(texts(root), "38.1 mm") || slices.Contains(texts(root), "sculpt") {
		t.Errorf("the tray reads %q", texts(root))
	}
	round := cheek
	round.Round, round.ID = true, "round"
	p, root := drawn(t, round)
	if p.ID != "round" || !slices.Contains(texts(root), "inside across 160 mm") {
		t.Errorf("the round wall reads %q", texts(root))
	}
}

// Whatever the sizes at a bench, no label lies on another or off the paper,
// and the proportions of the heights hold.
func TestEverySectionCanBeRead(t *testing.T) {
	size := func(t *rapid.T, what string, low, high float64) float64 {
		return math.Round(10*rapid.Float64Range(low, high).Draw(t, what)) / 10
	}
	rapid.Check(t, func(t *rapid.T) {
		s := Section{
			Length:        size(t, "length", 8, 600),
			Margin:        size(t, "margin", 0, 50),
			Cover:         size(t, "cover", 3, 60),
			WallThickness: size(t, "thickness", 0.5, 40),
			Round:         rapid.Bool().Draw(t, "round"),
		}
		if rapid.Bool().Draw(t, "piece") {
			s.Height = size(t, "height", 1, 200)
			s.SkirtWidth = size(t, "skirt", 0, s.Length/4)
			s.SkirtThickness = size(t, "edge", 0, min(3, s.Height))
		}
		s.WallHeight = s.Height + s.Cover + size(t, "freeboard", 0, 60)
		p, err := s.Draw()
		if err != nil && strings.Contains(err.Error(), "too small to be seen") {
			return
		}
		if err != nil {
			t.Fatalf("%+v: %v", s, err)
		}
		m := measureDrawn(t, sheetChecks(t, p))
		if s.Height > 0 && m.piece > 5 {
			near(t, "wall to piece", m.wall/m.piece, s.WallHeight/s.Height, 0.03*s.WallHeight/s.Height)
		}
	})
}

// oneSentence sees that an error is one, as the maker reads it.
func oneSentence(t *testing.T, err error, want string) {
	t.Helper()
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("got %v, want a sentence with %q", err, want)
		return
	}
	if text := err.Error(); strings.HasSuffix(text, ".") || strings.Contains(text, "\n") || strings.Contains(text, "NaN") {
		t.Errorf("%q is not one plain sentence", text)
	}
}

func TestNonsenseSectionIsRefused(t *testing.T) {
	for want, spoil := range map[string]func(*Section){
		"length is not a number":            func(s *Section) { s.Length = math.NaN() },
		"length must lie between":           func(s *Section) { s.Length = -4 },
		"height must lie between":           func(s *Section) { s.Height = -1 },
		"margin must lie between":           func(s *Section) { s.Margin = math.Inf(1) },
		"cover must lie between":            func(s *Section) { s.Cover = 0 },
		"thickness of the wall must lie":    func(s *Section) { s.WallThickness = 0 },
		"leaves no mound":                   func(s *Section) { s.SkirtWidth = 55 },
		"thicker than the piece":            func(s *Section) { s.SkirtThickness = 19 },
		"lower than the plaster":            func(s *Section) { s.WallHeight = 32 },
		"too small to be seen":              func(s *Section) { s.Margin = 5000 },
		"small letters, digits and hyphens": func(s *Section) { s.ID = "two words" },
	} {
		s := cheek
		spoil(&s)
		_, err := s.Draw()
		oneSentence(t, err, want)
	}
}
