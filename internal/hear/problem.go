package hear

import (
	"math"
	"strings"
)

// sharpness turns scores into shares. The first 2,069 sayings of the project,
// each 45th judged by the others, lose least at 0.75; the whole book, in fifths
// (TestSharpness), at 0.6, where 0.75 loses 2 % more. Plain sentences by
// another hand would bear 1, so it errs on the side of asking.
const sharpness = 0.75

// The shares from which something is taken for granted.
const (
	clearly     = 0.60 // a problem, when nothing is open
	switches    = 0.85 // another problem than the open one
	likely      = 0.03 // worth offering
	beside      = 0.40 // worth offering where little but facts is said
	refused     = 0.40 // something refused at once, where it is the likeliest beside a request for a sum
	worthAsking = 0.36 // below this share of all that is offered, the step is asked for instead
	nothing     = 0.10 // below this, the words are about nothing we know

	surely       = 0.95 // an emergency, with two words of hurt
	perhaps      = 0.30 // an emergency, with a word of harm: to be asked about
	allButSurely = 0.60 // an emergency that befalls somebody, in no words that are listed

	farLikelier = 5    // times as like another emergency, and it is that one
	clearlyHurt = 0.55 // above this a harmless turn of speech in the line does not count
	doubtful    = 0.10 // below this, what a pattern is certain of is asked about, if harm is named too
	never       = 0.01 // and below this no pattern is believed

	mostlyTalk = 0.45 // where idle talk is likelier than this no trouble is heard
	partlyTalk = 0.16 // and where it is likelier than this one is only offered
	sameStage  = 1.5  // how much likelier a trouble of the stage talked about is
	ahead      = 2.0  // how many times the next one's share a clear one has
)

// hearProblem fills in what trouble the words tell of. Shop talk is a
// likelihood of its own: problems share what it leaves.
func (h *Hearing) hearProblem(c Context, l *line, ranked []Candidate, m *Meaning) {
	if own := h.said[stemKey(l.tokens)]; own.kind == isProblem && own.id != "" && c.Problem == nil {
		m.Problem = own.id // the book's own words, however little they say
		return
	}
	troubles, talk := h.troubles(c, l, ranked)
	if len(troubles) == 0 || talk > mostlyTalk || !h.tells(l) {
		return
	}
	top, second := troubles[0], Candidate{}
	if len(troubles) > 1 {
		second = troubles[1]
	}
	need := clearly
	if c.Problem != nil {
		if need = switches; changesSubject(l) {
			need = clearly
		}
		if top.ID == c.Problem.ID || top.Share < need {
			return
		}
	}
	if top.Share < clearly && l.allMended() {
		return // "flibber the wuzzle"
	}
	if top.Share >= nothing {
		m.Alternatives = h.alternatives(troubles)
	}
	offered := 0.0
	for _, t := range troubles[:min(mostOffered, len(troubles))] {
		offered += t.Share
	}
	if m.Puzzling = talk < partlyTalk && h.telling(l) > 0 && offered < worthAsking; m.Puzzling {
		m.Alternatives = nil // three guesses out of forty-six help nobody
		return
	}
	if top.Share < need || top.Share < ahead*second.Share || talk > partlyTalk || h.vague(l) {
		return
	}
	if h.book.ProblemByID(top.ID) != nil {
		m.Problem = top.ID
	} else {
		m.Elsewhere = top.ID
	}
}

// troubles gives the shares of problems and of troubles treated elsewhere
// among themselves, best first, and how likely it is that the words are idle
// talk: the geometric mean of what the two ways of telling say, the better one
// counted twice. What is seen at the stage of the last talk is likelier than the
// words alone say.
func (h *Hearing) troubles(c Context, l *line, ranked []Candidate) (list []Candidate, talk float64) {
	sum := 0.0
	near := h.stageOf[c.Last]
	for _, r := range ranked {
		if r.ID == ShopTalk {
			talk = r.Share
		} else if h.book.EmergencyByID(r.ID) == nil {
			if near != "" && h.stageOf[r.ID] == near {
				r.Share *= sameStage
			}
			list = append(list, r)
			sum += r.Share
		}
	}
	if near != "" {
		ordered(list)
	}
	for i := range list {
		list[i].Share /= max(sum, 1e-300)
	}
	return list, math.Cbrt(talk / max(talk+sum, 1e-300) * l.idle * l.idle)
}

// alternatives picks the likely problems, best first.
func (h *Hearing) alternatives(ranked []Candidate) []Candidate {
	var list []Candidate
	for _, c := range ranked {
		if len(list) == mostOffered || c.Share < likely {
			break
		}
		if h.book.ProblemByID(c.ID) != nil {
			list = append(list, c)
		}
	}
	return list
}

// tells reports whether the line holds a word of meaning that the book knows.
func (h *Hearing) tells(l *line) bool {
	for _, w := range l.words {
		if !w.negate && h.spread[w.stem] > 0 {
			return true
		}
	}
	return false
}

// allMended reports whether no word of meaning was said as it is written.
func (l *line) allMended() bool {
	for _, w := range l.words {
		if !w.negate && !l.tokens[w.at].slip {
			return false
		}
	}
	return true
}

// vague reports whether all that is said is one word that several troubles
// are told with.
func (h *Hearing) vague(l *line) bool {
	n, spread := 0, 0
	for _, w := range l.words {
		if !w.negate {
			n++
			spread = h.spread[w.stem]
		}
	}
	return n == 1 && spread > 1
}

// changesSubject: words that announce another trouble.
func changesSubject(l *line) bool {
	text := " " + strings.Join(plainWords(l.tokens), " ") + " "
	for _, cue := range []string{" now ", " new problem ", " another problem ", " something else ", " different problem ",
		" also ", " as well ", " next problem ", " other problem ", " new trouble ", " another thing "} {
		if strings.Contains(text, cue) {
			return true
		}
	}
	return false
}

func plainWords(tokens []token) []string {
	words := make([]string, len(tokens))
	for i, t := range tokens {
		words[i] = t.word
	}
	return words
}
