package sums

import (
	"fmt"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/phrase"
)

// short says whether there is enough, by what was told of the stock.
func (w *work) short() {
	for _, line := range w.out.Lines {
		m := line.Material
		if m == nil || m.Have == nil || m == w.from || line.Grams <= 0 {
			continue
		}
		if src := w.of(m.Have.ID); src.from == nowhere || len(src.told) == 0 {
			continue
		}
		if have, err := w.value(m.Have.ID); err == nil {
			w.compare(line.Name, have, line.Grams)
		}
	}
}

// hair is how much too little is still enough, as a share: less than a spoon
// or a scale shows.
const hair = 0.02

func (w *work) compare(name string, have, need float64) {
	verdict := "that is enough"
	if have < need*(1-hair) {
		verdict = number1(craft.Sensible(need-have)) + " g short"
	}
	w.out.Short = phrase.Speech(w.out.Short, fmt.Sprintf("You have %s g of %s: %s.", number1(craft.Sensible(have)), name, verdict))
}

// againstPiece compares a mix made of what there is with what the piece takes,
// where its size is known.
func (w *work) againstPiece(m *book.Mix, r *book.Recipe, have basis) {
	src := w.formula(m.Ml)
	if len(src.lacks) > 0 || len(src.told) == 0 {
		return
	}
	ml, err := w.eval(m.Ml)
	if err != nil {
		return
	}
	whole, err := w.batchOf(r, basis{ml: craft.Span{Low: ml, Mid: ml, High: ml}}, m.Own)
	if err != nil {
		return
	}
	for i, p := range r.Parts {
		if p.Material == have.have {
			w.compare(p.Material.Title, have.g.Mid, whole.portions[i].Grams)
		}
	}
}
