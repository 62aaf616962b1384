package book

import (
	"slices"
	"strconv"
	"strings"

	"sparehand/internal/logic"
)

var (
	kindWords   = []string{"choice", "number", "yesno"}
	effortWords = []string{"look", "touch", "measure", "test"}
	unitWords   = []string{"g", "ml", "mm", "cm2", "min", "C", "%", "W"}
)

// declareFacts gives every fact of every file to the logic before any
// condition is read, since a condition may mention any of them.
func (c *compiler) declareFacts() {
	var declared []logic.Fact
	funcs := craftFuncs()
	c.each(func(f *rawFile) {
		for _, raw := range f.Facts {
			c.unique("fact", raw.ID, '_')
			if slices.ContainsFunc(funcs, func(f logic.Func) bool { return f.Name == raw.ID.s }) {
				c.fault(raw.ID.node, "", quote(raw.ID.s)+" is the name of a function, so no fact can have it")
				continue
			}
			if !raw.ID.given() || c.defined["fact"][raw.ID.s] != c.src.at(raw.ID.node) || !plainID(raw.ID.s, '_') {
				continue
			}
			c.facts = append(c.facts, raw)
			c.factSrc = append(c.factSrc, c.src)
			fact := logic.Fact{Name: raw.ID.s, Kind: kindOf(c.word(raw.Kind, "the kind of a fact", kindWords))}
			if fact.Kind == logic.Choice {
				fact.Options = c.optionValues(raw)
			}
			declared = append(declared, fact)
			c.book.Facts = append(c.book.Facts, Fact{
				ID: logic.FactID(len(declared) - 1), Name: raw.ID.s, Stage: f.Stage.s, Kind: fact.Kind, Place: c.src.at(raw.At),
			})
		}
	})
	builder, err := logic.NewBuilder(declared, funcs)
	if err != nil { // names were checked above, so this would be a fault of ours
		c.faults = append(c.faults, Fault{Place: Place{File: "."}, Message: err.Error()})
		builder, _ = logic.NewBuilder(nil, nil)
	}
	c.builder = builder
}

func kindOf(word string) logic.Kind {
	switch word {
	case "number":
		return logic.Number
	case "yesno":
		return logic.YesNo
	default:
		return logic.Choice
	}
}

func (c *compiler) optionValues(raw rawFact) []string {
	seen := map[string]bool{}
	var values []string
	for _, o := range raw.Options {
		switch {
		case !o.Value.given():
		case seen[o.Value.s]:
			c.fault(o.Value.node, "", "option "+quote(o.Value.s)+" stands twice in "+quote(raw.ID.s))
		case !plainID(o.Value.s, '_'):
			c.fault(o.Value.node, "", "option "+quote(o.Value.s)+" should be small letters and digits, joined by \"_\"")
		default:
			seen[o.Value.s] = true
			values = append(values, o.Value.s)
		}
	}
	if len(values) < 2 || len(values) > 9 {
		c.fault(raw.At, "", "choice "+quote(raw.ID.s)+" needs two to nine options")
	}
	return values
}

func (c *compiler) compileFacts() {
	for i, raw := range c.facts {
		c.src = c.factSrc[i]
		c.compileFact(&c.book.Facts[i], raw)
	}
	c.noCircles()
}

func (c *compiler) compileFact(f *Fact, raw rawFact) {
	f.Ask, f.HowToCheck, f.Why = raw.Ask.s, raw.HowToCheck.s, raw.Why.s
	c.word(raw.Effort, "effort", effortWords)
	for i, w := range effortWords {
		if w == raw.Effort.s {
			f.Effort = Effort(i)
		}
	}
	f.Says = texts(raw.Says)
	c.onlyKeysOf(f.Kind, raw)
	switch f.Kind {
	case logic.Choice:
		for _, o := range raw.Options {
			f.Options = append(f.Options, Option{o.Value.s, o.Label.s, texts(o.Says)})
		}
	case logic.YesNo:
		f.Options = []Option{{"yes", "yes", texts(raw.Yes)}, {"no", "no", texts(raw.No)}}
	case logic.Number:
		f.Unit = c.word(raw.Unit, "a unit", unitWords)
		f.Low, f.High = raw.From.x, raw.To.x
		if raw.From.given() != raw.To.given() || raw.From.x > raw.To.x {
			c.fault(raw.At, "", "number "+quote(f.Name)+" needs from and to together, from the smaller")
		}
	}
	f.OnlyIf, f.HasOnlyIf = c.condition(raw.OnlyIf)
	for _, follow := range raw.Follows {
		c.compileFollow(f, follow)
	}
	c.compileNumber(f, raw)
}

// compileNumber reads what sums need to know of a number.
func (c *compiler) compileNumber(f *Fact, raw rawFact) {
	for _, way := range raw.Ways {
		if formula := c.formula(way); formula != nil {
			f.Ways = append(f.Ways, formula)
		}
	}
	f.OffBy, _ = c.quantity(raw.OffBy, f.Unit)
	if raw.Usual.At == nil {
		return
	}
	u := &Usual{Text: raw.Usual.Text.s, Better: raw.Usual.Better.s, Source: raw.Usual.Source.s}
	value, low, high := c.usual(raw.Usual.Value, f.Unit), c.usual(raw.Usual.From, f.Unit), c.usual(raw.Usual.To, f.Unit)
	u.Value, u.From, u.To = value.of, value.of, value.of
	if raw.Usual.From.given() || raw.Usual.To.given() {
		u.From, u.To = low.of, high.of
	}
	if value.fixed && low.fixed && high.fixed && (low.x > value.x || value.x > high.x) {
		c.fault(raw.Usual.At, "", "a usual value should lie between its from and to")
	}
	if u.Value == nil || u.From == nil || u.To == nil {
		return // a fault is reported already
	}
	f.Usual = u
}

// usualValue is a number with its unit, or a sum.
type usualValue struct {
	of    *logic.Formula
	x     float64
	fixed bool // x is it
}

// usual reads "25 mm", or a sum such as usual_skirt_mm(piece_length_mm).
func (c *compiler) usual(t text, unit string) usualValue {
	if !t.given() {
		return usualValue{}
	}
	if _, err := strconv.ParseFloat(strings.Fields(t.s)[0], 64); err != nil {
		return usualValue{of: c.formula(t)}
	}
	x, ok := c.quantity(t, unit)
	if !ok {
		return usualValue{}
	}
	of, _ := c.builder.Formula(strconv.FormatFloat(x, 'f', -1, 64))
	return usualValue{of, x, true}
}

// noCircles reports facts whose ways lead back to themselves.
func (c *compiler) noCircles() {
	const open, done = 1, 2
	mark := make([]int, len(c.book.Facts))
	var visit func(id logic.FactID) bool
	visit = func(id logic.FactID) bool {
		switch mark[id] {
		case open:
			return true
		case done:
			return false
		}
		mark[id] = open
		defer func() { mark[id] = done }()
		f := &c.book.Facts[id]
		from := slices.Clone(f.Ways)
		if f.Usual != nil {
			from = append(from, f.Usual.Value, f.Usual.From, f.Usual.To)
		}
		return slices.ContainsFunc(from, func(way *logic.Formula) bool { return slices.ContainsFunc(way.Facts(), visit) })
	}
	for i := range c.book.Facts {
		if f := &c.book.Facts[i]; visit(f.ID) {
			c.faults = append(c.faults, Fault{Place: f.Place, Message: "the ways of " + quote(f.Name) + " lead back to itself"})
		}
	}
}

// onlyKeysOf reports keys that belong to another kind of fact.
func (c *compiler) onlyKeysOf(kind logic.Kind, raw rawFact) {
	stray := func(given bool, key string, belongs logic.Kind) {
		if given && kind != belongs {
			c.fault(raw.At, "", key+" belongs to a "+belongs.String()+" fact, and "+quote(raw.ID.s)+" is a "+kind.String())
		}
	}
	stray(raw.Options != nil, "options", logic.Choice)
	stray(raw.Yes != nil, "yes", logic.YesNo)
	stray(raw.No != nil, "no", logic.YesNo)
	stray(raw.Unit.given(), "unit", logic.Number)
	stray(raw.From.given(), "from", logic.Number)
	stray(raw.To.given(), "to", logic.Number)
	stray(raw.Says != nil, "says", logic.Number)
	stray(raw.Usual.At != nil, "usual", logic.Number)
	stray(raw.Ways != nil, "ways", logic.Number)
	stray(raw.OffBy.given(), "off_by", logic.Number)
}

func (c *compiler) compileFollow(f *Fact, raw rawFollow) {
	cond, ok := c.condition(raw.When)
	if ok {
		c.constant[len(c.constant)-1].mayBeAll = true
	}
	value, err := f.Parse(raw.Value.s)
	if raw.Value.given() && err != "" {
		c.fault(raw.Value.node, f.optionHint(raw.Value.s), err)
		return
	}
	if ok {
		f.Follows = append(f.Follows, Follow{cond, value})
	}
}

// Parse reads a value of the fact as the rules write it: an option's value,
// yes or no, a number in the fact's unit. The message is "" when it is one.
func (f *Fact) Parse(s string) (logic.Value, string) {
	switch f.Kind {
	case logic.Number:
		x, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(s, f.Unit)), 64)
		if err != nil {
			return logic.Value{}, quote(s) + " is not a number for " + quote(f.Name)
		}
		return logic.Num(x), ""
	case logic.YesNo:
		if s == "yes" || s == "no" {
			return logic.Yes(s == "yes"), ""
		}
	default:
		for i, o := range f.Options {
			if o.Value == s {
				return logic.Option(i), ""
			}
		}
	}
	return logic.Value{}, quote(s) + " is not an answer of " + quote(f.Name)
}

func (f *Fact) optionHint(s string) string {
	values := make([]string, len(f.Options))
	for i, o := range f.Options {
		values[i] = o.Value
	}
	return suggest(s, values)
}

// Show gives a value in the rules' own words: an option's value, yes or no,
// or a number without its unit.
func (f *Fact) Show(v logic.Value) string {
	switch f.Kind {
	case logic.Number:
		return strconv.FormatFloat(v.Number(), 'g', -1, 64)
	case logic.YesNo:
		if v.Bool() {
			return "yes"
		}
		return "no"
	default:
		return f.Options[v.Index()].Value
	}
}
