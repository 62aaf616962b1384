package craft

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// shown writes a purchase as "2 x 500 + 1 x 100".
func shown(p Purchase) string {
	text := ""
	for i, b := range p.Packs {
		if i > 0 {
			text += " + "
		}
		text += fmt.Sprintf("%d x %v", b.Count, b.Pack.Size)
	}
	return text
}

// Source: counted out by hand.
func TestBuy(t *testing.T) {
	for _, c := range []struct {
		need        float64
		packs       []Pack
		want        string
		left, price float64
	}{
		{120, []Pack{{100, 0}, {500, 0}}, "2 x 100", 80, 0},
		{1100, []Pack{{100, 0}, {500, 0}}, "2 x 500 + 1 x 100", 0, 0},
		{120, []Pack{{100, 5}, {500, 9}}, "1 x 500", 380, 9}, // the larger one is the cheaper
		{120, []Pack{{100, 4}, {500, 9}}, "2 x 100", 80, 8},
		{120, []Pack{{100, 5}, {500, 0}}, "2 x 100", 80, 10}, // one price lacks: by what is left
		{1000, []Pack{{500, 0}, {1000, 0}}, "1 x 1000", 0, 0},
		{300, []Pack{{100, 2}, {150, 3}}, "2 x 150", 0, 6}, // cost and size alike: the fewer
		{0, []Pack{{100, 5}}, "", 0, 0},
		{0.3, []Pack{{0.1, 0}}, "3 x 0.1", 0, 0}, // not four, for the last binary digit
		{4000, []Pack{{100, 0}}, "40 x 100", 0, 0},
	} {
		got, err := Buy(c.need, c.packs)
		if err != nil {
			t.Errorf("%v of %v: %v", c.need, c.packs, err)
			continue
		}
		if shown(got) != c.want {
			t.Errorf("%v of %v: got %q, want %q", c.need, c.packs, shown(got), c.want)
		}
		near(t, "left", got.Left, c.left, 1e-9)
		near(t, "price", got.Price, c.price, 1e-9)
		if known := c.price > 0 || c.need == 0; got.Known != known {
			t.Errorf("%v of %v: price known is %v", c.need, c.packs, got.Known)
		}
	}
}

func TestBuyRefuses(t *testing.T) {
	hundred := []Pack{{100, 0}}
	for name, c := range map[string]struct {
		need  float64
		packs []Pack
	}{
		"no packs":       {100, nil},
		"six sizes":      {100, make([]Pack, 6)},
		"empty pack":     {100, []Pack{{0, 1}}},
		"negative pack":  {100, []Pack{{-5, 1}}},
		"pack of none":   {100, []Pack{{math.NaN(), 1}}},
		"paid to take":   {100, []Pack{{100, -1}}},
		"price of none":  {100, []Pack{{100, math.NaN()}}},
		"negative need":  {-1, hundred},
		"need of none":   {math.NaN(), hundred},
		"endless need":   {math.Inf(1), hundred},
		"a cartload":     {4001, hundred},
		"grain by grain": {1e9, []Pack{{0.001, 0}, {0.002, 0}, {0.003, 0}, {0.004, 0}, {0.005, 0}}},
	} {
		got, err := Buy(c.need, c.packs)
		if err == nil || got.Packs != nil || got.Total != 0 {
			t.Errorf("%s passes: %v", name, got)
			continue
		}
		tellsMaker(t, err)
	}
}

// The need is met, no pack could be left behind, and trying every purchase of
// three sizes finds none better.
func TestBuyHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		priced := rapid.Bool().Draw(t, "priced")
		packs := make([]Pack, rapid.IntRange(1, 3).Draw(t, "sizes"))
		largest := 0.0
		for i := range packs {
			packs[i].Size = rapid.Float64Range(1, 1000).Draw(t, "size")
			if priced {
				packs[i].Price = rapid.Float64Range(0.1, 50).Draw(t, "price")
			}
			largest = max(largest, packs[i].Size)
		}
		need := rapid.Float64Range(0.1, 12*largest).Draw(t, "need")
		got, err := Buy(need, packs)
		if err != nil {
			t.Fatal(err)
		}
		held, price, count, smallest := 0.0, 0.0, 0, math.Inf(1)
		for i, b := range got.Packs {
			held += float64(b.Count) * b.Pack.Size
			price += float64(b.Count) * b.Pack.Price
			count += b.Count
			smallest = min(smallest, b.Pack.Size)
			if i > 0 && b.Pack.Size > got.Packs[i-1].Pack.Size {
				t.Errorf("smaller first: %s", shown(got))
			}
		}
		near(t, "held", got.Total, held, 1e-9*held)
		near(t, "left", got.Left, held-need, 1e-6*held)
		near(t, "price", got.Price, price, 1e-9*(1+price))
		if held < need*(1-1e-6) || held-smallest > need || got.Known != priced || count > mostPacks {
			t.Fatalf("%v met by %s", need, shown(got))
		}
		sizes := append(append([]Pack{}, packs...), Pack{}, Pack{})[:3]
		for a := range mostPacks + 1 {
			for b := range mostPacks + 1 - a {
				for c := range mostPacks + 1 - a - b {
					x, y, z := float64(a), float64(b), float64(c)
					total := x*sizes[0].Size + y*sizes[1].Size + z*sizes[2].Size
					cost := x*sizes[0].Price + y*sizes[1].Price + z*sizes[2].Price
					if total < need {
						continue
					}
					if priced && cost < price*(1-1e-6) || !priced && total < held*(1-1e-6) {
						t.Fatalf("%v: %s at %v, but %d, %d, %d of %v at %v", need, shown(got), price, a, b, c, packs, cost)
					}
				}
			}
		}
	})
}

// Source: added up by hand.
func TestShopping(t *testing.T) {
	wants := []Want{
		{"gelatin", "g", 60, "ferryman's cheek"}, {"plaster", "g", 900, "mould"},
		{"gelatin", "g", 70, "rope scar"}, {"gelatin", "g", 10, "rope scar"},
	}
	packs := map[string][]Pack{"gelatin": {{100, 4}, {500, 9}}, "plaster": {{1000, 3}}}
	got, err := Shopping(wants, packs)
	if err != nil || len(got.Items) != 2 {
		t.Fatal(got, err)
	}
	first := got.Items[0]
	if first.Material != "gelatin" || first.Need != 140 || shown(first.Buy) != "2 x 100" || fmt.Sprint(first.For) != "[ferryman's cheek rope scar]" {
		t.Errorf("got %+v", first)
	}
	if !got.Known || got.Price != 11 {
		t.Errorf("price %v, known %v", got.Price, got.Known)
	}
	delete(packs, "plaster")
	got, err = Shopping(wants, packs)
	if err != nil || got.Known || got.Price != 0 || len(got.Items[1].Buy.Packs) != 0 || got.Items[1].Need != 900 {
		t.Errorf("without a pack: %+v, %v", got, err)
	}
	if none, err := Shopping(nil, nil); err != nil || len(none.Items) != 0 {
		t.Errorf("nothing to buy: %v, %v", none, err)
	}
}

func TestShoppingRefuses(t *testing.T) {
	gelatin := Want{"gelatin", "g", 10, ""}
	for name, wants := range map[string][]Want{
		"two units":   {gelatin, {"gelatin", "ml", 10, ""}},
		"no material": {{Unit: "g", Amount: 1}},
		"no number":   {{"gelatin", "g", math.NaN(), ""}},
		"negative":    {{"gelatin", "g", -1, ""}},
		"too much":    {{"gelatin", "g", 1e9, ""}},
		"too long":    make([]Want, mostWants+1),
	} {
		got, err := Shopping(wants, map[string][]Pack{"gelatin": {{100, 1}}})
		if err == nil || got.Items != nil {
			t.Errorf("%s passes: %v", name, got)
			continue
		}
		tellsMaker(t, err)
	}
}

// What is asked for in many lines is bought once, whatever their order.
func TestShoppingAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amounts := rapid.SliceOfN(rapid.Float64Range(0, 100), 1, 10).Draw(t, "amounts")
		var wants []Want
		sum := 0.0
		for _, a := range amounts {
			wants = append(wants, Want{"plaster", "g", a, "mould"})
			sum += a
		}
		got, err := Shopping(wants, map[string][]Pack{"plaster": {{250, 0}, {1000, 0}}})
		if err != nil || len(got.Items) != 1 {
			t.Fatal(got, err)
		}
		near(t, "need", got.Items[0].Need, sum, 1e-9*(1+sum))
		if got.Items[0].Buy.Total < sum*(1-1e-6)-nothing || len(got.Items[0].For) != 1 {
			t.Errorf("%v needed, %+v", sum, got.Items[0])
		}
	})
}

// Any numbers at all give a purchase that holds up, or a sentence.
func TestBuyIsTotal(t *testing.T) {
	odd := []float64{0, -1, 5e-324, 1e-9, 0.001, 1, 1e9, math.MaxFloat64, math.NaN(), math.Inf(1), math.Inf(-1)}
	number := rapid.OneOf(rapid.Float64(), rapid.SampledFrom(odd), rapid.Float64Range(0, 1000))
	rapid.Check(t, func(t *rapid.T) {
		need := number.Draw(t, "need")
		packs := make([]Pack, rapid.IntRange(0, 6).Draw(t, "sizes"))
		for i := range packs {
			packs[i] = Pack{number.Draw(t, "size"), number.Draw(t, "price")}
		}
		got, err := Buy(need, packs)
		if err != nil {
			if got.Packs != nil || err.Error() == "" {
				t.Errorf("%v with %v", got, err)
			}
			return
		}
		if !finite(got.Total) || !finite(got.Left) || !finite(got.Price) || need >= nothing && got.Total < need*(1-1e-6) {
			t.Errorf("%v of %v: %+v", need, packs, got)
		}
	})
}

// The most that Buy weighs up: five sizes and forty packs.
func BenchmarkBuyWorst(b *testing.B) {
	packs := []Pack{{100, 0}, {101, 0}, {103, 0}, {107, 0}, {109, 0}}
	for b.Loop() {
		if _, err := Buy(3999.5, packs); err != nil {
			b.Fatal(err)
		}
	}
}
