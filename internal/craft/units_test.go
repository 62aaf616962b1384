package craft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: GNU units, run here, with its US definitions (NIST) and its British
// ones ("br..."; Weights and Measures Act).
func TestUnitsAgainstGNUUnits(t *testing.T) {
	table := []struct{ name, theirs, base string }{
		{"g", "g", "g"}, {"kg", "kg", "g"}, {"mg", "mg", "g"},
		{"lb", "pound", "g"}, {"dry ounce", "ounce", "g"},
		{"ml", "ml", "ml"}, {"cl", "cl", "ml"}, {"dl", "dl", "ml"}, {"litre", "liter", "ml"},
		{"tsp", "teaspoon", "ml"}, {"tbsp", "tablespoon", "ml"}, {"fl oz", "floz", "ml"},
		{"cup", "cup", "ml"}, {"pint", "pint", "ml"}, {"quart", "quart", "ml"}, {"gallon", "gallon", "ml"},
		{"metric tsp", "brteaspoon", "ml"}, {"metric tbsp", "brtablespoon", "ml"},
		{"metric cup", "metriccup", "ml"}, {"dessertspoon", "brdessertspoon", "ml"},
		{"australian tablespoon", "australiatablespoon", "ml"},
		{"imperial fl oz", "brfloz", "ml"}, {"imperial cup", "brcup", "ml"},
		{"imperial pint", "brpint", "ml"}, {"imperial quart", "brquart", "ml"}, {"imperial gallon", "brgallon", "ml"},
		{"mm", "mm", "mm"}, {"cm", "cm", "mm"}, {"m", "m", "mm"}, {`"`, "inch", "mm"}, {"ft", "foot", "mm"}, {"yards", "yard", "mm"},
		{"cm2", "cm^2", "cm^2"}, {"mm²", "mm^2", "cm^2"}, {"sq in", "inch^2", "cm^2"},
		{"watts", "watt", "watt"}, {"kW", "kW", "watt"},
		{"s", "s", "min"}, {"min", "min", "min"}, {"h", "hour", "min"}, {"day", "day", "min"}, {"week", "week", "min"},
	}
	pairs := make([][2]string, len(table))
	for i, row := range table {
		pairs[i] = [2]string{row.theirs, row.base}
	}
	for i, want := range askUnits(t, pairs) {
		u, ok := UnitNamed(table[i].name)
		if !ok {
			t.Errorf("%q is not one unit", table[i].name)
			continue
		}
		got, err := u.Base(1)
		if err != nil {
			t.Errorf("%s: %v", table[i].name, err)
		}
		near(t, table[i].name, got, want, 1e-12*want)
	}
}

// Source: GNU units, run here.
func TestTemperaturesAgainstGNUUnits(t *testing.T) {
	readings := []struct {
		from, to, theirs, base string
		x                      float64
	}{
		{"F", "C", "tempF(98.6)", "tempC", 98.6},
		{"F", "C", "tempF(-40)", "tempC", -40},
		{"C", "F", "tempC(60)", "tempF", 60},
		{"kelvin", "F", "tempK(300)", "tempF", 300},
	}
	var pairs [][2]string
	for _, r := range readings {
		pairs = append(pairs, [2]string{r.theirs, r.base})
	}
	for i, want := range askUnits(t, pairs) {
		r := readings[i]
		from, _ := UnitNamed(r.from)
		to, _ := UnitNamed(r.to)
		got, err := Convert(r.x, from, to)
		if err != nil {
			t.Errorf("%s: %v", r.theirs, err)
		}
		near(t, r.theirs, got, want, 1e-9)
	}
}

// Source: NIST Handbook 44 App. C and SP 811 App. B (from memory), NIST SP 430
// for the ratios; UK SI 1995/1804 (from memory).
func TestKitchenUnitsExact(t *testing.T) {
	for name, want := range map[string]float64{
		"gallon": 3785.411784, "fluid ounce": 29.5735295625, "cup": 236.5882365,
		"tablespoon": 14.78676478125, "teaspoon": 4.92892159375,
		"imperial fluid ounce": 28.4130625, "imperial pint": 568.26125,
		"pound": 453.59237, "dry ounce": 28.349523125,
	} {
		u, ok := UnitNamed(name)
		if !ok {
			t.Errorf("%q is not one unit", name)
		}
		near(t, name, u.Factor, want, 1e-12*want)
	}
}

func TestReadings(t *testing.T) {
	for name, want := range map[string][]string{
		"oz":         {"ounce", "fluid ounce"},
		"Ounces":     {"ounce", "fluid ounce"},
		"Fl. Oz.":    {"fluid ounce"},
		" TBSP ":     {"tablespoon"},
		"cups":       {"cup"},
		"c":          {"cup", "degree Celsius"},
		"C":          {"degree Celsius"},
		"°C":         {"degree Celsius"},
		"℉":          {"degree Fahrenheit"},
		"degrees":    {"degree Celsius", "degree Fahrenheit"},
		"mil":        {"millilitre", "millimetre"}, // said of both (common practice, no source)
		"”":          {"inch"},
		"metric-cup": {"metric cup"},
		"per cent":   {"percent"},
		"T":          nil, // tablespoon to one maker, teaspoon to the next
		"t":          nil,
		"":           nil,
		"barnacle":   nil,
	} {
		got := Readings(name)
		if len(got) != len(want) {
			t.Errorf("%q reads as %v, want %v", name, got, want)
			continue
		}
		for i := range want {
			if got[i].Name != want[i] {
				t.Errorf("%q reading %d is %s, want %s", name, i, got[i].Name, want[i])
			}
		}
		if _, ok := UnitNamed(name); ok != (len(want) == 1) {
			t.Errorf("UnitNamed(%q) says %v with %d readings", name, ok, len(want))
		}
	}
}

func TestUnitOf(t *testing.T) {
	if u, ok := UnitOf("oz", Volume); !ok || u.Name != "fluid ounce" {
		t.Errorf("oz as a volume is %v, %v", u, ok)
	}
	if u, ok := UnitOf("oz", Mass); !ok || u.Name != "ounce" {
		t.Errorf("oz as a mass is %v, %v", u, ok)
	}
	if u, ok := UnitOf("degrees", Temperature); ok {
		t.Errorf("degrees should stay open, got %v", u)
	}
	if text := Volume.String() + " " + Dimension(99).String(); text != "volume unknown dimension" {
		t.Errorf("dimensions read %q", text)
	}
	if u, ok := UnitOf("cup", Length); ok {
		t.Errorf("a cup is no length, got %v", u)
	}
}

func TestReadingsAreACopy(t *testing.T) {
	Readings("cup")[0].Factor = 1
	if u, _ := UnitNamed("cup"); u.Factor == 1 {
		t.Error("a caller can change the table")
	}
}

func TestEveryDimensionHasABase(t *testing.T) {
	for d, want := range map[Dimension]string{
		Mass: "gram", Volume: "millilitre", Length: "millimetre",
		Time: "minute", Temperature: "degree Celsius", Ratio: "percent",
		Area: "square centimetre", Power: "watt",
	} {
		if got := BaseUnit(d).Name; got != want {
			t.Errorf("base of %s is %q, want %q", d, got, want)
		}
	}
}

func TestConvertRefuses(t *testing.T) {
	unit := func(name string) Unit {
		u, ok := UnitNamed(name)
		if !ok {
			t.Fatalf("no unit %q", name)
		}
		return u
	}
	for _, c := range []struct {
		what     string
		x        float64
		from, to Unit
	}{
		{"mass to volume", 1, unit("g"), unit("ml")},
		{"negative mass", -1, unit("g"), unit("kg")},
		{"no number", math.NaN(), unit("g"), unit("kg")},
		{"endless", math.Inf(1), unit("g"), unit("kg")},
		{"mountain of plaster", 1e8, unit("kg"), unit("g")},
		{"colder than cold", -300, unit("C"), unit("F")},
		{"zero unit from", 1, Unit{}, unit("g")},
		{"zero unit to", 1, unit("g"), Unit{}},
	} {
		y, err := Convert(c.x, c.from, c.to)
		if err == nil || y != 0 {
			t.Errorf("%s: got %v, %v", c.what, y, err)
			continue
		}
		tellsMaker(t, err)
	}
}

func anyUnit(t *rapid.T, label string) Unit {
	return unitTable[rapid.IntRange(0, len(unitTable)-1).Draw(t, label)].Unit
}

func TestConvertThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := anyUnit(t, "from"), anyUnit(t, "to")
		x := rapid.Float64Range(0, 1e5).Draw(t, "x")
		there, err := Convert(x, from, to)
		if (err == nil) != (from.Dimension == to.Dimension) && x < 1e3 {
			t.Fatalf("%v %s to %s: %v", x, from.Name, to.Name, err)
		}
		if err != nil {
			return
		}
		back, err := Convert(there, to, from)
		if err != nil {
			t.Fatal(err)
		}
		near(t, from.Name+" by way of "+to.Name, back, x, 1e-9*(1+x+math.Abs(from.Offset)))
	})
}
