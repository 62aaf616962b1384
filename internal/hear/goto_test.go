package hear

import "testing"

func TestGoTo(t *testing.T) {
	h := New(realBook(t))
	for words, want := range map[string]string{
		"I'm at the casting":                           "cast",
		"skip to trimming":                             "trim",
		"go back to the wall":                          "wall",
		"we're on the plaster now":                     "plaster",
		"take me to the gluing":                        "glue",
		"ok let's go back to the sculpting please":     "sculpt",
		"jump ahead to the drying":                     "dry",
		"I am on the taking":                           "",
		"jump ahead to drying the mould":               "dry",
		"go to the release step":                       "release",
		"I'm on the dry step":                          "dry",
		"we are up to mixing the gelatin":              "mix",
		"back to the plaster":                          "plaster",
		"move on to the colouring":                     "colour",
		"start with the texture":                       "texture",
		"I've got as far as freeing the mould":         "free",
		"let's do the casting":                         "cast",
		"on to the gluing then":                        "glue",
		"let's skip to the glue":                       "glue",
		"can we go on to colouring":                    "colour",
		"start the plaster":                            "plaster",
		"I'm on the cast list":                         "",
		"we start the run on monday":                   "",
		"go to the design":                             "design",
		"I'm ready for demoulding":                     "demould",
		"I'm at the casting already":                   "cast",
		"I'm at the casting and it won't fill":         "",
		"we're on the plaster now and it's gone lumpy": "",
		"I'm on stage in ten minutes":                  "",
		"I'm on set":                                   "",
		"go back":                                      "",
		"back to it":                                   "",
		"back to the build":                            "",
		"skip that":                                    "",
		"skip to the next question":                    "",
		"the wall":                                     "",
		"the casting":                                  "",
		"I'm at the shop":                              "",
		"I'm on the phone":                             "",
		"on the wall":                                  "",
		"under the wall":                               "",
		"the plaster is on the wall":                   "",
		"I'm on the wall clay and it won't stick":      "",
		"go easy on the plaster":                       "",
		"how much plaster do I need for the casting":   "",
		"we're going to the pub":                       "",
		"take me to hospital":                          "",
	} {
		if got := h.Hear(Context{}, words).GoTo; got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}
