package hear

import (
	"testing"

	"sparehand/internal/book"
)

// No amount is worked out for a body, a child or an animal, in whatever words;
// what only names one is heard as before. (Common practice, no source; the
// cautions behind it are in rules/safety/cautions.yaml.)
func TestBodiesAreRefused(t *testing.T) {
	h := New(realBook(t))
	for _, words := range []string{
		"belly bump plaster 40x40x20cm how much",
		"plaster for his bum 30 by 30 by 15 cm",
		"how much plaster for my buttocks 30x30x10 cm",
		"how much plaster for a live model 30 by 20 by 15 cm",
		"how much plaster for my pal's noggin 25x20x15 cm",
		"how much plaster to fix a broken leg 300 by 100 by 100 mm",
		"how much plaster for a mould of myself 20x15x10 cm",
		"how much plaster for my scalp 20x15x10 cm",
		"how much plaster for a handcast, 20x10x10 cm",
		"plaster for a toddlers hand print 12x12x3 cm",
		"how much plaster for my babys footprint 10x6x3 cm",
		"plaster for mouth and teeth 6x5x3 cm",
		"how much plaster for the tongue 5x4x2cm",
		"plaster over my eye 4x4x2 cm how much",
		"how much plaster for my dog's paw 6 by 6 by 3 cm",
		"plaster for my hamster 8x4x4 cm how much",
		"how much plaster for my horse's hoof 15x15x8 cm",
		"how much plaster do twelve pupils need if each puts a hand in a 1 litre tub",
		"could you please tell me how much plaster I would need to take a mould of my pregnant belly",
		"how much plaster for a lifecast of an ear",
		"how much plaster for a child",
		"how much plaster to pour on him",
		"how much plaster for a boob cast",
		"plaster hand cast 200 x 100 x 60 mm",
		"plaster 4 my tummy 30x30x10cm",
		"cat paw print in plaster 10 by 10 by 3 cm",
		"plaster quantity, model: human hand, 200x100x60 mm",
		"can children touch the setting plaster",
		"how much gelatin to dip my hand in, 2 litres",
		"at what temperature is gelatin safe on a childs skin",
		"gelatin life mould of my hand, how much for 20 by 10 by 6 cm",
	} {
		if m := h.Hear(Context{}, words); m.Elsewhere != "cast-on-skin" && m.Emergency == "" || m.Amount != "" {
			t.Errorf("%q: sum %q, elsewhere %q, emergency %q", words, m.Amount, m.Elsewhere, m.Emergency)
		}
	}
}

// While a sum of plaster is under way a body part alone says what it is for.
func TestBodyInASumUnderWay(t *testing.T) {
	b := realBook(t)
	h := New(b)
	var plasterSum *book.Amount
	for _, a := range b.Amounts {
		if a.ID == "mould-plaster" {
			plasterSum = a
		}
	}
	for _, words := range []string{
		"it's my daughter's foot", "no wait, it's for my dog's paw", "its going on the kids cheek", "on skin",
		"then I put my fingers in while it sets", "it's to dip both hands in", "each of the children dips a hand in",
		"the skin is greased first", "round my knee", "hand 20 by 10 by 6 cm",
	} {
		if m := h.Hear(Context{Sums: []*book.Amount{plasterSum}}, words); m.Elsewhere != "cast-on-skin" && m.Emergency == "" && m.MaybeEmergency == "" {
			t.Errorf("%q: sum %q, elsewhere %q, facts %v", words, m.Amount, m.Elsewhere, m.Facts)
		}
	}
}

func TestNamingABodyPartIsNoRefusal(t *testing.T) {
	h := New(realBook(t))
	for _, words := range []string{
		"how much plaster for a nose piece 60 by 40 by 30 mm",
		"how much plaster for the ferryman's nose piece",
		"how much plaster do I need, my hands are full",
		"how much plaster for a hand prop of clay 180 by 90 by 40 mm",
		"how much plaster for the foot of the wall",
		"there are holes in the face of the mould, how much plaster to fill them",
		"how much plaster for a barnacle for his cheek, 110 by 80 by 18 mm",
		"how much plaster for a six foot by one foot tray",
		"how much plaster for a tray 20 by 15 cm, two fingers deep",
		"how much plaster for twelve students, 60 by 40 by 20 mm each",
		"tell me how much plaster I need for 100 by 80 by 20 mm",
		"how much glue for the cheek piece",
		"how much gelatin for the ferryman's cheek, 110 by 80 by 18 mm",
		"plaster on my hand, how do I wash it off",
		"is 55 degrees safe on skin",
	} {
		if m := h.Hear(Context{}, words); m.Elsewhere == "cast-on-skin" {
			t.Errorf("%q is refused", words)
		}
	}
}
