package book

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"sparehand/internal/logic"
)

var (
	partUnits    = []string{"g", "ml", "mm", "cm2", "min", "s", "C", "%", "count"}
	pictureWords = []string{"section", "humidity"}
	levelWords   = []string{"stop", "care", "note"}
)

func (c *compiler) compileCautions(f *rawFile) {
	for _, raw := range f.Cautions {
		c.unique("caution", raw.ID, '-')
		c.word(raw.Level, "a caution's level", levelWords)
		caution := &Caution{raw.ID.s, raw.Level.s, raw.Text.s, raw.Source.s, c.src.at(raw.At)}
		if _, twice := c.cautions[raw.ID.s]; !twice {
			c.cautions[raw.ID.s] = caution
			c.book.Cautions = append(c.book.Cautions, caution)
		}
	}
}

// listOf is a shopping list, whose amounts may stand in a later file.
type listOf struct {
	amount *Amount
	ids    []text
	src    *source
}

func (c *compiler) compileAmounts(f *rawFile) {
	for i := range f.Amounts {
		raw := &f.Amounts[i]
		c.unique("amount", raw.ID, '-')
		a := &Amount{
			ID: raw.ID.s, Title: raw.Title.s, Says: texts(raw.Says), Say: raw.Say.s, Notes: texts(raw.Notes),
			Picture: c.word(raw.Picture, "a picture", pictureWords), Source: raw.Source.s, Place: c.src.at(raw.At),
		}
		a.OnlyIf, a.HasOnlyIf = c.condition(raw.OnlyIf)
		for _, id := range raw.Cautions {
			if caution, ok := refer(c, id, "caution", c.cautions); ok {
				a.Cautions = append(a.Cautions, caution)
			}
		}
		c.compileWorkings(a, raw)
		c.namedParts(a, raw.Say)
		c.compileWarns(a, raw.Warn)
		if _, twice := c.amounts[a.ID]; !twice {
			c.amounts[a.ID] = a
			c.book.Amounts = append(c.book.Amounts, a)
		}
	}
}

// compileWorkings reads the one way in which an amount is worked out.
func (c *compiler) compileWorkings(a *Amount, raw *rawAmount) {
	ways := 0
	for _, given := range []bool{raw.Parts != nil, raw.Mix.At != nil, raw.Holds.At != nil, raw.Buys != nil} {
		if given {
			ways++
		}
	}
	if ways != 1 {
		c.fault(raw.At, "", "an amount needs just one of parts, mix, holds and buys")
	}
	for _, part := range raw.Parts {
		c.compilePart(a, part)
	}
	if raw.Mix.At != nil {
		a.Mix = c.compileMix(&raw.Mix)
	}
	if raw.Holds.At != nil {
		a.Holds = c.compileHolds(&raw.Holds)
	}
	if raw.Buys != nil {
		c.lists = append(c.lists, listOf{a, raw.Buys, c.src})
	}
}

// compileLists links shopping lists, once every amount is known.
func (c *compiler) compileLists() {
	for _, list := range c.lists {
		c.src = list.src
		for _, id := range list.ids {
			a, ok := refer(c, id, "amount", c.amounts)
			if ok && (a == list.amount || a.Holds != nil || a.Buys != nil) {
				c.fault(id.node, "", quote(id.s)+" is no amount of a material, so it cannot be bought")
				continue
			}
			if ok {
				list.amount.Buys = append(list.amount.Buys, a)
			}
		}
	}
}

func (c *compiler) numberFact(name text) *Fact { return c.factOf(name, logic.Number) }

func (c *compiler) optionalNumber(name text) *Fact {
	if !name.given() {
		return nil
	}
	return c.numberFact(name)
}

func (c *compiler) factOf(name text, kind logic.Kind) *Fact {
	facts := map[string]*Fact{}
	for i := range c.book.Facts {
		if f := &c.book.Facts[i]; f.Kind == kind {
			facts[f.Name] = f
		}
	}
	fact, _ := refer(c, name, kind.String()+" fact", facts)
	return fact
}

// quantity reads a number with its unit, which has to be the one wanted.
func (c *compiler) quantity(t text, unit string) (float64, bool) {
	if !t.given() {
		return 0, false
	}
	numeral, own, _ := strings.Cut(t.s, " ")
	x, err := strconv.ParseFloat(numeral, 64)
	if err != nil {
		c.fault(t.node, "", quote(t.s)+" should be a number and its unit, such as \"25 mm\"")
		return 0, false
	}
	if strings.TrimSpace(own) != unit {
		want := "in " + unit
		if unit == "" {
			want = "a plain count"
		}
		c.fault(t.node, "", fmt.Sprintf("wrong unit in %q: it should be %s", t.s, want))
		return 0, false
	}
	return x, true
}

func (c *compiler) compilePart(a *Amount, raw rawPart) {
	c.word(raw.Unit, "an amount's unit", partUnits)
	p := Part{
		Name: raw.Name.s, Unit: raw.Unit.s, Of: c.formula(raw.Of), From: c.formula(raw.From), To: c.formula(raw.To),
		Density: c.density(raw.Density), Other: c.formula(raw.Ml),
	}
	if raw.G.given() {
		p.Other = c.formula(raw.G)
	}
	if p.Unit == "count" {
		p.Unit = ""
	}
	if raw.From.given() != raw.To.given() {
		c.fault(raw.At, "", "a part needs from and to together")
	}
	if raw.Material.given() {
		if m, ok := refer(c, raw.Material, "material", c.materials); ok {
			p.Material, p.Density, p.Doubt = m, m.Scooped, m.Doubt
		}
	}
	if weighed := raw.Unit.s == "g" || raw.Unit.s == "ml"; weighed != (raw.Density.given() || raw.Material.given() || raw.Ml.given() || raw.G.given()) {
		c.fault(raw.At, "", "a part in g or ml needs its density or material, and no other part has one")
	}
	if raw.Ml.given() && raw.Unit.s != "g" {
		c.fault(raw.Ml.node, "", "ml belongs to a part in g")
	}
	if raw.G.given() && raw.Unit.s != "ml" {
		c.fault(raw.G.node, "", "g belongs to a part in ml")
	}
	if p.Of != nil {
		a.Parts = append(a.Parts, p)
	}
}

func (c *compiler) compileHolds(raw *rawHolds) *Climate {
	h := &Climate{
		Recipe: c.recipeFact(raw.Recipe), Made: c.numberFact(raw.Made), Carried: c.numberFact(raw.Carried), Worn: c.numberFact(raw.Worn),
		Tolerance: c.numberFact(raw.Tolerance), Own: c.compileOwn(&raw.Own),
	}
	if water := &raw.Water; water.At != nil {
		h.Added, h.Mass = c.numberFact(water.Added), c.numberFact(water.Mass)
		h.Before, h.After = c.numberFact(water.Before), c.numberFact(water.After)
	}
	return h
}

func (c *compiler) compileOwn(raw *rawOwn) Own {
	if raw.At == nil {
		return Own{}
	}
	own := Own{c.numberFact(raw.Bloom), c.numberFact(raw.WrittenFor), c.numberFact(raw.Syrup)}
	if own.WrittenFor != nil && own.WrittenFor.Usual == nil {
		c.fault(raw.WrittenFor.node, "", quote(own.WrittenFor.Name)+" needs a usual value, for recipes that do not say")
	}
	return own
}

func (c *compiler) compileMix(raw *rawMix) *Mix {
	mix := &Mix{Recipe: c.recipeFact(raw.Recipe), Ml: c.formula(raw.Ml), G: c.optionalNumber(raw.G), Own: c.compileOwn(&raw.Own)}
	if raw.Least.At != nil {
		mix.Least, _ = c.quantity(raw.Least.Mix, "g")
		mix.Little = raw.Least.Text.s
	}
	have := make([]text, 0, len(raw.Have))
	for material := range raw.Have {
		have = append(have, material)
	}
	slices.SortFunc(have, func(a, b text) int { return strings.Compare(a.s, b.s) })
	for _, material := range have {
		m, ok := refer(c, material, "material", c.materials)
		if fact := c.numberFact(raw.Have[material]); ok && fact != nil {
			mix.Have = append(mix.Have, Have{m, fact})
		}
	}
	return mix
}

func (c *compiler) compileWarns(a *Amount, list []rawWarn) {
	for _, raw := range list {
		if raw.Above.given() == raw.Below.given() {
			c.fault(raw.At, "", "a warn needs just one of above and below")
		}
		if raw.Part.given() && !slices.Contains(a.partNames(), raw.Part.s) {
			c.fault(raw.Part.node, suggest(raw.Part.s, a.partNames()), "no part of this amount is called "+quote(raw.Part.s))
		}
		w := Warn{Part: raw.Part.s, Above: raw.Above.given(), Bound: raw.Below.x, Text: raw.Text.s}
		if w.Above {
			w.Bound = raw.Above.x
		}
		a.Warns = append(a.Warns, w)
	}
}

func (a *Amount) partNames() []string {
	names := make([]string, len(a.Parts))
	for i, p := range a.Parts {
		names[i] = p.Name
	}
	return names
}

// Slot finds the {names} in the words of an answer.
var Slot = regexp.MustCompile(`\{([^{}]*)\}`)

// namedParts checks the {names} in an answer's words.
func (c *compiler) namedParts(a *Amount, say text) {
	for _, name := range Slot.FindAllStringSubmatch(say.s, -1) {
		if !slices.Contains(a.partNames(), name[1]) {
			c.fault(say.node, suggest(name[1], a.partNames()), "no part of this amount is called "+quote(name[1]))
		}
	}
}
