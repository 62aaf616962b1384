package book

import (
	"encoding/json"
	"reflect"
)

// Schema gives the shape of a rules file as JSON Schema (draft 2020-12), made
// from the very types that files are read into. An editor that knows it
// completes keys and words and marks slips while typing. It can't see what
// needs the whole book: unknown facts, wrong units, dangling ids.
func Schema() ([]byte, error) {
	s := schemer{defs: map[string]any{}}
	root := s.object(reflect.TypeFor[rawFile]())
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = "A rules file of sparehand"
	root["description"] = "One file of the book: a stage of the craft and any of the lists."
	root["$defs"] = s.defs
	out, err := json.MarshalIndent(root, "", "  ")
	return append(out, '\n'), err
}

// schemer gathers the schemas of the raw types by name.
type schemer struct{ defs map[string]any }

type schema = map[string]any

// of gives the schema of a value; words are those that a text may be, or nil.
func (s schemer) of(t reflect.Type, words []string) schema {
	switch {
	case t == textType && words != nil:
		return schema{"enum": words}
	case t == textType: // a text may be left unquoted, so "250" is read as one too
		return schema{"type": []string{"string", "number", "boolean"}, "pattern": `\S`}
	case t == numberType:
		return schema{"type": "number"}
	case t.Kind() == reflect.Slice:
		return schema{"type": "array", "items": s.of(t.Elem(), words)}
	case t.Kind() == reflect.Map:
		return schema{"type": "object", "additionalProperties": s.of(t.Elem(), words)}
	}
	name := shapeOf(t).what
	if _, done := s.defs[name]; !done {
		s.defs[name] = nil // begun: types may lead back to themselves
		s.defs[name] = s.object(t)
	}
	return schema{"$ref": "#/$defs/" + name}
}

// object gives the schema of a raw type: its keys and no others.
func (s schemer) object(t reflect.Type) schema {
	shape := shapeOf(t)
	properties := schema{}
	for _, name := range shape.names {
		key := shape.what + "." + name
		property := s.of(t.Field(shape.keys[name].index).Type, schemaWords[key])
		property["description"] = schemaTexts[key]
		properties[name] = property
	}
	out := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if shape.needed != nil {
		out["required"] = shape.needed
	}
	return out
}
