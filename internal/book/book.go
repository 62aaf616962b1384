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
	Unmade      string      // what to do where no piece can be ready by the call, spoken; or ""
	Steps       []Step      // of the job, from the first sketch to the piece put away
	Facts       []Fact      // in Base's order: Facts[id].Name == Base.Fact(id).Name
	Problems    []*Problem  // in file order
	Shorter     []*Shorter  // shorter ways through the job, in file order
	Emergencies []Emergency // in file order
	Cautions    []*Caution
	Materials   []*Material
	Recipes     []*Recipe
	Amounts     []*Amount
	Elsewhere   []Elsewhere // troubles heard but not treated by this book
	ShopTalk    []string    // talk that is none of these, for the hearing
	Harmless    []string    // alarming words that are no emergency, though perhaps a trouble
	Commands    []Command   // phrases for each command
	Cases       []Case
	Signs       int // conditions in the book, for reports

	written []written // texts with their places, for Warnings
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
	Follows    []Follow         // how it can be derived, first true one wins
	Usual      *Usual           // Number: what sums take where it is not told, or nil
	Ways       []*logic.Formula // Number: how sums get it from others where it is not told
	OffBy      float64          // Number: how far off a usual reading is, either way, in Unit; 0 unknown
	Place      Place
}

// Usual is a number that sums take for granted where it is not told, with the
// range in which it mostly lies.
type Usual struct {
	Value, From, To *logic.Formula
	Text            string // spoken: "a skirt 10 mm wide all round"
	Better          string // how to narrow it, a sentence; "" for telling it
	Source          string // of the numbers
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

// Step is a part of the job. Steps stand in the order in which they are done.
type Step struct {
	ID    string
	Index int     // in Book.Steps
	Title string  // spoken after "at": "pouring the plaster"
	Least float64 // minutes until the next step can begin, at the very least
	Waits bool    // most of it is waiting, which is still to come when a trouble is mended
	Says  []string
	Guide *Guide // its page, or nil in a book that guides nobody
	Place Place

	Source string // of Least
}

// Problem is something that a maker sees go wrong.
type Problem struct {
	ID       string
	Index    int // in Book.Problems
	Stage    string
	Title    string // short, as shown: "Plaster leaks from the wall"
	Meaning  string // one sentence: what the maker sees
	Step     *Step  // at which it shows, or nil
	First    string // what to do before any question, spoken; "" where nothing hurries
	Sayings  []string
	Cautions []*Caution // always shown with this problem
	Causes   []*Cause
	Hurry    Hurry
	Fallback Fallback
	Place    Place
}

// Hurry is what is left to do where no proper fix fits into the time there is,
// each a spoken sentence or "".
type Hurry struct {
	Save string // what can still be saved, and how
	Hide string // what can be hidden, and how
	Drop string // what to leave out
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
	Began    *Step    // at which it was brought about, or nil for the problem's own step
	See      *Problem // the page about it, where it was a trouble of its own, or nil
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
	From      *Step // the step to which a build goes back, or nil; see Again
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

// ProblemByID finds a problem, or nil.
func (b *Book) ProblemByID(id string) *Problem {
	for _, p := range b.Problems {
		if p.ID == id {
			return p
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
