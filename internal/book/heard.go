package book

import (
	"slices"
	"strings"
	"unicode"
)

// Emergency is a hurt or a danger that comes before everything else.
type Emergency struct {
	ID      string
	Title   string
	Say     string   // the first thing to do, one short spoken sentence
	Do      []string // what to do, in order
	Call    string   // when and whom to call
	Source  string   // the public first-aid guidance
	Ask     string   // the short question where it is only possible
	Certain []Pattern
	Maybe   []Pattern
	Harms   [][]string // single words for what it does: one of each group
	Spreads bool       // it is a danger though nobody is hurt yet
	Sayings []string
	Place   Place
}

// Pattern is heard where each group of All has a word or phrase in the
// utterance and no phrase of Unless stands in it. A phrase may give a choice of
// words: "my|his hand|arm".
type Pattern struct {
	All    [][]string
	Unless []string
}

// Elsewhere is a trouble of the trade that this book does not treat yet.
type Elsewhere struct {
	ID, Title string
	Say       string // what to answer, "" for saying that there is no page on it
	Sayings   []string
	Certain   []Pattern // heard for certain where one of these is
	Lifts     []string  // words that take a refusal back; with none it is no refusal
	Bodies    *Bodies   // the vocabulary of what is laid on whom, or nil
}

// Bodies is the vocabulary by which it is judged whether something that sets or
// scalds is to be laid on a body. A phrase may give a choice of words, as in a
// Pattern.
type Bodies struct {
	Sets, Scalds []string // what sets hard and hot; what scalds while liquid
	Parts        []string // a body's own, whoever says them
	Features     []string // sculpted by makers: a body's own only where somebody's
	Beings       []string // whole creatures
	Players      []string // whom pieces are made for: bodies only where it is laid on them
	Whose        []string
	Acts         []string // what is done with what sets
	Made         []string // what is made or sculpted, and of what
	Wares        []string // what else has a face or a foot
	States       []string // how hands and heads may be
	Mishaps      []string // what tells that it got there by itself, or comes off
	Worn         []string // how a piece is worn
	Turns        []string // turns of speech that name no body
}

// LiftedBy reports whether words hold one of those that take a refusal back.
func (e *Elsewhere) LiftedBy(words string) bool {
	said := " " + strings.Join(strings.FieldsFunc(strings.ToLower(words), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' }), " ") + " "
	return slices.ContainsFunc(e.Lifts, func(lift string) bool { return strings.Contains(said, " "+lift+" ") })
}

// Command is a request to the assistant itself.
type Command struct {
	ID   string // one that the talk knows, as in rules/talk/commands.yaml
	Says []string
}

// EmergencyByID finds an emergency, or nil.
func (b *Book) EmergencyByID(id string) *Emergency {
	for i := range b.Emergencies {
		if b.Emergencies[i].ID == id {
			return &b.Emergencies[i]
		}
	}
	return nil
}
