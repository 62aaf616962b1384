package aloud

import "testing"

// How figures are read aloud in British English: common practice, no source.
func TestWords(t *testing.T) {
	for text, want := range map[string]string{
		"":                      "",
		"Dam it with clay now.": "Dam it with clay now.",

		// units
		"It is 60 mm long.":         "It is sixty millimetres long.",
		"1 mm, 1 hour, 1 minutes":   "One millimetre, one hour, one minute",
		"0.7 mm":                    "Nought point seven millimetres",
		"about 2.5 g":               "about two point five grams",
		"about 1,250 g":             "about one thousand two hundred and fifty grams",
		"1080 ml and 2 l":           "One thousand and eighty millilitres and two litres",
		"3 kg, 6 oz, 2 lb":          "Three kilos, six ounces, two pounds",
		"15 min, 30 s, 2 h, 3 m":    "Fifteen minutes, thirty seconds, two hours, three metres",
		"20 cm² or 20 cm2":          "Twenty square centimetres or twenty square centimetres",
		"told in cm²":               "told in square centimetres",
		"65 °C, 65°C or 65 C":       "Sixty-five degrees, sixty-five degrees or sixty-five degrees",
		"150 °F":                    "One hundred and fifty degrees Fahrenheit",
		"below 40 degrees":          "below forty degrees",
		"70 % syrup, 40%":           "Seventy percent syrup, forty percent",
		"an 800 W microwave":        "an eight hundred watt microwave",
		"a 3 mm edge, a 3-mm edge":  "a three millimetre edge, a three-millimetre edge",
		"a 10-minute wait":          "a ten-minute wait",
		"1.26 g/ml":                 "One point two six grams per millilitre",
		"2 mixes, 5 s.":             "Two mixes, five seconds.",
		"0 °C, -5 °C, −1 °C":        "Nought degrees, minus five degrees, minus one degree",
		"keeps 5 men busy, 2 gone":  "keeps five men busy, two gone",
		"2 cups. 3 tsp! 4 g? 5 mm.": "Two cups. Three teaspoons! Four grams? Five millimetres.",

		// fractions
		"2.5 cups, 2.5 hours":     "Two and a half cups, two and a half hours",
		"0.5 hours":               "Half an hour",
		"1.25 tsp, 1.5 times":     "One and a quarter teaspoons, one and a half times",
		"1.69 cups":               "One point six nine cups",
		"0.50 g":                  "Nought point five nought grams",
		"take .5 g":               "take nought point five grams",
		"2 1/2 tsp and 2½ tsp":    "Two and a half teaspoons and two and a half teaspoons",
		"1/2 cup, ⅓ cup":          "Half a cup, a third of a cup",
		"1/2 oz or 1/4 h":         "Half an ounce or a quarter of an hour",
		"3/4 tsp":                 "Three quarters of a teaspoon",
		"1/16 teaspoon":           "A sixteenth of a teaspoon",
		"1/2 metric cup":          "Half a metric cup",
		"5 1/2 metric cups":       "Five and a half metric cups",
		"a 1/2 hour":              "a half hour",
		"1/2 the width, 3/4 full": "Half the width, three quarters full",
		"24/7":                    "Twenty-four over seven",

		// ranges, sizes, ratios
		"2 to 5, 2-5, 2–5":           "Two to five, two to five, two to five",
		"2–5 min.":                   "Two to five minutes.",
		"35 to 50 seconds":           "Thirty-five to fifty seconds",
		"1/4 to 1/2 teaspoon":        "A quarter to half a teaspoon",
		"2.5 to 7.5 ml":              "Two point five to seven point five millilitres",
		"2.5 to 3 cups":              "Two and a half to three cups",
		"5 °C to 8 °C":               "Five degrees to eight degrees",
		"60 x 45 mm, 60×45 mm":       "Sixty by forty-five millimetres, sixty by forty-five millimetres",
		"60 by 45 by 12 mm":          "Sixty by forty-five by twelve millimetres",
		"13 × the cap":               "Thirteen times the cap",
		"1:10, or 1:100 by weight":   "One to ten, or one to one hundred by weight",
		"±2 mm, 10 ± 2 g":            "plus or minus two millimetres, ten plus or minus two grams",
		"~5 g, ≤ 40 °C, ≥ 3":         "about five grams, at most forty degrees, at least three",
		"jug → mould":                "jug to mould",
		"mould dry & cold":           "mould dry and cold",
		"1 of 100 g; 2 of 1000 g":    "One of one hundred grams; two of one thousand grams",
		"Step 4 of 25":               "Step four of twenty-five",
		"70 of water to 100 plaster": "Seventy of water to one hundred plaster",

		// times of day and dates
		"Timer set: stir, at 06:24":  "Timer set: stir, at six twenty-four in the morning",
		"14:00 and 14:05":            "Two in the afternoon and two oh five in the afternoon",
		"18:46, 22:10":               "Six forty-six in the evening, ten ten at night",
		"00:00, 00:05, 12:00":        "Midnight, twelve oh five at night, noon",
		"06:10–06:24":                "Six ten in the morning to six twenty-four in the morning",
		"12:30":                      "Twelve thirty in the afternoon",
		"7:30 pm, 7 pm":              "Seven thirty in the evening, seven pm",
		"Monday, 30 November, 18:46": "Monday, the thirtieth of November, six forty-six in the evening",
		"on 2 January 2006":          "on the second of January two thousand and six",
		"M1 2026-11-28":              "M one the twenty-eighth of November twenty twenty-six",
		"the 21st, 2 may do":         "the twenty-first, two may do",

		// names and signs
		"This is M1, of batch B12 (P3).":      "This is M one, of batch B twelve, P three.",
		"M1-M3, a 3D print":                   "M one to M three, a three D print",
		"a 225 Bloom gelatin, SPF 30":         "a two hundred and twenty-five Bloom gelatin, SPF thirty",
		"plaster No. 3, but No. 5 is too old": "plaster number three, but number five is too old",
		"No. 5 minutes are too few.":          "No. Five minutes are too few.",
		"40 inches (1016 mm) is too long":     "Forty inches, one thousand and sixteen millimetres, is too long",
		"(see M1)":                            "see M one",
		"“3 minutes”, he said":                "Three minutes, he said",
		"the bag’s own 'thin' mix":            "the bag's own thin mix",
		"call 007 1999999999999":              "call nought nought seven one nine nine nine nine nine nine nine nine nine nine nine nine",
		"٣ mm":                                "Three millimetres",
	} {
		if got := Words(text); got != want {
			t.Errorf("%q is said %q, want %q", text, got, want)
		}
	}
}

func TestYear(t *testing.T) {
	for y, want := range map[int]string{
		1066: "one thousand and sixty-six", 1800: "eighteen hundred", 1905: "nineteen oh five", 1999: "nineteen ninety-nine",
		2000: "two thousand", 2009: "two thousand and nine", 2010: "twenty ten", 2026: "twenty twenty-six",
	} {
		if got := year(y); got != want {
			t.Errorf("%d is said %q, want %q", y, got, want)
		}
	}
}
