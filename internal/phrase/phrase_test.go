package phrase

import "testing"

func TestPhrases(t *testing.T) {
	for got, want := range map[string]string{
		And(nil):                                  "",
		And([]string{"a"}):                        "a",
		And([]string{"a", "b", "c"}):              "a, b and c",
		Or([]string{"a", "b"}):                    "a or b",
		Plural(1, "hour"):                         "1 hour",
		Plural(2.5, "hour"):                       "2.5 hours",
		Sentence(" over it "):                     "Over it.",
		Sentence("é is it?"):                      "É is it?",
		Sentence(""):                              "",
		First("Press it down firmly. Then wait."): "Press it down firmly.",
		Lower("The wall"):                         "the wall",
		Lower("US cups"):                          "US cups",
		Lower(""):                                 "",
		Speech("a", "", "b."):                     "A. B.",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
