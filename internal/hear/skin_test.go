package hear

import "testing"

// The words of these tables are common practice, no source: what people say at
// a bench. Why plaster is never sized for a body part: it reaches about 60 C
// and cannot be pulled off (DGUV, IFA project 3148, 2018).
func TestNoPlasterForABodyPart(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, words := range []string{
		"how much plaster do i need to do my friends arm it is 40 cm by 10 by 10 cm",
		"how much plaster for a bowl to put my foot in, 30 by 15 by 15 cm",
		"how much plaster for a head 200 by 150 by 120 mm",
		"how much plaster to pour round my finger",
		"plaster for my foot 25 by 10 by 8 cm how much",
		"i want to pour plaster over my friends arm how much",
		"plaster for my hand",
		"plaster for a foot",
		"need enough plaster for both hands",
		"what amount of plaster covers my whole arm",
		"how much plaster to cast my mates leg",
		"somebodys ear how much plaster",
		"how much plaster for the ferryman's face",
		"a bucket for my arm, 2 litres of plaster, how much powder",
		"how much plaster to pour over his arm for a nose piece",
		"how long do i leave plaster on my face",
		"i need plaster for my brother's hand, 20 by 10 by 5 cm",
	} {
		if m := h.Hear(Context{}, words); m.Elsewhere != "cast-on-skin" || m.Amount != "" || m.Emergency != "" {
			t.Errorf("%q: sum %q, elsewhere %q, emergency %q", words, m.Amount, m.Elsewhere, m.Emergency)
		}
	}
	for _, words := range []string{
		"how much plaster, my hands are full",
		"how much plaster for a nose piece",
		"how much plaster for the ferryman's nose piece 60 by 40",
		"how much plaster for a barnacle, it sits on his cheek, 30 by 30 by 10 mm",
		"how much plaster for rope scars on the ferryman's arm, 100 by 20 by 6 mm",
		"how much plaster for a foot long tray",
		"how much plaster for a tray three quarters of a foot long",
		"how much plaster for my tray, 2 feet by 1 foot by 1 inch",
		"off the top of my head how much plaster for 60 by 40 by 20 mm",
	} {
		if m := h.Hear(Context{}, words); m.Elsewhere != "" || m.Amount != "mould-plaster" {
			t.Errorf("%q: sum %q, elsewhere %q", words, m.Amount, m.Elsewhere)
		}
	}
	if m := h.Hear(Context{}, "plaster on my hand, how do I wash it off"); m.Elsewhere != "" {
		t.Errorf("washing plaster off is refused")
	}
	var c Context
	for _, a := range b.Amounts {
		if a.ID == "mould-plaster" {
			c.Sums = append(c.Sums, a)
		}
	}
	for _, words := range []string{"for my foot", "it's for a cast of my hand", "it is my friends arm, 40 by 10 by 10 cm"} {
		if m := h.Hear(c, words); m.Elsewhere != "cast-on-skin" || len(m.Facts) > 0 {
			t.Errorf("with plaster under way %q: elsewhere %q, %s", words, m.Elsewhere, said(b, m))
		}
	}
	if m := h.Hear(c, "my hands are full"); m.Elsewhere != "" {
		t.Errorf("full hands are refused")
	}
}

func TestHeatOnSkin(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for words, want := range map[string]string{
		"can i put it on skin at 50 degrees":               "amount:heat-on-skin command:amounts contact_c=50",
		"is 45 degrees ok on skin":                         "amount:heat-on-skin command:amounts contact_c=45",
		"mix is 50 degrees can i brush it on his face":     "amount:heat-on-skin command:amounts contact_c=50",
		"can i put it on my face at 55 degrees":            "amount:heat-on-skin command:amounts contact_c=55",
		"is it safe to put on at 110 fahrenheit":           "amount:heat-on-skin command:amounts contact_c=43.333", // (110 - 32) x 5/9
		"will it burn me at 60 degrees":                    "amount:heat-on-skin command:amounts contact_c=60",
		"can i paint it on at 42":                          "amount:heat-on-skin command:amounts contact_c=42",
		"can the actor wear it at 45 degrees":              "amount:heat-on-skin command:amounts contact_c=45",
		"would 45 c hurt my face":                          "amount:heat-on-skin command:amounts contact_c=45",
		"how hot can the gelatin be when i put it on skin": "elsewhere:cast-on-skin",
		"how warm should the gelatin be on his face":       "elsewhere:cast-on-skin",
		"my hand is stuck in the plaster":                  "emergency:plaster-burn",
		"hot gelatin on his face, it was 70 degrees":       "emergency:hot-gel-burn",
		"is it ok that he burned his hand at 60 degrees":   "emergency:hot-gel-burn",
		"it burned me at 60 degrees":                       "emergency:hot-gel-burn",
	} {
		if got := said(b, h.Hear(Context{}, words)); got != want {
			t.Errorf("%q told %q, want %q", words, got, want)
		}
	}
	for _, words := range []string{"will he be ok, the gelatin was 70 degrees and it is on his face", "can I put it on the mould at 50 degrees"} {
		if m := h.Hear(Context{}, words); m.Amount != "" {
			t.Errorf("%q asks for %s", words, m.Amount)
		}
	}
}
