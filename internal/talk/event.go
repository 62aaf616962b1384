package talk

import (
	"slices"
	"time"
)

// Event is one thing that a maker did, with what it was taken to mean. A
// session's state is the fold over the acts of its events; the words are kept
// for the log only.
type Event struct {
	At   time.Time `json:"at"`
	Kind string    `json:"kind"` // say, spoken, pick, correct, undo, timer
	Text string    `json:"text"` // as typed or spoken, or the words of the option picked
	Acts []Act     `json:"acts"`
	Note string    `json:"note,omitempty"` // what could not be taken, in one sentence
	Over bool      `json:"over,omitempty"` // it overrules something told before

	Sure   float64  `json:"sure,omitempty"`   // of what was spoken: as in Spoken
	Others []string `json:"others,omitempty"` // and what else it may have been
	Free   bool     `json:"free,omitempty"`   // and whether it was a description
}

// Act is one thing that changes the state, or that asks to be shown something.
type Act struct {
	Do      string   `json:"do"`                // one of the words below
	ID      string   `json:"id,omitempty"`      // of a problem, emergency, remedy, amount or command; whichstep, choose: the words that told of a trouble
	IDs     []string `json:"ids,omitempty"`     // choose: the problems to choose from
	Not     []string `json:"not,omitempty"`     // choose, whichstep: the problems that were chosen from before, and were none of them
	Fact    string   `json:"fact,omitempty"`    // tell, unsure, forget
	Value   string   `json:"value,omitempty"`   // tell: an option's value, yes, no, or a number in the base unit; convert: the figure
	From    string   `json:"from,omitempty"`    // convert: the unit told
	To      string   `json:"to,omitempty"`      // convert: the unit asked for
	Choices []Choice `json:"choices,omitempty"` // mean: the readings to choose from

	Name    string         `json:"name,omitempty"`    // begin: of the piece; timer: what it is for
	Step    string         `json:"step,omitempty"`    // timer: the step that it belongs to, or none; choose: the stage that was told
	Due     time.Time      `json:"due,omitzero"`      // timer: when it rings; verdict: not ready before
	Warn    time.Time      `json:"warn,omitzero"`     // timer: when it warns, or never
	Say     string         `json:"say,omitempty"`     // timer: said when it rings; mean: the question, where it asks whether something was said
	Warning string         `json:"warning,omitempty"` // timer: said when it warns
	N       int            `json:"n,omitempty"`       // number: the running number; missed: the how manieth in a row
	Seen    map[string]int `json:"seen,omitempty"`    // open: how often this workshop found each cause
	Notes   []Note         `json:"notes,omitempty"`   // show, like: what the notebook has
}

// Asks reports whether an event does nothing but ask what was said or meant.
func (e Event) Asks() bool {
	return len(e.Acts) > 0 && !slices.ContainsFunc(e.Acts, func(a Act) bool {
		return !slices.Contains([]string{doMean, doMissed, doMaybeHurt, doChoose, doWhichStep}, a.Do) && (a.Do != doShow || a.ID != showSafe)
	})
}

// Choice is one reading of unclear words.
type Choice struct {
	Label string `json:"label"`
	Acts  []Act  `json:"acts"`
}

// What an act does. The words are kept in events, so they are never changed.
const (
	doOpen      = "open"      // a problem
	doEnough    = "enough"    // no more questions: what can be said now
	doLater     = "later"     // a problem that is looked at after the open one
	doWhichStep = "whichstep" // at which step the trouble is, for words that name none
	doTell      = "tell"      // a fact
	doUnsure    = "unsure"    // a fact can't be told
	doForget    = "forget"    // a fact told before
	doChoose    = "choose"    // which problem is meant
	doMean      = "mean"      // which reading is meant
	doHurt      = "hurt"      // an emergency, for certain
	doMaybeHurt = "maybehurt" // an emergency, to be asked about
	doSafe      = "safe"      // the emergency is over, or was none
	doHelped    = "helped"    // a remedy did it
	doFailed    = "failed"    // a remedy did not do it
	doPass      = "pass"      // a remedy is passed over
	doFixed     = "fixed"     // the trouble is over
	doSums      = "sums"      // amounts are wanted; IDs says which
	doConvert   = "convert"   // a figure into another unit; ID is the material
	doReset     = "reset"     // start again
	doElsewhere = "elsewhere" // a trouble that the book does not treat
	doLift      = "lift"      // a refusal is taken back
	doShow      = "show"      // repeat, why, others or help: changes nothing
	doMissed    = "missed"    // something was spoken and not made out: changes nothing
	doManner    = "manner"    // Value is how it shall be spoken: changes nothing
	doAgain     = "again"     // that was not said: what was asked stays asked
	doInstead   = "instead"   // the last answer is taken back, and the acts after it hold
	doUndo      = "undo"      // the last change is taken back; ID "said" where it was asked whether that was said

	doBegin     = "begin"     // a build
	doLeave     = "leave"     // the build is left
	doGoTo      = "goto"      // a step of the build
	doStarted   = "started"   // the clock of a step
	doHands     = "hands"     // the hands part of a step is over
	doOver      = "over"      // a step is over
	doCheck     = "check"     // whether a step is ready
	doVerdict   = "verdict"   // what was seen means: ready, wait or trouble
	doTimer     = "timer"     // is set
	doStopTimer = "stoptimer" // is stopped
	doWarn      = "warn"      // a timer has warned
	doRing      = "ring"      // a timer has rung
	doNumber    = "number"    // of a mould, batch or piece
	doLike      = "like"      // as a note has it
)
