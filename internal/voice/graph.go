package voice

import (
	"fmt"
	"math"
	"strings"
)

// graph is a finite-state grammar of words, with one start and one end.
// States are numbers from 0.
type graph struct {
	states int
	start  int
	end    int
	arcs   []arc
}

// arc goes from one state to another with a word; an empty word is none.
// Cost is in nats, 0 for free.
type arc struct {
	from, to int
	word     string
	cost     float64
}

func newGraph() *graph {
	g := &graph{}
	g.start, g.end = g.state(), g.state()
	return g
}

func (g *graph) state() int {
	g.states++
	return g.states - 1
}

// join adds a way from one state to another that says the words in order.
func (g *graph) join(from, to int, cost float64, words ...string) {
	if len(words) == 0 {
		g.arcs = append(g.arcs, arc{from: from, to: to, cost: cost})
		return
	}
	for i, w := range words {
		next := to
		if i < len(words)-1 {
			next = g.state()
		}
		g.arcs = append(g.arcs, arc{from, next, w, cost})
		from, cost = next, 0
	}
}

// phrases adds ways from one state to another that say one of the phrases,
// each a text of words, sharing what they begin with. They cost alike.
func (g *graph) phrases(from, to int, cost float64, list []string) {
	type branch struct {
		state int
		word  string
	}
	next := map[branch]int{}
	ended := map[branch]bool{}
	for _, text := range list {
		words := strings.Fields(text)
		at, entry := from, cost
		for i, w := range words {
			b := branch{at, w}
			if i == len(words)-1 {
				if !ended[b] {
					ended[b] = true
					g.arcs = append(g.arcs, arc{at, to, w, entry})
				}
				break
			}
			s, ok := next[b]
			if !ok {
				s = g.state()
				next[b] = s
				g.arcs = append(g.arcs, arc{at, s, w, entry})
			}
			at, entry = s, 0
		}
	}
}

// words gives every word of the graph once, in the order of their first use.
func (g *graph) words() []string {
	var list []string
	seen := map[string]bool{"": true}
	for _, a := range g.arcs {
		if !seen[a.word] {
			seen[a.word] = true
			list = append(list, a.word)
		}
	}
	return list
}

// text writes the graph as the decoder reads it: a finite-state grammar in
// the text form of the SPHINX decoders. Their readers take a probability for
// each arc, of which the decoder uses the logarithm.
func (g *graph) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "FSG_BEGIN g\nNUM_STATES %d\nSTART_STATE %d\nFINAL_STATE %d\n", g.states, g.start, g.end)
	for _, a := range g.arcs {
		fmt.Fprintf(&b, "TRANSITION %d %d %.6g %s\n", a.from, a.to, math.Exp(-a.cost), a.word)
	}
	b.WriteString("FSG_END\n")
	return b.String()
}

// stands reports whether words are a whole way through the graph, and whether
// one goes on from them.
func (g *graph) stands(text string) (whole, more bool) {
	at := g.reach(map[int]bool{g.start: true})
	for _, w := range strings.Fields(text) {
		next := map[int]bool{}
		for _, a := range g.arcs {
			if a.word == w && at[a.from] {
				next[a.to] = true
			}
		}
		if at = g.reach(next); len(at) == 0 {
			return false, false
		}
	}
	for _, a := range g.arcs {
		if a.word != "" && at[a.from] {
			more = true
		}
	}
	return at[g.end], more
}

// reach adds the states that can be reached without a word.
func (g *graph) reach(at map[int]bool) map[int]bool {
	for grown := true; grown; {
		grown = false
		for _, a := range g.arcs {
			if a.word == "" && at[a.from] && !at[a.to] {
				at[a.to], grown = true, true
			}
		}
	}
	return at
}
