package book

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"gopkg.in/yaml.v3"

	"sparehand/rules"
)

// What the pack holds of a file is what the parser makes of it, node by node.
func TestPackHoldsWhatIsParsed(t *testing.T) {
	data, err := Pack(rules.Files)
	if err != nil {
		t.Fatal(err)
	}
	packs := readPack(fstest.MapFS{PackName: {Data: data}})
	list, _ := names(rules.Files, false)
	for _, name := range list {
		text, err := fs.ReadFile(rules.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		parsed, fault := parseSource(name, text)
		if fault != nil {
			t.Fatal(fault)
		}
		if root := packs.root(name, text); root == nil || !sameNode(root, parsed.root) {
			t.Errorf("%s is packed otherwise than it is parsed", name)
		}
	}
}

func sameNode(a, b *yaml.Node) bool {
	if a.Kind != b.Kind || a.Style != b.Style || a.Tag != b.Tag || a.Value != b.Value || a.Line != b.Line || a.Column != b.Column || len(a.Content) != len(b.Content) {
		return false
	}
	for i := range a.Content {
		if !sameNode(a.Content[i], b.Content[i]) {
			return false
		}
	}
	return true
}
