package talk

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
)

// Desk is what the workshop keeps outside of a talk. What a talk takes from it
// is written into its events. It is used while a turn is taken, so it answers
// soon or fails.
type Desk interface {
	// Recall gives notes that have all the words, the newest first; an empty
	// kind is any.
	Recall(kind string, words []string, most int) ([]Note, error)
	// Number gives the next running number of a kind, never the same twice.
	Number(kind string) (int, error)
	// Tally gives how often each cause of a problem was found here, by id.
	Tally(problem string) (map[string]int, error)
}

// tally asks the desk, which may fail: the talk goes on with the book alone.
func tally(desk Desk, problem string) map[string]int {
	seen, err := desk.Tally(problem)
	if err != nil || len(seen) == 0 {
		return nil
	}
	return seen
}

// kept is something that a build has brought about.
type kept struct {
	id     string
	kind   string
	number int
	at     time.Time
	parts  []NotePart
	facts  map[string]any
}

// Facts that notes are made of.
const (
	placeFact    = "body_place"
	recipeFact   = "recipe"
	roomFact     = "room_temperature"
	humidityFact = "room_humidity"
	wornFact     = "worn_minutes" // on the skin
	outcomeFact  = "outcome"
	copiesFact   = "copies"
)

// numbers gives what a step brings about its running number.
func (s *state) numbers(step *book.Step, desk Desk) []Act {
	kind := step.Guide.Keeps
	if kind == "" || kind == "outcome" || kind == NoteMould && s.mould > 0 {
		return nil
	}
	n := 1
	if desk != nil {
		var err error
		if n, err = desk.Number(kind); err != nil {
			n = 0 // kept without a number
		}
	}
	return []Act{{Do: doNumber, ID: kind, N: n}}
}

// keep notes what a step has brought about, as it is known now.
func (s *state) keep(kind string, number int, at time.Time) {
	s.noted++
	k := kept{id: fmt.Sprintf("%s-%d", kind, s.noted), kind: kind, number: number, at: at}
	k.facts, _ = s.facts()
	if kind == NoteBatch {
		k.parts = s.weighed()
	}
	s.kept = append(s.kept, k)
}

// weighed lists the parts of the mix.
func (s *state) weighed() []NotePart {
	var parts []NotePart
	for _, am := range s.a.book.Amounts {
		if am.Mix == nil || !s.canWork(am) {
			continue
		}
		for _, line := range s.work(am).Lines {
			if line.Material != nil {
				parts = append(parts, NotePart{line.Material.ID, line.Round(line.Span.Mid)})
			}
		}
		break
	}
	return parts
}

// Notes is what the talk leaves in the notebook. Their ids are within the talk.
func (s *Session) Notes() []Note { return s.state.notes() }

func (s *state) notes() []Note {
	list := append([]Note{}, s.past...) // never nil: that would leave the notebook as it was
	if s.build != nil {
		list = append(list, s.buildNotes()...)
	}
	return append(list, s.diagnoses...)
}

func (s *state) buildNotes() []Note {
	var list []Note
	mould, batch := s.mould, 0
	for _, k := range s.kept {
		n := Note{ID: k.id, Kind: k.kind, Number: k.number, Name: s.build.Name, At: k.at, Parts: k.parts, Facts: k.facts}
		n.Place, n.Recipe = s.labelOf(placeFact), s.valueOf(recipeFact)
		n.RoomC, n.Humidity = figure(k.facts, roomFact), figure(k.facts, humidityFact)
		switch k.kind {
		case NoteMould:
			mould, n.Recipe = k.number, ""
		case NoteBatch:
			batch, n.Mould = k.number, mould
		case NotePiece:
			n.Mould, n.Batch = mould, batch
			list = append(list, s.pieces(n)...)
			continue
		}
		n.Label = label(n)
		list = append(list, n)
	}
	return list
}

// pieces gives one note for each copy, with the day that it is for.
func (s *state) pieces(n Note) []Note {
	copies := 1
	if x := figure(n.Facts, copiesFact); x != nil && *x >= 1 && *x <= 50 {
		copies = int(*x)
	}
	n.Outcome = s.labelOf(outcomeFact)
	facts, _ := s.facts()
	n.WornFor = figure(facts, wornFact)
	id := n.ID
	day := s.due
	if day.IsZero() {
		day = n.At
	}
	var list []Note
	for i := range copies {
		if copies > 1 {
			n.ID = fmt.Sprintf("%s-%d", id, i+1)
			n.For = time.Date(day.Year(), day.Month(), day.Day()+i, 0, 0, 0, 0, day.Location())
		}
		n.Label = label(n)
		list = append(list, n)
	}
	return list
}

// labelLetters begin the labels of each kind.
var labelLetters = map[string]string{NoteMould: "M", NoteBatch: "B", NotePiece: "P"}

// label is short enough to be scratched into plaster: M7 barnacle cheek 28.11.26.
func label(n Note) string {
	day := n.At
	if !n.For.IsZero() {
		day = n.For
	}
	text := labelLetters[n.Kind]
	if n.Number > 0 {
		text += fmt.Sprint(n.Number)
	}
	if n.Name != "" {
		text += " " + n.Name
	}
	return text + " " + day.Format("2006-01-02")
}

// valueOf gives a choice as the rules write it, "" where it is not known.
func (s *state) valueOf(fact string) string {
	f := s.a.book.FactByName(fact)
	if f == nil {
		return ""
	}
	if v, known := s.known.Value(f.ID); known {
		return f.Show(v)
	}
	return ""
}

// labelOf gives a fact's answer in words, "" where it is not known.
func (s *state) labelOf(fact string) string {
	f := s.a.book.FactByName(fact)
	if f == nil {
		return ""
	}
	if v, known := s.known.Value(f.ID); known {
		return s.a.label(f, v)
	}
	return ""
}

func figure(facts map[string]any, name string) *float64 {
	if x, ok := facts[name].(float64); ok {
		return &x
	}
	return nil
}

// diagnosed notes that a remedy has helped.
func (s *state) diagnosed(r *book.Remedy, at time.Time) {
	name := ""
	if s.build != nil {
		name = s.build.Name
	}
	facts, _ := s.facts()
	s.diagnoses = append(s.diagnoses, Note{
		ID: fmt.Sprintf("%s-%d", NoteDiagnosis, len(s.diagnoses)+1), Kind: NoteDiagnosis, Name: name, At: at,
		Problem: s.problem.ID, Cause: r.Cause.ID, Remedy: r.ID, Helped: true, Facts: facts,
		RoomC: figure(facts, roomFact), Humidity: figure(facts, humidityFact),
		Outcome: phrase.Sentence(r.Cause.Title),
	})
}

// like takes over what a note tells of an earlier piece.
func (s *state) like(n Note) {
	for _, name := range slices.Sorted(maps.Keys(n.Facts)) {
		f := s.a.book.FactByName(name)
		if f == nil || slices.Contains(ofTheDay, name) {
			continue
		}
		if v, ok := valueFrom(f, n.Facts[name]); ok {
			s.tell(Act{Do: doTell, Fact: name, Value: f.Show(v)})
		}
	}
	s.mould = n.Mould
	if n.Kind == NoteMould {
		s.mould = n.Number
	}
}

// ofTheDay are facts that are not taken over from an earlier day.
var ofTheDay = []string{roomFact, humidityFact, "worn_humidity", "carry_humidity", "minutes_left", outcomeFact, wornFact, copiesFact}

// valueFrom reads a fact's value as JSON carries it.
func valueFrom(f *book.Fact, x any) (logic.Value, bool) {
	switch v := x.(type) {
	case float64:
		return logic.Num(v), f.Kind == logic.Number
	case bool:
		return logic.Yes(v), f.Kind == logic.YesNo
	case string:
		value, fault := f.Parse(v)
		return value, fault == "" && f.Kind == logic.Choice
	}
	return logic.Value{}, false
}
