package craft

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
)

// What Buy will weigh up: more is past a home's shopping, and past a quick
// answer.
const (
	mostSizes = 5
	mostPacks = 40
	mostWants = 200
)

// A Pack is one size that a material is sold in.
type Pack struct {
	Size  float64 // in the unit of the amount needed
	Price float64 // in the maker's money; 0 when it is not known
}

// Bought is so many packs of one size.
type Bought struct {
	Pack  Pack
	Count int
}

// A Purchase covers an amount needed.
type Purchase struct {
	Packs []Bought // the largest first; none when nothing is needed
	Total float64  // what they hold
	Left  float64  // what is left over
	Price float64  // of them all; 0 when it is not known
	Known bool     // Price is known
}

// Buy picks packs that cover an amount: the cheapest when every pack has its
// price, else those that leave the least over, the fewer the better. It weighs
// up at most 5 sizes and takes at most 40 packs. Of less than a thousand
// millionth nothing is bought.
func Buy(need float64, packs []Pack) (Purchase, error) {
	sizes, err := packsSound(need, packs)
	if err != nil {
		return Purchase{}, err
	}
	if need < nothing {
		return Purchase{Known: true}, nil
	}
	s := shopper{need: need, slack: 1e-9 * need, sizes: sizes, counts: make([]int, len(sizes)), priced: true}
	for _, p := range sizes {
		s.priced = s.priced && p.Price > 0
	}
	s.try(0, bill{})
	if s.best == nil {
		return Purchase{}, fmt.Errorf("that would take more than %d packs: look for a larger size", mostPacks)
	}
	return s.purchase(), nil
}

// packsSound checks the packs and sorts a copy, the largest first.
func packsSound(need float64, packs []Pack) ([]Pack, error) {
	if err := notNegative("amount to buy", need, maxAmount, ""); err != nil {
		return nil, err
	}
	if len(packs) == 0 {
		return nil, errors.New("there is no pack to buy")
	}
	if len(packs) > mostSizes {
		return nil, fmt.Errorf("at most %d sizes of pack can be weighed up", mostSizes)
	}
	for _, p := range packs {
		err := firstOf(within("size of a pack", p.Size, 0.001, maxAmount, ""),
			notNegative("price of a pack", p.Price, maxAmount, ""))
		if err != nil {
			return nil, err
		}
	}
	sizes := slices.Clone(packs)
	slices.SortStableFunc(sizes, func(a, b Pack) int { return cmp.Compare(b.Size, a.Size) })
	return sizes, nil
}

// A bill is what the packs counted so far come to.
type bill struct {
	price, total float64
	packs        int
}

// A shopper goes through the counts of each size, up to those that cover the
// need.
type shopper struct {
	need   float64
	slack  float64 // what rounding alone may leave short
	sizes  []Pack
	priced bool  // every size has its price
	counts []int // of each size, as tried now
	best   []int // nil until something covers the need
	least  bill  // of best
}

// try fills counts from index i on, so being the bill until there.
func (s *shopper) try(i int, so bill) {
	size := s.sizes[i]
	most := 0
	if short := s.need - so.total - s.slack; short > 0 {
		most = int(math.Min(math.Ceil(short/size.Size), mostPacks+1))
	}
	last := i == len(s.sizes)-1
	first := 0
	if last {
		first = most // the smallest size makes up what is short
	}
	for n := first; n <= min(most, mostPacks-so.packs); n++ {
		s.counts[i] = n
		now := bill{so.price + float64(n)*size.Price, so.total + float64(n)*size.Size, so.packs + n}
		switch {
		case !last:
			s.try(i+1, now)
		case s.best == nil || s.better(now):
			s.best, s.least = slices.Clone(s.counts), now
		}
	}
}

// better says whether a bill is to be preferred to the least so far; a tie
// goes to the one tried first, which has fewer of the larger packs.
func (s *shopper) better(b bill) bool {
	order := 0
	if s.priced {
		order = compareFloats(b.price, s.least.price)
	}
	if order == 0 {
		order = compareFloats(b.total, s.least.total)
	}
	if order == 0 {
		order = b.packs - s.least.packs
	}
	return order < 0
}

// compareFloats orders two sums, alike when only rounding parts them.
func compareFloats(a, b float64) int {
	switch slack := 1e-9 * max(math.Abs(a), math.Abs(b)); {
	case a < b-slack:
		return -1
	case a > b+slack:
		return 1
	}
	return 0
}

// purchase writes the best out.
func (s *shopper) purchase() Purchase {
	p := Purchase{Total: s.least.total, Left: max(s.least.total-s.need, 0), Price: s.least.price, Known: true}
	for i, n := range s.best {
		if n > 0 {
			p.Packs = append(p.Packs, Bought{Pack: s.sizes[i], Count: n})
			p.Known = p.Known && s.sizes[i].Price > 0
		}
	}
	if !p.Known {
		p.Price = 0
	}
	return p
}

// A Want is an amount of a material that one sum came to.
type Want struct {
	Material string
	Unit     string // the same wherever the material is wanted
	Amount   float64
	For      string // what it is wanted for, as shown
}

// An Item is one line of a shopping list.
type Item struct {
	Material string
	Unit     string
	Need     float64
	For      []string // in the order of the wants, each once
	Buy      Purchase // no packs when none are known for the material
}

// A ShoppingList is all there is to buy.
type ShoppingList struct {
	Items []Item  // in the order in which the materials are first wanted
	Price float64 // of all the packs; 0 when it is not known
	Known bool    // every item has its packs and their prices
}

// Shopping adds up the wants for each material and buys it in the packs known
// for it by name.
func Shopping(wants []Want, packs map[string][]Pack) (ShoppingList, error) {
	items, err := addUp(wants)
	if err != nil {
		return ShoppingList{}, err
	}
	list := ShoppingList{Items: items, Known: true}
	for i := range items {
		item := &items[i]
		if offered := packs[item.Material]; len(offered) > 0 {
			item.Buy, err = Buy(item.Need, offered)
			if err != nil {
				return ShoppingList{}, fmt.Errorf("%s: %w", item.Material, err)
			}
		}
		list.Known = list.Known && item.Buy.Known
		list.Price += item.Buy.Price
	}
	if !list.Known {
		list.Price = 0
	}
	return list, nil
}

func addUp(wants []Want) ([]Item, error) {
	if len(wants) > mostWants {
		return nil, fmt.Errorf("a shopping list can have at most %d lines", mostWants)
	}
	var items []Item
	for _, w := range wants {
		if w.Material == "" {
			return nil, errors.New("a line of the shopping list has no material")
		}
		if err := notNegative("amount of "+w.Material, w.Amount, maxAmount, w.Unit); err != nil {
			return nil, err
		}
		i := slices.IndexFunc(items, func(it Item) bool { return it.Material == w.Material })
		if i < 0 {
			i = len(items)
			items = append(items, Item{Material: w.Material, Unit: w.Unit})
		}
		item := &items[i]
		if item.Unit != w.Unit {
			return nil, fmt.Errorf("%s is wanted in %s and in %s: give it in one unit", w.Material, item.Unit, w.Unit)
		}
		item.Need += w.Amount
		if w.For != "" && !slices.Contains(item.For, w.For) {
			item.For = append(item.For, w.For)
		}
	}
	return items, nil
}
