package hear

import (
	"io/fs"
	"os"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"gopkg.in/yaml.v3"

	"sparehand/internal/book"
	"sparehand/rules"
)

// sumsBook is the facts of the real book with the sums of these tests, so that
// the wording of the facts is tried and the sums stay put.
var sumsBook = sync.OnceValues(func() (*book.Book, error) {
	files := fstest.MapFS{}
	err := fs.WalkDir(rules.Files, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(rules.Files, path)
		if text := "\n" + string(data); strings.Contains(text, "\nfacts:") || strings.Contains(text, "\nmaterials:") || strings.Contains(text, "\ncommands:") {
			if data, err = withoutProblems(data); err == nil {
				files[path] = &fstest.MapFile{Data: data}
			}
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	data, err := os.ReadFile("testdata/sums/amounts.yaml")
	files["sums.yaml"] = &fstest.MapFile{Data: data}
	if err != nil {
		return nil, err
	}
	return book.Load(files)
})

// withoutProblems drops the problems of a file of rules.
func withoutProblems(data []byte) ([]byte, error) {
	var parts map[string]yaml.Node
	if err := yaml.Unmarshal(data, &parts); err != nil {
		return nil, err
	}
	delete(parts, "problems")
	return yaml.Marshal(parts)
}

func sumsHearing(tb testing.TB) (*Hearing, *book.Book) {
	tb.Helper()
	b, err := sumsBook()
	if err != nil {
		tb.Fatalf("the book of the sums does not load: %v", err)
	}
	return New(b), b
}

func checkSums(t *testing.T, c Context, table map[string]string) {
	t.Helper()
	h, b := sumsHearing(t)
	for words, want := range table {
		if got := said(b, h.Hear(c, words)); got != want {
			t.Errorf("%q told\n     %q\nwant %q", words, got, want)
		}
	}
}

// under gives the context of sums under way.
func under(tb testing.TB, ids ...string) Context {
	tb.Helper()
	_, b := sumsHearing(tb)
	var c Context
	for _, id := range ids {
		for _, a := range b.Amounts {
			if a.ID == id {
				c.Sums = append(c.Sums, a)
			}
		}
	}
	if len(c.Sums) != len(ids) {
		tb.Fatalf("not all sums of %v are in the book", ids)
	}
	return c
}

// The words of these tables are common practice, no source: what people say
// at a bench. Inch 25.4 mm, US cup 236.588 ml, US tablespoon 14.787 ml, US
// fluid ounce 29.574 ml, ounce 28.3495 g: NIST Handbook 44, Appendix C.
func TestSumsWithWhatIsTold(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"how much plaster do I need for a six by four inch tray, an inch and a half deep": "amount:mould-plaster command:amounts tray_depth_mm=38.1 tray_length_mm=152.4 tray_width_mm=101.6",
		"how much gelatin for 5 barnacles, 30 by 20 by 8 millimetres":                     "amount:gel-mix command:amounts copies=5 piece_height_mm=8 piece_length_mm=30 piece_width_mm=20",
		"how much water for two cups of plaster":                                          "amount:plaster-water command:amounts have_plaster_ml=473.176",
		"I have 50 grams of gelatin, how much glycerin do I need":                         "amount:gel-mix command:amounts have_gelatin_g=50",
		"I need 300 g of mix, what do I weigh out":                                        "amount:gel-mix command:amounts mix_g=300",
		"what goes into 200 ml of the glycerin recipe":                                    "amount:gel-mix command:amounts mix_ml=200 recipe=gelatin_glycerin",
		"how long in an 800 watt microwave for 250 grams":                                 "amount:microwave command:amounts microwave_w=800 mix_g=250",
		"my gelatin is 180 bloom, how much do I take":                                     "amount:my-bloom command:amounts gelatin_bloom=180",
		"will it hold its size at 40 percent, it is worn at 60 on stage":                  "amount:keeps-size command:amounts room_humidity=40 worn_humidity=60",
		"how much clay for the wall":                                                      "amount:wall-clay command:amounts",
		"is 60 degrees safe on skin":                                                      "amount:on-skin command:amounts contact_c=60",
		"how much plaster":                                                                "amount:mould-plaster command:amounts",
		"how much of the plaster stuff would I need":                                      "amount:mould-plaster command:amounts",
		"how much would I need of the plaster for 500 ml":                                 "amount:mould-plaster command:amounts liquid_plaster_ml=500",
		"how much gelatin for 50 grams of glycerin":                                       "amount:gel-mix command:amounts have_glycerin_g=50",
		"how much glue for 60 square centimetres":                                         "amount:glue command:amounts piece_area_cm2=60",
		"how much glue for 60 cm2":                                                        "amount:glue command:amounts piece_area_cm2=60",
		"how much plaster for a cup":                                                      "amount:mould-plaster command:amounts",
		"I've got three tablespoons of gelatin how much glycerin":                         "amount:gel-mix command:amounts have_gelatin_ml=44.36",
		"when can I demould it, it is 12 mm thick":                                        "amount:sets command:amounts piece_height_mm=12",
		"how much gelatin for two scars 3 inches long, half an inch wide and 5 mm high":   "amount:gel-mix command:amounts copies=2 piece_height_mm=5 piece_length_mm=76.2 piece_width_mm=12.7",
		"how much mix for the big one, 12 cm across and 2 high":                           "amount:gel-mix command:amounts piece_across_mm=120 piece_height_mm=20",
		"how much plaster for 2 cups of water":                                            "amount:mould-plaster command:amounts have_water_ml=473.176",
		"how much gelatin for 300 ml with a wall 8 mm thick":                              "amount:gel-mix command:amounts mix_ml=300 wall_thickness_mm=8",
		"how much do I need for 6 noses":                                                  "command:amounts copies=6",
		"how much plaster to fill a bucket that holds 2 litres":                           "amount:mould-plaster command:amounts liquid_plaster_ml=2000",
		"how much water, I need half a litre of plaster slurry":                           "amount:plaster-water command:amounts liquid_plaster_ml=500",
		"how much glycerin for 300 ml of gelatin mix":                                     "amount:gel-mix command:amounts mix_ml=300",
		"how much sorbitol, my syrup is 60 percent":                                       "amount:gel-mix command:amounts syrup_strength_percent=60",
		"how much for a batch of 400 grams":                                               "command:amounts mix_g=400",
		"is it safe on skin at 42":                                                        "amount:on-skin command:amounts contact_c=42",
		"how much mix fills a mould of 85 millilitres":                                    "amount:gel-mix command:amounts mix_ml=85",
		"2 tbsp gelatin to 6 tbsp glycerin, how much mix is that":                         "amount:gel-mix command:amounts have_gelatin_ml=29.574 have_glycerin_ml=88.721",
		"how much gelatin, the skirt is 12 mm wide and the piece 6 by 4 by 1 cm":          "amount:gel-mix command:amounts piece_height_mm=10 piece_length_mm=60 piece_width_mm=40 skirt_width_mm=12",
	})
}

func TestSumsNeedAQuestion(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"when I demoulded it the nose came off": "",
		"the plaster and water came apart":      "",
		"it shrank":                             "",
		"plaster and water for a piece 60 by 40 by 20 mm, the sorbitol recipe": "amount:mould-plaster command:amounts piece_height_mm=20 piece_length_mm=60 piece_width_mm=40 recipe=gelatin_sorbitol_glycerin",
		"plaster and water please": "amount:mould-plaster command:amounts",
		"when will I demould":      "amount:sets command:amounts",
	})
}

func TestSumsWithARecipe(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"how much glycerin":                                   "amount:gel-mix command:amounts",
		"how much gelatin and glycerin":                       "amount:gel-mix command:amounts",
		"how much of the gelatin and glycerin mix for 200 ml": "amount:gel-mix command:amounts mix_ml=200 recipe=gelatin_glycerin",
		"how much gelatin for the gelatin and glycerin mix":   "amount:gel-mix command:amounts recipe=gelatin_glycerin",
		"how much gelatin with sorbitol":                      "amount:gel-mix command:amounts recipe=gelatin_sorbitol_glycerin",
		"how much gelatin do I need with glycerin":            "amount:gel-mix command:amounts",
		"how much mix, plain gelatin and water, 100 ml":       "amount:gel-mix command:amounts mix_ml=100 recipe=gelatin_water",
		"amounts for the glycerin recipe":                     "amount:gel-mix command:amounts recipe=gelatin_glycerin",
		"how much gelatin for 80 ml without sorbitol":         "amount:gel-mix command:amounts mix_ml=80 recipe=gelatin_glycerin",
	})
}

func TestSizesTold(t *testing.T) {
	checkSums(t, under(t, "gel-mix"), map[string]string{
		"two copies of a round piece 2 inches across and half an inch high": "copies=2 piece_across_mm=50.8 piece_height_mm=12.7",
		"6 by 4 by 1 inches":                                "piece_height_mm=25.4 piece_length_mm=152.4 piece_width_mm=101.6",
		"6 by 4 by 1":                                       "?6 by 4 by 1 centimetres ?6 by 4 by 1 inches",
		"six by four, an inch and a half deep":              "piece_height_mm=38.1 piece_length_mm=152.4 piece_width_mm=101.6",
		"no wait 12 x 4":                                    "?12 by 4 centimetres ?12 by 4 inches",
		"6 by 4 inches, no wait 12 x 4":                     "piece_length_mm=304.8 piece_width_mm=101.6",
		"four long, three across":                           "?4 by 3 centimetres ?4 by 3 inches",
		"four inches long, three across":                    "piece_across_mm=76.2 piece_length_mm=101.6",
		"no wait, it is 30 high":                            "piece_height_mm=30",
		"a tray 12 by 8 cm and 2 deep":                      "tray_depth_mm=20 tray_length_mm=120 tray_width_mm=80",
		"the tub is 10 cm across and 4 deep":                "tray_across_mm=100 tray_depth_mm=40",
		"a barnacle 30 by 20 by 8 mm in a tray 80 by 60 mm": "piece_height_mm=8 piece_length_mm=30 piece_width_mm=20 tray_length_mm=80 tray_width_mm=60",
		"length 30 mm width 20 mm height 8 mm":              "piece_height_mm=8 piece_length_mm=30 piece_width_mm=20",
		"30 by 20 by 8 in mm":                               "piece_height_mm=8 piece_length_mm=30 piece_width_mm=20",
		"it's 4 inches square and an inch thick":            "piece_height_mm=25.4 piece_length_mm=101.6 piece_width_mm=101.6",
		"half a foot long":                                  "piece_length_mm=152.4",
		"a big piece 6 by 4 cm":                             "piece_length_mm=60 piece_width_mm=40",
		"six buy four buy one inches":                       "piece_height_mm=25.4 piece_length_mm=152.4 piece_width_mm=101.6",
		"six by for by to centimetres":                      "piece_height_mm=20 piece_length_mm=60 piece_width_mm=40",
		"6 by 4 inches and an inch":                         "piece_height_mm=25.4 piece_length_mm=152.4 piece_width_mm=101.6",
		"a round piece of 5 cm":                             "piece_across_mm=50",
		"5 cm in diameter":                                  "piece_across_mm=50",
		"it is 15 cm long":                                  "piece_length_mm=150",
		"900 mm long and 40 mm wide":                        "complaint piece_width_mm=40",
	})
	inches := under(t, "gel-mix")
	h, _ := sumsHearing(t)
	inches.LastUnit, _ = h.LengthUnit("6 by 4 inches")
	checkSums(t, inches, map[string]string{
		"no wait 12 x 4": "piece_length_mm=304.8 piece_width_mm=101.6",
		"it's 30 high":   "piece_height_mm=30", // 30 inches cannot be
	})
}

func TestNumbersBesideSizes(t *testing.T) {
	checkSums(t, under(t, "gel-mix"), map[string]string{
		"my sculpt is 40 squares":   "outline_squares=40",
		"the clay weighs 120 grams": "clay_g=120",
		"my cap holds 7 ml":         "measure=own own_measure_ml=7",
		"it holds 60 ml":            "sculpt_ml=60",
		"a dozen of them":           "copies=12",
		"for three noses":           "copies=3",
		"5 times":                   "copies=5",
		"twice":                     "copies=2",
		"two copies":                "copies=2",
		"for both cheeks":           "copies=2",
		"a couple of scars":         "copies=2",
		"two small barnacles":       "copies=2",
		"it takes 2 cups":           "mix_ml=473.176",
		"make it 300 grams":         "mix_g=300",
		"the wall is 25 mm from the skirt and 8 mm thick": "wall_margin_mm=25 wall_thickness_mm=8",
		"the gap to the wall is 20 mm":                    "wall_margin_mm=20",
		"I have two pounds of plaster":                    "have_plaster_g=907.185",
		"4 ounces of gelatin":                             "?4 fluid ounces ?4 ounces by weight",
		"10 oz":                                           "?10 fluid ounces ?10 ounces by weight",
		"3 t of gelatin":                                  "?3 tablespoons ?3 teaspoons",
		"two spoons of glycerin":                          "?2 tablespoons ?2 teaspoons",
		"3 tablespoons of gelatin":                        "have_gelatin_ml=44.36",
		"a 250 g tub of gelatin":                          "gelatin_pack_g=250",
		"a pack of gelatin costs 6 pounds":                "gelatin_pack_price=6",
		"the syrup is 60 percent sorbitol":                "syrup_strength_percent=60",
		"two cups of coffee":                              "",
		"5 minutes":                                       "",
		"I have 5 bottles":                                "",
		"it's 35 mm high not 30":                          "piece_height_mm=35",
		"make it twice as big":                            "",
		"it is 5 cm at its highest point":                 "piece_height_mm=50",
		"my gelatin weighs 50 grams":                      "have_gelatin_g=50",
		"a 5 kg bag of plaster costs 8 pounds":            "plaster_pack_g=5000 plaster_pack_price=8",
		"20 percent spare":                                "spare_percent=20",
		"skirt 8 mm wide and 1.5 mm thick":                "skirt_thickness_mm=1.5 skirt_width_mm=8",
		"the skirt is 1.5 mm thick":                       "skirt_thickness_mm=1.5",
		"with the sorbitol recipe, 5 scars":               "copies=5 recipe=gelatin_sorbitol_glycerin",
	})
}

func TestSumFactsFromIdleTalk(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"the clay weighs 120 grams":           "clay_g=120",
		"I have 50 g of gelatin":              "have_gelatin_g=50",
		"my cap holds 7 ml":                   "measure=own own_measure_ml=7",
		"my gelatin is 180 bloom":             "gelatin_bloom=180",
		"50 grams":                            "",
		"200 ml":                              "",
		"two tickets for the show":            "",
		"the show runs 90 minutes":            "",
		"a cup of tea for the ferryman":       "",
		"there are 40 people in tonight":      "",
		"humidity here is 45 and on stage 35": "room_humidity=45 worn_humidity=35",
		"two cups of tea for the crew":        "",
		"make it twice":                       "",
	})
}

func TestComplaintsSayWhatToDo(t *testing.T) {
	h, b := sumsHearing(t)
	c := under(t, "gel-mix")
	for words, want := range map[string]string{
		"a piece 900 mm long":         "Piece length of 900 mm is outside 5 to 600 mm: check it and tell me again with its unit.",
		"a piece 40 inches long":      "Piece length of 40 inches (1016 mm) is outside 5 to 600 mm: check it and tell me again with its unit.",
		"a piece 90 cm long":          "Piece length of 90 centimetres (900 mm) is outside 5 to 600 mm: did you mean 90 millimetres?",
		"a piece 2 yards long":        "Piece length of 2 yards (1828.8 mm) is outside 5 to 600 mm: check it and tell me again with its unit.",
		"a piece minus 5 cm long":     "Piece length cannot be less than nothing: tell me again without the minus.",
		"a piece 0 mm long":           "Piece length must be more than nothing: measure it and tell me with its unit.",
		"900 by 40 mm":                "Piece length of 900 mm is outside 5 to 600 mm: check it and tell me again with its unit.",
		"I have 90 kg of gelatin":     "Gelatin of 90 kilograms (90000 g) is outside 0.5 to 10000 g: check it and tell me again with its unit.",
		"the syrup is 200 % sorbitol": "Syrup strength of 200 % is outside 1 to 100 %: check it and tell me again with its unit.",
	} {
		if got := h.Hear(c, words).Complaint; got != want {
			t.Errorf("%q: %q\nwant %q", words, got, want)
		}
	}
	if got := said(b, h.Hear(c, "6 mm by 8 mm")); got != "piece_length_mm=6 piece_width_mm=8" {
		t.Errorf("sizes in range told %q", got)
	}
}

func TestAnswersOfAnotherKind(t *testing.T) {
	h, b := sumsHearing(t)
	for _, row := range []struct{ asked, words, want string }{
		{"piece_length_mm", "it holds 60 ml", "sculpt_ml=60"},
		{"piece_length_mm", "60 ml", "sculpt_ml=60"},
		{"piece_length_mm", "the clay weighs 120 grams", "clay_g=120"},
		{"piece_length_mm", "it's round, 2 inches across", "piece_across_mm=50.8"},
		{"piece_length_mm", "30 mm, 20 wide and 8 high", "piece_height_mm=8 piece_length_mm=30 piece_width_mm=20"},
		{"piece_length_mm", "five of them, 30 by 20 by 8 mm", "copies=5 piece_height_mm=8 piece_length_mm=30 piece_width_mm=20"},
		{"piece_length_mm", "my gelatin is 180 bloom", "gelatin_bloom=180"},
		{"tray_depth_mm", "an inch and a half deep", "tray_depth_mm=38.1"},
		{"tray_length_mm", "12 by 8 cm", "tray_length_mm=120 tray_width_mm=80"},
		{"skirt_width_mm", "10 mm wide", "skirt_width_mm=10"},
		{"mix_g", "300 ml", "mix_ml=300"},
		{"have_gelatin_g", "3 tablespoons", "have_gelatin_ml=44.36"},
		{"have_gelatin_ml", "50 grams", "have_gelatin_g=50"},
		{"room_humidity", "40, and on stage 60 percent", "room_humidity=40 worn_humidity=60"},
		{"copies", "five", "copies=5"},
		{"piece_height_mm", "how much plaster do I need for 300 ml", "amount:mould-plaster command:amounts liquid_plaster_ml=300"},
	} {
		f := b.FactByName(row.asked)
		c := under(t, "gel-mix")
		if row.asked == "room_humidity" {
			c = under(t, "keeps-size")
		}
		c.Asked = &Asked{Fact: f, Kind: f.Kind, Options: f.Options}
		if got := said(b, h.Hear(c, row.words)); got != row.want {
			t.Errorf("asked for %s, %q told %q, want %q", row.asked, row.words, got, row.want)
		}
	}
}

func TestConversions(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"how many ml in 3 tablespoons":              "convert 3 tablespoon to millilitre",
		"what's 4 oz in grams":                      "convert 4 ounce to gram",
		"what is 4 ounces in ml":                    "convert 4 fluid ounce to millilitre",
		"convert 2 cups to ml":                      "convert 2 cup to millilitre",
		"3 tbsp in ml":                              "convert 3 tablespoon to millilitre",
		"how many grams is 2 cups of plaster":       "convert 2 cup to gram plaster",
		"how many teaspoons in a tablespoon":        "convert 1 tablespoon to teaspoon",
		"how many cups is 300 g of plaster":         "convert 300 gram to cup plaster",
		"how many grams of gelatin in a tablespoon": "convert 1 tablespoon to gram gelatin-powder",
		"what does 2 cups of plaster weigh":         "convert 2 cup to gram plaster",
		"what is half a cup in millilitres":         "convert 0.5 cup to millilitre",
		"4 oz of water in grams":                    "convert 4 ounce fluid ounce to gram water",
		"what's 150 fahrenheit in celsius":          "convert 150 degree Fahrenheit to degree Celsius",
		"how many inches is 30 cm":                  "convert 30 centimetre to inch",
		"how many mm are there in 2 inches please":  "convert 2 inch to millimetre",
		"how many grams is 2 cups":                  "convert 2 cup to gram",
		"2 t in ml":                                 "convert 2 teaspoon tablespoon to millilitre",
		// No conversions.
		"how many cups of plaster do I need for 300 ml":       "amount:mould-plaster command:amounts liquid_plaster_ml=300 measure=us_cup",
		"how much water for two cups of plaster":              "amount:plaster-water command:amounts have_plaster_ml=473.176",
		"what goes into 200 ml":                               "amount:gel-mix command:amounts mix_ml=200",
		"how many ml":                                         "",
		"a tablespoon of gelatin in a cup":                    "have_gelatin_ml=14.787",
		"how much gelatin for a piece of 6 inches in cm long": "amount:gel-mix command:amounts",
	})
}

func TestSumsBesideATrouble(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for words, want := range map[string]string{
		"plaster is running out under the wall, how much plaster for a second mix": "dam-leaks",
		"my dam is leaking how much plaster do I need for another one":             "dam-leaks",
		"how much plaster do I need for a six by four inch tray":                   "",
		"how much gelatin for 5 barnacles, 30 by 20 by 8 millimetres":              "",
		"how much plaster for the ferryman's nose piece":                           "",
		"how much gelatin for two rope scars":                                      "",
		"how much glycerin do I need":                                              "",
		"how much gelatin do I need for the crew tonight":                          "",
	} {
		m := h.Hear(Context{}, words)
		if m.Amount == "" || m.Problem != want || m.Elsewhere != "" || len(m.Alternatives) > 0 {
			t.Errorf("%q: sum %q, problem %q, elsewhere %q, alternatives %v; want problem %q", words, m.Amount, m.Problem, m.Elsewhere, m.Alternatives, want)
		}
	}
}

// No amount is worked out for what is refused in any amount.
func TestNoSumForPlasterOnABody(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, words := range []string{
		"how much plaster for a cast of my hand",
		"how much plaster do I need to cast my own face",
		"how much plaster to pour over his arm",
		"how much plaster for a hand",
		"how many cups of plaster do I need for my left foot",
		"whats the amount of plaster for the actors face",
		"how much plaster for my nose, 50 by 40 by 30 mm",
	} {
		if m := h.Hear(Context{}, words); m.Elsewhere != "cast-on-skin" || m.Amount != "" {
			t.Errorf("%q: sum %q, elsewhere %q", words, m.Amount, m.Elsewhere)
		}
	}
}
