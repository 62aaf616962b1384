package hear

import "testing"

// The words of these tables are common practice, no source. Kilogram 1000 g,
// pound 453.592 g: NIST Handbook 44, Appendix C.
func TestWeightsWithoutAName(t *testing.T) {
	ofPlaster := map[string]string{
		"I've got 800 g":        "have_plaster_g=800",
		"is 1 kg enough":        "have_plaster_g=1000",
		"is a kilo enough":      "have_plaster_g=1000",
		"will 700 grams do":     "have_plaster_g=700",
		"only 2 lb":             "have_plaster_g=907.185",
		"the clay weighs 200 g": "clay_g=200",
		"it weighs 200 g":       "clay_g=200",
		"the sculpt is 300 g":   "clay_g=300",
		"200 g of clay":         "clay_g=200",
	}
	checkSums(t, under(t, "mould-plaster"), ofPlaster)
	checkSums(t, asksSum(t, "piece_length_mm", "mould-plaster"), ofPlaster)
	checkSums(t, under(t, "mould-plaster"), map[string]string{
		"my back hurts so keep it under 2 kg": "complaint",
		"no more than 2 kg please":            "complaint",
		"10 ounces":                           "?10 fluid ounces ?10 ounces by weight",
	})
	checkSums(t, under(t, "gel-mix"), map[string]string{
		"800 g":             "mix_g=800",
		"I've got 800 g":    "?Gelatin: 800 grams ?Glycerin: 800 grams ?Mix: 800 grams",
		"will 700 grams do": "?Gelatin: 700 grams ?Glycerin: 700 grams ?Mix: 700 grams",
		"it weighs 200 g":   "clay_g=200",
	})
	checkSums(t, under(t, "gel-mix", "mould-plaster"), map[string]string{
		"is 1 kg enough": "?Gelatin: 1 kilogram ?Mix: 1 kilogram ?Plaster: 1 kilogram",
	})
	checkSums(t, Context{}, map[string]string{
		"will 700 grams do":                   "",
		"how much plaster for a 300 g sculpt": "amount:mould-plaster clay_g=300 command:amounts",
	})
}

func TestAskingWhetherThereIsEnough(t *testing.T) {
	sizes := " piece_height_mm=18 piece_length_mm=110 piece_width_mm=80"
	checkSums(t, Context{}, map[string]string{
		"do I have enough plaster, 1 kg, for 110 by 80 by 18 mm":                  "amount:mould-plaster command:amounts have_plaster_g=1000" + sizes,
		"I have 2 lb of plaster, is it enough for 110 by 80 by 18 mm":             "amount:mould-plaster command:amounts have_plaster_g=907.185" + sizes,
		"is 2 kg of plaster enough for 110 by 80 by 18 mm":                        "amount:mould-plaster command:amounts have_plaster_g=2000" + sizes,
		"I have 50 g of gelatin, is that enough for 6 barnacles 30 by 20 by 8 mm": "amount:gel-mix command:amounts copies=6 have_gelatin_g=50 piece_height_mm=8 piece_length_mm=30 piece_width_mm=20",
		"is the plaster thick enough":                                             "",
		"is it warm enough":                                                       "command:is-it-ready",
	})
}

func TestOwnMeasureWithItsSize(t *testing.T) {
	want := map[string]string{"with a 50 ml shot glass": "measure=own own_measure_ml=50", "using my 7 ml cap": "measure=own own_measure_ml=7"}
	checkSums(t, Context{}, want)
	checkSums(t, under(t, "gel-mix"), want)
	checkSums(t, under(t, "mould-plaster"), want)
	checkSums(t, Context{}, map[string]string{
		"how much gelatin for 30 by 20 by 8 mm with a 50 ml shot glass": "amount:gel-mix command:amounts measure=own own_measure_ml=50 piece_height_mm=8 piece_length_mm=30 piece_width_mm=20",
	})
}

func TestWhatIsMeasuredWith(t *testing.T) {
	for _, c := range []Context{under(t, "gel-mix"), under(t, "mould-plaster"), asksSum(t, "measure", "gel-mix")} {
		checkSums(t, c, map[string]string{
			"in cups": "measure=us_cup", "I use US cups": "measure=us_cup", "in metric cups": "measure=metric_cup",
			"no wait, 90 by 80 mm": "piece_length_mm=90 piece_width_mm=80", "the height is 20 mm": "piece_height_mm=20",
		})
	}
	checkSums(t, asksSum(t, "measure", "gel-mix"), map[string]string{
		"a cup": "measure=us_cup", "by wieght": "measure=scales", "300 grams": "mix_g=300", "3 tablespoons": "mix_ml=44.36",
	})
	checkSums(t, asksSum(t, "measure", "mould-plaster"), map[string]string{"will 700 grams do": "have_plaster_g=700"})
}
