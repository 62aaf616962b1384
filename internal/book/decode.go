package book

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"
)

// The strict decoder: YAML nodes into the raw types of raw.go, each value with
// its node, every fault reported and decoding going on after it. yaml.v3's
// own decoder gives lines without columns and stops being strict inside
// nested nodes.

// text is a scalar as written.
type text struct {
	s    string
	node *yaml.Node
}

// number is a scalar that has to be a number.
type number struct {
	x    float64
	node *yaml.Node
}

func (t text) given() bool   { return t.node != nil }
func (n number) given() bool { return n.node != nil }

type decoder struct {
	src    *source
	faults *Faults
}

func (d *decoder) fault(n *yaml.Node, hint, format string, args ...any) {
	*d.faults = append(*d.faults, Fault{Place: d.src.at(n), Message: fmt.Sprintf(format, args...), Hint: hint})
}

var (
	textType   = reflect.TypeFor[text]()
	numberType = reflect.TypeFor[number]()
	nodeType   = reflect.TypeFor[*yaml.Node]()
)

// field is one key of a raw type.
type field struct {
	index    int
	required bool
}

// shape is a raw type's keys; at is the index of its node field.
type shape struct {
	what   string
	keys   map[string]field
	names  []string
	at     int
	needed []string
}

var shapes sync.Map // reflect.Type -> *shape

func shapeOf(t reflect.Type) *shape {
	if known, ok := shapes.Load(t); ok {
		return known.(*shape)
	}
	s := &shape{keys: map[string]field{}, at: -1, what: strings.ToLower(strings.TrimPrefix(t.Name(), "raw"))}
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Type == nodeType {
			s.at = i
			continue
		}
		name, rule, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		s.keys[name] = field{i, rule == "required"}
		s.names = append(s.names, name)
		if rule == "required" {
			s.needed = append(s.needed, name)
		}
	}
	shapes.Store(t, s)
	return s
}

func (d *decoder) decode(n *yaml.Node, out reflect.Value, key string) {
	if n.Kind == yaml.AliasNode || n.Anchor != "" {
		d.fault(n, "", "anchors and aliases are not used in the book: write the text out")
		return
	}
	switch t := out.Type(); {
	case t == textType:
		d.decodeText(n, out, key)
	case t == numberType:
		d.decodeNumber(n, out, key)
	case t.Kind() == reflect.Slice:
		d.decodeList(n, out, key)
	case t.Kind() == reflect.Map:
		d.decodeMap(n, out, key)
	default:
		d.decodeStruct(n, out, key)
	}
}

func (d *decoder) decodeText(n *yaml.Node, out reflect.Value, key string) {
	if n.Kind != yaml.ScalarNode || n.Tag == "!!null" {
		d.fault(n, "", "%s should be a text, not %s", key, kindWord(n))
		return
	}
	value := strings.TrimSpace(n.Value)
	if value == "" {
		d.fault(n, "", "%s is empty", key)
		return
	}
	out.Set(reflect.ValueOf(text{value, n}))
}

func (d *decoder) decodeNumber(n *yaml.Node, out reflect.Value, key string) {
	x, err := strconv.ParseFloat(n.Value, 64)
	if n.Kind != yaml.ScalarNode || err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		d.fault(n, "", "%s should be a number, not %s", key, kindWord(n))
		return
	}
	out.Set(reflect.ValueOf(number{x, n}))
}

func (d *decoder) decodeList(n *yaml.Node, out reflect.Value, key string) {
	if n.Kind != yaml.SequenceNode {
		d.fault(n, "", "%s should be a list, not %s", key, kindWord(n))
		return
	}
	list := reflect.MakeSlice(out.Type(), len(n.Content), len(n.Content))
	for i, item := range n.Content {
		d.decode(item, list.Index(i), "an entry of "+key)
	}
	out.Set(list)
}

func (d *decoder) decodeMap(n *yaml.Node, out reflect.Value, key string) {
	if n.Kind != yaml.MappingNode {
		d.fault(n, "", "%s should be pairs of key and value, not %s", key, kindWord(n))
		return
	}
	m := reflect.MakeMapWithSize(out.Type(), len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		name := reflect.ValueOf(text{n.Content[i].Value, n.Content[i]})
		value := reflect.New(out.Type().Elem()).Elem()
		d.decode(n.Content[i+1], value, n.Content[i].Value)
		m.SetMapIndex(name, value)
	}
	out.Set(m)
}

func (d *decoder) decodeStruct(n *yaml.Node, out reflect.Value, key string) {
	s := shapeOf(out.Type())
	if s.at >= 0 {
		out.Field(s.at).Set(reflect.ValueOf(n))
	}
	if n.Kind != yaml.MappingNode {
		d.fault(n, "", "%s should be a %s with its keys, not %s", key, s.what, kindWord(n))
		return
	}
	var seen uint64 // raw types have fewer than 64 keys
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := n.Content[i]
		f, ok := s.keys[k.Value]
		switch {
		case !ok:
			d.fault(k, suggest(k.Value, s.names), "unknown key %q in a %s", k.Value, s.what)
		case seen&(1<<f.index) != 0:
			d.fault(k, "", "%s stands twice in the same %s", k.Value, s.what)
		default:
			seen |= 1 << f.index
			d.decode(n.Content[i+1], out.Field(f.index), k.Value)
		}
	}
	for _, name := range s.needed {
		if seen&(1<<s.keys[name].index) == 0 {
			d.fault(n, "", "a %s without %s", s.what, name)
		}
	}
}

// kindWord says what a node is, in plain words.
func kindWord(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Kind == yaml.MappingNode:
		return "a group of keys"
	case n.Tag == "!!null":
		return "nothing"
	default:
		return strconv.Quote(n.Value)
	}
}
