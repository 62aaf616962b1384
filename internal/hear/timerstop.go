package hear

import "slices"

// How a timer is stopped, and what else it may be called then.
var (
	stopTimer = phraseList(`stop|cancel|end|clear|kill|forget|forget about|delete|drop|silence|remove|quit|scrap|dismiss|mute|
never mind|never mind about|turn off|switch off|shut off|turn|switch|shut|get rid of|call off|i do not need|i do not want|
no need for|no more|do away with|take off|hush`)
	noises = wordSet("ringing beeping bleeping noise buzzing racket beep pinging")
)

// hearStop: "stop the timer", "never mind the plaster timer", "turn it off".
func hearStop(r reader) (*Timer, int) {
	if !r.takes(stopTimer) {
		return nil, 0
	}
	from := r.at
	for r.takesOne("the", "that", "this", "my") {
	}
	if noises[r.word()] && r.l.onlyPolite(r.at+1, r.end) {
		return &Timer{Stop: true}, r.end
	}
	noun := r.noun(5)
	if noun < 0 {
		return nil, 0
	}
	t := &Timer{Stop: true}
	t.All = r.l.saysAny(from, noun, "all", "both", "every", "any")
	for r.takesOne("all", "both", "every", "of", "the", "my", "that", "this", "any", "a", "our", "these", "those", "running") {
	}
	t.Name = r.l.said(r.at, noun)
	t.All = t.All || t.Name == "" && isOneOf(wordAt(r.l.tokens, noun), "timers", "alarms", "reminders", "countdowns")
	r.at = noun + 1
	r.takesOne("off")
	if isOneOf(r.word(), "for", "to", "about", "on", "called", "named") && t.Name == "" {
		r.at++
		t.Name = r.l.said(r.l.trimmed(r.at, r.end))
		return t, r.end
	}
	if !r.l.onlyPolite(r.at, r.end) && !isOneOf(r.word(), "and", "any") {
		return nil, 0 // "stop the timer going off"
	}
	return t, r.end
}

// moreWords are what the whole of a wish for more time is made of, the time
// aside.
var moreWords = wordSet(`please ok okay just then oh um well give it me us that the timer add on to put let leave wait for take need
needs i we it more longer extra another about only a snooze`)

// moreTime: "ten more minutes", "give it another ten", "add five minutes".
func moreTime(c Context, l *line) *Timer {
	if len(l.tokens) > 14 || isQuestion(l.tokens) {
		return nil
	}
	more, given, named := false, false, false
	var plain []token
	for i, t := range l.tokens {
		switch {
		case isOneOf(t.word, "more", "extra", "longer"):
			more = true
			continue
		case t.word == "another":
			more = true
			if i+1 < len(l.tokens) && isCount(l.tokens[i+1]) && l.tokens[i+1].word != "half" && l.tokens[i+1].word != "quarter" {
				continue
			}
			t.word = "a"
		}
		more = more || t.word == "add" || t.word == "snooze"
		given = given || isOneOf(t.word, "give", "add", "snooze", "wait", "leave", "take")
		named = named || t.word == "timer"
		plain = append(plain, t)
	}
	rest := newLine(l.text, plain)
	time, timed := timeIn(rest, 0, len(plain))
	if !more && !(given && named) || !timed || time.clock != nil || time.bare && !given {
		return nil
	}
	if asksNumber(c) && !named && (time.bare || c.Asked.Fact.Unit == "min") {
		return nil // an answer, in minutes
	}
	for i, t := range plain {
		if (i < time.from || i >= time.to) && !moreWords[t.word] {
			return nil
		}
	}
	if slices.ContainsFunc(plain, func(t token) bool { return t.word == "add" }) && wordAt(plain, time.to) == "to" && !named {
		return nil
	}
	return &Timer{Minutes: time.minutes, More: true}
}
