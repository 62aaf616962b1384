// Package hear turns a maker's words into their meaning, in the state of the
// talk: an emergency, the answer to the question that was asked, a command, a
// problem, or facts told in passing.
//
// It knows the book and nothing above it. There is no model but word counts:
// the same book and words always mean the same.
package hear

import (
	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/logic"
)

// The questions that are not about a fact.
const (
	AskProblem   = "problem"     // which of these is it?
	AskMeaning   = "meaning"     // which did you mean?
	AskEmergency = "emergency"   // is somebody hurt?
	AskDidItWork = "did_it_work" // did the remedy do it?
)

// Asked is the question that the words may answer.
type Asked struct {
	Fact    *book.Fact // nil for a question that is not about a fact
	Special string     // one of the Ask constants when Fact is nil
	Kind    logic.Kind
	Options []book.Option // as shown (choice, yes/no)
}

// Context is what the talk is about when the words are said.
type Context struct {
	Asked   *Asked
	Problem *book.Problem // the open one, or nil: its facts are preferred
	Last    string        // id of the problem talked about last, where none is open; or ""

	Sums     []*book.Amount // those under way: their facts are preferred to any
	LastUnit craft.Unit     // the length unit last said (see LengthUnit), for sizes without one; or none

	scope *scope
}

// Heard is a fact told, with the words that told it.
type Heard struct {
	Fact  logic.FactID
	Value logic.Value
	Words string
}

// Denied is an option of a choice that was said not to be so.
type Denied struct {
	Fact  logic.FactID
	Value logic.Value
}

// Candidate is something that the words may be about. Share is between 0 and
// 1; over all candidates of Rank it sums to 1.
type Candidate struct {
	ID    string
	Share float64
}

// Choice is one reading of words that can be read in two or three ways.
// Picking it tells its Facts, with those that were told beside it.
type Choice struct {
	Label string
	Facts []Heard
	Fact  logic.FactID
}

// Meaning is what the words were taken to mean. Fields are empty where the
// words said nothing of the kind.
type Meaning struct {
	Emergency      string              // id, certain
	MaybeEmergency string              // id, to be asked first
	Problem        string              // id, clear enough to act on
	Alternatives   []Candidate         // likely problems, best first, at most 3; also beside Problem
	Also           string              // id of a second problem told in the same breath
	Puzzling       bool                // it tells of some trouble, but not of which
	Elsewhere      string              // id of a trouble the book does not treat, clear
	Command        string              // id
	Amount         string              // id of the sum asked for, the first of those asked for alike; Command is then "amounts"
	Amounts        []string            // ids of all the sums asked for in one breath, in order; Amount is the first
	Alike          map[string][]string // by a sum of Amounts: those asked for in the same words, itself first
	Convert        *Conversion         // a question about units, and nothing else; or nil
	Call           *Clock              // when the piece has to be ready, as a time of day; or nil
	Timer          *Timer              // a wish to be told after some time, perhaps beside others; or nil
	Begin          *Begin              // a wish to be walked through a build, and nothing else; or nil
	GoTo           string              // id of the step of the job that the walk is to go to, and nothing else
	Past           *Past               // a question to the notebook, and nothing else; or nil
	Facts          []Heard             // the answer first, then facts told in passing; each fact once
	Denied         []Denied
	Pick           int // 1-based option of a special question; 1 yes and 2 no for yes/no
	NotSure, Skip  bool
	Readings       []Choice // two or three close readings to ask about
	Complaint      string   // why an answer could not be taken, one sentence
	Spare          string   // words not understood, for the log
}
