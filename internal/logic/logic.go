// Package logic decides conditions over typed facts in three values: true,
// false and unknown (Kleene's strong logic, S. C. Kleene, Introduction to
// Metamathematics, 1952, section 64). An unanswered fact makes a condition
// unknown only where the answer could matter; unknown never counts as false.
//
// A Builder reads conditions written in a small part of expr's syntax and
// compiles them into one Base, which every session shares and nobody changes.
// A State holds the answers of one session. When one answer changes, only the
// comparisons that it can turn are touched.
package logic

import "strconv"

// Kind says what sort of answer a fact has.
type Kind uint8

// The kinds of fact.
const (
	Choice Kind = iota // one of Fact.Options
	Number             // a finite number, in the fact's own unit
	YesNo              // yes or no
)

// String returns the kind in plain words.
func (k Kind) String() string {
	switch k {
	case Choice:
		return "choice"
	case Number:
		return "number"
	case YesNo:
		return "yes/no"
	}
	return "kind " + strconv.Itoa(int(k))
}

// Fact is something that can be known about the piece on the bench.
type Fact struct {
	Name    string   // a word of letters, digits and _, not starting with a digit
	Kind    Kind     // what sort of answer it has
	Options []string // the possible answers of a Choice, nil for the others
}

// FactID is the place of a fact in the slice given to NewBuilder.
type FactID int32

// Value is the answer to one fact. Values of one kind can be compared with ==.
type Value struct {
	x    float64
	kind Kind
}

// Num returns the answer x to a Number fact.
func Num(x float64) Value { return Value{x, Number} }

// Option returns the answer to a Choice fact: an index into its Options.
func Option(i int) Value { return Value{float64(i), Choice} }

// Yes returns the answer to a YesNo fact.
func Yes(b bool) Value {
	if b {
		return Value{1, YesNo}
	}
	return Value{0, YesNo}
}

// Kind returns the kind of fact that the value answers.
func (v Value) Kind() Kind { return v.kind }

// Number returns the number of a Num, 0 for other kinds.
func (v Value) Number() float64 {
	if v.kind != Number {
		return 0
	}
	return v.x
}

// Index returns the option index of an Option, -1 for other kinds.
func (v Value) Index() int {
	if v.kind != Choice {
		return -1
	}
	return int(v.x)
}

// Bool reports whether the value is a yes.
func (v Value) Bool() bool { return v.kind == YesNo && v.x == 1 }

// Truth is what is known of a condition.
type Truth uint8

// The three truth values. The zero value is Unknown.
const (
	Unknown Truth = iota
	False
	True
)

// String returns "unknown", "false" or "true".
func (t Truth) String() string {
	return [...]string{"unknown", "false", "true"}[t%3]
}

// Not returns Kleene's negation of t.
func (t Truth) Not() Truth { return (3 - t) % 3 }

func truthOf(b bool) Truth {
	if b {
		return True
	}
	return False
}

// Func is a function that conditions and formulas may call. It must be pure:
// equal arguments give equal results. An error or a result that is not a
// finite number makes the comparison around the call unknown.
type Func struct {
	Name   string
	Params []string // names of the parameters; their count is the arity
	Fn     func(args ...float64) (float64, error)
}

// Fault is something wrong with the text of a condition or formula.
type Fault struct {
	From, To int    // rune offsets into the text, half open
	Message  string // lower-case, no full stop
	Hint     string // what to write instead; may be empty
}

// Error returns the message and the hint in one line.
func (f Fault) Error() string {
	if f.Hint == "" {
		return f.Message
	}
	return f.Message + " (" + f.Hint + ")"
}

// Cond is a condition of a Base: the place in the order of successful Adds.
type Cond int32

// Limits of one text. They keep a mistaken or hostile text from costing much.
const (
	MaxText  = 4096 // bytes
	MaxDepth = 64   // brackets or operators inside one another
	MaxNodes = 1000 // names, constants and operators together
)
