package talk

import (
	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// index finds parts of the book by id.
type index struct {
	remedies  map[string]*book.Remedy
	following []logic.FactID // facts that can be derived
}

func newIndex(b *book.Book) index {
	x := index{remedies: map[string]*book.Remedy{}}
	for _, p := range b.Problems {
		for _, c := range p.Causes {
			for _, r := range c.Remedies {
				x.remedies[r.ID] = r
			}
		}
	}
	for i := range b.Facts {
		if len(b.Facts[i].Follows) > 0 {
			x.following = append(x.following, b.Facts[i].ID)
		}
	}
	return x
}

func (a *Assistant) amountsByID(ids []string) []*book.Amount {
	var out []*book.Amount
	for _, id := range ids {
		for _, am := range a.book.Amounts {
			if am.ID == id {
				out = append(out, am)
			}
		}
	}
	return out
}

func (a *Assistant) elsewhereByID(id string) *book.Elsewhere {
	for i := range a.book.Elsewhere {
		if a.book.Elsewhere[i].ID == id {
			return &a.book.Elsewhere[i]
		}
	}
	return nil
}
