package book

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"io/fs"
	"slices"

	"gopkg.in/yaml.v3"
)

// PackName is the file in which a book keeps its YAML as parsed. Parsing is
// most of what loading costs; with the pack a book of 46 problems loads in a
// third of the time. A file that was changed since is parsed as ever, so a
// pack can be out of date or missing but never wrong.
const PackName = "packed"

// packVersion stands first in a pack; a pack of another version is not used.
const packVersion = "sparehand pack 1\n"

// A pack is the version and then, for each file: its name, the SHA-256 of its
// bytes, the number of its nodes, and the nodes in preorder. Texts are written
// with their length before them, numbers as in encoding/binary's Uvarint.
//
// A node is its kind, its style, its tag, its line less that of the node
// before, its column, and its text or the number of its children.

// Pack parses every YAML file of a book but the cases, which no talk needs, and
// packs them.
func Pack(fsys fs.FS) ([]byte, error) {
	list, faults := names(fsys, false)
	if len(faults) > 0 {
		return nil, faults
	}
	out := []byte(packVersion)
	for _, name := range list {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, fmt.Errorf("packing %s: %w", name, err)
		}
		src, fault := parseSource(name, data)
		if fault != nil {
			return nil, Faults{*fault}
		}
		sum := sha256.Sum256(data)
		var nodes []byte
		count, line := 0, 0
		if anchored(src.root) {
			continue // to be parsed and refused as ever
		}
		nodes = packNode(nodes, src.root, &count, &line)
		out = append(appendText(out, name), sum[:]...)
		out = appendText(binary.AppendUvarint(out, uint64(count)), string(nodes))
	}
	return out, nil
}

// anchored reports whether a file uses anchors or aliases.
func anchored(n *yaml.Node) bool {
	return n.Anchor != "" || n.Kind == yaml.AliasNode || slices.ContainsFunc(n.Content, anchored)
}

func appendText(out []byte, text string) []byte {
	return append(binary.AppendUvarint(out, uint64(len(text))), text...)
}

// tags are those that the book's YAML can have, by their place here.
var tags = []string{"", "!!str", "!!map", "!!seq", "!!null", "!!bool", "!!int", "!!float", "!!timestamp", "!!merge", "!!binary"}

func packNode(out []byte, n *yaml.Node, count, line *int) []byte {
	*count++
	tag := 0
	for i, t := range tags {
		if n.Tag == t {
			tag = i
		}
	}
	out = append(out, byte(n.Kind), byte(n.Style), byte(tag))
	out = binary.AppendVarint(out, int64(n.Line-*line))
	*line = n.Line
	out = binary.AppendUvarint(out, uint64(n.Column))
	if n.Kind == yaml.ScalarNode {
		return appendText(out, n.Value)
	}
	out = binary.AppendUvarint(out, uint64(len(n.Content)))
	for _, child := range n.Content {
		out = packNode(out, child, count, line)
	}
	return out
}

// packed holds the files of a pack by name.
type packed map[string]packedFile

type packedFile struct {
	sum   [sha256.Size]byte
	count int
	nodes string
}

// readPack reads the pack of a book; nil where there is none that is of use.
func readPack(fsys fs.FS) packed {
	data, err := fs.ReadFile(fsys, PackName)
	if err != nil || len(data) < len(packVersion) || string(data[:len(packVersion)]) != packVersion {
		return nil
	}
	r := unpacker{text: string(data[len(packVersion):])}
	files := packed{}
	for r.text != "" && !r.broken {
		name := r.string()
		var f packedFile
		copy(f.sum[:], r.take(sha256.Size))
		f.count = int(r.uvarint())
		f.nodes = r.string()
		files[name] = f
	}
	if r.broken {
		return nil
	}
	return files
}

// root gives the parsed file, nil where the pack does not have just these bytes.
func (p packed) root(name string, data []byte) *yaml.Node {
	f, ok := p[name]
	if !ok || f.count > len(f.nodes) || sha256.Sum256(data) != f.sum {
		return nil
	}
	r := unpacker{text: f.nodes, nodes: make([]yaml.Node, f.count)}
	root := r.node()
	if r.broken || r.used != f.count {
		return nil
	}
	return root
}

// unpacker reads a pack from the front. Once it meets something that can't be,
// it is broken and gives nothing more.
type unpacker struct {
	text   string
	nodes  []yaml.Node
	used   int
	line   int
	broken bool
}

func (r *unpacker) take(n int) string {
	if n < 0 || n > len(r.text) {
		r.broken, r.text = true, ""
		return ""
	}
	head := r.text[:n]
	r.text = r.text[n:]
	return head
}

func (r *unpacker) uvarint() uint64 {
	var x uint64
	for i := 0; i < len(r.text) && i < binary.MaxVarintLen64; i++ {
		b := r.text[i]
		x |= uint64(b&0x7f) << (7 * i)
		if b < 0x80 {
			r.text = r.text[i+1:]
			return x
		}
	}
	r.broken, r.text = true, ""
	return 0
}

// varint undoes the zigzag of encoding/binary.
func (r *unpacker) varint() int64 {
	u := r.uvarint()
	return int64(u>>1) ^ -int64(u&1)
}

func (r *unpacker) string() string { return r.take(int(min(r.uvarint(), 1<<31))) }

func (r *unpacker) node() *yaml.Node {
	head := r.take(3)
	if r.broken || r.used == len(r.nodes) || int(head[2]) >= len(tags) {
		r.broken = true
		return nil
	}
	n := &r.nodes[r.used]
	r.used++
	n.Kind, n.Style, n.Tag = yaml.Kind(head[0]), yaml.Style(head[1]), tags[head[2]]
	r.line += int(r.varint())
	n.Line, n.Column = r.line, int(r.uvarint())
	if n.Kind == yaml.ScalarNode {
		n.Value = r.string()
		return n
	}
	children := int(min(r.uvarint(), 1<<31))
	if children > len(r.nodes)-r.used {
		r.broken = true
		return nil
	}
	n.Content = make([]*yaml.Node, children)
	for i := range n.Content {
		if n.Content[i] = r.node(); r.broken {
			return nil
		}
	}
	return n
}
