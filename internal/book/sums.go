package book

import "sparehand/internal/logic"

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
