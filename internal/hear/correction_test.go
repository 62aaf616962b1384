package hear

import "testing"

// The words of these tables are common practice, no source.
func TestCorrectionsWithoutAName(t *testing.T) {
	c := under(t, "mould-plaster")
	h, _ := sumsHearing(t)
	c.LastUnit, _ = h.LengthUnit("110 by 80 mm")
	any := "?Piece height: 120 millimetres ?Piece length: 120 millimetres ?Piece width: 120 millimetres"
	checkSums(t, c, map[string]string{
		"no sorry 120":           any,
		"no i meant 120 mm":      any,
		"no wait, 120 by 70":     "piece_length_mm=120 piece_width_mm=70",
		"the width is 70 not 80": "piece_width_mm=70",
	})
	checkSums(t, under(t, "gel-mix"), map[string]string{
		"actually make it fourteen": "copies=14",
		"actually fourteen of them": "copies=14",
		"make it 200 ml":            "mix_ml=200",
		"gelatin and glycerin":      "recipe=gelatin_glycerin",
		"the glycerin one":          "recipe=gelatin_glycerin",
	})
	checkSums(t, asksSum(t, "copies", "gel-mix"), map[string]string{"no sorry 6": "copies=6"})
	checkSums(t, asksSum(t, "piece_height_mm", "gel-mix"), map[string]string{"no sorry 120 mm": any, "no ruler": "not-sure", "dunno": "not-sure"})
	checkSums(t, Context{}, map[string]string{"forget that": "command:back", "i forget": "not-sure"})
}

func TestMoreSizes(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"how much plaster for one ten by eighty by eighteen mm":                   "amount:mould-plaster command:amounts piece_height_mm=18 piece_length_mm=110 piece_width_mm=80",
		"how much gelatin for twelve barnacles, each 25 mm across and 12 mm high": "amount:gel-mix command:amounts copies=12 piece_across_mm=25 piece_height_mm=12",
		"how much gelatin 110 80 18":                                              "amount:gel-mix command:amounts piece_height_mm=18 piece_length_mm=110 piece_width_mm=80",
		"how much gelatin 2 mm thick all over 20 by 15 cm":                        "amount:gel-mix command:amounts tray_depth_mm=2 tray_length_mm=200 tray_width_mm=150",
		"how much gelatin for a flat slab 20 by 15 cm, 2 mm thick":                "amount:gel-mix command:amounts tray_depth_mm=2 tray_length_mm=200 tray_width_mm=150",
		"a sheet of gelatin 30 by 20 cm and 3 mm thick how much mix":              "amount:gel-mix command:amounts tray_depth_mm=3 tray_length_mm=300 tray_width_mm=200",
		"how much gelatin for a tray 20 by 15 cm 3 deep":                          "amount:gel-mix command:amounts tray_depth_mm=30 tray_length_mm=200 tray_width_mm=150",
		`how much plaster for 1' by 6" by 3"`:                                     "amount:mould-plaster command:amounts piece_height_mm=76.2 piece_length_mm=304.8 piece_width_mm=152.4",
		"ring me on 110 80 18":                                                    "",
	})
	h, _ := sumsHearing(t)
	for words, want := range map[string]string{
		"how much plaster for 5 miles by 2 by 1 inch":       "5 miles is no size of a piece: give me inches, centimetres or millimetres.",
		"how much plaster for a piece 2 m by 0.1 m by 3 cm": "Piece length of 2 metres (2000 mm) is outside 5 to 600 mm: check it and tell me again with its unit.",
	} {
		if got := h.Hear(Context{}, words).Complaint; got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}
