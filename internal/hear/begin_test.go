package hear

import "testing"

func TestBegin(t *testing.T) {
	h := New(realBook(t))
	const plain = "begin" // without a name
	for words, want := range map[string]string{
		"guide me":                                              plain,
		"walk me through it":                                    plain,
		"walk me through a first appliance":                     plain,
		"can you walk me through my first piece please":         plain,
		"build with me":                                         plain,
		"start a build":                                         plain,
		"let's get started":                                     plain,
		"where do I start":                                      plain,
		"where does it start to crack":                          "",
		"step by step please":                                   plain,
		"help me make my first piece":                           plain,
		"take me through it from the start":                     plain,
		"teach me":                                              plain,
		"let's build something":                                 plain,
		"I'm new to this, walk me through it":                   plain,
		"I've never done this before, guide me step by step":    plain,
		"I want to make a piece":                                plain,
		"walk me through a barnacle cheek for the ferryman":     "begin: a barnacle cheek for the ferryman",
		"let's make a barnacle cheek":                           "begin: a barnacle cheek",
		"I want to make a rope scar":                            "begin: a rope scar",
		"I'd like to make a rope scar for the mate's neck":      "begin: a rope scar for the mate's neck",
		"help me make a barnacle crust for the crew, please":    "begin: a barnacle crust for the crew",
		"guide me through a rope scar step by step":             "begin: a rope scar",
		"teach me how to make a barnacle brow":                  "begin: a barnacle brow",
		"can you teach me rope scars":                           "begin: rope scars",
		"how do I make a barnacle cheek":                        "begin: a barnacle cheek",
		"we want to make the ferryman's nose":                   "begin: the ferryman's nose",
		"walk me through making a chin for the cabin boy":       "begin: a chin for the cabin boy",
		"how do I make the plaster thinner":                     "",
		"how do I make the edge of the nose thinner":            "",
		"how do I make a burn look real":                        "",
		"I want to make 500 ml of mix":                          "",
		"I want to make five barnacles":                         "",
		"I want to make three copies of the rope scar":          "",
		"I made a barnacle cheek":                               "",
		"we're making a rope scar":                              "",
		"I want to make the wall higher":                        "",
		"I want to make sure the mould is dry":                  "",
		"I want to make it softer":                              "",
		"let's make a new mould":                                "",
		"I want to make a nose but the clay keeps cracking":     "",
		"help me make the edge stick":                           "",
		"help me":                                               "",
		"help, the wall is leaking":                             "",
		"walk me through the plaster":                           "",
		"guide me, plaster is running out under the wall":       "",
		"let's make a cup of tea":                               "",
		"the light goes through the edge of the cheek":          "",
		"start again":                                           "",
		"how much plaster to make a barnacle cheek":             "",
		"a step by step on the wall would have saved this mess": "",
		"i'm doing a burn effect for the stoker":                "",
	} {
		got := ""
		if b := h.Hear(Context{}, words).Begin; b != nil {
			if got = plain; b.Name != "" {
				got += ": " + b.Name
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}
