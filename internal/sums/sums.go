// Package sums works out the amounts of a book from what is known: for this
// piece, these measures, this weather. It takes no size for granted that
// decides the amount, says what it does take for granted, gives the range
// that this leaves, and which one measurement would narrow it most.
package sums

import (
	"errors"
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/draw"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
)

// Known is what has been told so far.
type Known interface {
	Value(logic.FactID) (logic.Value, bool)
	Since(logic.FactID) int // the later told, the greater; 0 for not told
}

// Bench works out amounts.
type Bench struct {
	Book  *book.Book
	Known Known
}

// Worked is what an amount came to. With something in Lacks or Refused there
// are no lines.
type Worked struct {
	Amount   *book.Amount
	Lacks    []*book.Fact // to be told first, in the order to ask
	Refused  string       // why it cannot be worked out, one sentence
	Lines    []Line
	Spoken   string   // the answer in a sentence or two; "" to list the lines
	Warned   string   // what the book says of such figures, or ""
	Short    string   // whether what there is is enough, or ""
	Assumes  []string // what was taken for granted
	Notes    []string // what goes with it
	Narrow   string   // which one measurement narrows the range most, or ""
	Pictures []draw.Picture
}

// Line is one figure of an amount.
type Line struct {
	Name        string
	Unit        string     // g, ml, mm, cm2, min, s, C, % or "" for a count
	Span        craft.Span // in Unit
	Grams       float64    // 0 where Unit is neither g nor ml
	Millilitres float64    // as measured out; 0 as Grams
	Doubt       float64    // percent either way of Millilitres
	Text        string     // words that stand for the figure, or ""
	Measured    craft.Measured
	Material    *book.Material
}

// Work works an amount out.
func (b Bench) Work(am *book.Amount) Worked {
	w := &work{Bench: b, out: Worked{Amount: am, Notes: slices.Clone(am.Notes)}}
	w.number = number{sources: &sources{b.Book, b.Known, map[logic.FactID]source{}}}
	switch {
	case am.Mix != nil:
		w.mix(am.Mix)
	case am.Holds != nil:
		w.climate(am.Holds)
	case am.Buys != nil:
		w.shop(am.Buys)
	default:
		w.parts(am.Parts)
	}
	if len(w.out.Lacks) > 0 || w.out.Refused != "" {
		return Worked{Amount: am, Lacks: w.out.Lacks, Refused: w.out.Refused}
	}
	w.finish()
	return w.out
}

// work is one amount being worked out.
type work struct {
	Bench
	number
	out     Worked
	from    *book.Material // the mix was measured out to what there is of this, or nil
	widest  *book.Fact     // leaves most of the widest range open
	widthOf float64        // that range, as a share of its middle
}

// lack notes facts to ask for and reports whether there are any.
func (w *work) lack(ids []logic.FactID) bool {
	for _, id := range ids {
		if f := &w.Book.Facts[id]; !slices.Contains(w.out.Lacks, f) {
			w.out.Lacks = append(w.out.Lacks, f)
		}
	}
	return len(ids) > 0
}

// refuse says why a sum cannot be worked out, in the words meant for makers.
func (w *work) refuse(err error) {
	var call *logic.CallError
	if errors.As(err, &call) {
		err = call.Err
	}
	w.out.Refused = phrase.Sentence(err.Error())
}

// note adds what goes with an amount, once however often it is worked with.
func (w *work) note(text string) {
	if !slices.Contains(w.out.Notes, text) {
		w.out.Notes = append(w.out.Notes, text)
	}
}

// choice gives the option told of a choice fact, and notes it as lacking
// where there is none.
func (w *work) choice(f *book.Fact) (string, bool) {
	v, told := w.Known.Value(f.ID)
	if !told {
		w.lack([]logic.FactID{f.ID})
		return "", false
	}
	return f.Options[v.Index()].Value, true
}

// need works a formula out with its range, or notes what is lacking.
func (w *work) need(f *logic.Formula) (craft.Span, bool) {
	if w.lack(w.formula(f).lacks) {
		return craft.Span{}, false
	}
	span, widest, err := w.span(f)
	if err != nil {
		w.refuse(err)
		return craft.Span{}, false
	}
	w.noteWidth(span, widest)
	return span, true
}

func (w *work) noteWidth(span craft.Span, widest *book.Fact) {
	if span.Mid <= 0 || widest == nil {
		return
	}
	if width := (span.High - span.Low) / span.Mid; width > w.widthOf {
		w.widthOf, w.widest = width, widest
	}
}

func (w *work) parts(list []book.Part) {
	for i := range list {
		p := &list[i]
		span, ok := w.need(p.Of)
		if ok && p.From != nil {
			span, ok = w.widened(span, p)
		}
		var other craft.Span
		if ok && p.Other != nil {
			other, ok = w.need(p.Other)
		}
		if ok {
			w.out.Lines = append(w.out.Lines, lineOf(p, span, other.Mid))
		}
	}
}

// widened adds to a range what the sum itself leaves open.
func (w *work) widened(span craft.Span, p *book.Part) (craft.Span, bool) {
	low, ok1 := w.need(p.From)
	high, ok2 := w.need(p.To)
	return craft.Span{Low: min(span.Low, low.Low), Mid: span.Mid, High: max(span.High, high.High)}, ok1 && ok2
}

// lineOf makes the line of a part. other is its ml where it is in g and its g
// where it is in ml; 0 where the density gives that.
func lineOf(p *book.Part, span craft.Span, other float64) Line {
	line := Line{Name: p.Name, Unit: p.Unit, Span: span, Doubt: p.Doubt, Material: p.Material}
	switch {
	case p.Unit == "g" && p.Other == nil:
		line.Grams, line.Millilitres = span.Mid, span.Mid/p.Density
	case p.Unit == "g":
		line.Grams, line.Millilitres = span.Mid, other
	case p.Unit == "ml" && p.Other == nil:
		line.Grams, line.Millilitres = span.Mid*p.Density, span.Mid
	case p.Unit == "ml":
		line.Grams, line.Millilitres = other, span.Mid
	}
	if line.Grams < 0 { // such as water that a mix would have to lose
		line.Text = number1(craft.Sensible(-line.Grams)) + " g too much"
	}
	return line
}

// finish adds what goes with the lines.
func (w *work) finish() {
	w.assumes()
	w.warn()
	w.short()
	w.measure()
	w.narrow()
	w.speak()
	w.picture()
}

// warn adds what the book says of figures past a bound, before the notes.
func (w *work) warn() {
	for _, warn := range w.out.Amount.Warns {
		for _, line := range w.out.Lines {
			past := warn.Above && line.Span.Mid > warn.Bound || !warn.Above && line.Span.Mid < warn.Bound
			if line.Name == warn.Part && past {
				w.out.Warned = phrase.Speech(w.out.Warned, warn.Text)
			}
		}
	}
}

// assumes says what the lines take for granted.
func (w *work) assumes() {
	for _, id := range w.leaves {
		f := &w.Book.Facts[id]
		if w.of(id).from == fromUsual && !slices.Contains(w.out.Assumes, f.Usual.Text) {
			w.out.Assumes = append(w.out.Assumes, f.Usual.Text)
		}
	}
}

// worthNarrowing is how wide a range may be, as a share of its middle, before
// it is said how to narrow it.
const worthNarrowing = 0.1

func (w *work) narrow() {
	if w.widest == nil || w.widthOf < worthNarrowing {
		return
	}
	name := Subject(w.widest)
	if w.of(w.widest.ID).from == fromTold {
		w.out.Narrow = "The " + name + " decides most here: the closer it is known, the narrower the range."
		return
	}
	if w.out.Narrow = w.widest.Usual.Better; w.out.Narrow == "" {
		w.out.Narrow = "Tell me the " + name + ": that narrows it most."
	}
}
