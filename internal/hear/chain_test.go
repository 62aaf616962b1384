package hear

import (
	"testing"

	"sparehand/internal/book"
)

// The words of these tables are common practice, no source. Foot 304.8 mm,
// inch 25.4 mm: NIST Handbook 44, Appendix C.
func TestChainsOfSizes(t *testing.T) {
	sizes := "piece_height_mm=18 piece_length_mm=110 piece_width_mm=80"
	plaster := "amount:mould-plaster command:amounts "
	checkSums(t, Context{}, map[string]string{
		"how much plaster for hundred and ten by eighty by eighteen mm":  plaster + sizes,
		"how much plaster for hundred ten by eighty by eighteen mm":      plaster + sizes,
		"how much plaster for a few hundred grams":                       "amount:mould-plaster command:amounts",
		"how much plaster for 10 cm by 80 mm by 2":                       "?2 centimetres ?2 millimetres amount:mould-plaster command:amounts piece_length_mm=100 piece_width_mm=80",
		"how much plaster for 10 cm by 8 cm by 2":                        plaster + "piece_height_mm=20 piece_length_mm=100 piece_width_mm=80",
		"how much plaster for 10 cm by 8 by 2":                           plaster + "piece_height_mm=20 piece_length_mm=100 piece_width_mm=80",
		"how much gelatin for 11.5 cm, 8.2 cm, 1.8 cm":                   "amount:gel-mix command:amounts piece_height_mm=18 piece_length_mm=115 piece_width_mm=82",
		"how much plaster for 1e3":                                       "amount:mould-plaster command:amounts",
		"how much plaster for 1e3 ml":                                    plaster + "liquid_plaster_ml=1000",
		"how much plaster, the wall is a foot long and half a foot wide": "amount:mould-plaster command:amounts",
		"how much plaster, it is a foot long and half a foot wide":       plaster + "piece_length_mm=304.8 piece_width_mm=152.4",
	})
	checkSums(t, under(t, "mould-plaster"), map[string]string{
		"11.5 cm, 8.2 cm, 1.8 cm":    "piece_height_mm=18 piece_length_mm=115 piece_width_mm=82",
		"11.5 cm, 8.2 cm and 1.8 cm": "piece_height_mm=18 piece_length_mm=115 piece_width_mm=82",
	})
}

func TestTerseRequests(t *testing.T) {
	plaster := "amount:mould-plaster command:amounts "
	checkSums(t, Context{}, map[string]string{
		"hurry plaster 4x3x1 inch quick":                                 plaster + "piece_height_mm=25.4 piece_length_mm=101.6 piece_width_mm=76.2",
		"100 by 80 by 20 mm plaster":                                     plaster + "piece_height_mm=20 piece_length_mm=100 piece_width_mm=80",
		"elbow grease aside, how much plaster for 110 by 80 by 18 mm":    plaster + "piece_height_mm=18 piece_length_mm=110 piece_width_mm=80",
		"a nose sculpted in clay 50 by 40 by 25 mm how much plaster":     plaster + "piece_height_mm=25 piece_length_mm=50 piece_width_mm=40",
		"how much plaster for a nose sculpted in clay 50 by 40 by 25 mm": plaster + "piece_height_mm=25 piece_length_mm=50 piece_width_mm=40",
		"250 g mix, gelatin and glycerin, how much of each":              "amount:gel-mix command:amounts mix_g=250 recipe=gelatin_glycerin",
		"a dozen barnacles 30x20x8 mm gelatin and glycerin how much":     "amount:gel-mix command:amounts copies=12 piece_height_mm=8 piece_length_mm=30 piece_width_mm=20 recipe=gelatin_glycerin",
		"half a dozen barnacles 30 by 20 by 8 mm how much sorbitol mix":  "amount:gel-mix command:amounts copies=6 piece_height_mm=8 piece_length_mm=30 piece_width_mm=20 recipe=gelatin_sorbitol_glycerin",
		"how much gelatin and water for 20 by 10 by 5 mm":                "amount:gel-mix command:amounts piece_height_mm=5 piece_length_mm=20 piece_width_mm=10 recipe=gelatin_water",
		"how much gelatin and glycerin for 20 by 10 by 5 mm":             "amount:gel-mix command:amounts piece_height_mm=5 piece_length_mm=20 piece_width_mm=10",
	})
}

func TestCopiesManyWays(t *testing.T) {
	barnacle := " piece_height_mm=8 piece_length_mm=30 piece_width_mm=20"
	gel := "amount:gel-mix command:amounts copies="
	checkSums(t, Context{}, map[string]string{
		"how much gelatin for 5 pieces 30 by 20 by 8 mm":                       gel + "5" + barnacle,
		"how much gelatin for six pieces of 30 by 20 by 8 mm":                  gel + "6" + barnacle,
		"how much gelatin for 6x 30x20x8 mm":                                   gel + "6" + barnacle,
		"how much gelatin for six times 30 by 20 by 8 mm":                      gel + "6" + barnacle,
		"how much gelatin for a class of twelve 30 by 20 by 8 mm":              gel + "12" + barnacle,
		"how much gelatin for one and a half dozen copies of 30 by 20 by 8 mm": gel + "18" + barnacle,
		"how much gelatin for a dozen and a half barnacles 30 by 20 by 8 mm":   gel + "18" + barnacle,
		"how much gelatin for 30 by 20 by 8 mm":                                "amount:gel-mix command:amounts" + barnacle,
	})
	checkSums(t, under(t, "gel-mix"), map[string]string{
		"for 5 pieces": "copies=5", "a dozen and a half": "copies=18", "I made a few casts already": "", "3 ml holds copies": "mix_ml=3",
	})
	h, _ := sumsHearing(t)
	for _, said := range []string{"a few copies", "2.5 copies", "0 copies", "-2 copies", "1000 copies", "for several barnacles"} {
		for _, words := range []string{said, "how much gelatin for " + said + " 30 by 20 by 8 mm"} {
			m := h.Hear(under(t, "gel-mix"), words)
			if want := "Tell me how many copies, a whole number from 1 to 100."; m.Complaint != want || len(m.Facts) > 0 || len(m.Readings) > 0 {
				t.Errorf("%q: complaint %q, %d facts", words, m.Complaint, len(m.Facts))
			}
		}
	}
}

func TestNoNumbersOfAMeasure(t *testing.T) {
	checkSums(t, under(t, "microwave"), map[string]string{"we have two microwaves": ""})
	checkSums(t, Context{}, map[string]string{"we have two microwaves": ""})
	h := New(realBook(t))
	for _, words := range []string{"how much will it cost, packs of 250 g at 9.50", "elbow grease aside", "the height is 20 mm"} {
		for _, told := range h.Hear(Context{}, words).Facts {
			if name := h.book.Facts[told.Fact].Name; name != "piece_height_mm" {
				t.Errorf("%q told %s", words, name)
			}
		}
	}
}

func TestMouldsCounted(t *testing.T) {
	b := realBook(t)
	want := "amount:mould-plaster command:amounts moulds=7 piece_height_mm=18 piece_length_mm=110 piece_width_mm=80"
	if got := said(b, New(b).Hear(Context{}, "how much plaster for seven moulds of 110 by 80 by 18 mm")); got != want {
		t.Errorf("seven moulds told %q", got)
	}
}

// After a sum of plaster, "it" and the water are the plaster's.
func TestPlasterIsIt(t *testing.T) {
	b := realBook(t)
	h := New(b)
	sums := func(id string) []*book.Amount {
		for _, a := range b.Amounts {
			if a.ID == id {
				return []*book.Amount{a}
			}
		}
		t.Fatalf("the book has no sum %s", id)
		return nil
	}
	for _, row := range []struct{ under, words, want string }{
		{"mould-plaster", "how long till it sets", "plaster-sets"},
		{"mould-plaster", "how long until it is hard", "plaster-sets"},
		{"mould-plaster", "how hot does it get", "plaster-heat"},
		{"mould-plaster", "and how much water", "mould-plaster"},
		{"mould-plaster", "how much water for 2 kg", "water-for-plaster"},
		{"mould-plaster", "how long until the cast sets", "sets-in-mould"},
		{"mould-plaster", "when can I demould it", "sets-in-mould"},
		{"gel-mix", "how long till it sets", "sets-in-mould"},
		{"", "how long till the plaster sets", "plaster-sets"},
		{"", "how long till the plaster sets 18 mm", "plaster-sets"},
		{"", "how long until the plaster is hard", "plaster-sets"},
		{"", "how long until it sets", "sets-in-mould"},
		{"", "1000 g of plaster how much water", "water-for-plaster"},
	} {
		var c Context
		if row.under != "" {
			c.Sums = sums(row.under)
		}
		if m := h.Hear(c, row.words); m.Amount != row.want {
			t.Errorf("after %q, %q asks for %q, want %q", row.under, row.words, m.Amount, row.want)
		}
	}
}

func TestHowSure(t *testing.T) {
	h := New(realBook(t))
	for _, words := range []string{"how sure", "how sure is it", "how sure is that", "how sure are you"} {
		if m := h.Hear(Context{}, words); m.Command != "others" {
			t.Errorf("%q is the command %q", words, m.Command)
		}
	}
}

// A unit alone picks the one reading that is told in it.
func TestUnitsAnswerWhichWasMeant(t *testing.T) {
	h := New(realBook(t))
	which := func(labels ...string) Context {
		var list []book.Option
		for _, label := range labels {
			list = append(list, book.Option{Value: label, Label: label})
		}
		return Context{Asked: &Asked{Special: AskMeaning, Options: list}}
	}
	sizes := which("6 by 4 by 1 inches", "6 by 4 by 1 centimetres")
	for words, want := range map[string]int{"cm": 2, "in cm": 2, "centimetres please": 2, "inches": 1, "no, cm": 2, "the first one": 1, "mm": 0} {
		if m := h.Hear(sizes, words); m.Pick != want {
			t.Errorf("%q picks %d, want %d", words, m.Pick, want)
		}
	}
	if m := h.Hear(which("Piece length: 12 millimetres", "Piece width: 12 millimetres"), "mm"); m.Pick != 0 {
		t.Errorf("a unit of both picks %d", m.Pick)
	}
}
