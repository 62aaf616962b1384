package draw

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// pageWidth is the width that every picture is drawn for, in units of its
// viewBox. The text is large enough to be read when that is shown in 325
// pixels.
const pageWidth = 340.0

// Colours of a picture that stands alone; a page sets its own by class.
const (
	inkColour   = "#1d2123"
	paperColour = "#fffdf7"
	clayColour  = "#83351a"
	clayWash    = "#f8ebe2"
)

// node is an element of a drawing.
type node struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Text    string     `xml:",chardata"`
	Nodes   []*node    `xml:",any"`
}

// el makes an element from names and values of attributes in turn.
func el(name string, attrs ...string) *node {
	n := &node{XMLName: xml.Name{Local: name}}
	for i := 0; i+1 < len(attrs); i += 2 {
		n.Attrs = append(n.Attrs, xml.Attr{Name: xml.Name{Local: attrs[i]}, Value: attrs[i+1]})
	}
	return n
}

func (n *node) with(nodes ...*node) *node {
	n.Nodes = append(n.Nodes, nodes...)
	return n
}

func (n *node) saying(text string) *node {
	n.Text = text
	return n
}

// drawing collects shapes, and the labels that lie over them.
type drawing struct {
	id     string
	shapes []*node
	labels []label
}

func (d *drawing) add(n *node) { d.shapes = append(d.shapes, n) }

func (d *drawing) line(class, width string, x1, y1, x2, y2 float64, attrs ...string) {
	d.add(el("line", append([]string{"class", class, "x1", num(x1), "y1", num(y1), "x2", num(x2), "y2", num(y2),
		"stroke", "currentColor", "stroke-width", width}, attrs...)...))
}

func (d *drawing) dot(x, y float64) {
	d.add(el("circle", "class", "dot", "cx", num(x), "cy", num(y), "r", "2.2", "fill", "currentColor"))
}

func (d *drawing) rect(class, fill string, x, y, width, height float64, attrs ...string) {
	d.add(el("rect", append([]string{"class", class, "x", num(x), "y", num(y), "width", num(width), "height", num(height),
		"fill", fill}, attrs...)...))
}

// hatch is a fill of slanting lines that lie apart by this much.
func (d *drawing) hatch(name string, apart float64, width, opacity string) *node {
	return el("pattern", "id", d.id+"-"+name, "width", num(apart), "height", num(apart),
		"patternUnits", "userSpaceOnUse", "patternTransform", "rotate(45)").
		with(el("line", "x1", "0", "y1", "0", "x2", "0", "y2", num(apart), "stroke", "currentColor", "stroke-width", width, "stroke-opacity", opacity))
}

// stipple is a fill of dots that lie apart by this much.
func (d *drawing) stipple(name string, apart float64) *node {
	return el("pattern", "id", d.id+"-"+name, "width", num(apart), "height", num(apart), "patternUnits", "userSpaceOnUse").
		with(el("circle", "cx", num(apart/4), "cy", num(apart/4), "r", "0.7", "fill", "currentColor", "fill-opacity", "0.55"),
			el("circle", "cx", num(3*apart/4), "cy", num(3*apart/4), "r", "0.5", "fill", "currentColor", "fill-opacity", "0.55"))
}

func (d *drawing) fill(name string) string { return "url(#" + d.id + "-" + name + ")" }

// write gives the SVG text of a drawing of this height.
func (d *drawing) write(height float64, title, description string, defs ...*node) (string, error) {
	root := el("svg", "xmlns", "http://www.w3.org/2000/svg", "class", "drawing", "role", "img",
		"aria-labelledby", d.id+"-title "+d.id+"-desc",
		"viewBox", fmt.Sprintf("0 0 %s %s", num(pageWidth), num(height)), "width", num(pageWidth), "height", num(height),
		"color", inkColour, "font-family", "sans-serif", "font-size", num(textSize))
	root.with(
		el("title", "id", d.id+"-title").saying(title),
		el("desc", "id", d.id+"-desc").saying(description),
		el("defs").with(defs...),
		el("rect", "class", "paper", "width", num(pageWidth), "height", num(height), "fill", paperColour))
	root.with(d.shapes...)
	for _, l := range d.labels {
		root.with(l.nodes()...)
	}
	text, err := xml.Marshal(root)
	if err != nil {
		return "", errUndrawable
	}
	return string(text), nil
}

// num writes a coordinate to a tenth, which is finer than any screen shows.
func num(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10+0, 'f', -1, 64) }

// point is a place on the paper; lifted says that no line is drawn to it.
type point struct {
	x, y   float64
	lifted bool
}

// path writes points as the lines of a path.
func path(points []point) string {
	var b strings.Builder
	for i, p := range points {
		pen := "L"
		if i == 0 || p.lifted {
			pen = "M"
		}
		b.WriteString(pen + num(p.x) + " " + num(p.y))
	}
	return b.String()
}

// attr sets an attribute, in place of one of that name if there is one.
func (n *node) attr(name, value string) *node {
	for i := range n.Attrs {
		if n.Attrs[i].Name.Local == name {
			n.Attrs[i].Value = value
			return n
		}
	}
	n.Attrs = append(n.Attrs, xml.Attr{Name: xml.Name{Local: name}, Value: value})
	return n
}
