package book

import (
	"fmt"
)

var (
	savesWords  = []string{"yes", "partly", "no"}
	oftenWords  = wordsOf(OftenWeight)
	pointsWords = wordsOf(PointsDecibans)
	worksWords  = wordsOf(WorksChance)
)

func (c *compiler) compileProblems(f *rawFile) {
	for i := range f.Problems {
		raw := &f.Problems[i]
		c.unique("problem", raw.ID, '-')
		p := &Problem{
			ID: raw.ID.s, Index: len(c.book.Problems), Stage: c.stage, Title: raw.Title.s, Meaning: raw.Meaning.s,
			Step: c.step(raw.Step), First: raw.First.s, Sayings: texts(raw.Sayings), Cautions: c.cautionList(raw.Cautions),
			Hurry:    Hurry{raw.Hurry.Save.s, raw.Hurry.Hide.s, raw.Hurry.Drop.s},
			Fallback: Fallback{texts(raw.Fallback.Try), raw.Fallback.Seek.s}, Place: c.src.at(raw.At),
		}
		for j := range raw.Causes {
			p.Causes = append(p.Causes, c.compileCause(&raw.Causes[j], j))
		}
		if len(p.Causes) < 2 {
			c.fault(raw.At, "", fmt.Sprintf("problem %q has %d causes: with fewer than two there is nothing to tell apart", p.ID, len(p.Causes)))
		}
		c.linkAlsoHelps(p, raw.Causes, 0)
		c.book.Problems = append(c.book.Problems, p)
	}
}

func (c *compiler) compileCause(raw *rawCause, index int) *Cause {
	c.unique("cause", raw.ID, '-')
	cause := &Cause{
		ID: raw.ID.s, Index: index, Title: raw.Title.s, Why: raw.Why.s,
		Often:    Often(c.word(raw.Often, "how often", oftenWords)),
		Began:    c.step(raw.Began),
		Cautions: c.cautionList(raw.Cautions), Sources: texts(raw.Sources), Place: c.src.at(raw.At),
	}
	if len(raw.Signs) == 0 {
		c.fault(raw.At, "", fmt.Sprintf("cause %q has no sign, so nothing could ever tell it from the others", raw.ID.s))
	}
	if len(raw.Remedies) == 0 {
		c.fault(raw.At, "", fmt.Sprintf("cause %q has no remedy", raw.ID.s))
	}
	for _, s := range raw.Signs {
		c.compileSign(cause, s)
	}
	for i := range raw.Remedies {
		cause.Remedies = append(cause.Remedies, c.compileRemedy(cause, &raw.Remedies[i]))
	}
	return cause
}

func (c *compiler) compileSign(cause *Cause, raw rawSign) {
	points := Points(c.word(raw.Points, "where a sign points", pointsWords))
	if cond, ok := c.condition(raw.When); ok {
		c.book.Signs++
		cause.Signs = append(cause.Signs, Sign{cond, points, raw.Because.s, c.src.at(raw.At)})
	}
}

func (c *compiler) compileRemedy(cause *Cause, raw *rawRemedy) *Remedy {
	c.unique("remedy", raw.ID, '-')
	r := &Remedy{
		ID: raw.ID.s, Cause: cause, Say: raw.Say.s, Now: texts(raw.Now), NextTime: texts(raw.NextTime),
		Saves:   Saves(c.word(raw.Saves, "whether it saves the piece", savesWords)),
		Minutes: raw.Minutes.x, From: c.step(raw.Again),
		Works: Works(c.word(raw.Works, "how likely it works", worksWords)),
		Place: c.src.at(raw.At), Cautions: c.cautionList(raw.Cautions),
	}
	if raw.Minutes.given() && (r.Minutes <= 0 || r.Minutes > 7*24*60) {
		c.fault(raw.Minutes.node, "", "minutes should be more than 0 and at most a week")
	}
	r.OnlyIf, r.HasOnlyIf = c.condition(raw.OnlyIf)
	for _, id := range raw.Amounts {
		if a, ok := refer(c, id, "amount", c.amounts); ok {
			r.Amounts = append(r.Amounts, a)
		}
	}
	return r
}

func (c *compiler) cautionList(ids []text) []*Caution {
	var list []*Caution
	for _, id := range ids {
		if caution, ok := refer(c, id, "caution", c.cautions); ok {
			list = append(list, caution)
		}
	}
	return list
}

// linkAlsoHelps resolves references to other causes of the same problem. The
// first of the raw causes is the problem's cause of that number.
func (c *compiler) linkAlsoHelps(p *Problem, raw []rawCause, first int) {
	causes := map[string]*Cause{}
	for _, cause := range p.Causes {
		causes[cause.ID] = cause
	}
	for j := range raw {
		for k := range raw[j].Remedies {
			for _, also := range raw[j].Remedies[k].AlsoHelps {
				works := Works(c.word(also.Works, "how likely it works", worksWords))
				cause, ok := refer(c, also.Cause, "cause of "+p.ID, causes)
				if !ok {
					continue
				}
				if cause.Index == first+j {
					c.fault(also.Cause.node, "", "a remedy can't also help the cause that it stands under")
					continue
				}
				r := p.Causes[first+j].Remedies[k]
				r.AlsoHelps = append(r.AlsoHelps, AlsoHelps{cause, works})
			}
		}
	}
}

// compileAdds adds a maker's own sayings and causes to problems of other
// files, once all of these are known.
func (c *compiler) compileAdds(f *rawFile) {
	problems := map[string]*Problem{}
	for _, p := range c.book.Problems {
		problems[p.ID] = p
	}
	for _, raw := range f.Adds {
		p, ok := refer(c, raw.To, "problem", problems)
		if !ok {
			continue
		}
		p.Sayings = append(p.Sayings, texts(raw.Sayings)...)
		first := len(p.Causes)
		for i := range raw.Causes {
			p.Causes = append(p.Causes, c.compileCause(&raw.Causes[i], first+i))
		}
		c.linkAlsoHelps(p, raw.Causes, first)
		for i, cause := range raw.Causes {
			c.linkPage(p, p.Causes[first+i], cause, problems)
		}
	}
}
