package hear

import (
	"math"
	"testing"

	"sparehand/internal/craft"
)

func TestReadNumber(t *testing.T) {
	for text, want := range map[string]float64{
		"two hundred and fifty": 250, "twenty five": 25, "twenty-five": 25, "a couple": 2, "half": 0.5, "a dozen": 12,
		"one and a half": 1.5, "two and three quarters": 2.75, "1 1/2": 1.5, "1½": 1.5, "½": 0.5, "1/2": 0.5,
		"three quarters": 0.75, "one third": 1.0 / 3, "two point five": 2.5, "2.5": 2.5, "2,5": 2.5, "1,000": 1000,
		"a hundred": 100, "a hundred and ten": 110, "one thousand two hundred": 1200, "fourty": 40, "half a dozen": 6,
		"minus five": -5, "-5": -5, "nineteen": 19, "ninety nine": 99, "a quarter": 0.25, "two dozen": 24, "0.5": 0.5,
	} {
		got, ok := readNumber(tokenise(fold(text), stemOf), 0)
		if !ok || math.Abs(got.value-want) > 1e-9 {
			t.Errorf("%q is %v (%v), want %v", text, got.value, ok, want)
		}
	}
}

// The factors are exact by definition: inch 25.4 mm, US cup 236.588 ml, US
// fluid ounce 29.574 ml, ounce 28.3495 g (NIST Handbook 44, Appendix C).
func TestNumberAnswers(t *testing.T) {
	_, b := smallHearing(t)
	tables := map[string]map[string]string{
		"water_ml": {
			"two and a half cups": "water_ml=591.471", "250": "water_ml=250", "250 ml": "water_ml=250",
			"about 300 millilitres": "water_ml=300", "10 oz": "water_ml=295.735", "half a litre": "water_ml=500",
			"a cup and a half": "water_ml=354.882", "two table spoons": "water_ml=29.574", "300 grams": "complaint",
			"half a cup": "water_ml=118.294", "three quarters of a cup": "water_ml=177.441", "a cup": "water_ml=236.588",
			"not sure": "not-sure", "no idea": "not-sure", "a few": "complaint", "1 pint": "?1 US pint ?1 imperial pint", "1 us pint": "water_ml=473.176",
			"2 cups, no wait, 3 cups": "water_ml=709.765",
		},
		"plaster_g": {
			"10 ounces": "plaster_g=283.495", "two pounds": "plaster_g=907.185", "half a kilo": "plaster_g=500",
			"1 pound 4 ounces": "plaster_g=566.99", "2 cups": "complaint", "-5": "complaint", "minus five grams": "complaint",
		},
		"room_humidity": {
			"about seventy percent": "room_humidity=70", "70%": "room_humidity=70", "seventy": "room_humidity=70",
			"thirty per cent": "room_humidity=30", "400 percent": "complaint", "between 40 and 50": "room_humidity=45",
			"10 to 12": "room_humidity=11", "3 inches": "complaint", "half": "room_humidity=50",
			"well the meter says 45": "room_humidity=45", "40-50 %": "room_humidity=45",
		},
		"piece_length_mm": {
			"6 inches": "piece_length_mm=152.4", `6"`: "piece_length_mm=152.4", `1/2"`: "piece_length_mm=12.7",
			"15 cm": "piece_length_mm=150", "six": "?6 centimetres ?6 inches", "250": "piece_length_mm=250",
			"an inch and a half": "piece_length_mm=38.1", "a foot": "piece_length_mm=304.8", "ten centimeters": "piece_length_mm=100",
			"70 minutes": "complaint", "2 metres": "complaint", "6 by 4 inches": "piece_length_mm=152.4 piece_width_mm=101.6",
			"half an inch": "piece_length_mm=12.7", "6 inchs": "piece_length_mm=152.4", "the width is 4 inches": "piece_width_mm=101.6",
		},
		"room_temperature": {
			"20": "room_temperature=20", "20 degrees": "room_temperature=20", "70 degrees": "room_temperature=21.111",
			"68 F": "room_temperature=20", "45 degrees": "?45 degrees Celsius ?45 degrees Fahrenheit", "-2 C": "room_temperature=-2",
			"20°C": "room_temperature=20", "68 degrees fahrenheit": "room_temperature=20", "90": "complaint",
		},
		"stood_min": {
			"twenty minutes": "stood_min=20", "an hour and a half": "stood_min=90", "two and a half hours": "stood_min=150",
			"an hour and twenty minutes": "stood_min=80", "half an hour": "stood_min=30", "a couple of hours": "stood_min=120",
			"quarter of an hour": "stood_min=15", "5": "stood_min=5", "two ours": "stood_min=2",
		},
		"copies": {
			"three": "copies=3", "to": "copies=2", "a dozen": "copies=12", "make 3 copies": "copies=3", "two hundred": "complaint",
		},
		"own_measure_per_tablespoon": {
			"three caps fill a tablespoon": "measure=own own_measure_per_tablespoon=3",
			"3":                            "measure=own own_measure_per_tablespoon=3",
			"two and a half":               "measure=own own_measure_per_tablespoon=2.5",
		},
	}
	for fact, table := range tables {
		t.Run(fact, func(t *testing.T) { check(t, asks(t, b, fact, "dam-leaks"), table) })
	}
}

func TestReadAmountUnits(t *testing.T) {
	for text, want := range map[string]struct {
		value float64
		dim   craft.Dimension
	}{
		"2 fl oz": {2, craft.Volume}, "3 fluid ounces": {3, craft.Volume}, "5 degrees c": {5, craft.Temperature},
		"2 metric cups": {2, craft.Volume}, "1 lb": {1, craft.Mass}, "12 mm": {12, craft.Length}, "5 per cent": {5, craft.Ratio},
		"3 minuts": {3, craft.Time}, "2 tea spoons": {2, craft.Volume}, "two centimetes": {2, craft.Length},
	} {
		tokens := tokenise(fold(text), stemOf)
		list := readAmounts(newLine(fold(text), tokens))
		if len(list) != 1 || list[0].value != want.value || len(list[0].units) != 1 || list[0].units[0].Dimension != want.dim {
			t.Errorf("%q reads as %+v, want %v of %v", text, list, want.value, want.dim)
		}
	}
}
