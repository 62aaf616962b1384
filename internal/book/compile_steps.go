package book

// compileSteps reads the steps of the job before all that refers to them. They
// stand in one file, since their order there is the order of the work.
func (c *compiler) compileSteps() {
	c.each(func(f *rawFile) {
		if f.Unmade.given() {
			c.book.Unmade = f.Unmade.s
		}
		if len(f.Steps) > 0 && len(c.book.Steps) > 0 {
			c.fault(f.Steps[0].At, "", "the steps of the job stand in one file, and "+c.book.Steps[0].Place.File+" has them already")
			return
		}
		for i, raw := range f.Steps {
			c.unique("step", raw.ID, '-')
			if raw.Least.given() && (raw.Least.x < 0 || raw.Least.x > 7*24*60) {
				c.fault(raw.Least.node, "", "least should be minutes, from 0 to a week")
			}
			c.book.Steps = append(c.book.Steps, Step{
				ID: raw.ID.s, Index: i, Title: raw.Title.s, Least: raw.Least.x, Says: texts(raw.Says), Place: c.src.at(raw.At), Source: raw.Source.s,
				Waits: c.word(raw.Waits, "whether a step waits", []string{"yes", "no"}) == "yes",
			})
		}
	})
	for i := range c.book.Steps {
		c.steps[c.book.Steps[i].ID] = &c.book.Steps[i]
	}
}

// step finds the step that a text names, nil where there is none.
func (c *compiler) step(t text) *Step {
	s, _ := refer(c, t, "step", c.steps)
	return s
}

// linkPages resolves the pages that causes point to, once all problems are
// known. A cause cannot have begun after the trouble showed.
func (c *compiler) linkPages() {
	problems := map[string]*Problem{}
	for _, p := range c.book.Problems {
		problems[p.ID] = p
	}
	i := 0
	c.each(func(f *rawFile) {
		for _, raw := range f.Problems {
			p := c.book.Problems[i]
			i++
			for j, cause := range raw.Causes {
				c.linkPage(p, p.Causes[j], cause, problems)
			}
		}
	})
}

func (c *compiler) linkPage(p *Problem, cause *Cause, raw rawCause, problems map[string]*Problem) {
	if cause.Began != nil && p.Step != nil && cause.Began.Index > p.Step.Index {
		c.fault(raw.Began.node, "", "a cause can't have begun at "+quote(cause.Began.ID)+", after the step "+quote(p.Step.ID)+" at which the trouble shows")
	}
	if page, ok := refer(c, raw.See, "problem", problems); ok {
		if page == p {
			c.fault(raw.See.node, "", "a cause can't point to the page that it stands on")
			return
		}
		cause.See = page
	}
}
