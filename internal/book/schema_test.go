package book

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"path/filepath"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"sparehand/rules"
)

// compiledSchema reads Schema with a library that knows the standard, which
// also checks it against the schema of schemas.
func compiledSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	data, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("rules.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("rules.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON reads YAML as an editor does, by way of JSON.
func asJSON(t *testing.T, data []byte) any {
	t.Helper()
	var v any
	if err := yaml.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	out, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// TestSchemaTakesTheBook: every file of the book fits the schema.
func TestSchemaTakesTheBook(t *testing.T) {
	s := compiledSchema(t)
	files, err := fs.Glob(rules.Files, "*/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, name := range files {
		data, err := fs.ReadFile(rules.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(asJSON(t, data)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := s.Validate(asJSON(t, read(t, "testdata/sound.yaml"))); err != nil {
		t.Errorf("sound.yaml: %v", err)
	}
}

// TestSchemaRefuses: what is wrong with the shape of a file is found, what
// needs the whole book is not.
func TestSchemaRefuses(t *testing.T) {
	s := compiledSchema(t)
	for _, name := range []string{"unknown-key", "wrong-word", "remedy-without-saves", "not-a-number"} {
		if s.Validate(asJSON(t, read(t, filepath.Join("testdata/broken", name+".yaml")))) == nil {
			t.Errorf("%s fits the schema", name)
		}
	}
	for _, test := range []struct {
		what, file string
		fits       bool
	}{
		{"nothing but a stage", "stage: mould", true},
		{"no stage", "facts: []", false},
		{"an empty text", `{stage: mould, shop_talk: [" "]}`, false},
		{"a list for a text", "stage: [mould]", false},
		{"a text for a list", "{stage: mould, shop_talk: hello}", false},
		{"an unquoted number as text", "{stage: mould, shop_talk: [12]}", true},
		{"a text for a number", `{stage: bench, steps: [{id: a, title: a, least: soon}]}`, false},
		{"an unknown word", `{stage: bench, cautions: [{id: a, level: hot, text: a, source: a}]}`, false},
		{"a known word", `{stage: bench, cautions: [{id: a, level: care, text: a, source: a}]}`, true},
		{"a missing key", `{stage: bench, cautions: [{id: a, level: care, text: a}]}`, false},
		{"a list in a map", `{stage: bench, cases: [{name: a, say: [a], answers: {b: [c]}, expect: {}}]}`, false},
		{"groups of phrases", `{stage: bench, elsewhere: [{id: a, title: a, sayings: [a], certain: [{all: [[a], [b]]}]}]}`, true},
		{"phrases without groups", `{stage: bench, elsewhere: [{id: a, title: a, sayings: [a], certain: [{all: [a]}]}]}`, false},
		{"a dangling id, which needs the book", `{stage: bench, adds: [{to: nowhere}]}`, true},
	} {
		if err := s.Validate(asJSON(t, []byte(test.file))); (err == nil) != test.fits {
			t.Errorf("%s: %v", test.what, err)
		}
	}
}
