package book

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// maxFile caps one rules file; the largest of ours is far below.
const maxFile = 2 << 20

// source is one rules file: its text for positions, its parsed nodes.
type source struct {
	name  string
	text  string
	split []string // text by lines, once it is asked for
	root  *yaml.Node
}

// casesEnd ends the names of files that hold nothing but cases.
const casesEnd = ".cases.yaml"

// names lists every .yaml file below fsys, in the order of their names, with
// the cases or without.
func names(fsys fs.FS, cases bool) ([]string, Faults) {
	var all []string
	var faults Faults
	walk := func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			faults = append(faults, Fault{Place: Place{File: name}, Message: "can't be read: " + err.Error()})
			return nil
		}
		if entry.IsDir() || path.Ext(name) != ".yaml" && path.Ext(name) != ".yml" || !cases && strings.HasSuffix(name, casesEnd) {
			return nil
		}
		all = append(all, name)
		return nil
	}
	if err := fs.WalkDir(fsys, ".", walk); err != nil {
		faults = append(faults, Fault{Place: Place{File: "."}, Message: err.Error()})
	}
	if len(all) == 0 && len(faults) == 0 {
		faults = append(faults, Fault{Place: Place{File: "."}, Message: "no rules here: a book is a folder of .yaml files"})
	}
	return all, faults
}

// lines gives the text by lines. Only faults need them.
func (s *source) lines() []string {
	if s.split == nil {
		s.split = strings.Split(s.text, "\n")
	}
	return s.split
}

func readSource(fsys fs.FS, packs packed, name string) (*source, *Fault) {
	info, err := fs.Stat(fsys, name)
	if err == nil && info.Size() > maxFile {
		return nil, &Fault{Place: Place{File: name}, Message: fmt.Sprintf("larger than %d MiB", maxFile>>20)}
	}
	var data []byte
	if err == nil {
		data, err = fs.ReadFile(fsys, name)
	}
	if err != nil {
		return nil, &Fault{Place: Place{File: name}, Message: "can't be read: " + err.Error()}
	}
	if root := packs.root(name, data); root != nil {
		return &source{name: name, text: strings.ReplaceAll(string(data), "\r\n", "\n"), root: root}, nil
	}
	return parseSource(name, data)
}

func parseSource(name string, data []byte) (*source, *Fault) {
	if !utf8.Valid(data) {
		return nil, &Fault{Place: Place{File: name}, Message: "not UTF-8 text"}
	}
	text := strings.ReplaceAll(string(data), "\r\n", "\n")
	src := &source{name: name, text: text}
	dec := yaml.NewDecoder(strings.NewReader(text))
	var doc yaml.Node
	if err := dec.Decode(&doc); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, &Fault{Place: Place{File: name, Line: 1, Column: 1}, Message: "the file is empty"}
		}
		return nil, src.syntaxFault(err)
	}
	src.root = doc.Content[0]
	var second yaml.Node
	if err := dec.Decode(&second); err == nil {
		at := src.at(&second)
		return nil, &Fault{Place: at, Message: "a second document in the file: put it in a file of its own"}
	} else if !errors.Is(err, io.EOF) {
		return nil, src.syntaxFault(err)
	}
	return src, nil
}

var yamlLine = regexp.MustCompile(`line (\d+): (.*)`)

// syntaxFault takes the line from yaml's message, which carries it as text
// only, and points at the first letter of that line.
func (s *source) syntaxFault(err error) *Fault {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	place := Place{File: s.name, Line: 1, Column: 1}
	if m := yamlLine.FindStringSubmatch(text); m != nil {
		place.Line, _ = strconv.Atoi(m[1])
		text = m[2]
		place.Line = s.faultyLine(place.Line, text)
		if place.Line >= 1 && place.Line <= len(s.lines()) {
			line := s.lines()[place.Line-1]
			place.Column = 1 + len(line) - len(strings.TrimLeft(line, " \t"))
		}
	}
	return &Fault{Place: place, Message: "not readable as YAML: " + text}
}

// faultyLine puts right the line of a fault: yaml.v3 counts the lines of its
// parser from 0, and names the line where a block begins for a tab inside it.
func (s *source) faultyLine(line int, text string) int {
	switch {
	case strings.HasPrefix(text, "did not find expected"):
		return min(line+1, len(s.lines()))
	case strings.Contains(text, "tab character"):
		for i := max(0, line-1); i < len(s.lines()); i++ {
			if strings.HasPrefix(strings.TrimLeft(s.lines()[i], " "), "\t") {
				return i + 1
			}
		}
	}
	return line
}

// at gives the place of a node, that of the file for a part never written.
func (s *source) at(n *yaml.Node) Place {
	if n == nil {
		return Place{File: s.name}
	}
	return Place{File: s.name, Line: n.Line, Column: n.Column}
}

// inside finds where the rune offset of a scalar's text stands in the file.
// Where YAML has folded or escaped the text, it is the scalar's start: a
// made-up column would be worse.
func (s *source) inside(n *yaml.Node, offset int) Place {
	start := s.at(n)
	runes := []rune(n.Value)
	offset = min(max(offset, 0), len(runes))
	before := string(runes[:offset])
	row := strings.Count(before, "\n")
	col := utf8.RuneCountInString(before[strings.LastIndex(before, "\n")+1:])
	switch {
	case n.Style&yaml.LiteralStyle != 0:
		want := strings.Split(n.Value, "\n")[row]
		line := n.Line + 1 + row
		if line > len(s.lines()) {
			return start
		}
		indent := strings.Index(s.lines()[line-1], want)
		if indent < 0 {
			return start
		}
		return Place{s.name, line, utf8.RuneCountInString(s.lines()[line-1][:indent]) + col + 1}
	case n.Style&yaml.FoldedStyle != 0 || row > 0 || n.Line > len(s.lines()):
		return start
	}
	column := n.Column + col
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		column++
	}
	raw := []rune(s.lines()[n.Line-1])
	if from := column - 1 - col; from+offset <= len(raw) && string(raw[from:from+offset]) == before {
		return Place{s.name, n.Line, column}
	}
	return start
}
