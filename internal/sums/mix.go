package sums

import (
	"fmt"
	"strconv"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/phrase"
)

// batch is a recipe measured out, portion by portion as in the recipe.
type batch struct {
	recipe   *book.Recipe
	portions craft.Portions
	strength float64 // percent, of the syrup that is used
	water    float64 // g to add for the sake of the syrup; below nothing, too much already
	span     craft.Span
}

// grams sums the portions that hold water in one way.
func (b batch) grams(h book.Holds) float64 {
	sum := 0.0
	for i, p := range b.recipe.Parts {
		if p.Material.Holds == h {
			sum += b.portions[i].Grams
		}
	}
	return sum
}

// mix measures the chosen recipe out.
func (w *work) mix(m *book.Mix) {
	basis, known := w.basis(m)
	id, chosen := w.choice(m.Recipe)
	if !known || !chosen || w.out.Refused != "" {
		return
	}
	b, err := w.batchOf(w.Book.RecipeByID(id), basis, m.Own)
	if err != nil {
		w.refuse(err)
		return
	}
	if w.from = basis.have; w.from != nil {
		w.againstPiece(m, b.recipe, basis)
	}
	if m.Least > 0 && b.portions.Grams() < m.Least {
		w.out.Notes = append([]string{m.Little, leastInWords(b, m.Least)}, w.out.Notes...)
	}
	low, high := b.span.Low/b.span.Mid, b.span.High/b.span.Mid
	for i, p := range b.portions {
		material := b.recipe.Parts[i].Material
		name := material.Title
		if material.Holds == book.HoldsSyrup && b.strength != craft.SyrupSolids {
			name = syrupNamed(b.strength)
		}
		w.out.Lines = append(w.out.Lines, Line{
			Name: name, Unit: "g", Grams: p.Grams, Millilitres: p.Millilitres, Doubt: p.Doubt, Material: material,
			Span: craft.Span{Low: p.Grams * low, Mid: p.Grams, High: p.Grams * high},
		})
	}
	w.syrupWater(b)
	w.out.Notes = append([]string{
		partsInWords(b.recipe), b.recipe.GoodFor, b.recipe.NotFor,
	}, append(b.recipe.Notes, w.out.Notes...)...)
}

func syrupNamed(strength float64) string {
	if strength == 100 {
		return "sorbitol powder"
	}
	return "sorbitol syrup, " + number1(strength) + " %"
}

// syrupWater says what to do about the water that another syrup brings or
// lacks.
func (w *work) syrupWater(b batch) {
	switch {
	case b.water >= 0.5:
		w.out.Lines = append(w.out.Lines, Line{
			Name: "water for the syrup", Unit: "g", Grams: b.water, Millilitres: b.water,
			Span: craft.Span{Low: b.water, Mid: b.water, High: b.water},
		})
	case b.water <= -0.5:
		w.out.Notes = append(w.out.Notes, fmt.Sprintf(
			"That syrup brings %s g of water too much: weigh the jug and cook gently until so much is gone.", number1(craft.Sensible(-b.water))))
	}
}

// leastInWords gives the figures of the least batch.
func leastInWords(b batch, least float64) string {
	words := make([]string, len(b.portions))
	for i, p := range b.portions {
		words[i] = number1(craft.Sensible(p.Grams*least/b.portions.Grams())) + " g of " + b.recipe.Parts[i].Material.Title
	}
	return fmt.Sprintf("For %s g: %s.", number1(least), phrase.And(words))
}

func partsInWords(r *book.Recipe) string {
	words := make([]string, len(r.Parts))
	for i, p := range r.Parts {
		words[i] = number1(p.Parts) + " " + p.Material.Title
	}
	return "Parts by weight: " + phrase.And(words) + " (" + r.Source + ")."
}

func number1(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// basis is what a mix is measured out to.
type basis struct {
	ml, g craft.Span     // one of them, or
	have  *book.Material // what there is of this, in g
}

// basis finds what decides the size of a mix: a volume, a whole mass, or what
// there is of one ingredient, whichever was told last.
func (w *work) basis(m *book.Mix) (basis, bool) {
	var best basis
	latest := 0
	if m.G != nil {
		if src := w.of(m.G.ID); src.from == fromTold {
			x := w.told(m.G)
			latest, best = x.since, basis{g: craft.Span{Low: x.value, Mid: x.value, High: x.value}}
		}
	}
	for _, have := range m.Have {
		src := w.of(have.Grams.ID)
		if src.since <= latest || src.from == nowhere {
			continue
		}
		x, err := w.value(have.Grams.ID)
		if err != nil {
			w.refuse(err)
			return basis{}, false
		}
		latest, best = src.since, basis{have: have.Material, g: craft.Span{Low: x, Mid: x, High: x}}
	}
	src := w.formula(m.Ml)
	if latest > 0 && (len(src.lacks) > 0 || src.since <= latest) {
		return best, true
	}
	ml, ok := w.need(m.Ml)
	return basis{ml: ml}, ok
}

// batchOf measures a recipe out, for the maker's own gelatin and syrup.
func (w *work) batchOf(r *book.Recipe, to basis, own book.Own) (batch, error) {
	b := batch{recipe: r, strength: craft.SyrupSolids, span: craft.Span{Low: 1, Mid: 1, High: 1}}
	recipe, err := w.ownGelatin(r, own)
	if err != nil {
		return batch{}, err
	}
	switch {
	case to.have != nil:
		b.portions, err = recipe.From(to.have.ID, to.g.Mid)
	case to.g.Mid > 0:
		b.portions, err = recipe.OfMass(to.g.Mid)
	default:
		b.portions, err = craft.Mix(to.ml.Mid, recipe, 0)
		b.span = to.ml
	}
	if err != nil {
		return batch{}, err
	}
	if syrup := w.told(own.Syrup); syrup.since > 0 {
		err = b.ownSyrup(syrup.value)
	}
	return b, err
}

// ownGelatin gives the recipe with its gelatin for the maker's own Bloom.
func (w *work) ownGelatin(r *book.Recipe, own book.Own) (craft.Recipe, error) {
	factor := 1.0
	if bloom := w.told(own.Bloom); bloom.since > 0 {
		written, err := w.value(own.WrittenFor.ID)
		if err != nil {
			return nil, err
		}
		exchange, err := craft.ExchangeBloom(written, bloom.value)
		if err != nil {
			return nil, err
		}
		factor = exchange.Factor
		w.note(fmt.Sprintf(
			"Gelatin of %s Bloom for %s: %s times as much. The rule comes from thin water gels, so cast a spoonful first.",
			number1(bloom.value), number1(written), strconv.FormatFloat(factor, 'f', 2, 64)))
	}
	recipe := make(craft.Recipe, len(r.Parts))
	for i, p := range r.Parts {
		parts := p.Parts
		if p.Material.Holds == book.HoldsGelatin {
			parts *= factor
		}
		recipe[i] = craft.Ingredient{Name: p.Material.ID, Parts: parts, Density: p.Material.Density, Spooned: p.Material.Scooped, Doubt: p.Material.Doubt}
	}
	return recipe, nil
}

// ownSyrup exchanges the syrup of the recipe for the maker's own.
func (b *batch) ownSyrup(strength float64) error {
	for i, p := range b.recipe.Parts {
		if p.Material.Holds != book.HoldsSyrup {
			continue
		}
		swap, err := craft.SwapSyrup(b.portions[i].Grams, strength)
		if err != nil {
			return err
		}
		b.portions[i].Millilitres *= swap.Take / b.portions[i].Grams
		b.portions[i].Grams = swap.Take
		b.strength = strength
		b.water += swap.Water
	}
	return nil
}
