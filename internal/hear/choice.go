package hear

import (
	"slices"
	"strconv"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// answerChoice reads an answer to a choice: what the options are called and
// how else people say them, their numbers, parts of a label, and slips of all
// these.
func (h *Hearing) answerChoice(a *Asked, l *line, found []match, m *Meaning) bool {
	f := a.Fact
	if o := h.wordForWord(f, l); o >= 0 {
		m.tell(f.ID, logic.Option(o), l.said(0, len(l.tokens)))
		l.claim(0, len(l.tokens))
		return true
	}
	if n := optionAt(a, cardNumber(l)); n >= 0 {
		m.tell(f.ID, logic.Option(n), l.said(0, len(l.tokens)))
		l.claim(0, len(l.tokens))
		return true
	}
	named, deniedOnes := h.named(f, l, found)
	if len(named) != 1 && slices.ContainsFunc(l.tokens, func(t token) bool { return t.word == "both" }) {
		m.Complaint = "Which of them is the stronger? Give me one: " + labels(shown(a)) + "."
		return true
	}
	numbered := optionAt(a, index(l, len(shown(a))))
	if numbered >= 0 {
		named = append(named, optionMatch{option: numbered, to: len(l.tokens)})
		named = h.addNumbered(f, l, named)
	}
	m.Denied = append(m.Denied, deniedOnes...)
	if len(named) == 0 && len(deniedOnes) == 0 {
		named = h.guess(f, l, answersAnother(f, l, found))
	}
	if len(named) > 0 {
		return chosen(f, l, named, m)
	}
	if len(deniedOnes) > 0 {
		return true
	}
	return h.unanswered(a, l, m)
}

// cardNumber gives the number that is all of the line, in digits; or 0.
func cardNumber(l *line) int {
	if len(l.tokens) != 1 || !l.tokens[0].digits {
		return 0
	}
	n, err := strconv.Atoi(l.tokens[0].word)
	if err != nil {
		return 0
	}
	return n
}

// wordForWord gives the option that the whole line is called by, small words
// and all, or -1: "some is poured" is not "all of it is poured". Where two are
// called the same it is neither.
func (h *Hearing) wordForWord(f *book.Fact, l *line) int {
	key, found := stemKey(l.tokens), -1
	for i, o := range f.Options {
		for _, saying := range sayings(f, o) {
			if stemKey(h.read(saying)) != key {
				continue
			}
			if found >= 0 && found != i {
				return -1
			}
			found = i
		}
	}
	return found
}

// insideMeasured marks the tokens of weights and volumes: the grams of "700
// grams" do not say what it was weighed with. "A cup" may.
func insideMeasured(l *line) []bool {
	return insideAmounts(l, slices.DeleteFunc(readAmounts(l), func(a amount) bool {
		return a.article || len(a.units) == 0 || !weighed(a.units[0])
	}))
}

// answersAnother reports whether the whole line is what an answer to another
// fact is called. Then only all of it is an answer to f: "clay strips" is not
// half of "the strips come apart".
func answersAnother(f *book.Fact, l *line, found []match) bool {
	return slices.ContainsFunc(found, func(m match) bool {
		return m.phrase.fact != f.ID && m.phrase.option != quantity && m.to-m.from == len(l.words)
	})
}

// unanswered handles words that name no option.
func (h *Hearing) unanswered(a *Asked, l *line, m *Meaning) bool {
	if from, to := h.doubts(l); from >= 0 || isNone(l) {
		m.NotSure = true
		l.claim(max(from, 0), to)
		return true
	}
	said, from, to := h.answersWith(l)
	if said != silent && to == len(l.tokens) {
		m.Complaint = "A yes or no does not say which."
		l.claim(from, to)
		return true
	}
	return false
}

func shown(a *Asked) []book.Option {
	if len(a.Options) > 0 {
		return a.Options
	}
	return a.Fact.Options
}

// optionAt gives the place among the fact's options of the n-th one shown, or
// -1.
func optionAt(a *Asked, n int) int {
	list := shown(a)
	if n < 1 || n > len(list) {
		return -1
	}
	return slices.IndexFunc(a.Fact.Options, func(o book.Option) bool { return o.Value == list[n-1].Value })
}

func labels(options []book.Option) string {
	list := make([]string, len(options))
	for i, o := range options {
		list[i] = o.Label
	}
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " or " + list[n-1]
	}
	return strings.Join(list, "")
}

// optionMatch is an option that some tokens name.
type optionMatch struct{ option, from, to int }

// named lists the options that the line names, in order, and those it denies.
// A phrase inside a longer one that matches too is not another answer.
func (h *Hearing) named(f *book.Fact, l *line, found []match) (list []optionMatch, deniedOnes []Denied) {
	inside := insideMeasured(l)
	for i := range found {
		m := &found[i]
		if m.phrase.fact != f.ID || covered(found, i) || m.phrase.words[0] == "not" && len(m.phrase.words) == 1 && len(l.words) > 1 {
			continue // a lone "nothing" is an option only by itself
		}
		from, to := l.span(m)
		if to-from == 1 && inside[from] {
			continue
		}
		if m.denied {
			d := Denied{f.ID, logic.Option(m.phrase.option)}
			if !slices.Contains(deniedOnes, d) {
				deniedOnes = append(deniedOnes, d)
			}
			l.claim(from, to)
			continue
		}
		list = append(list, optionMatch{m.phrase.option, from, to})
	}
	return list, deniedOnes
}

// covered reports whether a longer match of the same fact holds found[i].
func covered(found []match, i int) bool {
	m := found[i]
	for _, o := range found {
		if o.phrase.fact == m.phrase.fact && o.to-o.from > m.to-m.from && o.from <= m.from && o.to >= m.to {
			return true
		}
	}
	return false
}

// addNumbered adds the options whose label holds the number that was said:
// "seven" may be the seventh option or the one called "seven days".
func (h *Hearing) addNumbered(f *book.Fact, l *line, named []optionMatch) []optionMatch {
	said, ok := onlyNumber(l.tokens)
	for o, option := range f.Options {
		if o == named[len(named)-1].option || !ok {
			continue
		}
		if x, has := onlyNumber(tokenise(fold(option.Label), h.stem)); has && x == said {
			named = append(named, optionMatch{option: o, to: len(l.tokens)})
		}
	}
	return named
}

// onlyNumber gives the one number among tokens.
func onlyNumber(tokens []token) (float64, bool) {
	for i := range tokens {
		if n, ok := readNumber(tokens, i); ok {
			return n.value, true
		}
	}
	return 0, false
}

// chosen tells the option that was named. Of two, the one after a correction
// counts; else the maker is asked.
func chosen(f *book.Fact, l *line, named []optionMatch, m *Meaning) bool {
	distinct := lastOfEach(named)
	if len(distinct) > 1 && corrects(l, distinct) {
		distinct = distinct[len(distinct)-1:]
	}
	l.claim(distinct[0].from, distinct[0].to)
	if len(distinct) == 1 {
		d := distinct[0]
		m.tell(f.ID, logic.Option(d.option), l.said(d.from, d.to))
		return true
	}
	for _, d := range distinct[:min(3, len(distinct))] {
		told := Heard{f.ID, logic.Option(d.option), l.said(d.from, d.to)}
		m.Readings = append(m.Readings, Choice{f.Options[d.option].Label, []Heard{told}, f.ID})
		l.claim(d.from, d.to)
	}
	return true
}

func lastOfEach(named []optionMatch) []optionMatch {
	var out []optionMatch
	for i, n := range named {
		again := slices.ContainsFunc(named[i+1:], func(o optionMatch) bool { return o.option == n.option })
		if !again {
			out = append(out, n)
		}
	}
	return out
}

// corrects reports whether a correction stands before the last option named.
func corrects(l *line, named []optionMatch) bool {
	last := named[len(named)-1]
	for i := named[0].to; i < last.from; i++ {
		if isOneOf(l.tokens[i].word, "wait", "sorry", "actually", "rather", "correction", "no", "mean", "scratch") {
			return true
		}
	}
	return false
}
