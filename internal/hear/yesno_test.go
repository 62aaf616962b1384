package hear

import "testing"

// The words of this file's tables are common practice, no source: what people
// say at a bench.

func TestYesNoAnswers(t *testing.T) {
	_, b := smallHearing(t)
	check(t, asks(t, b, "sticky", "edges-curl"), map[string]string{
		"no":                              "sticky=no",
		"nope":                            "sticky=no",
		"yes":                             "sticky=yes",
		"1":                               "sticky=yes",
		"number two":                      "sticky=no",
		"Yeah.":                           "sticky=yes",
		"um, yes":                         "sticky=yes",
		"no, it is not sticky":            "sticky=no",
		"no it isn't":                     "sticky=no",
		"it is":                           "sticky=yes",
		"it's tacky":                      "sticky=yes",
		"it isn't tacky":                  "sticky=no",
		"isnt sticky at all":              "sticky=no",
		"I don't think it's sticky":       "sticky=no",
		"it's not not sticky":             "sticky=yes",
		"it is dry to the touch":          "sticky=no",
		"not dry to the touch":            "sticky=yes",
		"yes it's stiky":                  "sticky=yes",
		"not only sticky but wet":         "sticky=yes",
		"not sure":                        "not-sure",
		"I can't tell":                    "not-sure",
		"dunno":                           "not-sure",
		"no idea":                         "not-sure",
		"hard to say":                     "not-sure",
		"maybe":                           "not-sure",
		"I don't know":                    "not-sure",
		"I'm not sure, maybe it's sticky": "sticky=yes",
		"skip":                            "skip",
		"skip this one please":            "skip",
		"well I touched it, yes":          "sticky=yes",
	})
}

func TestYesNoEchoesTheQuestion(t *testing.T) {
	_, b := smallHearing(t)
	check(t, asks(t, b, "wall_pressed", "dam-leaks"), map[string]string{
		"I pressed it hard":       "wall_pressed=yes",
		"I didn't press it":       "wall_pressed=no",
		"I did":                   "wall_pressed=yes",
		"I just set it down":      "wall_pressed=no",
		"I did not":               "wall_pressed=no",
		"no I only rested it":     "wall_pressed=no",
		"why do you ask":          "command:why",
		"the ferryman has a hat.": "",
	})
}

func TestNoThatSpeaksOfSomethingElse(t *testing.T) {
	_, b := smallHearing(t)
	check(t, asks(t, b, "wall_pressed", "edges-curl"), map[string]string{
		"no it is not sticky":          "sticky=no",
		"no, there are no bubbles":     "bubbles_seen=no",
		"no but it is really dry here": "room_air=dry wall_pressed=no",
	})
	check(t, asks(t, b, "wall_pressed", "dam-leaks"), map[string]string{
		"no, it came through a join":          "leak_place=through wall_pressed=no",
		"yes, and it came out over the top":   "leak_place=over wall_pressed=yes",
		"no it did not come through the wall": "not leak_place=through",
	})
}
