package book

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// TestSchemaWords: every key of the raw types is described, and no other.
func TestSchemaWords(t *testing.T) {
	keys := map[string]bool{}
	var visit func(reflect.Type)
	visit = func(typ reflect.Type) {
		for typ.Kind() == reflect.Slice || typ.Kind() == reflect.Map {
			typ = typ.Elem()
		}
		if typ == textType || typ == numberType {
			return
		}
		shape := shapeOf(typ)
		for _, name := range shape.names {
			if key := shape.what + "." + name; !keys[key] {
				keys[key] = true
				visit(typ.Field(shape.keys[name].index).Type)
			}
		}
	}
	visit(reflect.TypeFor[rawFile]())
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		if line := schemaTexts[key]; line == "" || strings.Contains(line, "\n") {
			t.Errorf("%s: described as %q", key, line)
		}
	}
	for _, key := range append(slices.Sorted(maps.Keys(schemaTexts)), slices.Sorted(maps.Keys(schemaWords))...) {
		if !keys[key] {
			t.Errorf("there is no key %s", key)
		}
	}
	for _, key := range append(slices.Sorted(maps.Keys(spokenKeys)), slices.Sorted(maps.Keys(heardKeys))...) {
		if !keys[key] {
			t.Errorf("there is no key %s to warn about", key)
		}
	}
}
