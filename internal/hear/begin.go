package hear

import "slices"

// Begin is a wish to be walked through a build.
type Begin struct {
	Name string // "a barnacle cheek for the ferryman"; "" for none
}

// How a walk is asked for: alone, before what is to be made, and before what is
// to be made only where it is a thing of this trade.
var (
	beginAlone = phraseList(`guide me|teach me|teach me how|teach us|walk me through|take me through|talk me through|lead me through|build with me|
build something|build something with me|build one with me|make one with me|make something with me|make a piece with me|start a build|
start the build|start a new build|begin a build|begin the build|new build|a new build|start building|let us build|let us start building|
let us start a build|let us make a start|let us make one|let us make something|let us build one|let us build something|step by step|
go step by step|do it step by step|take it step by step|one step at a time|help me make one|help me build one|help me make something|
help me start|help me get started|get me started|let us get started|let us begin|i am ready to start|how do i start|where do i start|how do i begin|
where do i begin|what is the first step|teach me from scratch|i want to be guided|i want to learn|i want to learn it|
i would like to learn|i want to be walked through it|i want to make something|i want to make one|show me how to make one|
teach me to make one|teach me how to make one|i want to build something|i want to build one|start from scratch`)
	walkThrough = phraseList(`walk me through|take me through|guide me through|talk me through|lead me through|step me through|walk us through|
take us through|guide us through|talk us through|walk me through making|guide me through making|take me through making|talk me through making|
walk me through building|guide me through building|take me through building|walk me through how to make|walk me through how i make|
teach me to make|teach me how to make|teach us to make|teach us how to make|teach me how to build|show me how to make|show me how to build|
help me make|help me build|help me with making|start a build of|start a build for|start building|start making|start the build of|start a new build of|begin a build of|
guide me to|guide me in making|step by step to|step by step through`)
	wantsMade = phraseList(`let us make|let us build|let us do|i want to make|i want to build|i want to sculpt|i would like to make|i would like to build|
we want to make|we want to build|i need to make|i need to build|i have to make|we need to make|we have to make|i am going to make|teach me|make|build|start|start on|begin|
how do i make|how do you make|how can i make|how would i make|how do i build|i want to start|i want to start on|i want to begin`)
	anyBuild = wordSet(`it this that everything one ones piece pieces appliance appliances build whole thing something job steps process prosthetic
prosthetics work all making beginning start first new own complete entire proper very from scratch`)
	// Besides, what a newcomer says around the wish.
	newcomers = wordSet(`new never done before first time beginner know how start learn hands wet not anything nothing ready idea`)
	afterWish = phraseList(`step by step|with me|from the start|from the beginning|from scratch|from start to finish|from the top|one step at a time|
in steps|together|bit by bit|start to finish|if you can|slowly|properly`)
)

// appliances are the things that an appliance is, where it sits, and what it shows.
var appliances = wordSet(`barnacle barnacles scar scars cheek cheeks nose noses chin chins brow brows forehead wound wounds cut cuts burn burns
blister blisters ear ears wart warts mole moles wrinkle wrinkles jowl jowls lip lips eyebag eyebags horn horns scale scales crust crusts
bruise bruises piece pieces appliance appliances prosthetic prosthetics growth growths boil boils bump bumps neck hand finger fin fins gill
gills gash gashes welt welts bite bites tentacle tentacles limpet limpets shell shells coral hump mask cast casts stump stumps
snout beak fang tusk tusks scab scabs sore sores pustule pustules fold folds cyst teeth bone bones jaw temple`)

// hearBegin hears a wish to be walked through a build, and nothing else.
func (h *Hearing) hearBegin(l *line, m *Meaning) bool {
	for _, r := range l.openings() {
		if !l.onlyNewcomer(0, r.at) {
			continue
		}
		b, end := beginUnnamed(l, *r)
		if b == nil {
			b, end = h.beginNamed(l, *r, walkThrough, false)
		}
		if b == nil {
			b, end = h.beginNamed(l, *r, wantsMade, true)
		}
		if b != nil && l.onlyNewcomer(end, len(l.tokens)) {
			m.Begin = b
			return true
		}
	}
	return false
}

// onlyNewcomer reports whether tokens from to to-1 say nothing but that somebody
// is new to it.
func (l *line) onlyNewcomer(from, to int) bool {
	for _, t := range l.tokens[from:to] {
		if !newcomers[t.word] && !polite[t.word] && !light[t.word] {
			return false
		}
	}
	return true
}

func beginUnnamed(l *line, r reader) (*Begin, int) {
	if !r.takes(beginAlone) || l.wishEnd(r.at, r.end) > r.at {
		return nil, 0
	}
	return &Begin{}, r.end
}

// wishEnd gives the end of tokens from to to-1 without what may follow a wish.
func (l *line) wishEnd(from, to int) int {
	for {
		_, cut := l.trimmed(from, to)
		for _, p := range afterWish {
			if n := len(p); cut-n >= from && wordsAt(l.tokens, cut-n, p) > 0 {
				cut -= n
				break
			}
		}
		if cut == to {
			return to
		}
		to = cut
	}
}

// beginNamed: "walk me through a barnacle cheek", "I want to make a rope scar".
func (h *Hearing) beginNamed(l *line, r reader, leads [][]string, strict bool) (*Begin, int) {
	if !r.takes(leads) {
		return nil, 0
	}
	end := l.wishEnd(r.at, r.end)
	if r.at == end || !h.isMade(l, r.at, end, strict) {
		return nil, 0
	}
	return &Begin{Name: l.nameOfBuild(r.at, end)}, r.end
}

// nameOfBuild gives the words as said, or "" where they name any build.
func (l *line) nameOfBuild(from, to int) string {
	if !slices.ContainsFunc(l.tokens[from:to], func(t token) bool { return !anyBuild[t.word] && !light[t.word] }) {
		return ""
	}
	return l.said(from, to)
}

// otherwiseMade are no things, or say how a thing is to be.
var otherwiseMade = wordSet(`sure mould moulds mix mixes batch batches recipe slurry wall dam plaster edge edges plate skirt seam sense thicker thinner softer
harder stronger smaller bigger lighter darker stickier faster quicker look looks feel set stick stay come work works like real less more better up
out cracks cracked leaks hurts torn stuck but because when if while without not never which keeps how why what is are was has have will it them
much enough sums amounts tea coffee amount`)

// isMade reports whether tokens from to to-1 name something to be built: no
// number of them and no amount, which ask for sums, and no material. A thing of
// the trade has to end the words before any "for", "of" or "on" where strict.
func (h *Hearing) isMade(l *line, from, to int, strict bool) bool {
	if to-from > 12 {
		return false
	}
	head := to
	for i := from; i < to; i++ {
		t := l.tokens[i]
		switch {
		case isCount(t) && t.word != "one", otherwiseMade[t.word] && !(t.word == "it" && to-from == 1), i < head && h.materialAt(l, i) != "":
			return false
		case isOneOf(t.word, "for", "of", "on", "with", "from", "in", "to", "like", "that") && i < head:
			head = i
		}
	}
	if !strict {
		return true
	}
	return head > from && appliances[l.tokens[head-1].word]
}
