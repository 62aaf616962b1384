package book

import (
	"cmp"
	"io/fs"
	"reflect"
	"runtime"
	"slices"
	"sync"

	"gopkg.in/yaml.v3"

	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// Load reads every YAML file of a book. The error is Faults, all of them in
// the order of their places; no part of a book with a fault is returned.
func Load(fsys fs.FS) (*Book, error) { return load(fsys, true) }

// LoadWithoutCases is Load for those who only talk: the files of cases, a
// quarter of the book, are left unread.
func LoadWithoutCases(fsys fs.FS) (*Book, error) { return load(fsys, false) }

func load(fsys fs.FS, cases bool) (*Book, error) {
	list, faults := names(fsys, cases)
	c := newCompiler(faults)
	unread := c.readAll(fsys, list)
	if unread || len(faults) > 0 { // what an unreadable file defines would be missed everywhere else
		return nil, c.faults.sorted()
	}
	c.compile()
	if len(c.faults) > 0 {
		return nil, c.faults.sorted()
	}
	if cases { // for those who check the book, not for those who talk
		c.keepWritten()
	}
	return c.book, nil
}

// file is one decoded rules file.
type file struct {
	src *source
	raw rawFile
}

// compiler turns raw files into a Book, collecting faults as it goes. A part
// with a fault gets a stand-in, so that the rest is still checked.
type compiler struct {
	faults  Faults
	files   []file
	src     *source // of the part being compiled
	stage   string
	builder *logic.Builder
	book    *Book
	defined map[string]map[string]Place // kind of thing: id: where

	facts     []rawFact
	factSrc   []*source
	cautions  map[string]*Caution
	materials map[string]*Material
	recipes   map[string]*Recipe
	amounts   map[string]*Amount
	steps     map[string]*Step
	lists     []listOf
	constant  []conditionAt         // to be looked at once the base is built
	conds     map[string]logic.Cond // by text: the same condition stands in many signs
}

type conditionAt struct {
	cond     logic.Cond
	place    Place
	mayBeAll bool // true for every answer is sense: it asks whether there is one
}

func newCompiler(faults Faults) *compiler {
	return &compiler{
		faults:    faults,
		book:      &Book{},
		defined:   map[string]map[string]Place{},
		cautions:  map[string]*Caution{},
		materials: map[string]*Material{},
		recipes:   map[string]*Recipe{},
		amounts:   map[string]*Amount{},
		steps:     map[string]*Step{},
		conds:     map[string]logic.Cond{},
	}
}

// readAll reads and decodes the files, several at a time, and keeps them in
// the order of the list. It reports whether any can't be read.
func (c *compiler) readAll(fsys fs.FS, list []string) (unread bool) {
	files, faults := make([]file, len(list)), make([]Faults, len(list))
	packs, next := readPack(fsys), make(chan int)
	var readers sync.WaitGroup
	for range min(len(list), runtime.GOMAXPROCS(0)) {
		readers.Go(func() {
			for i := range next {
				files[i], faults[i] = readFile(fsys, packs, list[i])
			}
		})
	}
	for i := range list {
		next <- i
	}
	close(next)
	readers.Wait()
	for i := range list {
		c.faults = append(c.faults, faults[i]...)
		if files[i].src == nil {
			unread = true
			continue
		}
		c.files = append(c.files, files[i])
	}
	return unread
}

// readFile reads and decodes one file; src is nil where it can't be read.
func readFile(fsys fs.FS, packs packed, name string) (f file, faults Faults) {
	src, fault := readSource(fsys, packs, name)
	if fault != nil {
		return f, Faults{*fault}
	}
	f.src = src
	d := decoder{src, &faults}
	d.decode(src.root, reflect.ValueOf(&f.raw).Elem(), "the file")
	return f, faults
}

// compile goes through the book in the order in which its parts refer to
// each other.
func (c *compiler) compile() {
	c.declareFacts()
	c.compileSteps()
	c.each(c.compileCautions)
	c.compileFacts()
	c.each(c.compileMaterials)
	c.each(c.compileRecipes)
	c.each(c.compileAmounts)
	c.compileLists()
	c.each(c.compileProblems)
	c.linkPages()
	c.each(c.compileAdds)
	c.each(c.compileGuides)
	c.checkGuides()
	c.each(c.compileSafety)
	c.each(c.compileTalk)
	c.each(c.compileCases)
	c.book.Base = c.builder.Build()
	c.noConstants()
}

func (c *compiler) each(part func(*rawFile)) {
	for i := range c.files {
		c.src = c.files[i].src
		c.stage = c.files[i].raw.Stage.s
		part(&c.files[i].raw)
	}
}

// noConstants reports conditions that are the same whatever the facts.
func (c *compiler) noConstants() {
	for _, at := range c.constant {
		if t := c.book.Base.Constant(at.cond); t == logic.False || t == logic.True && !at.mayBeAll {
			c.faults = append(c.faults, Fault{Place: at.place, Message: "this condition is always " + t.String() + ", whatever is known"})
		}
	}
}

func (c *compiler) fault(n *yaml.Node, hint, message string) {
	c.faults = append(c.faults, Fault{Place: c.src.at(n), Message: message, Hint: hint})
}

// unique notes an id and reports a second use of it, or one badly spelt.
func (c *compiler) unique(kind string, id text, sep rune) {
	if !id.given() {
		return
	}
	if !plainID(id.s, sep) {
		c.fault(id.node, "", kind+" id "+quote(id.s)+" should be small letters and digits, joined by "+quote(string(sep)))
	}
	if c.defined[kind] == nil {
		c.defined[kind] = map[string]Place{}
	}
	if first, ok := c.defined[kind][id.s]; ok {
		c.fault(id.node, "", kind+" "+quote(id.s)+" is already defined at "+first.String())
		return
	}
	c.defined[kind][id.s] = c.src.at(id.node)
}

// word checks a text against the allowed words.
func (c *compiler) word(t text, what string, allowed []string) string {
	if t.given() && !slices.Contains(allowed, t.s) {
		c.fault(t.node, suggest(t.s, allowed), quote(t.s)+" is not a word for "+what)
	}
	return t.s
}

// refer finds what an id refers to, or reports it as dangling.
func refer[T any](c *compiler, t text, kind string, known map[string]T) (T, bool) {
	found, ok := known[t.s]
	if t.given() && !ok {
		c.fault(t.node, suggest(t.s, sortedKeys(known)), "no "+kind+" is called "+quote(t.s))
	}
	return found, ok
}

// condition compiles an expression; ok is false where it has none or a fault.
func (c *compiler) condition(t text) (cond logic.Cond, ok bool) {
	if !t.given() {
		return 0, false
	}
	cond, known := c.conds[t.s]
	if !known {
		var faults []logic.Fault
		if cond, faults = c.builder.Add(t.s); len(faults) > 0 {
			c.exprFaults(t, faults)
			return 0, false
		}
		c.conds[t.s] = cond
	}
	c.constant = append(c.constant, conditionAt{cond: cond, place: c.src.at(t.node)})
	return cond, true
}

func (c *compiler) formula(t text) *logic.Formula {
	if !t.given() {
		return nil
	}
	f, faults := c.builder.Formula(t.s)
	if len(faults) > 0 {
		c.exprFaults(t, faults)
		return nil
	}
	return f
}

func (c *compiler) exprFaults(t text, faults []logic.Fault) {
	for _, f := range faults {
		c.faults = append(c.faults, Fault{Place: c.src.inside(t.node, f.From), Message: f.Message, Hint: f.Hint})
	}
}

func texts(list []text) []string {
	out := make([]string, 0, len(list))
	for _, t := range list {
		if t.given() {
			out = append(out, t.s)
		}
	}
	return out
}

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K {
	keys := make([]K, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

func craftFuncs() []logic.Func {
	var out []logic.Func
	for _, f := range craft.Funcs() {
		out = append(out, logic.Func{Name: f.Name, Params: f.Params, Fn: f.Fn})
	}
	return out
}
