package draw

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Point is one size of a mix at one humidity.
type Point struct {
	Humidity float64 // of the air, percent
	Size     float64 // change of length against as cast, percent
}

// Curve is how the size of one mix follows the air.
type Curve struct {
	Name   string
	Points []Point // two at least, in any order; straight lines join them
	Chosen bool    // the mix that the picture is about
}

// Room is a place where the piece is made, carried or worn.
type Room struct {
	Name     string
	Humidity float64 // percent
}

// Climate compares mixes over the humidity of the air.
type Climate struct {
	ID        string  // of the picture; "" for "climate"
	Curves    []Curve // one to five
	Rooms     []Room  // up to three
	Tolerance float64 // change of size either way that is let pass, percent; 0 for none
}

// The humidity drawn, in percent, and where the sum can be trusted; outside
// that it is rough.
const (
	driest, dampest     = 20.0, 90.0
	sureFrom, sureUpTo  = 35.0, 65.0
	mostCurves          = 5
	mostRooms           = 3
	smallest, largest   = -35.0, 30.0 // percent of size: what is drawn at most
	humidityPerTableRow = 10
)

// Draw gives the picture, with sizes outside -35 to +30 percent cut off.
func (c Climate) Draw() (Picture, error) {
	id, err := idOr(c.ID, "climate")
	if err != nil {
		return Picture{}, err
	}
	if err := c.check(); err != nil {
		return Picture{}, err
	}
	c.Curves = c.inOrder()
	p := Picture{ID: id, Title: "How the size follows the air", Description: c.description()}
	p.Columns, p.Rows = c.table()
	p.SVG, err = newChart(id, c).draw(p.Title, p.Description)
	return p, err
}

// inOrder gives the curves with their points from dry to damp.
func (c Climate) inOrder() []Curve {
	curves := slices.Clone(c.Curves)
	for i := range curves {
		curves[i].Points = slices.SortedFunc(slices.Values(curves[i].Points), func(a, b Point) int {
			return cmp.Compare(a.Humidity, b.Humidity)
		})
	}
	return curves
}

func (c Climate) check() error {
	chosen := 0
	for _, curve := range c.Curves {
		if curve.Chosen {
			chosen++
		}
	}
	switch {
	case len(c.Curves) == 0:
		return errors.New("there is no mix to draw: give one at least")
	case len(c.Curves) > mostCurves:
		return fmt.Errorf("more than %d mixes cannot be told apart in one picture: take fewer", mostCurves)
	case len(c.Rooms) > mostRooms:
		return fmt.Errorf("more than %d rooms do not fit in one picture: take fewer", mostRooms)
	case chosen > 1:
		return errors.New("only one mix can be the chosen one")
	}
	if err := sound(measure{"tolerance", c.Tolerance, 0, 100, "percent"}); err != nil {
		return err
	}
	for _, room := range c.Rooms {
		if err := named(room.Name, "room"); err != nil {
			return err
		}
		if err := sound(measure{"humidity of " + room.Name, room.Humidity, 0, 100, "percent"}); err != nil {
			return err
		}
	}
	for _, curve := range c.Curves {
		if err := curve.check(); err != nil {
			return err
		}
	}
	return nil
}

func (c Curve) check() error {
	if err := named(c.Name, "mix"); err != nil {
		return err
	}
	if len(c.Points) < 2 {
		return fmt.Errorf("the mix %q needs two points at least to be drawn", c.Name)
	}
	seen := map[float64]bool{}
	for _, p := range c.Points {
		err := sound(
			measure{"humidity of a point of " + c.Name, p.Humidity, 0, 100, "percent"},
			measure{"size of a point of " + c.Name, p.Size, -100, 1000, "percent"})
		if err != nil {
			return err
		}
		if seen[p.Humidity] {
			return fmt.Errorf("the mix %q has two sizes at %s percent humidity: give one", c.Name, plain(p.Humidity))
		}
		seen[p.Humidity] = true
	}
	return nil
}

func named(name, what string) error {
	if strings.TrimSpace(name) == "" {
		return fmt.Errorf("a %s without a name cannot be labelled: name it", what)
	}
	return nil
}

// at gives the size at a humidity, between the points on either side, and
// whether there are such points. The points are in order.
func (c Curve) at(humidity float64) (size float64, known bool) {
	i, exact := slices.BinarySearchFunc(c.Points, humidity, func(p Point, h float64) int { return cmp.Compare(p.Humidity, h) })
	if exact {
		return c.Points[i].Size, true
	}
	if i == 0 || i == len(c.Points) {
		return 0, false
	}
	a, b := c.Points[i-1], c.Points[i]
	return a.Size + (b.Size-a.Size)*(humidity-a.Humidity)/(b.Humidity-a.Humidity), true
}

// whole is a size as it is told: the sum knows no parts of a percent.
func whole(size float64) string { return signed(math.Round(size)) }

// words are the size at a humidity as it stands in the table.
func (c Curve) words(humidity float64) string {
	size, known := c.at(humidity)
	if !known {
		return "not known"
	}
	return whole(size) + " %"
}

func rough(humidity float64) bool { return humidity < sureFrom || humidity > sureUpTo }

// table has a row for each room and one for every ten percent.
func (c Climate) table() (columns []string, rows [][]string) {
	columns = []string{"Humidity of the air, %"}
	for _, curve := range c.Curves {
		if curve.Chosen {
			columns = append(columns, curve.Name+" (chosen)")
		} else {
			columns = append(columns, curve.Name)
		}
	}
	row := func(words string, humidity float64) {
		if rough(humidity) {
			words += " (rough)"
		}
		cells := []string{words}
		for _, curve := range c.Curves {
			cells = append(cells, curve.words(humidity))
		}
		rows = append(rows, cells)
	}
	for _, room := range c.Rooms {
		row(room.Name+", "+plain(room.Humidity), room.Humidity)
	}
	for h := driest; h <= dampest; h += humidityPerTableRow {
		row(plain(h), h)
	}
	return columns, rows
}

func (c Climate) description() string {
	parts := []string{fmt.Sprintf("Change of size against as cast, from %s to %s percent humidity.", plain(driest), plain(dampest))}
	for _, curve := range c.Curves {
		which := curve.Name
		if curve.Chosen {
			which += ", the chosen mix"
		}
		low, lowKnown := curve.at(sureFrom)
		high, highKnown := curve.at(sureUpTo)
		if lowKnown && highKnown {
			parts = append(parts, fmt.Sprintf("%s: %s %% at %s and %s %% at %s.", which, whole(low), plain(sureFrom), whole(high), plain(sureUpTo)))
		}
	}
	for _, room := range c.Rooms {
		parts = append(parts, fmt.Sprintf("Marked: %s, %s percent humidity.", room.Name, plain(room.Humidity)))
	}
	if c.Tolerance > 0 {
		parts = append(parts, fmt.Sprintf("A band marks %s percent either way.", plain(c.Tolerance)))
	}
	return strings.Join(append(parts, fmt.Sprintf("Below %s and above %s percent humidity the sum is rough.", plain(sureFrom), plain(sureUpTo))), " ")
}
