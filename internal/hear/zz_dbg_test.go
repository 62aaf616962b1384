package hear

import (
	"fmt"
	"testing"
)

func TestZZDbg(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, w := range []string{"the gelatin's set on my scald, leave it or pull it off", "my lad's knocked the pan and it's all over his thigh, it was bubbling", "granny took a swig of the mould release because it was in a lemonade bottle", "toddlr had teh glycerine bottle, mouthful gone", "dog no, BABY, ate the mouldy jelly and the preservative sachet", "the pot splashed and there's molten stuff on my neck", "he has a frog in his throat", "I burnt my fingers on the last ticket deal"} {
		l := h.listen(w)
		r := h.rank(l)
		best, _ := h.likelyEmergency(r)
		c, m := h.alarm(l)
		fmt.Println(w, "p", l.hurtful, best, "vetoed", h.vetoed(l, best), "calm", h.calm(l), "pat", c, m, "harmed", h.harmed(l, best), "hurts", h.hurts(l))
		for _, e := range b.Emergencies {
			fmt.Print(e.ID, h.namesHarm(l, e.ID), h.vetoed(l, e.ID), " ")
		}
		fmt.Println()
	}
}
