package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// ferryCrew compares three mixes with the change of size worked out in the
// project's notes on materials, section 5.3, by the mixing rule of Zdanovskii,
// Stokes and Robinson (J. Phys. Chem. 70:2126, 1966): the middle of the range
// is sure to some two percent of size.
var ferryCrew = Climate{
	Curves: []Curve{
		{Name: "gelatin, sorbitol, glycerin", Chosen: true, Points: []Point{{20, -3.4}, {35, -1.2}, {50, 1.7}, {65, 6.1}, {80, 15}, {90, 29}}},
		{Name: "gelatin and glycerin", Points: []Point{{80, 24}, {20, 2.2}, {35, 4.8}, {50, 8.1}, {65, 13}, {90, 42}}},
		{Name: "gelatin and water", Points: []Point{{20, -30}, {35, -29}, {50, -28}, {65, -26}, {80, -25}, {90, -23.5}}},
	},
	Rooms:     []Room{{"made", 50}, {"carried", 44}, {"worn", 65}},
	Tolerance: 3,
}

func drawnClimate(t tester, c Climate) (Picture, *node) {
	t.Helper()
	p, err := c.Draw()
	if err != nil {
		t.Fatalf("%+v: %v", c, err)
	}
	return p, sheetChecks(t, p)
}

// frame is the ground of the curves, and the sizes at its edges are read from
// the labels beside it.
func frame(t tester, root *node) box {
	t.Helper()
	n := root.named("rect", "frame")[0]
	return box{n.number(t, "x"), n.number(t, "y"), n.number(t, "width"), n.number(t, "height") - stripHigh}
}

// gridY gives the y of a size by its line on the ground.
func gridY(t tester, root *node, size string) float64 {
	t.Helper()
	for _, text := range root.named("text", "") {
		if text.Text == size {
			return text.number(t, "y") - 0.27*rowHigh // the middle of the row
		}
	}
	t.Fatalf("no label reads %q", size)
	return 0
}

// Where the room's line meets the chosen mix, the dot lies at the size of the
// table: 1.7 percent at 50 percent humidity, read off the printed scale.
func TestDotIsWhereTheScaleSays(t *testing.T) {
	_, root := drawnClimate(t, ferryCrew)
	f := frame(t, root)
	zero, ten := gridY(t, root, "0 %"), gridY(t, root, "+10 %")
	dot := root.named("circle", "dot")[0]
	near(t, "humidity of the dot", 20+(dot.number(t, "cx")-f.x)/f.width*70, 50, 0.1)
	near(t, "size of the dot", (zero-dot.number(t, "cy"))/(zero-ten)*10, 1.7, 0.15)
}

// The chosen mix is bold and whole; the others are thinner, and no two have
// the same dashes, so that nothing hangs on colour.
// Source: Web Content Accessibility Guidelines 2.2, criterion 1.4.1.
func TestMixesDifferWithoutColour(t *testing.T) {
	c := ferryCrew
	c.Curves = append(slices.Clone(c.Curves), Curve{Name: "one more", Points: []Point{{20, -10}, {90, -2}}}, Curve{Name: "and one more", Points: []Point{{20, -20}, {90, -12}}})
	_, root := drawnClimate(t, c)
	curves := root.named("path", "curve")
	if len(curves) != 5 {
		t.Fatalf("%d curves are drawn", len(curves))
	}
	seen := map[string]bool{}
	for _, curve := range curves {
		dash := curve.get("stroke-dasharray")
		bold := curve.number(t, "stroke-width") > 1.5*lineWide
		if chosen := strings.Contains(curve.get("class"), "chosen"); chosen != bold || chosen != (dash == "") || seen[dash] {
			t.Errorf("chosen %t, bold %t, dashes %q", chosen, bold, dash)
		}
		seen[dash] = true
	}
	for _, curve := range c.Curves {
		if !slices.Contains(texts(root), curve.Name) {
			t.Errorf("%q is not written at its line: %q", curve.Name, texts(root))
		}
	}
}

// Sizes outside the chart are cut off, not drawn along its edge.
func TestCurvesAreCutAtTheFrame(t *testing.T) {
	c := Climate{Curves: []Curve{
		{Name: "up and back", Points: []Point{{20, 0}, {55, 70}, {90, 0}}},
		{Name: "never seen", Points: []Point{{20, -60}, {90, -50}}},
	}}
	p, root := drawnClimate(t, c)
	f := frame(t, root)
	path := root.named("path", "curve")[0]
	if n := strings.Count(path.get("d"), "M"); n != 2 {
		t.Errorf("the curve is drawn in %d pieces, want 2: %s", n, path.get("d"))
	}
	for i, x := range numbers(t, path) {
		low, high := f.x, f.right()
		if i%2 == 1 {
			low, high = f.y, f.bottom()
		}
		if x < low-0.1 || x > high+0.1 {
			t.Errorf("the curve leaves the chart: %g", x)
		}
	}
	// 70 percent over 35 of humidity: 30 percent, the upper edge, at 20+15
	end := strings.Fields(strings.Split(path.get("d")[1:], "M")[0])
	near(t, "where it leaves", numbers(t, path)[2*(strings.Count(strings.Join(end, " "), "L"))], f.x+f.width*15/70, 0.15)
	if !slices.ContainsFunc(texts(root), func(s string) bool { return strings.HasPrefix(s, "never seen is off the picture") }) {
		t.Errorf("nobody says where the other mix is: %q", texts(root))
	}
	if p.Rows[0][2] != "−60 %" {
		t.Errorf("the table begins %q", p.Rows[0])
	}
}

// The ground is hatched from 20 to 35 and from 65 to 90 percent.
func TestRoughGround(t *testing.T) {
	p, root := drawnClimate(t, ferryCrew)
	f := frame(t, root)
	zones := root.named("rect", "rough")
	if len(zones) != 2 {
		t.Fatalf("%d zones are rough", len(zones))
	}
	percent := func(x float64) float64 { return 20 + (x-f.x)/f.width*70 }
	for i, want := range [][2]float64{{20, 35}, {65, 90}} {
		from := zones[i].number(t, "x")
		near(t, "from", percent(from), want[0], 0.1)
		near(t, "to", percent(from+zones[i].number(t, "width")), want[1], 0.1)
	}
	written := 0
	for _, text := range texts(root) {
		if text == "rough" {
			written++
		}
	}
	if written != 2 {
		t.Errorf("rough is written %d times", written)
	}
	for _, row := range p.Rows {
		if outside := slices.Contains([]string{"20", "30", "70", "80", "90"}, row[0][:2]); outside != strings.HasSuffix(row[0], "(rough)") {
			t.Errorf("the table has the row %q", row)
		}
	}
}

func TestTableOfClimate(t *testing.T) {
	p, _ := drawnClimate(t, ferryCrew)
	if want := []string{"made, 50", "+2 %", "+8 %", "−28 %"}; !slices.Equal(p.Rows[0], want) {
		t.Errorf("got %q, want %q", p.Rows[0], want)
	}
	// 44 lies 9/15 of the way from -1.2 to 1.7: 0.54
	if want := []string{"carried, 44", "+1 %", "+7 %", "−28 %"}; !slices.Equal(p.Rows[1], want) {
		t.Errorf("got %q, want %q", p.Rows[1], want)
	}
}

// Words of the book and of the maker stay words.
func TestNamesAreEscaped(t *testing.T) {
	name := `<script>"a" & b's</script>`
	c := ferryCrew
	c.Curves = []Curve{{Name: name, Chosen: true, Points: []Point{{20, 0}, {90, 1}}}}
	c.Rooms = []Room{{`<b onclick="x">`, 50}}
	_, root := drawnClimate(t, c)
	if !slices.Contains(texts(root), name) {
		t.Errorf("the name is not there as it was given: %q", texts(root))
	}
}

// Whatever the mixes and the rooms, no label lies on another.
func TestEveryClimateCanBeRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Climate{Tolerance: rapid.Float64Range(0, 10).Draw(t, "tolerance")}
		for i := range rapid.IntRange(1, mostCurves).Draw(t, "mixes") {
			start, slope, bend := rapid.Float64Range(-40, 20).Draw(t, "start"), rapid.Float64Range(-0.1, 0.5).Draw(t, "slope"), rapid.Float64Range(0, 0.3).Draw(t, "bend")
			curve := Curve{Name: rapid.StringMatching(`[a-z]{3,9}( [a-z,]{2,9}){0,4}`).Draw(t, "name"), Chosen: i == 0}
			for h := 20.0; h <= 90; h += 5 {
				curve.Points = append(curve.Points, Point{h, start + slope*(h-20) + bend*math.Exp((h-20)/14)})
			}
			c.Curves = append(c.Curves, curve)
		}
		for i := range rapid.IntRange(0, mostRooms).Draw(t, "rooms") {
			c.Rooms = append(c.Rooms, Room{fmt.Sprint("room ", i, rapid.StringMatching(`[a-z ]{0,40}`).Draw(t, "room")), math.Round(rapid.Float64Range(0, 100).Draw(t, "humidity"))})
		}
		_, root := drawnClimate(t, c)
		for _, path := range root.named("path", "curve") {
			if strings.Contains(path.get("d"), "N") {
				t.Fatalf("the path is %s", path.get("d"))
			}
		}
	})
}

func TestNonsenseClimateIsRefused(t *testing.T) {
	points := []Point{{20, 0}, {90, 1}}
	for want, spoil := range map[string]func(*Climate){
		"no mix to draw":                    func(c *Climate) { c.Curves = nil },
		"more than 5 mixes":                 func(c *Climate) { c.Curves = make([]Curve, 6) },
		"more than 3 rooms":                 func(c *Climate) { c.Rooms = make([]Room, 4) },
		"only one mix can be the chosen":    func(c *Climate) { c.Curves[1].Chosen = true },
		"needs two points":                  func(c *Climate) { c.Curves[0].Points = points[:1] },
		"two sizes at 20 percent":           func(c *Climate) { c.Curves[0].Points = []Point{{20, 1}, {20, 2}} },
		"a mix without a name":              func(c *Climate) { c.Curves[0].Name = " " },
		"a room without a name":             func(c *Climate) { c.Rooms = []Room{{"", 50}} },
		"humidity of worn must lie between": func(c *Climate) { c.Rooms = []Room{{"worn", 140}} },
		"is not a number":                   func(c *Climate) { c.Curves[0].Points = []Point{{20, math.NaN()}, {90, 1}} },
		"must lie between −100 and 1000":    func(c *Climate) { c.Curves[0].Points = []Point{{20, math.Inf(1)}, {90, 1}} },
		"tolerance must lie between":        func(c *Climate) { c.Tolerance = -1 },
		"small letters, digits and hyphens": func(c *Climate) { c.ID = "1" },
	} {
		c := ferryCrew
		c.Curves = slices.Clone(c.Curves)
		spoil(&c)
		_, err := c.Draw()
		oneSentence(t, err, want)
	}
}

// The caller's points are left in the order they came in.
func TestCallersPointsAreLeftAlone(t *testing.T) {
	drawnClimate(t, ferryCrew)
	if ferryCrew.Curves[1].Points[0].Humidity != 80 {
		t.Error("the points were sorted where they lay")
	}
}

func BenchmarkClimate(b *testing.B) {
	for b.Loop() {
		if _, err := ferryCrew.Draw(); err != nil {
			b.Fatal(err)
		}
	}
}
