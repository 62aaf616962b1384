package book

import (
	"cmp"
	"slices"
	"strings"
)

var (
	verdictWords = []string{"ready", "wait", "trouble"}
	timerWords   = []string{"start", "hands"}
	keepsWords   = []string{"mould", "batch", "piece", "outcome"}
)

// compileGuides reads the pages of the steps, once the problems that they lead
// to are known.
func (c *compiler) compileGuides(f *rawFile) {
	problems := map[string]*Problem{}
	for _, p := range c.book.Problems {
		problems[p.ID] = p
	}
	for i := range f.Guides {
		raw := &f.Guides[i]
		step := c.step(raw.Step)
		if step == nil {
			continue
		}
		if step.Guide != nil {
			c.fault(raw.At, "", "step "+quote(step.ID)+" has a guide already, at "+step.Guide.Place.String())
			continue
		}
		step.Guide = c.compileGuide(raw, step, problems)
	}
	for i := range f.Shorter {
		c.compileShorter(&f.Shorter[i])
	}
}

func (c *compiler) compileGuide(raw *rawGuide, step *Step, problems map[string]*Problem) *Guide {
	g := &Guide{
		Step: step, Order: raw.Order.s, Hands: c.span(raw.Hands), Wait: c.span(raw.Wait), Needs: texts(raw.Needs),
		Brief: raw.Brief.s, Never: texts(raw.Never), Look: raw.Look.s, Starts: raw.Starts.s, Cautions: c.cautionList(raw.Cautions),
		Keeps: c.word(raw.Keeps, "what the notebook keeps", keepsWords), Place: c.src.at(raw.At), Source: raw.Source.s,
	}
	g.OnlyIf, g.HasOnlyIf = c.condition(raw.OnlyIf)
	for _, id := range raw.After {
		if before := c.step(id); before != nil {
			g.After = append(g.After, before)
			if before.Index >= step.Index {
				c.fault(id.node, "", "a step comes after steps that stand before it, and "+quote(id.s)+" does not")
			}
		}
	}
	if raw.After == nil && step.Index > 0 {
		g.After = []*Step{&c.book.Steps[step.Index-1]}
	}
	g.WaitSum, _ = refer(c, raw.WaitSum, "amount", c.amounts)
	for _, id := range raw.Amounts {
		if a, ok := refer(c, id, "amount", c.amounts); ok {
			g.Amounts = append(g.Amounts, a)
		}
	}
	for _, id := range raw.Asks {
		if f := c.factNamed(id); f != nil {
			g.Asks = append(g.Asks, f)
		}
	}
	for _, o := range raw.OtherTimes {
		if when, ok := c.condition(o.When); ok {
			g.Others = append(g.Others, OtherTimes{when, c.given(o.Hands), c.given(o.Wait), o.Because.s})
		}
	}
	for _, d := range raw.Do {
		when, has := c.condition(d.When)
		g.Do = append(g.Do, Doing{d.Say.s, when, has})
	}
	for _, t := range raw.Timers {
		when, has := c.condition(t.When)
		if t.Warn.x > t.Minutes.x || t.Minutes.x < 0 || t.Warn.x < 0 {
			c.fault(t.At, "", "a timer's minutes are 0 or more, and its warning comes within them")
		}
		if t.Warn.given() != t.Warning.given() {
			c.fault(t.At, "", "warn and warning go together: how long before, and what is said then")
		}
		g.Timers = append(g.Timers, StepTimer{t.Name.s, c.word(t.From, "from when a timer runs", timerWords), t.Minutes.x, t.Warn.x, t.Warning.s, t.Say.s, when, has})
	}
	c.compileReady(g, raw, problems)
	return g
}

// compileReady reads what is asked for "is it ready?", and what follows.
func (c *compiler) compileReady(g *Guide, raw *rawGuide, problems map[string]*Problem) {
	if raw.Check.given() != (len(raw.Verdicts) > 0) {
		c.fault(raw.At, "", "check and verdicts go together: what is asked, and what follows from each answer")
	}
	g.Check = c.factNamed(raw.Check)
	for _, v := range raw.Verdicts {
		when, ok := c.condition(v.When)
		verdict := Verdict{When: when, Is: c.word(v.Is, "a verdict", verdictWords), Minutes: v.Minutes.x, Say: v.Say.s}
		verdict.Problem, _ = refer(c, v.Problem, "problem", problems)
		switch {
		case verdict.Is == "wait" && verdict.Minutes <= 0:
			c.fault(v.At, "", "a verdict that says wait needs minutes, more than 0")
		case verdict.Is == "trouble" && !v.Problem.given():
			c.fault(v.At, "", "a verdict that says trouble needs the problem whose page treats it")
		}
		if ok {
			g.Verdicts = append(g.Verdicts, verdict)
		}
	}
}

func (c *compiler) compileShorter(raw *rawShorter) {
	c.unique("shorter way", raw.ID, '-')
	w := &Shorter{ID: raw.ID.s, Title: raw.Title.s, Say: raw.Say.s, Costs: raw.Costs.s, Before: c.step(raw.Before), Place: c.src.at(raw.At)}
	w.OnlyIf, w.HasOnlyIf = c.condition(raw.OnlyIf)
	for name, value := range raw.Sets {
		f := c.factNamed(name)
		if f == nil {
			continue
		}
		v, fault := f.Parse(value.s)
		if fault != "" {
			c.fault(value.node, f.optionHint(value.s), fault)
			continue
		}
		w.Sets = append(w.Sets, SetFact{f, v})
	}
	slices.SortFunc(w.Sets, func(a, b SetFact) int { return cmp.Compare(a.Fact.ID, b.Fact.ID) })
	c.book.Shorter = append(c.book.Shorter, w)
}

// factNamed finds a fact by its name, nil where there is none.
func (c *compiler) factNamed(t text) *Fact {
	if !t.given() {
		return nil
	}
	for i := range c.book.Facts {
		if c.book.Facts[i].Name == t.s {
			return &c.book.Facts[i]
		}
	}
	c.fault(t.node, suggest(t.s, sortedKeys(c.defined["fact"])), "no fact is called "+quote(t.s))
	return nil
}

// span reads a range of minutes.
func (c *compiler) span(raw rawRange) Range {
	r := Range{raw.From.x, raw.Mostly.x, raw.To.x}
	if raw.At != nil && !(0 <= r.From && r.From <= r.Mostly && r.Mostly <= r.To && r.To <= 7*24*60) {
		c.fault(raw.At, "", "minutes should rise from 0 or more to a week at most: from, mostly, to")
	}
	return r
}

func (c *compiler) given(raw rawRange) *Range {
	if raw.At == nil {
		return nil
	}
	r := c.span(raw)
	return &r
}

// checkGuides reports a job of which some steps have a guide and others none.
func (c *compiler) checkGuides() {
	var without []string
	for i := range c.book.Steps {
		if c.book.Steps[i].Guide == nil {
			without = append(without, quote(c.book.Steps[i].ID))
		}
	}
	if n := len(without); n > 0 && n < len(c.book.Steps) {
		c.faults = append(c.faults, Fault{Place: c.book.Steps[0].Place, Message: "these steps have no guide, though others have one: " + strings.Join(without, ", ")})
	}
}
