package book

import "reflect"

// written is a text of the rules with where it stands. The compiled types have
// places for whole things only, and a warning should point at the sentence.
type written struct {
	at    Place
	owner string // "remedy press", "" for what belongs to a file
	key   string // "remedy.now"
	text  string
}

// keepWritten collects the texts that Warnings looks at.
func (c *compiler) keepWritten() {
	w := writer{plans: map[reflect.Type]plan{}}
	for i := range c.files {
		w.src = c.files[i].src
		w.walk(reflect.ValueOf(&c.files[i].raw).Elem(), "", "", false)
	}
	c.book.written = w.out
}

type writer struct {
	src   *source
	plans map[reflect.Type]plan
	out   []written
}

// plan says which fields of a raw type to go into.
type plan struct {
	what   string
	name   int // the field of the id, -1 for none
	fields []plannedField
}

type plannedField struct {
	index int
	key   string
	keep  bool
}

func (w *writer) planOf(t reflect.Type) plan {
	if known, ok := w.plans[t]; ok {
		return known
	}
	s := shapeOf(t)
	p := plan{what: s.what, name: -1}
	if id, ok := s.keys["id"]; ok {
		p.name = id.index
	} else if to, ok := s.keys["to"]; ok && s.what == "add" { // what is added belongs to the problem
		p.what, p.name = "problem", to.index
	}
	for _, name := range s.names {
		key := s.what + "." + name
		_, spoken := spokenKeys[key]
		f := plannedField{s.keys[name].index, key, spoken || heardKeys[key] || key == plainWordsKey}
		inner := t.Field(f.index).Type
		for inner.Kind() == reflect.Slice {
			inner = inner.Elem()
		}
		if f.keep || inner.Kind() == reflect.Struct && inner != textType && inner != numberType {
			p.fields = append(p.fields, f)
		}
	}
	w.plans[t] = p
	return p
}

// walk goes through a raw value; keep says whether a text in it is kept.
func (w *writer) walk(v reflect.Value, owner, key string, keep bool) {
	switch {
	case v.Type() == textType:
		if t := *(v.Addr().Interface().(*text)); keep && t.given() {
			w.out = append(w.out, written{w.src.at(t.node), owner, key, t.s})
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			w.walk(v.Index(i), owner, key, keep)
		}
	case v.Kind() == reflect.Struct:
		p := w.planOf(v.Type())
		if p.name >= 0 {
			owner = p.what + " " + v.Field(p.name).Addr().Interface().(*text).s
		}
		for _, f := range p.fields {
			w.walk(v.Field(f.index), owner, f.key, f.keep)
		}
	}
}
