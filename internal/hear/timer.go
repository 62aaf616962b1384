package hear

// Timer is a wish to be told after some time.
type Timer struct {
	Minutes float64 // from now; 0 where a time of day or nothing was said
	Clock   *Clock  // a time of day, or nil
	Name    string  // what for, as the maker said it: "stir the gelatin"; "" for none
	Stop    bool    // to be stopped: the one of that name, or the last
	All     bool    // with Stop: all of them
	More    bool    // Minutes more for the one that runs or rang last
}

// How timers are asked for.
var (
	tellMe = phraseList(`tell me|remind me|wake me|wake me up|ping me|call me|warn me|alert me|nudge me|buzz me|ring me|shout me|poke me|
let me know|give us a shout|give us a call|remind us|tell us|shout|give me a shout|give me a call|give me a nudge|give me a ping|give me a ring|
give me a buzz|give me a yell|give me a warning|give me a reminder|give me a heads up|give me a knock|say something|beep|ring|yell|time`)
	setTimer = phraseList(`set|set up|set me|start|start me|put|put on|make|make me|begin|run|open|add|give me|get me|i need|i want|
i would like|we need|can i have|could i have|can i get|i will need|may i have|have|let us have|do|do me|another|new|i will have`)

	timerNouns  = wordSet("timer alarm reminder countdown timers alarms reminders countdowns")
	beforeTimer = wordSet("a an the my another new one me up on for with of short quick little second kitchen")
	notOurs     = wordSet("fire smoke burglar car house phone microwave oven stage school door went gone off")
	notANewTime = wordSet("went gone rang rung ran was were said says still ago broke stopped had has did before until till on off")
)

// hearTimer hears a wish for a timer, and gives the tokens that told it.
func (h *Hearing) hearTimer(c Context, l *line) (t *Timer, from, to int) {
	if t := moreTime(c, l); t != nil {
		return t, 0, len(l.tokens)
	}
	for _, r := range l.openings() {
		start := r.at
		for _, hears := range []func(reader) (*Timer, int){hearStop, hearSet, hearTell, hearBareTimer} {
			if t, end := hears(*r); t != nil {
				return t, start, end
			}
		}
	}
	return nil, 0, 0
}

// noun gives the place of the word for a timer among the next tokens, or -1.
func (r *reader) noun(within int) int {
	for i := r.at; i < min(r.end, r.at+within); i++ {
		counted := i+1 < r.end && isCount(r.l.tokens[i+1])
		switch word := r.l.tokens[i].word; {
		case timerNouns[word]:
			return i
		case notOurs[word], isOneOf(word, "for", "to", "from") && !counted:
			return -1
		}
	}
	return -1
}

// hearSet: "set a timer for 20 minutes", "put ten minutes on the timer", "I
// need a twenty minute timer for the jug".
func hearSet(r reader) (*Timer, int) {
	if !r.takes(setTimer) {
		return nil, 0
	}
	noun := r.noun(9)
	if noun < 0 || notANewTime[r.word()] && r.word() != "on" {
		return nil, 0
	}
	return r.told(noun)
}

// hearBareTimer: "timer five minutes for the jug", "a twenty minute timer". It
// is a wish only where nothing is told of the timer.
func hearBareTimer(r reader) (*Timer, int) {
	l, noun := r.l, r.noun(6)
	if noun < 0 || isOneOf(l.tokens[noun].word, "timers", "alarms") {
		return nil, 0
	}
	time, timed := timeIn(l, r.at, r.end)
	inTime := func(i int) bool { return i >= time.from && i < time.to }
	follows := isOneOf(wordAt(l.tokens, noun+1), "for", "in", "at", "to", "please", "called", "named")
	if noun+1 < r.end && !follows && !inTime(noun+1) || !timed && (l.tokens[noun].word != "timer" || isOneOf(r.word(), "the", "my")) {
		return nil, 0
	}
	named := 0 // words before the noun that may be its name
	for i := r.at; i < r.end; i++ {
		word := l.tokens[i].word
		switch {
		case inTime(i), i < noun && named == 0 && isOneOf(word, "a", "an", "the", "on", "one", "new", "another"):
		case notANewTime[word], i < noun && (askingWords[word] || isOneOf(word, "how", "no", "not", "that", "this")):
			return nil, 0 // "the timer for the plaster went off"
		case i < noun:
			named++
		}
	}
	if named > 2 {
		return nil, 0
	}
	return r.told(noun)
}

// told reads the time and the name of the timer that the noun stands for.
func (r *reader) told(noun int) (*Timer, int) {
	l := r.l
	t := &Timer{}
	time, timed := timeIn(l, r.at, r.end)
	if !timed {
		// "set a timer, 20 minutes please"
		next := l.clauseEnd(r.end)
		if later, ok := timeIn(l, r.end, next); ok && l.onlyPolite(r.end, later.from) && l.onlyPolite(later.to, next) {
			time, timed, r.end = later, true, next
		}
	}
	if timed {
		if next := wordAt(l.tokens, time.to); notANewTime[next] && next != "on" {
			return nil, 0 // "ten minutes ago", "ten minutes before it sets"
		}
		t.Minutes, t.Clock = time.minutes, time.clock
	}
	at := r.at
	for at < noun && (at >= time.from && at < time.to || beforeTimer[l.tokens[at].word]) {
		at++
	}
	switch {
	case at == noun:
		t.Name = l.nameIn(noun+1, r.end, time)
	case time.from > at && time.from < noun:
		t.Name = l.said(at, time.from) // "the jug five minute timer"
	default:
		t.Name = l.said(at, noun)
	}
	return t, r.end
}

// nameIn gives what stands for a name in tokens from to to-1, the time aside.
func (l *line) nameIn(from, to int, time span) string {
	for i := from; i < to; i++ {
		if i >= time.from && i < time.to {
			continue
		}
		if !isOneOf(l.tokens[i].word, "to", "for", "about", "that", "called", "named", "so") {
			continue
		}
		start := i + 1
		for start < to && (isOneOf(l.tokens[start].word, "me", "us", "to", "that", "i", "need", "can", "should", "must", "have") || start >= time.from && start < time.to) {
			start++
		}
		end := to
		if time.from > start && time.from < to {
			end = time.from
		}
		return l.said(l.trimmed(start, end))
	}
	return ""
}

// hearTell: "tell me in ten minutes to stir", "remind me at quarter past eight
// to check the plaster", "wake me when half an hour is up".
func hearTell(r reader) (*Timer, int) {
	l, lead := r.l, r.word()
	if !r.takes(tellMe) {
		return nil, 0
	}
	if r.takesOne("again"); r.at >= r.end {
		return nil, 0
	}
	time, timed := timeIn(l, r.at, r.end)
	next := r.word()
	switch {
	case timed && notANewTime[wordAt(l.tokens, time.to)]:
		return nil, 0
	case !timed && !(lead == "remind" && isOneOf(next, "to", "about", "at") && r.at+1 < r.end):
		return nil, 0
	case (isOneOf(next, "when", "once", "if") || lead == "time") && time.from != r.at:
		return nil, 0
	case timed && time.from != r.at && !isOneOf(next, "to", "about", "that", "for", "again", "tomorrow"), next == "about" && lead != "remind":
		return nil, 0 // "tell me how much it loses in ten minutes"
	}
	t := &Timer{Name: l.nameIn(r.at, r.end, time)}
	if timed {
		t.Minutes, t.Clock = time.minutes, time.clock
	}
	return t, r.end
}
