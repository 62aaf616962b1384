package voice

import (
	"fmt"
	"slices"
	"strings"
)

// What it costs to take a kind of phrase, in nats, before the library's own
// weight of its grammar (6.5). To a question mostly an answer is said: with
// hundreds of commands as dear as answers, "yes" was heard as "others".
const (
	commandCost = 4.0
	alarmCost   = 0.5
	phoneCost   = 1.5 // each phone of the loop
)

// grammarOf makes the grammar of what is expected.
func grammarOf(e Expected, d *Dictionary) *graph {
	g := newGraph()
	sayable := func(list []string) []string { return d.sayable(list) }
	g.phrases(g.start, g.end, 0, sayable(e.Answers))
	if e.Number {
		value := g.state()
		g.join(g.start, value, 0)
		g.join(g.start, value, 1, "about")
		g.number(value, g.end, e.High, sayable(e.Units))
	}
	if e.Clock {
		g.clock(g.start, g.end)
	}
	g.phrases(g.start, g.end, commandCost, sayable(e.Commands))
	g.timers(sayable(e.Timers))
	g.phrases(g.start, g.end, alarmCost, sayable(short(e.Alarms)))
	g.phrases(g.start, g.end, commandCost, sayable(e.Steps))
	return g
}

// shortAlarm is how many words an alarm in a grammar has at most. Those with up to
// eight make the reply come 150 ms later. All of them are in the model of free
// descriptions.
const shortAlarm = 5

func short(alarms []string) []string {
	return slices.DeleteFunc(slices.Clone(alarms), func(text string) bool { return strings.Count(text, " ") >= shortAlarm })
}

var timerSays = []string{"set a timer for", "timer for", "set a timer", "start a timer for", "tell me in", "remind me in"}

// timers adds ways to ask for a timer.
func (g *graph) timers(what []string) {
	if len(what) == 0 {
		return
	}
	set, told, named := g.state(), g.state(), g.state()
	g.phrases(g.start, set, commandCost, timerSays)
	g.number(set, told, 99, []string{"minutes", "hours", "seconds"})
	g.join(told, g.end, 0)
	g.phrases(told, named, 0, []string{"for the", "for"})
	g.phrases(named, g.end, 0, what)
}

// phones of the acoustic model.
var phones = strings.Fields("AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH")

// loopOf makes the grammar of any phones in any order, against which what is
// expected has to stand out.
func loopOf() *graph {
	g := newGraph()
	g.join(g.start, g.end, 0)
	for _, p := range phones {
		g.join(g.start, g.start, phoneCost, "+"+p)
	}
	return g
}

// noiseOf makes the grammar of sounds that are no speech.
func noiseOf() *graph {
	g := newGraph()
	g.join(g.start, g.end, 0)
	for _, n := range noises {
		g.join(g.start, g.start, phoneCost, "+"+n)
	}
	return g
}

// noises of the acoustic model: a noise, and a babble of voices.
var noises = []string{"NSN", "SPN"}

// sayable leaves out phrases with a word that no dictionary knows; without a
// dictionary none.
func (d *Dictionary) sayable(list []string) []string {
	if d == nil {
		return list
	}
	ok := make([]string, 0, len(list))
	for _, text := range list {
		if !slices.ContainsFunc(strings.Fields(text), func(w string) bool { return len(d.Say(w)) == 0 }) {
			ok = append(ok, text)
		}
	}
	return ok
}

// setupOf makes what the recogniser's process needs.
func (m *models) setupOf(e Expected, g *graph) *setup {
	s := &setup{Acoustic: m.acoustic, Grammar: g.text(), Loop: m.loop, Noise: noiseOf().text(), Worth: worthFree}
	if e.Number || len(e.Answers) > 0 {
		s.Worth = worthFreeAsked
	}
	words := g.words()
	if len(e.Openings) > 0 {
		free := m.descriptions(e.Openings, e.Alarms)
		s.Model = free.arpa
		words = append(words, free.words...)
	}
	var lines strings.Builder
	for _, p := range phones {
		fmt.Fprintf(&lines, "+%s %s\n", p, p)
	}
	for _, n := range noises {
		fmt.Fprintf(&lines, "+%s +%s+\n", n, n)
	}
	done := map[string]bool{"": true}
	for _, w := range words {
		if done[w] {
			continue
		}
		done[w] = true
		for i, way := range accents(m.dictionary.Say(w)) {
			if i == 0 {
				fmt.Fprintf(&lines, "%s %s\n", w, way)
			} else {
				fmt.Fprintf(&lines, "%s(%d) %s\n", w, i+1, way)
			}
		}
	}
	s.Words = lines.String()
	return s
}

// freeModel is the model of free descriptions by one book.
type freeModel struct {
	of    *string // the first of the sayings it was made of
	arpa  string
	words []string
}

// descriptions gives the model of free descriptions by these sayings, and of
// alarms. It is kept, since the sayings are the same slice as long as the book is.
func (m *models) descriptions(sayings, alarms []string) *freeModel {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.free != nil && m.free.of == &sayings[0] {
		return m.free
	}
	var sentences [][]string
	for _, text := range m.dictionary.sayable(slices.Concat(sayings, alarms)) {
		sentences = append(sentences, strings.Fields(text))
	}
	b := countBigrams(sentences)
	m.free = &freeModel{of: &sayings[0], arpa: b.arpa()}
	for w := range b.words {
		if w != sentenceEnd {
			m.free.words = append(m.free.words, w)
		}
	}
	slices.Sort(m.free.words)
	return m.free
}
