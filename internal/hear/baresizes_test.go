package hear

import (
	"fmt"
	"testing"
)

// A height without a unit is what it can well be: 12 is no 120 mm. (Common
// practice, no source.)
func TestBareHeights(t *testing.T) {
	b := realBook(t)
	h := New(b)
	f := b.FactByName("piece_height_mm")
	for _, test := range []struct{ words, unit, want string }{
		{"12", "", "12"},
		{"about 12", "", "12"},
		{"18", "", "18"},
		{"8", "", "8 centimetres or 8 millimetres"},
		{"2", "", "2 inches or 2 centimetres or 2 millimetres"},
		{"12", "60 mm", "12"},
		{"8", "45 mm", "8"},
		{"3", "6 cm", "30"},
		{"1", "2 inches", "25.4"},
		{"12", "2 inches", "12"},
		{"12 cm", "60 mm", "120"},
	} {
		c := Context{Asked: &Asked{Fact: f, Kind: f.Kind}}
		c.LastUnit, _ = h.LengthUnit(test.unit)
		m, got := h.Hear(c, test.words), ""
		for _, told := range m.Facts {
			got += fmt.Sprint(told.Value.Number())
		}
		for i, r := range m.Readings {
			if i > 0 {
				got += " or "
			}
			got += r.Label
		}
		if got != test.want {
			t.Errorf("%q after %q is %q, want %q", test.words, test.unit, got, test.want)
		}
	}
}
