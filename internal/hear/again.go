package hear

import "slices"

// How makers ask to do what they did before.
var (
	likeBefore = phraseList(`like last time|same as last time|the same as last time|as last time|same as before|the same as before|like before|as before|like the last time|
same as the last time|the same as the last time|as the last time|the same again|same again|same thing again|the same thing again|the way i did it last time|the way we did it last time|
just like last time|exactly like last time|exactly as last time|exactly the same as last time|same recipe as last time|the same recipe as last time|same mix as last time|
the same mix as last time|the last one again|what i did last time|same as yesterday|the same as yesterday|like yesterday|make it again|make that again|cast it again|what we did last time`)
	likeThing = phraseList(`like the last|same as the last|the same as the last|like my last|same as my last|the same as my last|as for the last|like for the last|same as for|the same as for|like the one for|same mix as the last|
the same mix as the last|same recipe as the last|the same recipe as the last|the same mix as for the last|the same recipe as for the last|like mould|same as mould|like batch|same as batch|
the same as batch|like piece|same as piece|another like the last|another one like the last|one more like the last|another like|another one like`)
	doAgain = phraseList(`do it|do that|do this|make it|mix it|cast it|let us do it|let us make it|i want to do it|i want it|i will do it|we will do it|
do|make|mix|cast|use|let us do|let us make|let us use|i want to make|i want to do|i want|i would like|i need|we need|repeat|build|i will have|give me|can i have|it is|this is|so`)
	copiesOf = phraseList(`another copy of|another cast of|another copy|one more copy of|one more of|another of|one more|another|a copy of|a copy|a further copy of|a second copy of|
more of|more copies of|copies of|copies|a cast of|a cast`)
	drierWords = map[string]int{"drier": 1, "dryer": 1, "dry": 1, "damper": -1, "damp": -1, "wetter": -1, "wet": -1, "humid": -1, "muggier": -1, "muggy": -1, "moist": -1, "moister": -1}
	warmWords  = map[string]int{"warmer": 1, "hotter": 1, "hot": 1, "warm": 1, "colder": -1, "cooler": -1, "cold": -1, "cool": -1}
	// What else may be said of the weather, and of how often.
	weather = wordSet(`but it is only that the air room here today now tonight a bit little much lot far more less and in than was then with weather day not as quite
so very rather for just this time because since though workshop hall cellar kitchen outside`)
	weekdays   = wordSet(`monday tuesday wednesday thursday friday saturday sunday today tomorrow tonight`)
	aroundDays = wordSet("and the each of every our on all a one these those both also week")
	shows      = wordSet(`night nights day days evening evenings show shows performance performances matinee`)
)

// hearAgain: "do it like last time", "like the last cheek, but damper", "three
// more of the barnacle cheek".
func (h *Hearing) hearAgain(c Context, r reader) *Past {
	p := &Past{Do: PastAgain}
	r.at = r.weather(r.at, p)
	r.courtesies()
	r.end = len(r.l.tokens)
	start := r.at
	like := r.takes(likeBefore)
	if !like {
		r.takes(doAgain)
	}
	switch {
	case like, r.takes(likeBefore):
		if c.Asked != nil && c.Problem != nil && r.at == r.end {
			return nil // an answer, of a kind
		}
	case r.takes(likeThing):
		if from := r.at - 1; !r.thing(p) || !r.l.namesIt(from, r.at) && !r.l.namesThing(from, r.at) {
			return nil
		}
	default:
		r.at = start
		if !h.hearCopies(&r, p) {
			return nil
		}
	}
	p.Days = max(p.Days, r.days())
	if end := r.weather(r.at, p); end < r.end && !r.l.onlyPolite(end, r.end) {
		return nil
	}
	return p
}

// thing takes a name into p: what stands before a comma, a "but" or a "for each".
func (r *reader) thing(p *Past) bool {
	from := r.at - 1
	for r.at < r.end {
		word := r.word()
		if isOneOf(word, "but", "only", "because") || isOneOf(word, "for", "on") && r.daysFrom(r.at+1) > 0 || word == "again" || polite[word] {
			break
		}
		if drierWords[word] != 0 || warmWords[word] != 0 {
			return false
		}
		r.at++
		if r.l.tokens[r.at-1].ends {
			break
		}
	}
	p.named(r.l, from, r.at)
	return len(p.Words)+len(p.Kind) > 0 && len(p.Words) <= mostNames
}

// hearCopies: "three more of the barnacle cheek", "do the rope scar again", "a
// copy for each of the four nights". A thing of the trade has to be named, or a
// copy.
func (h *Hearing) hearCopies(r *reader, p *Past) bool {
	l, counted := r.l, false
	r.takes(doAgain)
	start := r.at
	if n, ok := readWhole(l.tokens, r.at); ok && n.value >= 1 && n.value <= mostCopies && n.value == float64(int(n.value)) && isOneOf(wordAt(l.tokens, n.end), "more", "further", "copies") {
		r.at = n.end
		counted = r.takesOne("more", "further", "copies")
		r.takesOne("of")
		if n.value > 1 {
			p.Days = int(n.value)
		}
	}
	if !r.takes(copiesOf) && !counted && !r.endsInAgain() {
		return false
	}
	copied, began := l.saysAny(start, r.at, "copy", "copies"), r.at
	if r.at == r.end || !r.thing(p) {
		return copied && r.daysFrom(r.at+1) > 0
	}
	if l.saysAny(began, r.at, "in", "on") {
		return false // "another bubble in the cheek"
	}
	return h.isMade(l, began, r.at, true) || l.namesIt(began, r.at)
}

// endsInAgain: "do the barnacle cheek again".
func (r *reader) endsInAgain() bool {
	verb, whose := wordAt(r.l.tokens, r.at-1), r.word()
	again := slices.IndexFunc(r.l.tokens[r.at:r.end], func(t token) bool { return t.word == "again" })
	return again > 0 && isOneOf(verb, "do", "make", "build", "cast", "repeat", "want", "need") && isOneOf(whose, "the", "my", "that") &&
		r.l.namesThing(r.at, r.at+again)
}

// mostCopies is how many copies, and days of them, are believed.
const mostCopies = 100

// days gives how many days copies are for, and steps over them: "for friday and
// saturday", "for each of the four nights"; or 0.
func (r *reader) days() int {
	if r.word() != "for" && r.word() != "on" {
		return 0
	}
	n := r.daysFrom(r.at + 1)
	for n > 0 && r.at < r.end && !isOneOf(r.word(), "but", "only") {
		r.at++
	}
	return n
}

// daysFrom gives how many days tokens from at on name, up to a "but"; 0 where
// they name anything else.
func (r *reader) daysFrom(at int) int {
	named, count, each := 0, 0, false
	for i := at; i < r.end && !isOneOf(r.l.tokens[i].word, "but", "only"); i++ {
		t := r.l.tokens[i]
		n, ok := readWhole(r.l.tokens, i)
		switch {
		case weekdays[t.word]:
			named++
		case ok && n.end == i+1 && n.value == float64(int(n.value)) && n.value <= mostCopies:
			count = int(n.value)
		case shows[t.word]:
			each = true
		case !aroundDays[t.word]:
			return 0
		}
	}
	if each && count > 0 {
		return count
	}
	return named
}

// weather takes what is said of the air from token at on, and gives its end;
// at where nothing is.
func (r *reader) weather(at int, p *Past) int {
	end, sign := at, 1
	for i := at; i < r.end; i++ {
		word := r.l.tokens[i].word
		dry, warm := drierWords[word], warmWords[word]
		switch {
		case dry+warm != 0:
			if dry != 0 {
				p.Drier = sign * dry
			} else {
				p.Warmer = sign * warm
			}
			sign, end = 1, i+1
		case word == "less" || word == "not":
			sign = -1
		case !weather[word] && !polite[word]:
			return end
		case end > at:
			end = i + 1
		}
	}
	return end
}
