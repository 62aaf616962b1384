package talk

import (
	"slices"
	"strconv"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
	"sparehand/internal/sums"
)

// Value and Since are what the sums need to know of a talk.
func (s *state) Value(id logic.FactID) (logic.Value, bool) { return s.known.Value(id) }

// Since counts the tellings up to the last one of a fact, 0 for none.
func (s *state) Since(id logic.FactID) int { return s.since[id] }

func (s *state) bench() sums.Bench { return sums.Bench{Book: s.a.book, Known: s} }

// work works a sum out, once a turn.
func (s *state) work(am *book.Amount) sums.Worked {
	if done, ok := s.worked[am]; ok {
		return done
	}
	if s.worked == nil {
		s.worked = map[*book.Amount]sums.Worked{}
	}
	done := s.bench().Work(am)
	s.worked[am] = done
	return done
}

// applies reports whether a sum makes sense with what is known.
func (s *state) applies(am *book.Amount) bool {
	return !am.HasOnlyIf || s.known.Truth(am.OnlyIf) != logic.False
}

// missing is the next fact that a wanted sum needs and that may be asked.
func (s *state) missing() *book.Fact {
	if s.refused != nil {
		return nil
	}
	for _, am := range s.sums {
		if !s.applies(am) {
			continue
		}
		for _, f := range s.work(am).Lacks {
			if !slices.Contains(s.unknown, f.ID) {
				return f
			}
		}
	}
	if f := s.bench().LacksMeasure(); f != nil && len(s.sums) > 0 && !slices.Contains(s.unknown, f.ID) {
		return f
	}
	return nil
}

// offeredAmounts are the sums of the remedy in force.
func (s *state) offeredAmounts() []*book.Amount {
	r := s.offered()
	if r == nil {
		return nil
	}
	return r.Amounts
}

// result is what the sums of a turn came to.
type result struct {
	shown    []AmountShown
	worked   []sums.Worked // those that could be worked out
	refused  []string      // why some could not
	lacking  []string      // what some still need
	cautions []*book.Caution
}

// amounts works out every sum that is wanted or goes with the remedy in
// force.
func (s *state) amounts() result {
	out := result{shown: []AmountShown{}}
	if s.convert != nil {
		out.converted(s.convert)
	}
	if s.refused != nil {
		return out
	}
	for _, am := range union(s.sums, union(s.offeredAmounts(), s.stepAmounts())) {
		if !s.applies(am) {
			continue
		}
		w := s.work(am)
		switch {
		case w.Refused != "":
			out.refused = append(out.refused, w.Refused)
		case len(w.Lacks) > 0:
			for _, f := range w.Lacks {
				if name := sums.Subject(f); !slices.Contains(out.lacking, name) {
					out.lacking = append(out.lacking, name)
				}
			}
		default:
			out.add(w)
		}
	}
	return out
}

func union(a, b []*book.Amount) []*book.Amount {
	list := slices.Clone(a)
	for _, am := range b {
		if !slices.Contains(list, am) {
			list = append(list, am)
		}
	}
	return list
}

func (r *result) add(w sums.Worked) {
	r.worked = append(r.worked, w)
	r.cautions = append(r.cautions, w.Amount.Cautions...)
	for _, line := range w.Lines {
		shown := amountShown(line)
		shown.For, shown.Narrow = w.Amount.Title, w.Narrow
		shown.Assumes = append(shown.Assumes, w.Assumes...)
		shown.Notes = append(shown.Notes, w.Notes...)
		r.shown = append(r.shown, shown)
	}
}

// converted adds the answer to "how many ml in 3 tablespoons".
func (r *result) converted(c *sums.Conversion) {
	line, err := c.Convert()
	if err != nil {
		r.refused = append(r.refused, phrase.Sentence(err.Error()))
		return
	}
	shown := amountShown(line)
	shown.For = "Units"
	r.shown = append(r.shown, shown)
	r.worked = append(r.worked, sums.Worked{Spoken: phrase.Sentence(line.Name + ": " + line.Text)})
}

func amountShown(line sums.Line) AmountShown {
	a := AmountShown{
		Name: line.Name, Assumes: []string{}, Notes: []string{}, Measures: []MeasureShown{}, Text: line.Text,
		Grams: craft.Sensible(line.Grams), Millilitres: craft.Sensible(line.Millilitres), Unit: line.Unit,
		Value: line.Round(line.Span.Mid), Low: line.Round(line.Span.Low), High: line.Round(line.Span.High),
	}
	for _, c := range line.Measured.Counts {
		a.Measures = append(a.Measures, MeasureShown{c.Measure.Name, c.Count})
	}
	a.Off = line.RoundOff()
	if line.Unit == "s" && a.Value >= 600 {
		a.Text = line.Value() // nobody counts so many seconds
	}
	return a
}

// spoken says what the sums came to.
func (r result) spoken() string {
	var parts []string
	for _, w := range r.worked {
		parts = append(parts, w.Say())
	}
	return phrase.Speech(append(parts, r.refused...)...)
}

// sumActs asks for the sums that words want, none for other words.
func (s *state) sumActs(m hear.Meaning) []Act {
	if m.Command != "amounts" {
		return nil
	}
	ids := s.wantedSums(m)
	if len(ids) == 0 {
		return nil
	}
	return []Act{{Do: doSums, IDs: ids}}
}

// wantedSums lists the sums asked for by words: the one named or, of those
// asked for in the same words, the one that most of what was told along goes
// into, and that then lacks the least.
// Without a name it is what is under way, else the sums of the remedy in
// force, else all that a job needs.
func (s *state) wantedSums(m hear.Meaning) []string {
	if m.Amount != "" {
		return s.bestSums(m)
	}
	list := s.sums
	if len(list) == 0 {
		list = s.offeredAmounts()
	}
	if len(list) == 0 {
		list = s.a.wholeJob()
	}
	ids := make([]string, len(list))
	for i, am := range list {
		ids[i] = am.ID
	}
	return ids
}

// bestSums does so for each of several sums asked for in one breath.
func (s *state) bestSums(m hear.Meaning) []string {
	var ids []string
	for _, named := range m.Amounts {
		if id := s.bestSum(named, m); !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	return ids
}

func (s *state) bestSum(named string, m hear.Meaning) string {
	best, most, least := named, -1, 0
	bench := sums.Bench{Book: s.a.book, Known: alsoTold{s, m.Facts}}
	for _, am := range s.a.alike(named, m) {
		uses := 0
		for _, id := range s.a.book.Reach(am) {
			if slices.ContainsFunc(m.Facts, func(h hear.Heard) bool { return h.Fact == id }) {
				uses++
			}
		}
		lacks := len(bench.Work(am).Lacks)
		ready := uses == 0 && lacks == 0 && s.rests(am) // what was told before decides
		if uses > most || uses == most && (uses > 0 && lacks < least || ready && least > 0) {
			best, most, least = am.ID, uses, lacks
		}
	}
	return best
}

// rests reports whether anything told so far goes into a sum.
func (s *state) rests(am *book.Amount) bool {
	return slices.ContainsFunc(s.a.book.Reach(am), func(id logic.FactID) bool { return s.Since(id) > 0 })
}

// alsoTold is what is known once the facts of an utterance are told too.
type alsoTold struct {
	*state
	facts []hear.Heard
}

// Value gives what the utterance tells, before what was told earlier.
func (a alsoTold) Value(id logic.FactID) (logic.Value, bool) {
	for _, h := range a.facts {
		if h.Fact == id {
			return h.Value, true
		}
	}
	return a.state.Value(id)
}

// Since counts the utterance as the last.
func (a alsoTold) Since(id logic.FactID) int {
	if slices.ContainsFunc(a.facts, func(h hear.Heard) bool { return h.Fact == id }) {
		return a.turns + 1
	}
	return a.state.Since(id)
}

// alike lists the named sum and those asked for in the same words, the named
// one first.
func (a *Assistant) alike(named string, m hear.Meaning) []*book.Amount {
	if ids := m.Alike[named]; len(ids) > 0 {
		return a.amountsByID(ids)
	}
	return a.amountsByID([]string{named})
}

// wholeJob is what the shopping list is made of.
func (a *Assistant) wholeJob() []*book.Amount {
	for _, am := range a.book.Amounts {
		if len(am.Buys) > 0 {
			return am.Buys
		}
	}
	return a.book.Amounts
}

// convertActs turns a question about units into an act, or into a choice
// where a unit can be read in two ways.
func (s *state) convertActs(c *hear.Conversion) []Act {
	var acts []Act
	for _, from := range c.From {
		if fits := from.Dimension == c.To.Dimension || c.Material != ""; fits || len(c.From) == 1 {
			acts = append(acts, Act{Do: doConvert, Value: strconv.FormatFloat(c.Value, 'g', -1, 64), From: from.Name, To: c.To.Name, ID: c.Material})
		}
	}
	if len(acts) < 2 {
		return acts
	}
	choose := Act{Do: doMean}
	for _, act := range acts {
		choose.Choices = append(choose.Choices, Choice{Label: phrase.Plural(c.Value, act.From), Acts: []Act{act}})
	}
	return []Act{choose}
}

// conversion reads an act back; nil when its units are not known any more.
func (a *Assistant) conversion(act Act) *sums.Conversion {
	value, err := strconv.ParseFloat(act.Value, 64)
	from, ok1 := unitCalled(act.From)
	to, ok2 := unitCalled(act.To)
	if err != nil || !ok1 || !ok2 {
		return nil
	}
	c := &sums.Conversion{Value: value, From: from, To: to}
	for _, m := range a.book.Materials {
		if m.ID == act.ID {
			c.Material = m
		}
	}
	return c
}

// unitCalled finds a unit by its own name, which is clear where a spelling is
// not: "ounce" is the one by weight. A spelling with one reading is as clear.
func unitCalled(name string) (craft.Unit, bool) {
	list := craft.Readings(name)
	for _, u := range list {
		if u.Name == name || len(list) == 1 {
			return u, true
		}
	}
	return craft.Unit{}, false
}
