// Package book turns the YAML rules into a checked, compiled Book.
//
// A Book is immutable and shared by every session. Loading is strict: every
// fault of every file is collected and reported as file:line:column, and a
// book with a fault never loads at all.
package book

import (
	"slices"
	"strings"
	"unicode"

	"sparehand/internal/logic"
)

// Book is the whole of what sparehand knows, ready to reason with.
type Book struct {
	Base        *logic.Base
	Unmade      string      // what to do where no piece can be ready by the call, spoken; or ""
	Steps       []Step      // of the job, from the first sketch to the piece put away
	Facts       []Fact      // in Base's order: Facts[id].Name == Base.Fact(id).Name
	Problems    []*Problem  // in file order
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

// Material is something that is measured out and bought.
type Material struct {
	ID      string
	Title   string
	Density float64   // g/ml in a melt
	Scooped float64   // g/ml in a spoon or cup
	Doubt   float64   // percent either way of Scooped
	Holds   Holds     // how it takes up water, for the climate
	Packs   []float64 // usual pack sizes in g, the smallest first
	Pack    *Fact     // tells the maker's pack in g, or nil
	Have    *Fact     // tells what there is of it in g, or nil
	Price   *Fact     // tells what that pack costs, or nil
	Instead []string  // what can take its place
	Says    []string  // other names, for "300 g of ..."
	Source  string    // of the densities
	Place   Place
}

// Holds says which model of taking up water a material follows.
type Holds string

// The models. A material of a recipe with none is taken for a solid that
// neither takes up water nor gives any.
const (
	HoldsNothing  Holds = ""
	HoldsGelatin  Holds = "gelatin"  // powder as sold
	HoldsSyrup    Holds = "syrup"    // sorbitol syrup of 70 % solids
	HoldsGlycerin Holds = "glycerin" // as sold, 99.5 %
	HoldsWater    Holds = "water"
)

// Recipe is a mix in parts by mass.
type Recipe struct {
	ID      string // also the value of the option that chooses it
	Title   string
	GoodFor string
	NotFor  string
	Parts   []RecipePart
	Notes   []string
	Source  string
	Place   Place
}

// RecipePart is so many parts by mass of a material.
type RecipePart struct {
	Material *Material
	Parts    float64
}

// Amount is a sum that a remedy or a maker asks for. One of Parts, Mix, Holds
// and Buys says how it is worked out.
type Amount struct {
	ID        string
	Title     string
	Says      []string // words that ask for it: "how much plaster"
	Say       string   // the answer in words, with {name} for the part of that name; "" lists the parts
	Parts     []Part
	Mix       *Mix
	Holds     *Climate
	Buys      []*Amount // a shopping list for these
	Warns     []Warn
	Notes     []string
	Cautions  []*Caution
	Picture   string     // "section", "humidity" or ""
	OnlyIf    logic.Cond // shown unless this is false
	HasOnlyIf bool
	Source    string // of the constants in the sums
	Place     Place
}

// Warn is said with an amount when the figure of a part passes a bound.
type Warn struct {
	Part  string
	Above bool // past Bound upwards, else downwards
	Bound float64
	Text  string
}

// Part is one line of an amount: Of, in Unit. Lines in g or ml give both
// through Density. From and To are the range that the sum itself leaves open,
// nil where it leaves none.
type Part struct {
	Name     string
	Of       *logic.Formula
	From, To *logic.Formula
	Unit     string
	Density  float64        // g/ml as measured out
	Other    *logic.Formula // the ml of a part in g, or the g of one in ml, where no density gives them; or nil
	Doubt    float64        // percent either way of Density
	Material *Material
}

// Mix measures out the recipe chosen: to fill Ml, or for a whole of G, or for
// what there is of one ingredient; what was told last decides.
type Mix struct {
	Recipe *Fact
	Ml     *logic.Formula
	G      *Fact
	Have   []Have
	Least  float64 // g; less is hard to cook, 0 where nothing is said
	Little string  // what to do with less
	Own    Own
}

// Own holds the facts that tell how a maker's own gelatin and syrup differ
// from those of the recipes; each may be nil.
type Own struct {
	Bloom      *Fact // of the gelatin there is
	WrittenFor *Fact // the Bloom that the recipe means
	Syrup      *Fact // percent of sorbitol in the syrup there is
}

// Have is what there is of an ingredient.
type Have struct {
	Material *Material
	Grams    *Fact
}

// Climate compares the recipes at the humidities where a piece is made,
// carried and worn.
type Climate struct {
	Recipe              *Fact // the one chosen
	Made, Carried, Worn *Fact // percent
	Tolerance           *Fact // percent of size
	Own                 Own
	Added               *Fact // g of water stirred in, or nil like the rest
	Before, After       *Fact // g of the jug before and after cooking
	Mass                *Fact // g of the batch that these belong to
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
	Harms   [][]string // single words for what it does: one of each group
	Spreads bool       // it is a danger though nobody is hurt yet
	Sayings []string
	Place   Place
}

// Pattern is heard where each group of All has a word or phrase in the
// utterance and no phrase of Unless stands in it. A phrase may give a choice of
// words: "my|his hand|arm".
type Pattern struct {
	All    [][]string
	Unless []string
}

// Elsewhere is a trouble of the trade that this book does not treat yet.
type Elsewhere struct {
	ID, Title string
	Say       string // what to answer, "" for saying that there is no page on it
	Sayings   []string
	Certain   []Pattern // heard for certain where one of these is
	Lifts     []string  // words that take a refusal back; with none it is no refusal
	Bodies    *Bodies   // the vocabulary of what is laid on whom, or nil
}

// Bodies is the vocabulary by which it is judged whether something that sets or
// scalds is to be laid on a body. A phrase may give a choice of words, as in a
// Pattern.
type Bodies struct {
	Sets, Scalds []string // what sets hard and hot; what scalds while liquid
	Parts        []string // a body's own, whoever says them
	Features     []string // sculpted by makers: a body's own only where somebody's
	Beings       []string // whole creatures
	Players      []string // whom pieces are made for: bodies only where it is laid on them
	Whose        []string
	Acts         []string // what is done with what sets
	Made         []string // what is made or sculpted, and of what
	Wares        []string // what else has a face or a foot
	States       []string // how hands and heads may be
	Mishaps      []string // what tells that it got there by itself, or comes off
	Worn         []string // how a piece is worn
	Turns        []string // turns of speech that name no body
}

// LiftedBy reports whether words hold one of those that take a refusal back.
func (e *Elsewhere) LiftedBy(words string) bool {
	said := " " + strings.Join(strings.FieldsFunc(strings.ToLower(words), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' }), " ") + " "
	return slices.ContainsFunc(e.Lifts, func(lift string) bool { return strings.Contains(said, " "+lift+" ") })
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

// RecipeByID finds a recipe, or nil.
func (b *Book) RecipeByID(id string) *Recipe {
	for _, r := range b.Recipes {
		if r.ID == id {
			return r
		}
	}
	return nil
}

// Reach lists the facts that an amount can be worked out from, by any way,
// each once, in the order in which they are met.
func (b *Book) Reach(a *Amount) []logic.FactID {
	r := reach{book: b, seen: map[logic.FactID]bool{}}
	r.amount(a)
	return r.facts
}

type reach struct {
	book  *Book
	facts []logic.FactID
	seen  map[logic.FactID]bool
}

func (r *reach) amount(a *Amount) {
	for _, p := range a.Parts {
		r.formulas(p.Of, p.From, p.To, p.Other)
	}
	if m := a.Mix; m != nil {
		r.formulas(m.Ml)
		r.named(m.G, m.Recipe, m.Own.Bloom, m.Own.WrittenFor, m.Own.Syrup)
		for _, have := range m.Have {
			r.named(have.Grams)
		}
	}
	if h := a.Holds; h != nil {
		r.named(h.Made, h.Carried, h.Worn, h.Tolerance, h.Recipe, h.Own.Bloom, h.Own.WrittenFor, h.Own.Syrup,
			h.Added, h.Before, h.After, h.Mass)
	}
	for _, other := range a.Buys {
		r.amount(other)
	}
	if len(a.Buys) > 0 {
		for _, m := range r.book.Materials {
			r.named(m.Pack, m.Price)
		}
	}
}

func (r *reach) formulas(list ...*logic.Formula) {
	for _, f := range list {
		if f != nil {
			for _, id := range f.Facts() {
				r.fact(id)
			}
		}
	}
}

func (r *reach) named(list ...*Fact) {
	for _, f := range list {
		if f != nil {
			r.fact(f.ID)
		}
	}
}

func (r *reach) fact(id logic.FactID) {
	if r.seen[id] {
		return
	}
	r.seen[id] = true
	r.facts = append(r.facts, id)
	f := &r.book.Facts[id]
	r.formulas(f.Ways...)
	if f.Usual != nil {
		r.formulas(f.Usual.Value)
	}
}
