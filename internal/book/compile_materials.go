package book

import (
	"fmt"
	"slices"

	"sparehand/internal/logic"
)

var holdsWords = []string{string(HoldsGelatin), string(HoldsSyrup), string(HoldsGlycerin), string(HoldsWater)}

func (c *compiler) compileMaterials(f *rawFile) {
	for i := range f.Materials {
		raw := &f.Materials[i]
		c.unique("material", raw.ID, '-')
		m := &Material{
			ID: raw.ID.s, Title: raw.Title.s, Density: c.density(raw.Density), Scooped: c.density(raw.Scooped),
			Doubt: raw.Doubt.x, Holds: Holds(c.word(raw.Holds, "how a material holds water", holdsWords)),
			Instead: texts(raw.Instead), Says: texts(raw.Says), Source: raw.Source.s, Place: c.src.at(raw.At),
			Pack: c.optionalNumber(raw.Pack), Price: c.optionalNumber(raw.Price), Have: c.optionalNumber(raw.Have),
		}
		if m.Scooped == 0 {
			m.Scooped = m.Density
		}
		if raw.Doubt.given() && (raw.Doubt.x < 0 || raw.Doubt.x > 100) {
			c.fault(raw.Doubt.node, "", "doubt should be in percent, between 0 and 100")
		}
		for _, pack := range raw.Packs {
			if x, ok := c.quantity(pack, "g"); ok && x > 0 {
				m.Packs = append(m.Packs, x)
			}
		}
		slices.Sort(m.Packs)
		if _, twice := c.materials[m.ID]; !twice {
			c.materials[m.ID] = m
			c.book.Materials = append(c.book.Materials, m)
		}
	}
}

func (c *compiler) density(n number) float64 {
	if n.given() && (n.x < 0.05 || n.x > 25) {
		c.fault(n.node, "", "density should be in g/ml, between 0.05 and 25")
	}
	return n.x
}

func (c *compiler) compileRecipes(f *rawFile) {
	for i := range f.Recipes {
		raw := &f.Recipes[i]
		c.unique("recipe", raw.ID, '_')
		r := &Recipe{
			ID: raw.ID.s, Title: raw.Title.s, GoodFor: raw.GoodFor.s, NotFor: raw.NotFor.s,
			Notes: texts(raw.Notes), Source: raw.Source.s, Place: c.src.at(raw.At),
		}
		for _, part := range raw.Parts {
			if part.Parts.given() && (part.Parts.x < 0.001 || part.Parts.x > 1e4) {
				c.fault(part.Parts.node, "", "parts should be by mass, between 0.001 and 10000")
			}
			if m, ok := refer(c, part.Material, "material", c.materials); ok {
				r.Parts = append(r.Parts, RecipePart{m, part.Parts.x})
			}
		}
		if _, twice := c.recipes[r.ID]; !twice {
			c.recipes[r.ID] = r
			c.book.Recipes = append(c.book.Recipes, r)
		}
	}
}

// recipeFact finds the choice that picks a recipe; each of its options has to
// be one.
func (c *compiler) recipeFact(name text) *Fact {
	f := c.factOf(name, logic.Choice)
	if f == nil {
		return nil
	}
	for _, o := range f.Options {
		if c.recipes[o.Value] == nil {
			c.fault(name.node, suggest(o.Value, sortedKeys(c.recipes)), fmt.Sprintf("%s has the answer %q, and no recipe is called so", f.Name, o.Value))
		}
	}
	return f
}
