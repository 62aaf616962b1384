package hear

import (
	"slices"
	"strconv"
)

// Past is a question to the notebook.
type Past struct {
	Do     string   // one of the Past constants
	Kind   string   // mould, batch, piece, diagnosis, or "" for any
	Words  []string // to find it by, lower case, as said: ["cheek"]; numbers in digits
	About  string   // recipe, label, outcome, wear, cause, when, or "" for all
	Days   int      // with PastAgain: copies, one for each of so many days; 0 for one
	Drier  int      // 1 where it is drier today, -1 damper, 0 not said
	Warmer int      // 1 warmer, -1 colder, 0 not said
}

// What is asked of the notebook.
const (
	PastRecall = "recall" // what was used, how it went
	PastAgain  = "again"  // to do it like last time
	PastList   = "list"   // what there is of a kind
)

// hearPast hears a question to the notebook, and nothing else.
func (h *Hearing) hearPast(c Context, l *line, m *Meaning) bool {
	r := &reader{l, 0, len(l.tokens)}
	r.courtesies()
	r.end = len(l.tokens)
	for _, hears := range []func(Context, reader) *Past{hearList, h.hearAgain, hearRecall} {
		if p := hears(c, *r); p != nil {
			m.Past = p
			return true
		}
	}
	return false
}

// kinds are what the notebook keeps, by what it is called.
var kinds = map[string]string{
	"mould": "mould", "moulds": "mould", "batch": "batch", "batches": "batch", "piece": "piece", "pieces": "piece", "appliance": "piece",
	"appliances": "piece", "cast": "piece", "casts": "piece", "mixes": "batch", "troubles": "diagnosis", "problems": "diagnosis",
	"diagnoses": "diagnosis", "mistakes": "diagnosis", "everything": "", "notes": "", "notebook": "", "book": "", "builds": "",
}

var (
	openList = phraseList(`show me|list|read me|read out|what is in|open|show|look in|look into|go to|which|what|all|tell me about|my|
what have i|what have we|show me what|list what`)
	listTails = wordSet(`my the our all of old have i got do we made make there are is kept in been so far did up had out notebook this that these
show me list what past earlier please again`)
)

// mostNames is how many words a name in the notebook has.
const mostNames = 4

// hearList: "show me my moulds", "what's in the notebook".
func hearList(_ Context, r reader) *Past {
	if len(r.l.tokens)-r.at == 1 && isOneOf(r.word(), "notebook") {
		return &Past{Do: PastList}
	}
	start := r.at
	if !r.takes(openList) {
		return nil
	}
	listed, kind, made := false, "", false
	for i := start; i < r.end; i++ {
		word := r.l.tokens[i].word
		k, ok := kinds[word]
		plural := len(word) > 4 && word[len(word)-1] == 's'
		switch {
		case ok && (plural || isOneOf(word, "notebook", "everything")):
			listed, kind = true, kind+k
		case i >= r.at && !listTails[word] && !polite[word]:
			return nil
		}
		made = made || word == "made"
	}
	if whose := wordAt(r.l.tokens, start); isOneOf(whose, "my", "all") && !listed || isOneOf(whose, "open", "go") && kind != "" {
		return nil
	}
	if !listed && !(made && r.l.saysAny(start, r.at, "what")) {
		return nil
	}
	return &Past{Do: PastList, Kind: kind}
}

// pastWords say how the notebook is asked, and name nothing in it.
var pastWords = wordSet(`last time use used make made recipe mix ratio what which how long when did do was were is go went wrong hold held work
worked turn turned out come came stick stay stayed on wear worn wore happen happened remind tell show me call called label labelled write wrote written down say
says note notes notebook look find up fail failed before previous previously earlier yesterday week month back one ones same like again another more
copy copies exactly today night nights day days each every put mixed cast poured glued but only drier dryer damper humid wetter warmer
hotter colder cooler just piece mould batch appliance casts pieces moulds batches recall remember have i as make of for to from done good bad well
survive survived whole all why much many that than those these and or glue through evening evenings show shows performance performances where kept keep
numbers amounts amount measures parts ingredients settings number version date weather air room place it less not so
monday tuesday wednesday thursday friday saturday sunday once repeat build`)

// named fills in the kind and the words by which tokens from to to-1 name
// something in the notebook.
func (p *Past) named(l *line, from, to int) {
	for i := from; i < to; {
		t := l.tokens[i]
		if k := kinds[t.word]; k != "" && p.Kind == "" {
			p.Kind = k
		}
		if n, ok := readWhole(l.tokens, i); ok && n.value == float64(int(n.value)) && isOneOf(wordAt(l.tokens, i-1), "mould", "batch", "piece", "number", "cast") {
			p.Words = append(p.Words, strconv.Itoa(int(n.value)))
			i = max(n.end, i+1)
			continue
		}
		if !pastWords[t.word] && !light[t.word] && !polite[t.word] && kinds[t.word] == "" && !isCount(t) && !slices.Contains(p.Words, t.word) {
			p.Words = append(p.Words, t.word)
		}
		i++
	}
}

// namesIt reports whether tokens from to to-1 speak of something in the
// notebook: the last one, one by number, or a thing of the trade.
func (l *line) namesIt(from, to int) bool {
	for i := from; i < to; i++ {
		word := l.tokens[i].word
		switch {
		case word == "last" && !isUnitWord(wordAt(l.tokens, i+1)), isOneOf(word, "previous", "previously", "notebook", "yesterday"):
			return true
		case isOneOf(word, "mould", "batch", "piece", "cast") && i+1 < to && isCount(l.tokens[i+1]):
			return true
		}
	}
	return false
}

// namesThing reports whether tokens from to to-1 name what an appliance is.
func (l *line) namesThing(from, to int) bool {
	return slices.ContainsFunc(l.tokens[from:to], func(t token) bool {
		return appliances[t.word] && !isOneOf(t.word, "copy", "copies", "rash", "hole", "dent")
	})
}
