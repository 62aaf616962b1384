package book

import (
	"fmt"
	"strconv"
	"strings"

	"sparehand/internal/logic"
)

func (c *compiler) compileCautions(f *rawFile) {
	for _, raw := range f.Cautions {
		c.unique("caution", raw.ID, '-')
		c.word(raw.Level, "a caution's level", []string{"stop", "care", "note"})
		caution := &Caution{raw.ID.s, raw.Level.s, raw.Text.s, raw.Source.s, c.src.at(raw.At)}
		if _, twice := c.cautions[raw.ID.s]; !twice {
			c.cautions[raw.ID.s] = caution
			c.book.Cautions = append(c.book.Cautions, caution)
		}
	}
}

func (c *compiler) compileAmounts(f *rawFile) {
	for i := range f.Amounts {
		raw := &f.Amounts[i]
		c.unique("amount", raw.ID, '-')
		a := &Amount{ID: raw.ID.s, Title: raw.Title.s, Says: texts(raw.Says), Notes: texts(raw.Notes), Place: c.src.at(raw.At)}
		a.OnlyIf, a.HasOnlyIf = c.condition(raw.OnlyIf)
		told := map[logic.FactID]bool{}
		for _, name := range raw.Needs {
			if fact := c.numberFact(name); fact != nil {
				a.Needs = append(a.Needs, fact.ID)
				told[fact.ID] = true
			}
		}
		for _, assume := range raw.Assumes {
			c.compileAssume(a, assume, told)
		}
		for _, part := range raw.Parts {
			c.compilePart(a, part, told)
		}
		if _, twice := c.amounts[a.ID]; !twice {
			c.amounts[a.ID] = a
			c.book.Amounts = append(c.book.Amounts, a)
		}
	}
}

func (c *compiler) numberFact(name text) *Fact {
	facts := map[string]*Fact{}
	for i := range c.book.Facts {
		if f := &c.book.Facts[i]; f.Kind == logic.Number {
			facts[f.Name] = f
		}
	}
	fact, _ := refer(c, name, "number fact", facts)
	return fact
}

// compileAssume reads a value with its unit, which has to be the fact's.
func (c *compiler) compileAssume(a *Amount, raw rawAssume, told map[logic.FactID]bool) {
	fact := c.numberFact(raw.Fact)
	if fact == nil || !raw.Value.given() {
		return
	}
	numeral, unit, _ := strings.Cut(raw.Value.s, " ")
	x, err := strconv.ParseFloat(numeral, 64)
	if err != nil {
		c.fault(raw.Value.node, "", quote(raw.Value.s)+" should be a number and its unit, such as \"25 mm\"")
		return
	}
	if strings.TrimSpace(unit) != fact.Unit {
		want := fact.Unit
		if want == "" {
			want = "a plain count"
		}
		c.fault(raw.Value.node, "", fmt.Sprintf("wrong unit in %q: %s is in %s", raw.Value.s, fact.Name, want))
		return
	}
	told[fact.ID] = true
	a.Assumes = append(a.Assumes, Assumption{fact.ID, x, raw.Text.s})
}

func (c *compiler) compilePart(a *Amount, raw rawPart, told map[logic.FactID]bool) {
	c.word(raw.Unit, "an amount's unit", []string{"g", "ml"})
	if raw.Density.given() && (raw.Density.x < 0.05 || raw.Density.x > 25) {
		c.fault(raw.Density.node, "", "density should be in g/ml, between 0.05 and 25")
	}
	formula := c.formula(raw.Of)
	if formula == nil {
		return
	}
	for _, id := range formula.Facts() {
		if name := c.book.Facts[id].Name; !told[id] {
			at := c.src.inside(raw.Of.node, max(0, strings.Index(raw.Of.s, name)))
			c.faults = append(c.faults, Fault{Place: at, Message: fmt.Sprintf("%s is used here, so it has to stand in needs or assumes", name)})
		}
	}
	a.Parts = append(a.Parts, Part{raw.Name.s, formula, raw.Unit.s, raw.Density.x})
}
