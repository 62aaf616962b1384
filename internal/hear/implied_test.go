package hear

import "testing"

// The words of these tables are common practice, no source.
func TestSumsInOtherOrders(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"how many spoons of gelatin for a barnacle 30 by 30 by 10 mm":             "amount:gel-mix command:amounts measure=spoons piece_height_mm=10 piece_length_mm=30 piece_width_mm=30",
		"plasta for a scar six by two inch an inch high how much":                 "amount:mould-plaster command:amounts piece_height_mm=25.4 piece_length_mm=152.4 piece_width_mm=50.8",
		"need plaster tray ten by eight inches three quarters deep":               "amount:mould-plaster command:amounts tray_depth_mm=19.05 tray_length_mm=254 tray_width_mm=203.2",
		"how many ounces of plaster for six by four by one inch":                  "amount:mould-plaster command:amounts piece_height_mm=25.4 piece_length_mm=152.4 piece_width_mm=101.6",
		"my bowl holds one litre, how many batches for 6 by 4 by 1 inches":        "amount:bowls bowl_ml=1000 command:amounts piece_height_mm=25.4 piece_length_mm=152.4 piece_width_mm=101.6",
		"my microwave is 800 watt, two hundred and fifty grams, how long":         "amount:microwave command:amounts microwave_w=800 mix_g=250",
		"how long to reheat 250 ml at 1000 watts":                                 "amount:microwave command:amounts microwave_w=1000 mix_ml=250",
		"how many minutes in the microwave for 300 g at 800 w":                    "amount:microwave command:amounts microwave_w=800 mix_g=300",
		"i need half a litre of liquid plaster":                                   "amount:mould-plaster command:amounts liquid_plaster_ml=500",
		"300 grams of gelatin glycerin mix how much of each":                      "amount:gel-mix command:amounts mix_g=300 recipe=gelatin_glycerin",
		"i need 300 g of mix with sorbitol how much of each":                      "amount:gel-mix command:amounts mix_g=300 recipe=gelatin_sorbitol_glycerin",
		"plaster for the ferryman's nose piece, 60 by 40 by 30 mm":                "amount:mould-plaster command:amounts piece_height_mm=30 piece_length_mm=60 piece_width_mm=40",
		"how many cups of plaster for 60 by 40 by 30 mm":                          "amount:mould-plaster command:amounts measure=us_cup piece_height_mm=30 piece_length_mm=60 piece_width_mm=40",
		"how much gelatin for 200 ml in cups":                                     "amount:gel-mix command:amounts measure=us_cup mix_ml=200",
		"how many caps of gelatin for it":                                         "amount:gel-mix command:amounts measure=own",
		"plaster 110 80 18":                                                       "amount:mould-plaster command:amounts piece_height_mm=18 piece_length_mm=110 piece_width_mm=80",
		"how much syrup from 70 g sorbitol powder":                                "amount:syrup-from-powder command:amounts sorbitol_powder_g=70",
		"how much gelatin to fill a mould that holds 80 ml, gelatin and glycerin": "amount:gel-mix command:amounts mix_ml=80 recipe=gelatin_glycerin",
		"i have 200 g of mix left how many barnacles 30 by 30 by 15 mm":           "amount:copies-from-mix command:amounts have_mix_g=200 piece_height_mm=15 piece_length_mm=30 piece_width_mm=30",
		"how many barnacles can i get from 300 g of mix":                          "amount:copies-from-mix command:amounts have_mix_g=300",
		"where do i store it":                                                     "amount:storing command:amounts",
		"how much mix for 100 ml with sorbitol":                                   "amount:gel-mix command:amounts mix_ml=100 recipe=gelatin_sorbitol_glycerin",
		"what do i need for 3 scars 100 by 20 by 6 mm":                            "command:amounts copies=3 piece_height_mm=6 piece_length_mm=100 piece_width_mm=20",
		// no requests
		"what do we need for tonight":              "",
		"i need the plaster to set faster":         "",
		"how many tickets are left for 30 people":  "",
		"how many chairs do we need for 40 people": "",
		"half the cast is ill":                     "",
		"i want the gelatin to be softer":          "",
		"gelatin and plaster are on the shelf":     "",
		"how many days until the show":             "",
	})
	checkSums(t, under(t, "mould-plaster"), map[string]string{"how many caps of gelatin for it": "amount:gel-mix command:amounts measure=own"})
}

func TestSeveralSumsInOneBreath(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"how much plaster and gelatin for a piece 110 by 80 by 18 mm with sorbitol in cups": "amount:mould-plaster command:amounts measure=us_cup piece_height_mm=18 piece_length_mm=110 piece_width_mm=80 recipe=gelatin_sorbitol_glycerin sums:mould-plaster+gel-mix",
		"gelatin, glycerin and plaster, and glue, for 3 scars":                              "amount:gel-mix command:amounts copies=3 sums:gel-mix+mould-plaster+glue",
		"how much clay for the sculpt and for the wall":                                     "amount:sculpt-clay command:amounts sums:sculpt-clay+wall-clay",
		"how much gelatin and how long until it sets, 12 mm thick":                          "amount:gel-mix command:amounts piece_height_mm=12 sums:gel-mix+sets",
		"how much plaster, and how much glue for 60 by 40 by 20 mm":                         "amount:mould-plaster command:amounts piece_height_mm=20 piece_length_mm=60 piece_width_mm=40 sums:mould-plaster+glue",
		"how much gelatin and glycerin":                                                     "amount:gel-mix command:amounts",
	})
	h, _ := sumsHearing(t)
	if m := h.Hear(Context{}, "how much plaster"); len(m.Amounts) != 1 || m.Amounts[0] != m.Amount {
		t.Errorf("one sum is listed as %v", m.Amounts)
	}
	want := "One piece at a time: tell me how many of one size, and ask again for the others."
	for _, words := range []string{
		"how much gelatin for 5 barnacles 30 by 20 by 8 and 2 scars 100 by 20 by 6",
		"how much gelatin for a nose 50 by 40 by 20 mm and a chin 60 by 40 by 15 mm",
	} {
		if m := h.Hear(Context{}, words); m.Complaint != want || len(m.Facts) > 0 || len(m.Readings) > 0 {
			t.Errorf("%q: complaint %q, %d facts", words, m.Complaint, len(m.Facts))
		}
	}
}
