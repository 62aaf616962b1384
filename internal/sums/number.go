package sums

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// number works a formula out from what is known, and notes the facts at its
// leaves: what was told, and what was taken for granted.
type number struct {
	*sources
	instead map[logic.FactID]float64 // guesses put in the place of leaves
	leaves  []logic.FactID
}

// eval works out a formula whose sources lack nothing.
func (n *number) eval(f *logic.Formula) (float64, error) {
	var failed error
	x, err := f.Eval(func(id logic.FactID) (float64, bool) {
		x, err := n.value(id)
		if err != nil && failed == nil {
			failed = err
		}
		return x, err == nil
	})
	if failed != nil {
		return 0, failed
	}
	return x, err
}

func (n *number) value(id logic.FactID) (float64, error) {
	src := n.of(id)
	if src.from == fromWay {
		return n.eval(src.way)
	}
	if !slices.Contains(n.leaves, id) {
		n.leaves = append(n.leaves, id)
	}
	if x, ok := n.instead[id]; ok {
		return x, nil
	}
	if src.from == fromTold {
		v, _ := n.known.Value(id)
		return v.Number(), nil
	}
	return n.usual(n.book.Facts[id].Usual.Value)
}

// usual works a usual value out. What it goes by is no leaf of the sum: it is
// a guess about this piece, not a measure of it.
func (n *number) usual(f *logic.Formula) (float64, error) {
	leaves := n.leaves
	x, err := n.eval(f)
	n.leaves = leaves
	return x, err
}

// span works a formula out with the range that its leaves leave open. widest
// is the fact that leaves most of it open, or nil.
func (n *number) span(f *logic.Formula) (span craft.Span, widest *book.Fact, err error) {
	n.instead = nil
	if _, err := n.eval(f); err != nil {
		return craft.Span{}, nil, err
	}
	leaves := slices.Clone(n.leaves)
	guesses := make([]craft.Guess, len(leaves))
	for i, id := range leaves {
		guesses[i] = n.guess(id)
	}
	span, at, err := craft.Spread(func(x []float64) (float64, error) {
		n.instead = make(map[logic.FactID]float64, len(leaves))
		for i, id := range leaves {
			n.instead[id] = x[i]
		}
		return n.eval(f)
	}, guesses)
	n.instead = nil
	if err == nil && at >= 0 {
		widest = &n.book.Facts[leaves[at]]
	}
	return span, widest, err
}

// guess is a leaf with the range in which it lies: off by a reading's usual
// error where it was told, else the range of the usual value.
func (n *number) guess(id logic.FactID) craft.Guess {
	f := &n.book.Facts[id]
	if n.of(id).from == fromTold {
		v, _ := n.known.Value(id)
		x := v.Number()
		low, high := x-f.OffBy, x+f.OffBy
		if f.High > f.Low { // a reading cannot be off past what is believable
			low, high = max(low, min(f.Low, x)), min(high, max(f.High, x))
		}
		return craft.Guess{Name: f.Name, Value: x, Low: low, High: high}
	}
	guess := craft.Guess{Name: f.Name}
	ends := []*float64{&guess.Value, &guess.Low, &guess.High}
	for i, formula := range []*logic.Formula{f.Usual.Value, f.Usual.From, f.Usual.To} {
		x, err := n.usual(formula)
		if err != nil {
			x = guess.Value // its own error is told where the sum itself is worked out
		}
		*ends[i] = x
	}
	guess.Low, guess.High = min(guess.Low, guess.Value), max(guess.High, guess.Value)
	return guess
}
