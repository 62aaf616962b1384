package book

// Case is a talk written beside the rules, with what it should come to.
type Case struct {
	Name      string
	Say       []string          // utterances before any question is answered
	Answers   map[string]string // fact: what the maker says when asked for it
	Otherwise string            // what is said to any other question; "not sure" when empty
	Then      []string          // utterances after the first remedy is shown
	Expect    Expect
	Place     Place
}

// Expect is what a case should come to. Empty fields are not checked.
type Expect struct {
	Problem   string
	Cause     string   // the leading one
	Causes    []string // all of these are named together
	Remedy    string   // the first offered
	Cautions  []string // all of these are shown
	Emergency string
	Step      string            // of a build: the one at hand
	Amounts   map[string]string // name: amount with its unit and tolerance, "925 g", "45 mm ± 2"
	Asks      string            // the fact or question asked in the end
	Says      []string          // words that the last reply speaks or shows
	Facts     map[string]string // facts understood, as their value's text
	Ends      string            // remedy, nothing-fits, question, emergency, elsewhere
	Questions int               // at most this many are asked, 0 for any
}
