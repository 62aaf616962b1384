package talk

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"sparehand/internal/hear"
	"sparehand/internal/phrase"
)

// showRecalled is the show that brings notes of the notebook.
const showRecalled = "recalled"

// mostRecalled is how many notes are brought for one question.
const mostRecalled = 12

// pastActs asks the notebook. What it gives is kept in the event, so the reply
// stays what it was when the notebook has grown.
func (s *state) pastActs(p *hear.Past, desk Desk) (acts []Act, note string) {
	if desk == nil {
		return nil, "No notebook is kept here: start me with --store to have one."
	}
	kind := p.Kind
	if p.Do == hear.PastAgain && kind == "" {
		kind = NotePiece
	}
	notes, err := desk.Recall(kind, p.Words, mostRecalled)
	if err != nil {
		return nil, phrase.Sentence(err.Error())
	}
	if len(notes) == 0 && kind != "" { // no piece was finished, but perhaps a batch was made
		notes, err = desk.Recall("", p.Words, mostRecalled)
		notes = slices.DeleteFunc(notes, func(n Note) bool { return n.Kind == NoteDiagnosis })
		if err != nil {
			return nil, phrase.Sentence(err.Error())
		}
	}
	switch {
	case len(notes) == 0 && len(p.Words) > 0:
		return nil, fmt.Sprintf("The notebook has nothing on %s.", phrase.And(p.Words))
	case len(notes) == 0:
		return nil, "The notebook has nothing of that yet."
	case p.Do == hear.PastAgain:
		return s.again(p, notes, desk)
	case p.Do == hear.PastList:
		return []Act{{Do: doShow, ID: showRecalled, Notes: notes, Value: hear.PastList}}, ""
	}
	return []Act{{Do: doShow, ID: showRecalled, Notes: withBatch(notes[:1], desk), Value: p.About}}, ""
}

// withBatch adds to a piece the batch that it was cast from, which has what was
// weighed out.
func withBatch(notes []Note, desk Desk) []Note {
	n := notes[0]
	if n.Kind != NotePiece || n.Batch == 0 {
		return notes
	}
	batches, err := desk.Recall(NoteBatch, nil, 500)
	if err != nil {
		return notes
	}
	if i := slices.IndexFunc(batches, func(b Note) bool { return b.Number == n.Batch }); i >= 0 {
		return append(slices.Clone(notes), batches[i])
	}
	return notes
}

// again begins a build like an earlier one, at the mix where its mould is still
// there. What the air does to it is asked afresh.
func (s *state) again(p *hear.Past, notes []Note, desk Desk) (acts []Act, note string) {
	if s.build != nil && s.atHand() != nil {
		return nil, "A build is on already. Say stop the build first, or go on with it."
	}
	list := withBatch(notes[:1], desk)
	n := list[0]
	acts = []Act{{Do: doBegin, Name: n.Name}, {Do: doLike, Notes: list}}
	if p.Days > 1 {
		acts = append(acts, Act{Do: doTell, Fact: copiesFact, Value: strconv.Itoa(p.Days)})
	}
	if n.Mould > 0 && s.a.stepCalled(mixStep) != nil {
		acts = append(acts, Act{Do: doGoTo, ID: mixStep})
	}
	if wanted := s.a.amountsByID(likeSums); p.Drier != 0 && len(wanted) > 0 {
		acts = append(acts, Act{Do: doSums, IDs: likeSums})
	}
	return append(acts, Act{Do: doShow, ID: showLike, Notes: list}), ""
}

const (
	mixStep  = "mix"
	showLike = "like"
)

// likeSums are worked out where the air is not as it was last time: the mix, and
// the water to stir in for the air where the piece is worn.
var likeSums = []string{"gel-mix", "water-to-hold"}

// recalled gives the notes that an event brings.
func recalled(e Event) []Note {
	notes := []Note{}
	for _, act := range e.Acts {
		if act.Do == doShow {
			notes = append(notes, act.Notes...)
		}
	}
	return notes
}

// recalledSpoken says what the notebook has, as far as it was asked about.
func recalledSpoken(notes []Note, about string, now time.Time) string {
	if about == hear.PastList {
		var labels []string
		for _, n := range notes[:min(4, len(notes))] {
			labels = append(labels, nameOf(n))
		}
		say := fmt.Sprintf("%s: %s", phrase.Plural(float64(len(notes)), "note"), strings.Join(labels, "; "))
		if len(notes) > 4 {
			say += "; and so on"
		}
		return phrase.Speech(say)
	}
	n := notes[0]
	say := []string{fmt.Sprintf("%s, %s", nameOf(n), day(n.At, now))}
	if about == "" || about == "recipe" {
		for _, from := range notes {
			if len(from.Parts) > 0 {
				say = append(say, partsSpoken(from.Parts))
			}
		}
	}
	if about != "label" && about != "recipe" && about != "when" {
		if n.Outcome != "" {
			say = append(say, n.Outcome)
		}
		if n.WornFor != nil {
			say = append(say, "Worn for "+minutes(*n.WornFor))
		}
	}
	if n.Humidity != nil && (about == "" || about == "recipe") {
		say = append(say, fmt.Sprintf("The room was at %.0f percent humidity", *n.Humidity))
	}
	return phrase.Speech(say...)
}

func nameOf(n Note) string {
	if n.Label != "" {
		return n.Label
	}
	if n.Name != "" {
		return n.Kind + " " + n.Name
	}
	return n.Kind
}

func partsSpoken(parts []NotePart) string {
	var list []string
	for _, p := range parts {
		list = append(list, fmt.Sprintf("%g g %s", p.Grams, strings.ReplaceAll(p.Material, "-", " ")))
	}
	return phrase.And(list)
}

// day says a day as people do.
func day(t, now time.Time) string {
	switch days := dayNumber(now) - dayNumber(t.In(now.Location())); {
	case days == 0:
		return "today"
	case days == 1:
		return "yesterday"
	}
	return "on " + t.Format("2 January 2006")
}
