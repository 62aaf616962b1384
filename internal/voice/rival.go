package voice

import (
	"slices"
	"strings"
)

// rivalOf gives the grammar of what else may have been said: of what means
// something else than these words; nil where there is nothing. Of phrases only
// those that sound alike are kept, since the whole graph would take long.
func rivalOf(e Expected, g *graph, words string, d *Dictionary) *graph {
	if words == "" {
		return nil
	}
	said := strings.Fields(words)
	r := newGraph()
	if ty := tyOf(words); ty != words {
		if whole, _ := g.stands(ty); whole {
			r.phrases(r.start, r.end, 0, []string{ty})
			return r
		}
	}
	if e.Number {
		numbers := newGraph()
		numbers.number(numbers.start, numbers.end, e.High, d.sayable(e.Units))
		r.without(numbers, said)
	}
	if len(e.Timers) > 0 && isTimer(words) {
		timers := newGraph()
		timers.timers(d.sayable(e.Timers))
		r.without(timers, said)
	}
	near := nearest(words, e, [][]string{e.Answers, e.Commands, short(e.Alarms), e.Steps}, d)
	r.phrases(r.start, r.end, 0, d.sayable(near))
	if len(r.arcs) == 0 {
		return nil
	}
	return r
}

// isTimer reports whether words ask for a timer: ten minutes are as near to two
// as any number is to another.
func isTimer(words string) bool {
	return slices.ContainsFunc(timerSays, func(say string) bool { return strings.HasPrefix(words, say+" ") })
}

// without adds all ways of another graph but the one that says just these
// words, be a unit in the singular or the plural. A state of the other is there once for each number of words in which
// the way so far agrees, and once for having left them.
func (g *graph) without(other *graph, words []string) {
	apart := len(words) + 1
	state := make([]int, other.states*(apart+1))
	at := func(s, agreed int) int {
		n := s*(apart+1) + agreed
		if state[n] == 0 {
			state[n] = g.state()
		}
		return state[n]
	}
	g.join(g.start, at(other.start, 0), 0)
	for _, a := range other.arcs {
		for agreed := 0; agreed <= apart; agreed++ {
			next := apart
			switch {
			case a.word == "":
				next = agreed
			case agreed < len(words) && singular(words[agreed]) == singular(a.word):
				next = agreed + 1
			}
			g.arcs = append(g.arcs, arc{at(a.from, agreed), at(a.to, next), a.word, a.cost})
		}
	}
	for agreed := 0; agreed <= apart; agreed++ {
		if agreed != len(words) {
			g.join(at(other.end, agreed), g.end, 0)
		}
	}
}

// nearby is how many phrases a rival grammar has.
const nearby = 24

// nearest gives the phrases that sound most like the words, and mean something
// else.
func nearest(words string, e Expected, lists [][]string, d *Dictionary) []string {
	sound := d.sound(words)
	type near struct {
		text string
		far  int
	}
	var best []near
	seen := map[string]bool{words: true}
	for _, list := range lists {
		for _, text := range list {
			if seen[text] || e.same(words, text) {
				continue
			}
			seen[text] = true
			far := distance(sound, d.sound(text))
			if len(best) == nearby && far >= best[nearby-1].far {
				continue
			}
			i := len(best)
			for i > 0 && best[i-1].far > far {
				i--
			}
			if len(best) < nearby {
				best = append(best, near{})
			}
			copy(best[i+1:], best[i:])
			best[i] = near{text, far}
		}
	}
	texts := make([]string, len(best))
	for i, n := range best {
		texts[i] = n.text
	}
	return texts
}

// sound gives the phones of a text, each word said the first way.
func (d *Dictionary) sound(text string) []string {
	var phones []string
	for _, w := range strings.Fields(text) {
		if ways := d.Say(w); len(ways) > 0 {
			phones = append(phones, strings.Fields(ways[0])...)
		}
	}
	return phones
}

// distance counts the phones to put in, take out or change to make one of the
// other (Levenshtein).
func distance(a, b []string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		before := row[0]
		row[0] = i + 1
		for j := range b {
			cost := before
			if a[i] != b[j] {
				cost++
			}
			before = row[j+1]
			row[j+1] = min(cost, row[j]+1, before+1)
		}
	}
	return row[len(b)]
}
