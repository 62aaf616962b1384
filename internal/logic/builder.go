package logic

import (
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/vm"
)

// Builder reads conditions and formulas over a fixed set of facts. It is for
// one goroutine.
type Builder struct {
	*vocabulary
	config   *conf.Config
	gates    *gates
	check    checker // of the text being read
	lower    lowering
	programs []*vm.Program
	failed   error // expr refused what the checker let pass

	texts    []string
	roots    []ref
	mentions lists[FactID]
	cuts     lists[cut]
}

// NewBuilder returns a Builder for these facts and functions. It is an error
// for a name to be empty, taken, or a word of the syntax, for a choice to have
// no options or one twice, and for a function to be nil.
func NewBuilder(facts []Fact, funcs []Func) (*Builder, error) {
	v, err := newVocabulary(facts, funcs)
	if err != nil {
		return nil, err
	}
	b := &Builder{vocabulary: v, config: newConfig(v.facts, v.funcs), gates: newGates(v.facts)}
	b.lower.Builder = b
	return b, nil
}

// Add reads one condition. It returns every fault it can find, in the order of
// the text, and then the Cond is -1 and the text is not part of the Base.
func (b *Builder) Add(text string) (Cond, []Fault) {
	tree, c, faults := b.read(text, "condition", (*checker).needCondition)
	if len(faults) > 0 {
		return -1, faults
	}
	l := &b.lower
	l.stack, l.cuts = l.stack[:0], l.cuts[:0]
	neg := l.spread(tree)
	if err := b.failed; err != nil {
		b.failed = nil
		return -1, []Fault{{0, utf8.RuneCountInString(text), "this cannot be used as a condition", ""}}
	}
	r := b.gates.root(l.stack)
	if neg {
		r = r.not()
	}
	b.texts = append(b.texts, text)
	b.roots = append(b.roots, r)
	slices.Sort(c.mentions)
	b.mentions.add(slices.Compact(c.mentions))
	b.cuts.add(l.cuts)
	return Cond(len(b.roots) - 1), nil
}

// read parses and checks a text. need checks the sort of the whole.
func (b *Builder) read(text, what string, need func(*checker, ast.Node)) (ast.Node, *checker, []Fault) {
	c := &b.check
	*c = checker{vocabulary: b.vocabulary, mentions: c.mentions[:0]}
	faults, slips := prescan(text, what)
	if len(faults) > 0 {
		return nil, c, b.more(text, faults, slips, need)
	}
	tree, err := parse(text, b.config)
	if err != nil {
		return nil, c, b.more(text, []Fault{syntaxFault(text, err)}, nil, need)
	}
	c.text = text
	need(c, tree)
	return tree, c, ordered(c.faults)
}

// more adds to the faults of a text that does not parse what can be found
// after its slips are cured, or else the names that are not known.
func (b *Builder) more(text string, faults []Fault, slips []slip, need func(*checker, ast.Node)) []Fault {
	if len(text) > MaxText {
		return faults
	}
	if cured, ok := repair(text, slips); ok && len(slips) > 0 && len(slips) == len(faults) {
		if tree, err := parse(cured, b.config); err == nil {
			c := &checker{vocabulary: b.vocabulary}
			c.text = cured
			need(c, tree)
			return ordered(append(faults, c.faults...))
		}
	}
	loose := b.looseNames(text)
	faults = slices.DeleteFunc(faults, func(f Fault) bool { // a name that is not known is why it is not expected
		return len(f.Hint) == 0 && slices.ContainsFunc(loose, func(l Fault) bool { return l.From == f.From && l.To == f.To })
	})
	return ordered(append(faults, loose...))
}

// ordered sorts faults by place and drops doubles.
func ordered(faults []Fault) []Fault {
	slices.SortStableFunc(faults, func(a, b Fault) int {
		if a.From != b.From {
			return a.From - b.From
		}
		return a.To - b.To
	})
	return slices.CompactFunc(faults, func(a, b Fault) bool {
		return a.From == b.From && a.To == b.To && a.Message == b.Message
	})
}

// looseNames reports the unknown names in a text that does not parse.
func (b *Builder) looseNames(text string) []Fault {
	var faults []Fault
	runes := []rune(text)
	for i := 0; i < len(runes); i++ {
		if end := skipQuoted(runes, i); end > i {
			i = end - 1
			continue
		}
		if !isWord(runes[i]) {
			continue
		}
		end := wordEnd(runes, i)
		if f, bad := b.looseName(runes, i, end); bad {
			faults = append(faults, f)
		}
		i = end - 1
	}
	return faults
}

func (b *Builder) looseName(runes []rune, from, to int) (Fault, bool) {
	name := string(runes[from:to])
	_, fact := b.names[name]
	_, function := b.funcNames[name]
	if fact || function || slices.Contains(keywords, name) || runes[from] >= '0' && runes[from] <= '9' {
		return Fault{}, false
	}
	if to < len(runes) && runes[to] == '(' {
		message, help := b.unknownFunc(name)
		return Fault{from, to, message, help}, true
	}
	message, help := b.unknownFact(name, anyKinds)
	return Fault{from, to, message, help}, true
}

func signature(f Func) string {
	return f.Name + "(" + strings.Join(f.Params, ", ") + ")"
}

// lists holds many short lists in one slice.
type lists[T any] struct {
	items []T
	ends  []int32
}

func (l *lists[T]) add(items []T) {
	l.items = append(l.items, items...)
	l.ends = append(l.ends, int32(len(l.items)))
}

// at returns list i, capped so that appending to it copies.
func (l *lists[T]) at(i int) []T {
	start := int32(0)
	if i > 0 {
		start = l.ends[i-1]
	}
	return l.items[start:l.ends[i]:l.ends[i]]
}

func (l *lists[T]) clone() lists[T] {
	return lists[T]{slices.Clone(l.items), slices.Clone(l.ends)}
}
