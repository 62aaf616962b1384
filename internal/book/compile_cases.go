package book

var endWords = []string{"remedy", "nothing-fits", "question", "emergency", "elsewhere", "amounts", "building", "nothing"}

// compileCases checks that a case speaks of things that the book has; what
// it comes to is for the conversation to show.
func (c *compiler) compileCases(f *rawFile) {
	for i := range f.Cases {
		raw := &f.Cases[i]
		k := Case{
			Name: raw.Name.s, Say: texts(raw.Say), Answers: c.byFact(raw.Answers), Then: texts(raw.Then),
			Otherwise: raw.Otherwise.s, Expect: c.expect(&raw.Expect), Place: c.src.at(raw.At),
		}
		if k.Otherwise == "" {
			k.Otherwise = "not sure"
		}
		c.book.Cases = append(c.book.Cases, k)
	}
}

func (c *compiler) byFact(raw map[text]text) map[string]string {
	out := map[string]string{}
	for name, value := range raw {
		if c.known("fact", name) {
			out[name.s] = value.s
		}
	}
	return out
}

func (c *compiler) expect(raw *rawExpect) Expect {
	e := Expect{
		Problem: raw.Problem.s, Cause: raw.Cause.s, Causes: texts(raw.Causes), Remedy: raw.Remedy.s,
		Cautions: texts(raw.Cautions), Emergency: raw.Emergency.s, Step: raw.Step.s, Facts: c.byFact(raw.Facts),
		Amounts: amountsOf(raw.Amounts), Asks: raw.Asks.s, Says: texts(raw.Says),
		Ends: c.word(raw.Ends, "how a case ends", endWords), Questions: int(raw.Questions.x),
	}
	c.known("problem", raw.Problem)
	c.known("cause", raw.Cause)
	c.known("remedy", raw.Remedy)
	c.known("emergency", raw.Emergency)
	c.known("step", raw.Step)
	for _, id := range raw.Causes {
		c.known("cause", id)
	}
	for _, id := range raw.Cautions {
		c.known("caution", id)
	}
	return e
}

// known reports a reference to something that the book does not define.
func (c *compiler) known(kind string, id text) bool {
	if !id.given() {
		return true
	}
	if _, ok := c.defined[kind][id.s]; ok {
		return true
	}
	c.fault(id.node, suggest(id.s, sortedKeys(c.defined[kind])), "no "+kind+" is called "+quote(id.s))
	return false
}

// amountsOf keeps what a case expects of amounts, by the name of the line.
func amountsOf(raw map[text]text) map[string]string {
	out := map[string]string{}
	for name, value := range raw {
		out[name.s] = value.s
	}
	return out
}
