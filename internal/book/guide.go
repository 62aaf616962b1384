package book

import "sparehand/internal/logic"

// Guide is the page that walks a maker through one step of the job.
type Guide struct {
	Step      *Step
	Order     string  // heading, an order: "Mix the plaster and pour it"
	After     []*Step // that must be over first
	OnlyIf    logic.Cond
	HasOnlyIf bool
	Hands     Range   // minutes with the hands on it
	Wait      Range   // minutes until it is ready after that, hands free; all 0 for none
	WaitSum   *Amount // in minutes; takes the place of Wait where it can be worked out, or nil
	Others    []OtherTimes
	Asks      []*Fact  // before the step is shown
	Needs     []string // at hand before it is begun
	Do        []Doing
	Brief     string   // all of it in a sentence, for somebody who has done it before
	Never     []string // what must not be done
	Look      string   // how it looks and feels when it is ready
	Check     *Fact    // asked for "is it ready?", or nil
	Verdicts  []Verdict
	Starts    string // at which moment its clock begins, spoken; "" for when the step comes up
	Timers    []StepTimer
	Cautions  []*Caution
	Amounts   []*Amount
	Keeps     string // mould, batch, piece or outcome: what the notebook keeps of it, or ""
	Place     Place
	Source    string // of the minutes
}

// Range is a span of minutes by three points, From <= Mostly <= To.
type Range struct{ From, Mostly, To float64 }

// OtherTimes take the place of a guide's minutes where a condition holds.
type OtherTimes struct {
	When    logic.Cond
	Hands   *Range // nil for the guide's own
	Wait    *Range
	Because string // "the room is cold"
}

// Doing is one thing to do, said where its condition is not false.
type Doing struct {
	Say     string
	When    logic.Cond
	HasWhen bool
}

// Verdict says whether a step is ready, by what was seen.
type Verdict struct {
	When    logic.Cond
	Is      string   // ready, wait or trouble
	Minutes float64  // wait: how long until it is looked at again
	Problem *Problem // trouble: the page about it
	Say     string
}

// StepTimer is set by itself at a step.
type StepTimer struct {
	Name    string
	From    string  // start, or hands: when the hands part is over
	Minutes float64 // from then
	Warn    float64 // minutes before it, 0 for no warning
	Warning string
	Say     string
	When    logic.Cond
	HasWhen bool
}

// Shorter is a shorter way through the job, and what it costs.
type Shorter struct {
	ID        string
	Title     string
	Say       string
	Costs     string
	Sets      []SetFact
	Before    *Step // no use once that is over
	OnlyIf    logic.Cond
	HasOnlyIf bool
	Place     Place
}

// SetFact is a fact with the value that a shorter way gives it.
type SetFact struct {
	Fact  *Fact
	Value logic.Value
}

// Again gives the step from which a build goes on once this remedy has helped:
// nil where it goes on as it was.
func (r *Remedy) Again(p *Problem) *Step {
	switch {
	case r.From != nil:
		return r.From
	case r.Saves != "no":
		return nil
	case r.Cause.Began != nil:
		return r.Cause.Began
	}
	return p.Step
}
