package book

import "sparehand/internal/logic"

// factsOfCode are facts that the program itself reads by name, beside those
// that the rules mention: what the maker measures with and how much it holds,
// the time that is left, and what the notebook keeps of a build.
var factsOfCode = setOf("measure own_measure_ml own_measure_per_tablespoon minutes_left experience body_place outcome worn_minutes")

// unusedFacts warns about facts that nothing mentions. What only the fact
// itself mentions is no use.
func (l *lint) unusedFacts() {
	used := l.book.usedFacts()
	for i := range l.book.Facts {
		if f := &l.book.Facts[i]; !used[f.ID] && !factsOfCode[f.Name] {
			l.warn(f.Place, "fact %s is used by no sign, only_if, follows, remedy or amount", f.Name)
		}
	}
}

// usedFacts are the facts that conditions, sums, mixes, materials or other
// facts mention.
func (b *Book) usedFacts() map[logic.FactID]bool {
	used := map[logic.FactID]bool{}
	note := func(ids ...logic.FactID) {
		for _, id := range ids {
			used[id] = true
		}
	}
	for _, p := range b.Problems {
		for _, c := range p.Causes {
			for _, s := range c.Signs {
				note(b.Base.Mentions(s.When)...)
			}
			for _, r := range c.Remedies {
				if r.HasOnlyIf {
					note(b.Base.Mentions(r.OnlyIf)...)
				}
			}
		}
	}
	for _, a := range b.Amounts {
		note(b.Reach(a)...)
		if a.HasOnlyIf {
			note(b.Base.Mentions(a.OnlyIf)...)
		}
	}
	for _, m := range b.Materials {
		for _, f := range []*Fact{m.Pack, m.Have, m.Price} {
			if f != nil {
				note(f.ID)
			}
		}
	}
	b.usedByGuides(note)
	b.usedByFacts(note)
	return used
}

// usedByGuides notes what the pages of the steps mention.
func (b *Book) usedByGuides(note func(...logic.FactID)) {
	mentions := func(c logic.Cond, has bool) {
		if has {
			note(b.Base.Mentions(c)...)
		}
	}
	for i := range b.Steps {
		g := b.Steps[i].Guide
		if g == nil {
			continue
		}
		mentions(g.OnlyIf, g.HasOnlyIf)
		for _, o := range g.Others {
			mentions(o.When, true)
		}
		for _, d := range g.Do {
			mentions(d.When, d.HasWhen)
		}
		for _, v := range g.Verdicts {
			mentions(v.When, true)
		}
		for _, t := range g.Timers {
			mentions(t.When, t.HasWhen)
		}
	}
	for _, w := range b.Shorter {
		mentions(w.OnlyIf, w.HasOnlyIf)
	}
}

func (b *Book) usedByFacts(note func(...logic.FactID)) {
	for i := range b.Facts {
		f := &b.Facts[i]
		others := func(ids []logic.FactID) {
			for _, id := range ids {
				if id != f.ID {
					note(id)
				}
			}
		}
		if f.HasOnlyIf {
			others(b.Base.Mentions(f.OnlyIf))
		}
		for _, follow := range f.Follows {
			others(b.Base.Mentions(follow.When))
		}
		for _, way := range f.Ways {
			others(way.Facts())
		}
		if f.Usual != nil {
			for _, sum := range []*logic.Formula{f.Usual.Value, f.Usual.From, f.Usual.To} {
				others(sum.Facts())
			}
		}
	}
}
