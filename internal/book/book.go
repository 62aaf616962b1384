// Package book turns the YAML rules into a checked, compiled Book.
//
// A Book is immutable and shared by every session. Loading is strict: every
// fault of every file is collected and reported as file:line:column, and a
// book with a fault never loads at all.
package book

import "sparehand/internal/logic"

// Book is the whole of what sparehand knows, ready to reason with.
type Book struct {
	Base        *logic.Base
	Facts       []Fact      // in Base's order: Facts[id].Name == Base.Fact(id).Name
	Problems    []*Problem  // in file order
	Emergencies []Emergency // in file order
	Cautions    []*Caution
	Amounts     []*Amount
	Elsewhere   []Elsewhere // troubles heard but not treated by this book
	ShopTalk    []string    // talk that is none of these, for the hearing
	Commands    []Command   // phrases for each command
	Cases       []Case
	Signs       int // conditions in the book, for reports
}

// Place is where something stands in the rules.
type Place struct {
	File         string
	Line, Column int // 1-based, in runes
}

// Effort says what a question costs the maker to answer.
type Effort uint8

// Efforts from the least to the greatest.
const (
	Look Effort = iota
	Touch
	Measure
	Test
)

// Fact is something about the piece, the room or the maker that can be known.
type Fact struct {
	ID         logic.FactID
	Name       string // snake_case
	Stage      string
	Kind       logic.Kind
	Ask        string // the question, one short spoken sentence
	HowToCheck string
	Why        string // why it matters, for "why do you ask?"
	Effort     Effort
	Options    []Option // Choice: the options; YesNo: exactly yes, no
	Unit       string   // Number: g ml mm min C % or "" for a count
	Low, High  float64  // Number: what is believable; both 0 when open
	Says       []string // Number: the words that name the quantity
	OnlyIf     logic.Cond
	HasOnlyIf  bool
	Follows    []Follow // how it can be derived, first true one wins
	Place      Place
}

// Option is one answer of a choice or yes/no fact.
type Option struct {
	Value string
	Label string   // short, shown on the card
	Says  []string // other ways people say it
}

// Follow derives a fact's value where a condition holds.
type Follow struct {
	When  logic.Cond
	Value logic.Value
}

// Problem is something that a maker sees go wrong.
type Problem struct {
	ID       string
	Index    int // in Book.Problems
	Stage    string
	Title    string // short, as shown: "Plaster leaks from the wall"
	Meaning  string // one sentence: what the maker sees
	First    string // what to do before any question, spoken; "" where nothing hurries
	Sayings  []string
	Cautions []*Caution // always shown with this problem
	Causes   []*Cause
	Fallback Fallback
	Place    Place
}

// Fallback is the honest end, where nothing fits.
type Fallback struct {
	Try  []string // safe to try
	Seek string   // whom to ask, or what to bring them
}

// Cause is a reason why a problem occurs.
type Cause struct {
	ID       string
	Index    int // in Problem.Causes
	Title    string
	Why      string // one or two sentences
	Often    Often
	Signs    []Sign
	Remedies []*Remedy
	Cautions []*Caution
	Sources  []string
	Place    Place
}

// Sign is a condition that speaks for or against a cause when it is true.
type Sign struct {
	When    logic.Cond
	Points  Points
	Because string // the reason in words, "" to name the fact's answer
	Place   Place
}

// Remedy is what to do about a cause.
type Remedy struct {
	ID        string
	Cause     *Cause
	Say       string   // one short spoken sentence for now
	Now       []string // steps, short spoken sentences
	NextTime  []string
	Saves     Saves
	Minutes   float64
	Works     Works
	OnlyIf    logic.Cond
	HasOnlyIf bool
	Amounts   []*Amount
	Cautions  []*Caution
	AlsoHelps []AlsoHelps
	Place     Place
}

// AlsoHelps says that a remedy helps with another cause of the same problem.
type AlsoHelps struct {
	Cause *Cause
	Works Works
}

// Saves says whether a remedy saves the piece: "yes", "partly" or "no".
type Saves string

// Caution is a warning, with its source.
type Caution struct {
	ID     string
	Level  string // stop, care or note
	Text   string
	Source string // a published source, or "common practice, no source"
	Place  Place
}

// Amount is a sum that a remedy or a maker asks for.
type Amount struct {
	ID        string
	Title     string
	Says      []string       // words that ask for it: "how much plaster"
	Needs     []logic.FactID // number facts that must be told, in the order to ask
	Assumes   []Assumption
	Parts     []Part
	Notes     []string
	OnlyIf    logic.Cond // shown unless this is false
	HasOnlyIf bool
	Place     Place
}

// Assumption is a value used where the maker has not told one.
type Assumption struct {
	Fact  logic.FactID
	Value float64
	Text  string // spoken: "a margin of 25 mm round the piece"
}

// Part is one line of an amount. Of gives Unit (g or ml); the other follows
// through Density in g/ml.
type Part struct {
	Name    string
	Of      *logic.Formula
	Unit    string
	Density float64
}

// Emergency is a hurt or a danger that comes before everything else.
type Emergency struct {
	ID      string
	Title   string
	Say     string   // the first thing to do, one short spoken sentence
	Do      []string // what to do, in order
	Call    string   // when and whom to call
	Source  string   // the public first-aid guidance
	Ask     string   // the short question where it is only possible
	Certain []Pattern
	Maybe   []Pattern
	Sayings []string
	Place   Place
}

// Pattern is heard where each group of All has a word or phrase in the
// utterance and no phrase of Unless stands in it.
type Pattern struct {
	All    [][]string
	Unless []string
}

// Elsewhere is a trouble of the trade that this book does not treat yet.
type Elsewhere struct {
	ID, Title string
	Say       string // what to answer, "" for saying that there is no page on it
	Sayings   []string
}

// Command is a request to the assistant itself.
type Command struct {
	ID   string // repeat, back, why, others, next, fixed, start-again, help, amounts
	Says []string
}

// ProblemByID finds a problem, or nil.
func (b *Book) ProblemByID(id string) *Problem {
	for _, p := range b.Problems {
		if p.ID == id {
			return p
		}
	}
	return nil
}

// EmergencyByID finds an emergency, or nil.
func (b *Book) EmergencyByID(id string) *Emergency {
	for i := range b.Emergencies {
		if b.Emergencies[i].ID == id {
			return &b.Emergencies[i]
		}
	}
	return nil
}

// FactByName finds a fact, or nil.
func (b *Book) FactByName(name string) *Fact {
	id, ok := b.Base.FactID(name)
	if !ok {
		return nil
	}
	return &b.Facts[id]
}
