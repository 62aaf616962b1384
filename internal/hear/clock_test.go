package hear

import (
	"fmt"
	"testing"
)

func TestCallTimes(t *testing.T) {
	b := realBook(t)
	h := New(b)
	left := b.FactByName(LeftFact)
	for words, want := range map[string]string{
		"we go on at seven":                              "7:00 or twelve hours later",
		"curtain's half seven":                           "7:30 or twelve hours later",
		"curtain at half past seven tonight":             "19:30",
		"call is at 7pm":                                 "19:00",
		"the show is at 19:30":                           "19:30",
		"he goes on at quarter to eight":                 "7:45 or twelve hours later",
		"it has to be ready by noon":                     "12:00",
		"doors open at 7 o'clock in the evening":         "19:00",
		"our call is at 9 in the morning":                "9:00",
		"call time is 6.15":                              "6:15 or twelve hours later",
		"call at seven thirty tomorrow":                  "7:30 or twelve hours later tomorrow",
		"the call is in two hours":                       "120 left",
		"I've only got an hour and a half":               "90 left",
		"half an hour until curtain":                     "30 left",
		"we have 20 minutes":                             "20 left",
		"twenty minutes left":                            "20 left",
		"3 hrs till call":                                "180 left",
		"my clay is cracking and I've got forty minutes": "40 left",
		"the plaster has had forty minutes":              "",
		"it set for 40 minutes":                          "",
		"make it two hours":                              "120 left",
		"I haven't got 45 minutes":                       "",
		"they moved the call to nine":                    "9:00 or twelve hours later",
		"the show runs 90 minutes":                       "",
		"I left it in the fridge for two hours":          "",
		"pour at 45 degrees":                             "",
		"the mould has 3 barnacles":                      "",
	} {
		m := h.Hear(Context{}, words)
		got := ""
		if c := m.Call; c != nil {
			got = fmt.Sprintf("%d:%02d", c.Minute/60, c.Minute%60)
			if c.Half {
				got += " or twelve hours later"
			}
			if c.Tomorrow {
				got += " tomorrow"
			}
		}
		for _, f := range m.Facts {
			if f.Fact == left.ID {
				got += fmt.Sprintf("%g left", f.Value.Number())
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}

// Two troubles in one breath are both heard, the first one first; one trouble
// told with an "and" stays one.
func TestTwoTroubles(t *testing.T) {
	h := New(realBook(t))
	for words, want := range map[string][2]string{
		"the wall leaks and my gelatin has gone lumpy":                       {"dam-leaks", "gel-lumpy"},
		"bubbles in the mould and the edges of the cast are curling":         {"mould-bubbles", "edges-curl"},
		"my gelatin is full of air bubbles, also the clay has cracked":       {"gel-bubbles", "clay-cracks"},
		"plaster is running out under the wall and it's all over the table":  {"dam-leaks", ""},
		"there are lumps and grains in my gelatin":                           {"gel-lumpy", ""},
		"my clay is cracking and I don't know why":                           {"clay-cracks", ""},
		"the edges of the cast are curling up and rolling in like old paper": {"edges-curl", ""},
	} {
		m := h.Hear(Context{}, words)
		if m.Problem != want[0] || m.Also != want[1] {
			t.Errorf("%q: %q and %q, want %q and %q", words, m.Problem, m.Also, want[0], want[1])
		}
	}
}
