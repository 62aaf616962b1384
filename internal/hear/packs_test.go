package hear

import "testing"

// The words of these tables are common practice, no source. US pint 473.176
// ml, US quart 946.353 ml: NIST Handbook 44, Appendix C; imperial pint 568.261
// ml: UK Units of Measurement Regulations 1995.
func TestPacks(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"i have 3 packets, one is 7 grams, how much glycerin":         "amount:gel-mix command:amounts have_gelatin_g=21",
		"i have 6 sachets of 12 g each of gelatin, how much glycerin": "amount:gel-mix command:amounts have_gelatin_g=72",
		"ten sachets of gelatin, 11 grams each, how much glycerin":    "amount:gel-mix command:amounts have_gelatin_g=110",
		"a packet of 12 g how much glycerin":                          "amount:gel-mix command:amounts have_gelatin_g=12",
		"2 bags of plaster, 5 kg each":                                "have_plaster_g=10000",
		"a 250 g tub of gelatin":                                      "gelatin_pack_g=250",
	})
	checkSums(t, under(t, "gel-mix"), map[string]string{
		"6 sachets of 12 g each":  "have_gelatin_g=72",
		"each cast takes 5 grams": "complaint",
		"each one holds 5 ml":     "sculpt_ml=5",
	})
	checkSums(t, asksSum(t, "have_gelatin_g", "gel-mix"), map[string]string{
		"6 sachets of 12 g each": "have_gelatin_g=72",
		"about a cup":            "have_gelatin_ml=236.588",
		"about half a bag":       "complaint",
	})
	checkSums(t, asksSum(t, "mix_g", "gel-mix"), map[string]string{
		"about a cup": "mix_ml=236.588", "two fifty": "mix_g=250", "a couple of hundred grams": "mix_g=200", "dunno": "not-sure",
	})
}

func TestPintsOfTwoKinds(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"how much plaster for 2 pints of water": "?2 US pints ?2 imperial pints amount:mould-plaster command:amounts",
		"how much mix for a quart":              "?1 US quart ?1 imperial quart amount:gel-mix command:amounts",
		"how much mix for 1 us pint":            "amount:gel-mix command:amounts mix_ml=473.176",
		"how much mix for an imperial pint":     "amount:gel-mix command:amounts mix_ml=568.261",
		"how much mix for 2 cups":               "amount:gel-mix command:amounts mix_ml=473.176",
		"how many ml in a UK pint":              "convert 1 imperial pint to millilitre",
		"how many ml in 3 US pints":             "convert 3 pint to millilitre",
		"how many ml in a pint":                 "convert 1 US pint imperial pint to millilitre",
	})
}
