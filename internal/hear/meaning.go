package hear

import (
	"slices"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// ask notes the sums that are asked for, the first of them before all.
func (m *Meaning) ask(list ...*book.Amount) {
	for _, a := range list {
		if !slices.Contains(m.Amounts, a.ID) {
			m.Amounts = append(m.Amounts, a.ID)
		}
	}
	m.Command, m.Amount = sayAmounts, m.Amounts[0]
}

// alike notes the sums that are asked for in the same words as the first.
func (m *Meaning) alike(list []*book.Amount) {
	if len(list) < 2 {
		return
	}
	if m.Alike == nil {
		m.Alike = map[string][]string{}
	}
	for _, a := range list {
		m.Alike[list[0].ID] = append(m.Alike[list[0].ID], a.ID)
	}
}

// Hear gives the meaning of words in the state of the talk. It is pure: the
// same words in the same context always mean the same. Text longer than 4 KiB
// is cut at a word.
//
// An emergency comes before everything; then a wish about a timer, the walk
// through a build or the notebook; then the answer to the question; then
// a command; then a problem with the facts told in passing; then facts alone.
func (h *Hearing) Hear(c Context, text string) Meaning {
	var m Meaning
	l := h.listen(text)
	if len(l.tokens) == 0 {
		return m
	}
	ranked := h.rank(l)
	l.answering = c.Asked != nil && c.Asked.Fact != nil
	m.Emergency, m.MaybeEmergency = h.emergency(l, ranked)
	found := h.matches(l)
	if m.Emergency+m.MaybeEmergency != "" && h.answersCalmly(c, l, found) {
		m.Emergency, m.MaybeEmergency = "", "" // "burnt hair" is what the melt smells of
	}
	if m.Emergency != "" || m.MaybeEmergency != "" {
		if asked, _ := h.heatOnSkin(l); asked != nil && l.fearsBurn() {
			m.Emergency, m.MaybeEmergency = "", "" // "will it burn me at 60 degrees"
		}
	}
	if m.Emergency != "" {
		m.Also = h.besideAlarm(c, l)
		return m
	}
	if rest := h.wish(c, l, found, &m); rest != l {
		if l = rest; len(l.words) < leastTold {
			return m
		}
		ranked, found = h.rank(l), h.matches(l)
	}
	if rest := h.tellCall(c, l, &m); rest != l {
		if l = rest; len(l.words) == 0 {
			return m
		}
		ranked, found = h.rank(l), h.matches(l)
	}
	if h.understand(c, l, found, ranked, &m) {
		m.Spare = h.spare(l)
	} else {
		m.Spare = strings.Join(strings.Fields(l.text), " ")
	}
	if m.Timer != nil {
		m.Alternatives, m.Puzzling = nil, false // beside it a trouble has to be clear
	}
	return m
}

// inPassing reports whether something is answered in the middle of a talk,
// which then goes on: it is no refusal.
func (h *Hearing) inPassing(id string) bool {
	return slices.ContainsFunc(h.book.Elsewhere, func(e book.Elsewhere) bool { return e.ID == id && len(e.Lifts) == 0 })
}

// answersCalmly reports whether a line that sounds like danger only answers what
// was asked, in the words of the book: all of it where a pattern was heard in
// it, most of it where it is only like the sayings of an emergency.
func (h *Hearing) answersCalmly(c Context, l *line, found []match) bool {
	if c.Asked == nil || c.Asked.Fact == nil {
		return false
	}
	f := c.Asked.Fact
	if h.wordForWord(f, l) >= 0 {
		return true
	}
	if l.hurtful >= surely {
		return false
	}
	if certain, maybe := h.alarm(l); certain+maybe != "" {
		return false
	}
	said := 0
	for i := range found {
		if v := &found[i]; v.phrase.fact == f.ID && v.phrase.option != quantity {
			said = max(said, v.to-v.from)
		}
	}
	return 2*said > len(l.words)
}

// understand fills the meaning in, and reports whether there was any.
func (h *Hearing) understand(c Context, l *line, found []match, ranked []Candidate, m *Meaning) bool {
	if asked, hot := h.heatOnSkin(l); asked != nil {
		if sum := h.sumAsked(l, readAmounts(l)); sum != nil {
			sum.mark(l)
			h.calmDown(l, sum, m)
		}
		m.ask(asked)
		return h.tellAmong(c, []*book.Fact{h.factNamed(contactFact)}, l, hot, m)
	}
	m.Elsewhere = h.never(c, l)
	switch own := h.said[stemKey(l.tokens)]; {
	case own.kind == isEmergency && h.inPassing(m.Elsewhere):
		m.Elsewhere = "" // the book's own words for something worse
	case own.kind == isElsewhere && m.Elsewhere == "" && h.answersAtOnce(own.id):
		m.Elsewhere = own.id // its own words for this
	}
	if m.Elsewhere != "" {
		if h.inPassing(m.Elsewhere) {
			m.MaybeEmergency = "" // a cut is no burn, though both hurt a hand
			if c.Problem == nil {
				m.Problem = h.besideAlarm(c, l)
			}
		}
		l.claim(0, len(l.tokens))
		return true
	}
	if m.Convert = h.conversion(l); m.Convert != nil {
		l.claim(0, len(l.tokens))
		return true
	}
	id := h.command(l)
	if id != "" && !answersFirst(c, id) && !h.answersExactly(c, l, found) {
		h.obey(c, l, id, m)
		return true
	}
	list := readAmounts(l)
	sum := h.sumAsked(l, list)
	if sum == nil || sum.amounts == nil {
		if implied := h.impliedSum(c, l, list); implied != nil {
			sum = implied
		}
	}
	sum = h.kindred(c, l, list, sum)
	c.scope = h.scopeOf(c, sum)
	var others []*asking
	if sum != nil && sum.amounts != nil && len(sum.words) > 2 {
		others = h.othersAsked(l, sum, list)
		for _, o := range others {
			c.scope.add(h, o.amounts[0], true)
		}
	}
	if sum != nil && len(sum.words) > 2 {
		sum.mark(l)
	}
	if sum == nil && h.tellCorrection(c, l, m) {
		return true
	}
	answered := !(sum != nil && len(sum.words) > 2 && asksNumber(c)) && h.answer(c, l, found, m)
	if id != "" && !answered {
		h.obey(c, l, id, m)
		return true
	}
	if sum != nil && sum.amounts != nil && (!answered || len(sum.words) > 2) {
		sum.mark(l)
		h.calmDown(l, sum, m)
		for _, s := range inOrder(sum, others) {
			m.ask(s.amounts[0])
			m.alike(s.amounts)
		}
	}
	h.volunteerAmounts(c, l, found, m)
	var meant *book.Amount
	switch {
	case sum == nil && !answered && m.Command == "":
		meant = h.asksByFacts(l, ranked, m)
	case sum != nil && sum.amounts != nil && len(m.Amounts) == 1:
		meant = h.meansByFacts(l, sum, m)
	}
	if meant != nil {
		m.Amounts = nil
		m.ask(meant)
		c.scope.add(h, meant, true)
		h.volunteerAmounts(c, l, found, m)
	}
	if sum != nil && sum.amounts == nil && m.tells() {
		m.Command = sayAmounts // "how much do I need for 5 noses"
	}
	if answered && c.Asked.Fact == nil {
		h.afterAnswer(c, l, m)
	} else {
		h.hearTrouble(c, l, found, sum, ranked, answered, m)
		if sum == nil && !answered {
			h.both(c, l, ranked, m)
		}
	}
	if m.Problem != "" {
		c.Problem = h.book.ProblemByID(m.Problem)
		h.volunteerAmounts(c, l, found, m)
	}
	h.volunteer(c, l, found, answered, m)
	h.withMix(c, l, sum, m)
	h.tellMeasure(c, l, m)
	if m.tells() && (l.unclaimed() < 2 && m.unlikely() || l.unclaimed() == 0 && len(c.Sums) > 0 && m.Problem == "") {
		m.Alternatives, m.Elsewhere = nil, "" // facts alone
	}
	m.settle(c)
	return answered || m.Command != "" || m.Problem != "" || m.Elsewhere != "" || len(m.Alternatives) > 0 ||
		m.tells() || m.MaybeEmergency != ""
}

// inOrder gives a request and the others of its line as they were said.
func inOrder(s *asking, others []*asking) []*asking {
	all := append([]*asking{s}, others...)
	slices.SortStableFunc(all, func(a, b *asking) int { return a.tokens[0] - b.tokens[0] })
	return all
}

// clearTrouble reports whether the line is clearly about a problem.
func (h *Hearing) clearTrouble(l *line, ranked []Candidate) bool {
	var whole Meaning
	h.hearProblem(Context{}, l, ranked, &whole)
	return whole.Problem != ""
}

// calmDown takes back an alarm that is only to be asked about where nothing
// outside a question raises it, nor speaks of somebody: "how long until it
// burns".
func (h *Hearing) calmDown(l *line, s *asking, m *Meaning) {
	if len(s.words) < 3 || s.manner == openNone || m.MaybeEmergency == "" {
		return
	}
	rest := l.besides(l.asking)
	certain, maybe := h.alarm(rest)
	if certain == "" && maybe == "" && h.hurts(rest) == 0 && !rest.ofSomebody() {
		m.MaybeEmergency = ""
	}
}

// besides gives the line without the tokens marked.
func (l *line) besides(marked ...[]bool) *line {
	var rest []token
	for i, t := range l.tokens {
		if !slices.ContainsFunc(marked, func(m []bool) bool { return m[i] }) {
			rest = append(rest, t)
		}
	}
	return newLine(l.text, rest)
}

func asksNumber(c Context) bool {
	return c.Asked != nil && c.Asked.Fact != nil && c.Asked.Fact.Kind == logic.Number
}

// settle puts the answer first, and what was told besides into each of the
// readings, so that it is not lost while the maker is asked.
func (m *Meaning) settle(c Context) {
	if c.Asked != nil && c.Asked.Fact != nil {
		asked := func(t Heard) bool { return t.Fact == c.Asked.Fact.ID }
		if i := slices.IndexFunc(m.Facts, asked); i > 0 {
			m.Facts = slices.Insert(slices.Delete(slices.Clone(m.Facts), i, i+1), 0, m.Facts[i])
		}
	}
	for i := range m.Readings {
		r := &m.Readings[i]
		told := slices.Clone(r.Facts)
		for _, t := range m.Facts {
			if !slices.ContainsFunc(told, func(o Heard) bool { return o.Fact == t.Fact }) {
				told = append(told, t)
			}
		}
		r.Facts = told
	}
}

// hearTrouble listens for a problem. Beside an answer only words that change
// the subject, well outside the answer, can name another.
func (h *Hearing) hearTrouble(c Context, l *line, found []match, sum *asking, ranked []Candidate, answered bool, m *Meaning) {
	if c.Problem != nil {
		told := h.tellsOfOpen(c, l, found)
		if told == 1 || !changesSubject(l) && (told >= 0.5 || l.takesBack()) {
			return // "no wait, I pressed it on wet" is about the open problem, "it rocks" as well
		}
	}
	if m.Command != "" || len(c.Sums) > 0 && m.tells() && !answered {
		h.troubleBeside(c, l, sum, ranked, m)
		return
	}
	if answered && (!changesSubject(l) || l.unclaimed() < 3) || m.tells() && l.unclaimed() < 2 {
		return
	}
	h.hearProblem(c, l, ranked, m)
	if answered && m.Problem == "" {
		m.Alternatives, m.Elsewhere = nil, ""
	}
}

// tellsOfOpen gives the share of the words of a line that tell a fact of the
// open problem, which makes it no other trouble.
func (h *Hearing) tellsOfOpen(c Context, l *line, found []match) float64 {
	told := make([]bool, len(l.words))
	for _, v := range h.worthwhile(c, found, nil) {
		if h.standing(c, v.phrase.fact) >= problemFact {
			for i := v.from; i < v.to; i++ {
				told[i] = true
			}
		}
	}
	n := 0
	for _, t := range told {
		if t {
			n++
		}
	}
	return float64(n) / float64(max(1, len(l.words)))
}

// troubleBeside hears a trouble that is told along with a request for a sum.
// What is refused whatever its amount, by all of the line, takes the place of
// the sum; a problem is heard in the words outside the request alone, and has
// to be clear.
func (h *Hearing) troubleBeside(c Context, l *line, sum *asking, ranked []Candidate, m *Meaning) {
	troubles, _ := h.troubles(c, l, ranked)
	if len(troubles) > 0 && troubles[0].Share >= refused && h.answersAtOnce(troubles[0].ID) {
		*m = Meaning{Elsewhere: troubles[0].ID, MaybeEmergency: m.MaybeEmergency}
		return
	}
	var whole Meaning
	h.hearProblem(Context{}, l, ranked, &whole)
	if whole.Problem != "" && sum != nil && sum.manner != openHow && len(sum.words) < 3 {
		m.Amount, m.Amounts, m.Command, m.Problem = "", nil, "", whole.Problem // "the plaster and water come apart"
		return
	}
	beside := l.besides(l.claimed, l.asking)
	if h.telling(beside) < leastTold {
		return
	}
	var apart Meaning
	h.hearProblem(c, beside, h.rank(beside), &apart)
	m.Problem = apart.Problem
}

// leastTold is how many words of meaning tell a trouble beside a request.
const leastTold = 3

// onlyNames are words for what is made, which tell of no trouble.
var onlyNames = wordSet("sculpted sculpt sculpture nose chin cheek brow barnacle barnacles scar scars piece pieces made")

// telling counts the words of meaning that are more than the names of materials
// and of what is made of them: "a nose sculpted in clay" has none.
func (h *Hearing) telling(l *line) int {
	n := 0
	for _, w := range l.words {
		if !onlyNames[l.tokens[w.at].word] && h.materialAt(l, w.at) == "" {
			n++
		}
	}
	return n
}

// answersAtOnce reports whether the book has an answer ready to a trouble that
// it does not treat.
func (h *Hearing) answersAtOnce(id string) bool {
	return slices.ContainsFunc(h.book.Elsewhere, func(e book.Elsewhere) bool { return e.ID == id && e.Say != "" })
}

// unlikely reports whether no problem is likely enough to be meant beside
// facts.
func (m *Meaning) unlikely() bool {
	return m.Problem == "" && (len(m.Alternatives) == 0 || m.Alternatives[0].Share < beside)
}

// tells reports whether the meaning holds facts or readings of them.
func (m *Meaning) tells() bool {
	return m.Call != nil || len(m.Facts) > 0 || len(m.Readings) > 0 || len(m.Denied) > 0 || m.Complaint != ""
}

// unclaimed counts the words of meaning that nothing has understood yet.
func (l *line) unclaimed() int {
	n := 0
	for _, w := range l.words {
		if !l.claimed[w.at] && !l.asking[w.at] {
			n++
		}
	}
	return n
}

// isOption reports whether the line is the wording of an option asked about,
// which then is an answer even if a command is called the same.
func (h *Hearing) isOption(c Context, l *line, found []match) bool {
	if c.Asked == nil || c.Asked.Fact == nil {
		return false
	}
	for i := range found {
		v := &found[i]
		if v.phrase.fact == c.Asked.Fact.ID && v.phrase.option != quantity && v.to-v.from == len(l.words) {
			return true
		}
	}
	return false
}

// answersFirst reports whether a request may be an answer to the question,
// which then goes before it: "yes", "skip", "I did that already".
func answersFirst(c Context, id string) bool {
	if c.Asked == nil {
		return false
	}
	switch id {
	case sayYes, sayNo, sayNotSure, saySkip:
		return true
	case sayTrouble:
		return true
	case "next", "fixed", "safe", "started", sayStepDone:
		return c.Asked.Fact != nil && c.Asked.Fact.Kind == logic.YesNo
	}
	return false
}

// Commands of a walk through a build that also answer a question.
const (
	sayStepDone = "step-done"
	sayTrouble  = "trouble"
)

// manners are the commands for how replies are spoken.
var manners = map[string]bool{"slower": true, "faster": true, "louder": true, "quieter": true, "hush": true}

// obey takes a command. "Not sure" and "skip" are no requests; "that did it",
// "what else" and "next step" also answer whether the remedy did it, and "we
// are safe" whether somebody is hurt.
func (h *Hearing) obey(c Context, l *line, id string, m *Meaning) {
	l.claim(0, len(l.tokens))
	special := ""
	if c.Asked != nil && c.Asked.Fact == nil {
		special = c.Asked.Special
	}
	switch {
	case id == sayNotSure:
		m.NotSure = true
		return
	case id == saySkip:
		m.Skip = true
		return
	case special == AskDidItWork && id == "fixed":
		m.Pick = 1
	case special == AskDidItWork && (id == "next" || id == sayStepDone && l.saysAny(0, len(l.tokens), "next")), special == AskEmergency && id == "safe":
		m.Pick = 2
	}
	m.Command, m.Puzzling = id, id == sayTrouble
}

// spare gives the words of meaning that were not understood and that no
// saying of the book holds.
func (h *Hearing) spare(l *line) string {
	var list []string
	for _, w := range l.words {
		t := l.tokens[w.at]
		if !l.claimed[w.at] && !l.asking[w.at] && h.spread[w.stem] == 0 && !w.negate {
			list = append(list, t.word)
		}
	}
	return strings.Join(list, " ")
}
