package hear

import (
	"slices"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/craft"
)

// sum is a way to ask for amounts.
type sum struct {
	amounts []*book.Amount // in the book's order: several may be asked for alike; none asks for all
	words   []string       // stems of meaning
	manner  manner
	exact   []string // all words, where one of meaning is too little to go by
}

// manner is how a question begins.
type manner uint8

const (
	openNone manner = iota // "plaster for the back"
	openHow                // "how much": how is a word of meaning
	openWhat               // "what volume is it"
	openWhen               // "when can I": with the verb first
	openVerb               // "will it", "does it"
)

var (
	askingWords = wordSet("what when which where who")
	askingVerbs = wordSet("is are was were will would can could should shall must do does did may")
	askedAbout  = wordSet("it i we the my this that a they he she one you there your our these those")
	requests    = wordSet("how need needs want give tell show calculate quantity amount amounts work weight volume")
)

func (h *Hearing) buildSums(b *book.Book) {
	known := map[string]int{}
	h.reached = make(map[string]map[factID]bool, len(b.Amounts))
	for _, a := range b.Amounts {
		h.reached[a.ID] = setOf(b.Reach(a))
		if a.Mix != nil && !slices.Contains(h.mixes, a.Mix.Recipe) {
			h.mixes = append(h.mixes, a.Mix.Recipe)
		}
		for _, text := range a.Says {
			s := h.sumOf(text)
			if len(s.words) == 0 {
				continue
			}
			key := strings.Join(append([]string{string('0' + rune(s.manner))}, s.words...), " ")
			i, twice := known[key]
			if !twice {
				i = len(h.sums)
				known[key] = i
				h.sums = append(h.sums, s)
			}
			if !slices.Contains(h.sums[i].amounts, a) {
				h.sums[i].amounts = append(h.sums[i].amounts, a)
			}
		}
	}
	for _, c := range b.Commands {
		for _, text := range c.Says {
			if s := h.sumOf(text); c.ID == sayAmounts && s.manner == openHow {
				h.sums = append(h.sums, s)
			}
		}
	}
}

// sayAmounts is the command that asks for sums without naming one.
const sayAmounts = "amounts"

func (h *Hearing) sumOf(text string) sum {
	tokens := h.read(text)
	s := sum{words: h.phraseOf(text), manner: mannerOf(tokens)}
	if len(s.words) < 2 {
		s.exact = plainWords(tokens)
	}
	return s
}

func mannerOf(tokens []token) manner {
	first, second := wordAt(tokens, 0), wordAt(tokens, 1)
	switch {
	case first == "how":
		return openHow
	case askingWords[first] && askingVerbs[second]:
		return openWhen
	case askingWords[first]:
		return openWhat
	case askingVerbs[first]:
		return openVerb
	}
	return openNone
}

// asking is a way to ask that a line holds.
type asking struct {
	*sum
	tokens []int // of its words
	loose  int   // words skipped
}

// sumAsked finds the way to ask for amounts that the line holds, or nil. The
// longest wins; of equals the one with the fewest words between, then the
// first. Amounts may stand between its words: "how much water for two cups of
// plaster".
func (h *Hearing) sumAsked(l *line, list []amount) *asking {
	inside := insideAmounts(l, list)
	best := h.longestAsked(l, inside, nil)
	if chained(list) && best != nil && !h.usesSizes(best.amounts) {
		if sized := h.longestAsked(l, inside, h.usesSizes); sized != nil {
			best = sized // "how much gelatin for a sheet 20 by 15 cm" is not of leaves
		}
	}
	if byMeasure := l.asMuch(); byMeasure != nil {
		if found := h.longestAsked(byMeasure, inside, nil); found != nil && (best == nil || best.amounts == nil || len(found.words) > len(best.words)) {
			best = found
		}
	}
	return best
}

func chained(list []amount) bool {
	return slices.ContainsFunc(list, func(a amount) bool { return a.chain > 1 })
}

// usesSizes reports whether one of the sums can be worked out from the sizes of
// a piece.
func (h *Hearing) usesSizes(list []*book.Amount) bool {
	f := h.piece[lengthwise]
	return f == nil || slices.ContainsFunc(list, func(a *book.Amount) bool { return h.reached[a.ID][f.ID] })
}

// longestAsked finds the longest way to ask that the line holds, of those whose
// sums are wanted; nil wants any.
func (h *Hearing) longestAsked(l *line, inside []bool, wanted func([]*book.Amount) bool) *asking {
	var best *asking
	for s := range h.sums {
		candidate := &h.sums[s]
		if best != nil && (len(candidate.words) < len(best.words) || candidate.amounts == nil) || wanted != nil && !wanted(candidate.amounts) {
			continue
		}
		for i := range l.words {
			found, ok := candidate.at(l, i, inside)
			if ok && (candidate.amounts == nil && !found.asksForAll(l) || h.passesNoun(l, found)) {
				continue
			}
			if ok && (best == nil || len(found.words) > len(best.words) || found.loose < best.loose) {
				best = found
			}
		}
	}
	return best
}

// passesNoun reports whether the request skips the very thing that is asked
// for: "how much gelatin fills the mould" is not "how much does the mould
// hold", nor "how many tickets are left" how many leaves.
func (h *Hearing) passesNoun(l *line, found *asking) bool {
	if found.loose == 0 || len(found.tokens) < 3 {
		return false
	}
	next := found.tokens[1] + 1
	switch wordAt(l.tokens, found.tokens[1]) {
	case "much":
	case "many":
		word := wordAt(l.tokens, next)
		if next < found.tokens[2] && l.isPluralAt(next) && !isUnitWord(word) && !measuredOut[word] {
			return true
		}
	default:
		return false
	}
	for i := found.tokens[1] + 1; i < found.tokens[2]; i++ {
		if h.nouns[l.tokens[i].stem] != nil {
			return true
		}
	}
	return false
}

// measuredOut is what makers count out, besides units: "how many caps of".
var measuredOut = wordSet("caps lids scoops spoons spoonfuls capfuls cupfuls scoopfuls")

// asMuch gives the line with "how many caps of gelatin" as "how much gelatin",
// and "how many minutes" as "how long"; or nil.
func (l *line) asMuch() *line {
	for k := 1; k+1 < len(l.words); k++ {
		many, unit := l.words[k], l.words[k+1]
		word := l.tokens[unit.at].word
		if l.tokens[many.at].word != "many" || unit.at != many.at+1 || !measuredOut[word] && !isUnitWord(word) {
			continue
		}
		alike := *l
		alike.words = slices.Delete(slices.Clone(l.words), k+1, k+2)
		alike.words[k].stem = "much"
		if units, _ := readUnit(l.tokens, unit.at); slices.ContainsFunc(units, func(u craft.Unit) bool { return u.Dimension == craft.Time }) {
			alike.words[k].stem = "long"
		}
		return &alike
	}
	return nil
}

// asksForAll reports whether a request that names no sum is one: "how much do I
// need", or "how much for".
func (s *asking) asksForAll(l *line) bool {
	last := s.tokens[len(s.tokens)-1]
	return s.loose == 0 && (len(s.words) > 2 || wordAt(l.tokens, last+1) == "for")
}

// mostSkipped is how many words of meaning may stand between the words of a
// question, its numbers aside: "how much of that pink plaster".
const mostSkipped = 2

func (s *sum) at(l *line, at int, inside []bool) (*asking, bool) {
	if first := l.words[at]; first.stem != s.words[0] && !s.asksWhere(l, first, 0) {
		return nil, false
	}
	found := &asking{sum: s}
	k := 0
	for j := at; j < len(l.words) && k < len(s.words); j++ {
		w := l.words[j]
		switch {
		case (w.stem == s.words[k] || s.asksWhere(l, w, k) || s.counts(l, w, k) || s.waits(w, k)) && (k == 0 || !l.endsBetween(l.words[j-1].at, w.at) || inside[l.words[j-1].at]):
			if w.stem != s.words[k] {
				found.loose++
			}
			found.tokens = append(found.tokens, w.at)
			k++
		case k == 0:
			return nil, false
		case inside[w.at]:
		case w.negate || l.endsBetween(l.words[j-1].at, w.at):
			return nil, false
		default:
			found.loose++
		}
	}
	if k < len(s.words) || found.loose > min(mostSkipped, k-1) || !s.opens(l, found) {
		return nil, false
	}
	return found, true
}

// asksWhere takes "where do I store it" for "how do I store it".
func (s *sum) asksWhere(l *line, w word, k int) bool {
	return k == 0 && s.words[0] == "how" && len(s.words) == 2 && l.tokens[w.at].word == "where" && askingVerbs[wordAt(l.tokens, w.at+1)]
}

// waits takes "how long till", "until" and "before" for one another.
func (s *sum) waits(w word, k int) bool {
	isWait := func(stem string) bool { return isOneOf(stem, "until", "till", "befor") }
	return k == 2 && s.words[1] == "long" && isWait(s.words[k]) && isWait(w.stem)
}

// copied are the stems of what the book calls the casts that it counts.
var copied = wordSet("piec cast copi nose")

// counts takes "how many barnacles" for "how many pieces", where there is talk
// of a mix or a size to make them of.
func (s *sum) counts(l *line, w word, k int) bool {
	if k != 2 || s.words[1] != "mani" || !copied[s.words[2]] || !l.isPlural(w.at) || isUnitWord(l.tokens[w.at].word) || wordAt(l.tokens, w.at-1) != "many" {
		return false
	}
	return l.saysAny(0, len(l.tokens), "mix", "gel", "melt", "gelatin", "cast", "mould") ||
		slices.ContainsFunc(readAmounts(l), func(a amount) bool { return a.chain > 0 || len(a.units) > 0 && weighed(a.units[0]) })
}

// endsBetween reports whether a comma or a stop parts two tokens.
func (l *line) endsBetween(from, to int) bool {
	return slices.ContainsFunc(l.tokens[from:to], func(t token) bool { return t.ends })
}

// opens reports whether the question begins as it does in the book, so that
// "when I demoulded it" is no question.
func (s *sum) opens(l *line, found *asking) bool {
	first := found.tokens[0]
	if s.exact != nil {
		return s.inFull(l, first)
	}
	switch s.manner {
	case openHow:
		return true
	case openWhat, openWhen:
		for i := first; i >= 0 && i > first-6; i-- {
			if askingWords[l.tokens[i].word] && (s.manner == openWhat || askingVerbs[wordAt(l.tokens, i+1)] || i+1 == first) {
				return true
			}
		}
		return false
	case openVerb:
		return l.inverted(max(0, first-5), first+1)
	}
	return l.requests(found)
}

// inFull reports whether all words of the saying stand round token i.
func (s *sum) inFull(l *line, i int) bool {
	tokens := l.tokens
	if i >= 3 && tokens[i-2].word == "going" && tokens[i-1].word == "to" { // "is it going to shrink"
		tokens = slices.Delete(slices.Clone(tokens), i-2, i)
		i -= 2
	}
	for from := max(0, i-len(s.exact)+1); from <= i && from+len(s.exact) <= len(tokens); from++ {
		if s.matches(tokens[from : from+len(s.exact)]) {
			return true
		}
	}
	return false
}

// matches compares whole wordings; one verb and one subject are as good as
// another: "when will we" for "when can I".
func (s *sum) matches(tokens []token) bool {
	for k, want := range s.exact {
		word := tokens[k].word
		alike := askingVerbs[word] && askingVerbs[want] || askedAbout[word] && askedAbout[want]
		if word != want && !alike && tokens[k].stem != s.words[0] {
			return false
		}
	}
	return true
}

// inverted reports whether a verb stands before its subject among tokens from
// to to-1, as questions have it: "will it", but not "the wall is the".
func (l *line) inverted(from, to int) bool {
	for i := from; i < to; i++ {
		if !askingVerbs[l.tokens[i].word] || !askedAbout[wordAt(l.tokens, i+1)] {
			continue
		}
		before := wordAt(l.tokens, i-1)
		if i == 0 || l.tokens[i-1].ends || startsTurn[before] || isOneOf(before, "and", "but") || askingWords[before] || isUnitWord(before) {
			return true
		}
	}
	return false
}

// requests reports whether the line asks for something, opens with what is
// asked for ("shopping list for"), or says little besides.
func (l *line) requests(found *asking) bool {
	if begins, end := found.tokens[0], found.tokens[len(found.tokens)-1]; l.opensTurn(begins) && l.ownPhrase(end) {
		return true
	}
	others := 0
	for i, t := range l.tokens {
		if requests[t.word] || askingWords[t.word] && (i == 0 || l.tokens[i-1].ends) {
			return true
		}
		if !light[t.word] && !isNumberWord(t.word) && !t.digits && !isUnitWord(t.word) && !sizeWord(t.word) && !slices.Contains(found.tokens, i) {
			others++
		}
	}
	return others < 2 || l.inverted(0, len(l.tokens))
}

// mark notes the words of the request in the line.
func (s *asking) mark(l *line) {
	for i := s.tokens[0]; i <= s.tokens[len(s.tokens)-1]; i++ {
		if slices.Contains(s.tokens, i) || light[l.tokens[i].word] {
			l.asking[i] = true
		}
	}
}

// opensTurn reports whether nothing but courtesies stands before token i in
// its clause.
func (l *line) opensTurn(i int) bool {
	for i--; i >= 0 && !l.tokens[i].ends; i-- {
		if word := l.tokens[i].word; !courtesies[word] && !light[word] {
			return false
		}
	}
	return true
}

// ownPhrase reports whether a phrase that ends with token i is not the subject
// of a sentence.
func (l *line) ownPhrase(i int) bool {
	return l.tokens[i].ends || isOneOf(wordAt(l.tokens, i+1), "", "for", "please")
}
