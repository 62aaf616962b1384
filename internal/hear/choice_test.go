package hear

import "testing"

func TestChoiceAnswers(t *testing.T) {
	_, b := smallHearing(t)
	check(t, asks(t, b, "leak_place", "dam-leaks"), map[string]string{
		"under the wall":                        "leak_place=under",
		"underneath":                            "leak_place=under",
		"two":                                   "leak_place=through",
		"2":                                     "leak_place=through",
		"the second one":                        "leak_place=through",
		"number two":                            "leak_place=through",
		"I'd say number two please":             "leak_place=through",
		"option 3":                              "leak_place=over",
		"the last one":                          "leak_place=over",
		"b":                                     "leak_place=through",
		"to":                                    "leak_place=through",
		"a crack":                               "leak_place=through",
		"over the tpo":                          "leak_place=over",
		"undr the wall":                         "leak_place=under",
		"threw a join":                          "leak_place=through",
		"underneeth":                            "leak_place=under",
		"no, it came through a join":            "leak_place=through",
		"it is not under the wall":              "not leak_place=under",
		"not under the wall but over the top":   "leak_place=over not leak_place=under",
		"I don't know, maybe under the wall":    "leak_place=under",
		"I don't know":                          "not-sure",
		"none of these":                         "not-sure",
		"both":                                  "complaint",
		"yes":                                   "complaint",
		"under the wall and over the top":       "?over the top ?under the wall",
		"under the wall, no wait, over the top": "leak_place=over",
		"skip it":                               "skip",
		"why":                                   "command:why",
		"go back":                               "command:back",
	})
}

func TestChoiceHeardBySound(t *testing.T) {
	_, b := smallHearing(t)
	check(t, asks(t, b, "sweetener", "edges-curl"), map[string]string{
		"sore bit all":     "sweetener=sorbitol",
		"glisten in":       "sweetener=glycerin",
		"sorbital":         "sweetener=sorbitol",
		"gliserine":        "sweetener=glycerin",
		"just water":       "sweetener=neither",
		"glycerine please": "sweetener=glycerin",
	})
}

func TestChoiceNumberOrLabel(t *testing.T) {
	_, b := smallHearing(t)
	check(t, asks(t, b, "waited", "edges-curl"), map[string]string{
		"two":        "?seven days ?two days",
		"seven":      "waited=days_7",
		"seven days": "waited=days_7",
		"3":          "waited=day_1",
	})
}
