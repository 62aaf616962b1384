package hear

import "strings"

// light words carry no meaning of their own here; phrases match without them.
var light = wordSet(`a an the my your his her its our their it i we you he she they me him us them this that these those
is are was were be been being am do does did has have had having got get gets will would can could should may might must
there here's of in at to from with for by and or as also some bit lot really very quite rather pretty so just um er erm
uh hmm hm oh ah well kind sort please thanks think guess say seems seem looks look like thing maybe perhaps possibly
probably actually about mostly mainly all even still now then which what when`)

func wordSet(list string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(list) {
		set[w] = true
	}
	return set
}

// word is a token that carries meaning.
type word struct {
	at     int // in the tokens
	stem   string
	negate bool // a "not" that denies what follows
	clause int
}

// line is an utterance made ready for matching.
type line struct {
	text      string // folded
	tokens    []token
	words     []word
	claimed   []bool  // by token: understood as part of something
	asking    []bool  // by token: part of the way to ask for a sum
	hurtful   float64 // how likely it speaks of an emergency, once it is ranked
	answering bool    // a question about the work was asked
	idle      float64 // how likely it is idle talk, once it is ranked
	asSaid    *line   // before slips were mended; nil when there were none
}

func newLine(text string, tokens []token) *line {
	l := &line{text: text, tokens: tokens, claimed: make([]bool, len(tokens)), asking: make([]bool, len(tokens))}
	clause := 0
	for i, t := range tokens {
		negate := isNegator(t.word) && !exclaims(tokens, i) && !notOnly(tokens, i)
		if turns(t.word) {
			clause++
		}
		if negate {
			l.words = append(l.words, word{i, "not", true, clause})
		} else if !light[t.word] && !isNegator(t.word) {
			l.words = append(l.words, word{i, t.stem, false, clause})
		}
		if t.ends {
			clause++
		}
	}
	return l
}

// notOnly: "not only" and "not just" deny nothing.
func notOnly(tokens []token, i int) bool {
	return tokens[i].word == "not" && i+1 < len(tokens) && (tokens[i+1].word == "only" || tokens[i+1].word == "just")
}

// denied reports whether an odd number of negations reaches words[at]. What
// does not stop goes on: "won't stop bleeding" denies nothing.
func (l *line) denied(at int) bool {
	odd, stopping := false, false
	passed := 0
	for i := at - 1; i >= 0 && l.words[i].clause == l.words[at].clause; i-- {
		if l.words[i].negate {
			odd = odd != !stopping
			continue
		}
		stopping = stopping || l.words[i].stem == "stop"
		if passed++; passed > reach {
			break
		}
	}
	return odd
}

// said gives the text of tokens from to to-1 as it was said.
func (l *line) said(from, to int) string {
	if from < 0 || to > len(l.tokens) || from >= to {
		return ""
	}
	return l.text[l.tokens[from].from:l.tokens[to-1].to]
}

func (l *line) claim(from, to int) {
	for i := max(from, 0); i < to && i < len(l.claimed); i++ {
		l.claimed[i] = true
	}
}
