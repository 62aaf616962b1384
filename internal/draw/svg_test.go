package draw

import (
	"encoding/xml"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// tester is a test or a property.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
}

// read parses a picture as XML.
func read(t tester, p Picture) *node {
	t.Helper()
	root := new(node)
	if err := xml.Unmarshal([]byte(p.SVG), root); err != nil {
		t.Fatalf("the SVG is not well-formed: %v", err)
	}
	return root
}

func (n *node) all() []*node {
	nodes := []*node{n}
	for _, child := range n.Nodes {
		nodes = append(nodes, child.all()...)
	}
	return nodes
}

func (n *node) get(name string) string {
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (n *node) number(t tester, name string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(n.get(name), 64)
	if err != nil {
		t.Fatalf("%s has %s=%q: %v", n.XMLName.Local, name, n.get(name), err)
	}
	return x
}

// named gives the elements of that name, and of that class unless it is "".
func (n *node) named(name, class string) []*node {
	return slices.DeleteFunc(n.all(), func(o *node) bool {
		return o.XMLName.Local != name || class != "" && !slices.Contains(strings.Fields(o.get("class")), class)
	})
}

// numbers gives the numbers of a path in order.
func numbers(t tester, path *node) []float64 {
	t.Helper()
	var out []float64
	for text := range strings.FieldsFuncSeq(path.get("d"), func(r rune) bool { return unicode.IsLetter(r) || r == ' ' }) {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatalf("the path %s: %v", path.get("d"), err)
		}
		out = append(out, x)
	}
	return out
}

func texts(root *node) []string {
	var out []string
	for _, text := range root.named("text", "") {
		out = append(out, text.Text)
	}
	return out
}

// sheetChecks are what holds for every picture.
//
// Sources: Accessible Rich Internet Applications 1.2 (role img needs a name)
// and SVG 2, chapter 5 (title and desc), for the names; the page's content
// policy, for what must not be there.
func sheetChecks(t tester, p Picture) *node {
	t.Helper()
	root := read(t, p)
	if root.XMLName.Space != "http://www.w3.org/2000/svg" || root.XMLName.Local != "svg" || root.get("role") != "img" {
		t.Errorf("the root is %v with the role %q", root.XMLName, root.get("role"))
	}
	ids := map[string]*node{}
	for _, n := range root.all() {
		if id := n.get("id"); id != "" {
			if ids[id] != nil || !strings.HasPrefix(id, p.ID+"-") {
				t.Errorf("the id %q is there twice or does not begin with %q", id, p.ID)
			}
			ids[id] = n
		}
		if !slices.Contains([]string{"svg", "title", "desc", "defs", "pattern", "rect", "line", "path", "circle", "text"}, n.XMLName.Local) {
			t.Errorf("the page does not take over a %s element", n.XMLName.Local)
		}
		given := map[string]bool{}
		for _, a := range n.Attrs {
			if given[a.Name.Local] { // which encoding/xml lets pass, and browsers do not (XML 1.0, 3.1)
				t.Errorf("%s has the attribute %s twice", n.XMLName.Local, a.Name.Local)
			}
			given[a.Name.Local] = true
			if a.Name.Local == "style" || a.Name.Local == "href" || strings.HasPrefix(a.Name.Local, "on") {
				t.Errorf("%s has the attribute %s", n.XMLName.Local, a.Name.Local)
			}
			if fill, is := strings.CutPrefix(a.Value, "url(#"); is && ids[strings.TrimSuffix(fill, ")")] == nil {
				t.Errorf("%s refers to %s, which is not there", a.Name.Local, a.Value)
			}
		}
	}
	var words []string
	for id := range strings.FieldsSeq(root.get("aria-labelledby")) {
		if ids[id] == nil {
			t.Fatalf("there is no %q", id)
		}
		words = append(words, ids[id].Text)
	}
	if !slices.Equal(words, []string{p.Title, p.Description}) || p.Title == "" || p.Description == "" {
		t.Errorf("the picture is called %q, want its title and description", words)
	}
	for _, row := range p.Rows {
		if len(row) != len(p.Columns) {
			t.Errorf("the row %q has not %d cells", row, len(p.Columns))
		}
	}
	if len(p.Rows) == 0 {
		t.Errorf("there are no numbers behind the picture")
	}
	if size := root.number(t, "font-size"); size*325/pageWidth < 11 {
		t.Errorf("in 325 pixels the text is %.1f pixels high", size*325/pageWidth)
	}
	labelChecks(t, root)
	return root
}

// labelChecks sees that every text is on the paper and clear of all others.
func labelChecks(t tester, root *node) {
	t.Helper()
	size := strings.Fields(root.get("viewBox"))
	high, err := strconv.ParseFloat(size[3], 64)
	if err != nil || size[2] != num(pageWidth) {
		t.Fatalf("the viewBox is %q", size)
	}
	type placed struct {
		box
		text string
	}
	var boxes []placed
	for _, text := range root.named("text", "") {
		width := helvetica(text.Text) * textSize
		left := text.number(t, "x")
		if text.get("text-anchor") == "middle" {
			left -= width / 2
		}
		// capitals rise 0.72 em over the line, letters hang 0.21 em below it
		// (Adobe Font Metrics of Helvetica: CapHeight 718, Descender -207)
		b := placed{box{left, text.number(t, "y") - 0.72*textSize, width, 0.93 * textSize}, text.Text}
		if b.x < 0 || b.y < 0 || b.right() > pageWidth || b.bottom() > high {
			t.Errorf("%q runs off the paper: %+v", text.Text, b.box)
		}
		for _, o := range boxes {
			if b.overlaps(o.box) {
				t.Errorf("%q lies on %q", b.text, o.text)
			}
		}
		boxes = append(boxes, b)
	}
}

// anyNumber is a float of any kind, ordinary ones among them.
func anyNumber() *rapid.Generator[float64] {
	return rapid.OneOf(rapid.Float64Range(0, 200), rapid.Float64(),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 5e-324, 1e308, 10000}))
}

// Any numbers give a sound picture or an error, never both or a broken one.
func TestAnyNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := func(what string) float64 { return anyNumber().Draw(t, what) }
		s := Section{Length: x("length"), Height: x("height"), SkirtWidth: x("skirt"), SkirtThickness: x("edge"), Margin: x("margin"), Cover: x("cover"), WallHeight: x("wall"), WallThickness: x("thickness")}
		if p, err := s.Draw(); err == nil {
			sheetChecks(t, p)
		}
		c := Climate{Tolerance: x("tolerance"), Rooms: []Room{{"room", x("room")}}}
		c.Curves = []Curve{{Name: "mix", Points: []Point{{x("h"), x("size")}, {x("h"), x("size")}, {x("h"), x("size")}}}}
		if p, err := c.Draw(); err == nil {
			sheetChecks(t, p)
		}
	})
}
