package hear

import (
	"fmt"
	"strings"
	"testing"
)

// recalled gives what a meaning asks of the notebook, in one form that tests can
// compare.
func recalled(m Meaning) string {
	p := m.Past
	if p == nil {
		return ""
	}
	out := p.Do
	for _, part := range []string{p.Kind, p.About} {
		if part != "" {
			out += " " + part
		}
	}
	if len(p.Words) > 0 {
		out += ": " + strings.Join(p.Words, " ")
	}
	for name, n := range map[string]int{"days": p.Days, "drier": p.Drier} {
		if n != 0 && (name != "days" || p.Drier == 0) {
			out += fmt.Sprintf(" %s %d", name, n)
		}
	}
	if p.Warmer != 0 {
		out += fmt.Sprintf(" warmer %d", p.Warmer)
	}
	return out
}

func TestPast(t *testing.T) {
	h := New(realBook(t))
	for words, want := range map[string]string{
		"what did I use for the last cheek piece":               "recall piece recipe: cheek",
		"which recipe was it last time":                         "recall recipe",
		"what recipe did I use last time":                       "recall recipe",
		"what was the mix for the rope scar":                    "recall recipe: rope scar",
		"remind me what I used for the last cheek":              "recall recipe: cheek",
		"how much gelatin did I use last time":                  "recall recipe",
		"what was in the last batch":                            "recall batch recipe",
		"how long did the last barnacle hold":                   "recall wear: barnacle",
		"how long did the rope scar stay on":                    "recall wear: rope scar",
		"how did the last cheek go":                             "recall outcome: cheek",
		"did the last brow hold":                                "recall outcome: brow",
		"how did mould seven turn out":                          "recall mould outcome: 7",
		"when did I make mould seven":                           "recall mould when: 7",
		"when did I cast the barnacle cheek":                    "recall when: barnacle cheek",
		"which mould did I use for the rope scar":               "recall mould label: rope scar",
		"what did I call the last mould":                        "recall mould label",
		"what did I do wrong last time":                         "recall diagnosis cause",
		"what went wrong with the last cheek":                   "recall diagnosis cause: cheek",
		"why did the last one fail":                             "recall diagnosis cause",
		"what glue did I use last time":                         "recall",
		"show me mould seven":                                   "recall mould: 7",
		"tell me about the last batch":                          "recall batch",
		"show me my moulds":                                     "list mould",
		"what moulds have I got":                                "list mould",
		"list my batches please":                                "list batch",
		"what pieces have I made":                               "list piece",
		"what's in the notebook":                                "list",
		"open the notebook":                                     "list",
		"my moulds":                                             "list mould",
		"what have I made so far":                               "list",
		"do it like last time":                                  "again",
		"same as last time but it's drier today":                "again drier 1",
		"it's colder today, do it like last time":               "again warmer -1",
		"like the last cheek, but damper":                       "again: cheek drier -1",
		"same as last time only less humid":                     "again drier 1",
		"the same again please":                                 "again",
		"make it the same as the last rope scar":                "again: rope scar",
		"three more of the barnacle cheek":                      "again: barnacle cheek days 3",
		"another copy of the rope scar for friday and saturday": "again: rope scar days 2",
		"a copy for each of the four nights":                    "again days 4",
		"another barnacle cheek for saturday":                   "again: barnacle cheek days 1",
		"do the barnacle cheek again":                           "again: barnacle cheek",

		"what was the date I made batch four":                "recall batch when: 4",
		"show me the last step":                              "",
		"what was the last question":                         "",
		"was the last coat of plaster too thick":             "",
		"what did I do wrong":                                "",
		"what went wrong":                                    "",
		"why did it crack":                                   "",
		"why did the last cast tear":                         "",
		"what was that":                                      "",
		"what did you say":                                   "",
		"how long did it set":                                "",
		"how long until it sets":                             "",
		"which recipe is best for a cheek":                   "",
		"what is the mix for a barnacle cheek":               "",
		"how much gelatin do I need for the last cheek":      "",
		"my last mould cracked, what did I do wrong":         "",
		"the last one slid off by the first song":            "",
		"it tore again like last time":                       "",
		"slurry oozes out all the way along, like last time": "",
		"it's still the same":                                "",
		"no better, same as before, it still leaks":          "",
		"another one":                                        "",
		"give me another":                                    "",
		"three more minutes":                                 "",
		"I need three barnacles":                             "",
		"how many barnacles from 200 ml of mix":              "",
		"again please":                                       "",
		"say that again":                                     "",
		"start again":                                        "",
		"it's drier today":                                   "",
		"it's damp in here today and the edges curl":         "",
		"show me the others":                                 "",
		"show me the amounts":                                "",
		"my moulds are cracking":                             "",
		"my moulds keep crumbling at the edges":              "",
		"the mould from last week is crumbling":              "",
		"did you see the game last night":                    "",
		"can I use it again next week":                       "",
		"can I melt it again":                                "",
		"what do you know":                                   "",
		"what's left to do":                                  "",
		"when did it start":                                  "",
		"last time it burst at the back":                     "",
		"two more rope scars":                                "again: rope scars days 2",
		"make it again":                                      "again",
		"did the rope scar last the whole show":              "recall outcome: rope scar",
		"what humidity was it last time":                     "recall",
		"do the same as for mould three":                     "again mould: 3",
		"we need more bin bags":                              "",
		"two more drops":                                     "",
		"three more coats":                                   "",
		"another scar has lifted":                            "",
		"did the nose tear":                                  "",
		"make the rope scar again":                           "again: rope scar",
		"let's make another rope scar like the last":         "again: rope scar",
		"another bubble in the cheek":                        "",
		"another coat of glue on the nose":                   "",
		"another barnacle on the cheek has lifted":           "",
		"one more of the rope scar for each of three nights": "again: rope scar days 3",
		"another crack in the mould":                         "",
		"one more bubble in the cheek":                       "",
		"the barnacle cheek has lifted again":                "",
		"make the edge thinner like the last nose":           "",
		"how did the plaster get so hot":                     "",
		"what was the plaster for the back":                  "",
		"how long does the last coat of glue take":           "",
		"did the last coat of glue need to dry":              "",
	} {
		if got := recalled(h.Hear(Context{}, words)); got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}
