package sums

import (
	"fmt"
	"math"
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
)

// room is a place with its air.
type room struct {
	name     string // "made", "carried" or "worn"
	humidity float64
}

// climate says how each recipe keeps its size in the rooms told.
func (w *work) climate(h *book.Climate) {
	rooms := w.rooms(h)
	if len(rooms) == 0 {
		w.lack([]logic.FactID{h.Worn.ID})
		return
	}
	tolerance, err := w.value(h.Tolerance.ID)
	if err != nil {
		w.refuse(err)
		return
	}
	mixed, ok := w.mixedSoFar(h)
	if !ok {
		return
	}
	chosen := w.chosen(h.Recipe)
	var kept []kept
	for _, r := range chosenFirst(w.Book.Recipes, chosen) {
		k, err := w.keeps(r, h.Own, rooms, tolerance, mixed)
		if err != nil {
			w.refuse(err)
			return
		}
		kept = append(kept, k)
		w.out.Lines = append(w.out.Lines, k.line)
	}
	w.out.Spoken = spokenClimate(kept, chosen != nil)
	w.climateNotes(mixed)
	w.humidityPicture(h, rooms, chosen, tolerance, mixed)
}

func chosenFirst(list []*book.Recipe, chosen *book.Recipe) []*book.Recipe {
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(a, b *book.Recipe) int {
		switch {
		case a == chosen && b != chosen:
			return -1
		case b == chosen && a != chosen:
			return 1
		}
		return 0
	})
	return out
}

// kept is how one recipe keeps its size.
type kept struct {
	title  string
	sizes  string // in words, where it is made, carried and worn
	line   Line
	holds  bool
	barely bool // the doubt about it reaches past the tolerance
	worst  float64
}

// spokenClimate tells of the recipe chosen and, where that does not hold, of
// the one that does or comes nearest.
func spokenClimate(list []kept, chosen bool) string {
	best := 0
	for i, k := range list {
		if k.holds && !list[best].holds || k.holds == list[best].holds && k.worst < list[best].worst {
			best = i
		}
	}
	first, nearest := list[0], list[best]
	switch {
	case chosen && (first.holds || best == 0):
		return first.told()
	case chosen && nearest.holds:
		return phrase.Speech(first.told(), "Take this one instead.", nearest.told())
	case chosen:
		return phrase.Speech(first.told(), "No other mix holds either. The nearest is this.", nearest.told())
	case nearest.holds:
		return nearest.told()
	}
	return phrase.Speech("None of the mixes keeps its size there as it is.", nearest.told())
}

// told says how one recipe fares, the verdict first.
func (k kept) told() string {
	verdict := " it keeps its size: "
	switch {
	case k.barely:
		verdict = " it should just keep its size: "
	case !k.holds:
		verdict = " it does not keep its size: "
	}
	return phrase.Sentence("with " + k.title + verdict + k.sizes)
}

func (k kept) verdict(tolerance float64) string {
	switch {
	case k.barely:
		return "it may just hold"
	case k.holds:
		return "it holds"
	}
	return "more than " + number1(tolerance) + " %"
}

func (w *work) rooms(h *book.Climate) []room {
	var rooms []room
	for _, place := range []struct {
		name string
		fact *book.Fact
	}{{"made", h.Made}, {"carried", h.Carried}, {"worn", h.Worn}} {
		if x := w.told(place.fact); x.since > 0 {
			rooms = append(rooms, room{place.name, x.value})
		}
	}
	return rooms
}

func (w *work) chosen(f *book.Fact) *book.Recipe {
	v, told := w.Known.Value(f.ID)
	if !told {
		return nil
	}
	return w.Book.RecipeByID(f.Options[v.Index()].Value)
}

// mixed is what happened to the water of the batch, as shares of its mass.
type mixed struct {
	added, lost float64
	told        bool // the pot was weighed
}

// mixedSoFar reads what was added and lost; both mean something only against
// the mass of the batch.
func (w *work) mixedSoFar(h *book.Climate) (mixed, bool) {
	var m mixed
	added, before, after := w.told(h.Added), w.told(h.Before), w.told(h.After)
	lost := 0.0
	if before.since > 0 && after.since > 0 {
		m.told = true
		var err error
		if lost, err = craft.WaterLost(craft.Weighing{Before: before.value, After: after.value}); err != nil {
			w.refuse(err)
			return m, false
		}
	}
	if added.value == 0 && lost == 0 {
		return m, true
	}
	if w.lack(w.of(h.Mass.ID).lacks) {
		return m, false
	}
	mass, err := w.value(h.Mass.ID)
	if err != nil {
		w.refuse(err)
		return m, false
	}
	m.added, m.lost = added.value/mass, lost/mass
	return m, true
}

// dry is what a kilogram of a recipe holds once it is cast.
func (w *work) dry(r *book.Recipe, own book.Own, m mixed) (craft.Dry, error) {
	b, err := w.batchOf(r, basis{g: craft.Span{Low: 1000, Mid: 1000, High: 1000}}, own)
	if err != nil {
		return craft.Dry{}, err
	}
	water := b.grams(book.HoldsWater) + max(b.water, 0) + m.added*1000
	return craft.DryOf(b.grams(book.HoldsGelatin), b.grams(book.HoldsSyrup), b.strength, b.grams(book.HoldsGlycerin), water, m.lost*1000)
}

// keeps works out how a recipe keeps its size in the rooms.
func (w *work) keeps(r *book.Recipe, own book.Own, rooms []room, tolerance float64, m mixed) (kept, error) {
	k := kept{title: r.Title, line: Line{Name: r.Title, Unit: "%"}}
	dry, err := w.dry(r, own, m)
	if err != nil {
		return k, err
	}
	words := make([]string, len(rooms))
	for i, at := range rooms {
		settled, err := dry.At(at.humidity)
		if err != nil {
			return k, err
		}
		words[i] = sizeInWords(settled.SizeChange) + " where it is " + at.name
		if size := math.Abs(settled.SizeChange); i == 0 || size > k.worst {
			k.worst = size
			off := settled.Doubt / 3 // a length moves by a third of a volume
			k.line.Span = craft.Span{Low: settled.SizeChange - off, Mid: settled.SizeChange, High: settled.SizeChange + off}
		}
	}
	k.holds = w.within(dry, rooms, tolerance)
	k.sizes = phrase.And(words)
	k.barely = k.holds && k.line.Span.High > tolerance || k.holds && k.line.Span.Low < -tolerance
	k.line.Text = k.sizes + ": " + k.verdict(tolerance)
	w.holdingWater(r, dry, rooms[len(rooms)-1])
	return k, nil
}

func (w *work) within(dry craft.Dry, rooms []room, tolerance float64) bool {
	at := func(i int) float64 { return rooms[min(i, len(rooms)-1)].humidity }
	hold, err := dry.WorstSize(at(0), at(1), at(2))
	if err != nil {
		return false
	}
	holds, err := hold.Within(tolerance)
	return holds && err == nil
}

// holdingWater says with how much water the recipe would keep its size in the
// last room.
func (w *work) holdingWater(r *book.Recipe, dry craft.Dry, last room) {
	grams, err := dry.WaterToHold(last.humidity)
	if err != nil || dry.Glycerol+dry.Sorbitol == 0 {
		return // plain gelatin holds at no humidity of a room
	}
	switch steady, err := dry.SteadyRH(); {
	case err != nil:
	case grams >= 5:
		w.out.Notes = append(w.out.Notes, fmt.Sprintf("With %s it keeps its size at %s %% as it is; with %s g more water to 1000 g of mix it does at %s %%.",
			r.Title, number1(math.Round(steady)), number1(math.Round(grams/5)*5), number1(last.humidity)))
		if last.humidity >= moulders {
			w.note(mouldy)
		}
	case grams <= -5:
		w.out.Notes = append(w.out.Notes, fmt.Sprintf("With %s it keeps its size at %s %% as it is; for %s %% cook %s g of water off from 1000 g of mix.",
			r.Title, number1(math.Round(steady)), number1(last.humidity), number1(math.Round(-grams/5)*5)))
	}
}

// moulders is the humidity in percent at which moulds of dry food begin to
// grow on what is in balance with it. Source: Beuchat 1981 (xerophilic moulds,
// water activity 0.65 to 0.75).
const moulders = 65

const mouldy = "With water for 65 % or more it can go mouldy, in a closed bag too: keep it in the fridge and wear it within days."

func (w *work) climateNotes(m mixed) {
	if !m.told {
		w.out.Notes = append(w.out.Notes, "Weigh the jug before and after cooking and tell me both: the water lost there matters most of all.")
	}
	w.out.Notes = append(w.out.Notes,
		"Sizes once it has settled, which takes days for a thick piece and an hour for an edge. Fair to about 2 % of size between 35 and 65 % humidity, rough outside.")
}

// sizeInWords says a change of size.
func sizeInWords(percent float64) string {
	size := math.Abs(percent)
	switch {
	case size < 0.5:
		return "the same size"
	case size < 10:
		size = math.Round(size*2) / 2
	default:
		size = math.Round(size)
	}
	if percent < 0 {
		return number1(size) + " % smaller"
	}
	return number1(size) + " % larger"
}
