package hear

import (
	"slices"
	"strings"
	"sync"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// Hearing understands words by one book. It never changes once made, so any
// number of goroutines may share it.
type Hearing struct {
	book    *book.Book
	stems   map[string]string  // of the book's words
	texts   map[string][]token // of the book, while it is learnt; then nil
	spread  map[string]int     // in how many classes a stem is said
	stageOf map[string]string  // by problem
	classes []class
	bayes   *bayes
	hurtful *linear // emergencies against all else
	idle    *linear // shop talk against troubles
	spell   *speller
	pairs   map[pair]bool // neighbours in the book's answers
	lexicon lexicon
	owned   map[factID][]ownedWord
	replies replies
	orders  []order
	sums    []sum
	nouns   map[string]*sum            // by stem of what "how much" is asked of
	reached map[string]map[factID]bool // by sum: what it can be worked out from
	forSums map[factID]bool            // numbers that only sums use
	lower   []map[factID]bool          // by fact: what sums may get it from

	factsOf  map[string]map[factID]bool // by problem: what its conditions use
	summedBy map[string]map[factID]bool // by problem: what the sums of its remedies use
	shared   map[factID]bool            // bench facts, and those of several problems

	piece, tray solid
	otherThings map[string]bool // stems of what other lengths are measured of
	materials   []materialName
	mixes       []*book.Fact // that choose a recipe
	alarms      []alarm
	nevers      []alarm // what is refused for certain
	heard       alarmPhrases
	said        map[string]class             // by their stems: the book's own words of emergencies and of shop talk
	harms       map[string][]map[string]bool // by emergency: stems of what it does, by group
	alarmed     map[string]bool              // stems that emergencies speak of
}

// New trains on the sayings of the book and indexes its answers. A nil book
// is an empty one.
func New(b *book.Book) *Hearing {
	if b == nil {
		b = &book.Book{}
	}
	h := &Hearing{book: b, stems: make(map[string]string, 8192), spread: make(map[string]int, 4096),
		stageOf: map[string]string{}, texts: make(map[string][]token, 8192), spell: newSpeller(), pairs: make(map[pair]bool, 4096)}
	for _, p := range b.Problems {
		h.stageOf[p.ID] = p.Stage
	}
	list := h.samples(b)
	h.findAlarming(list)
	h.learnWords(list)
	h.learnAnswers(b)
	h.spell.index()
	h.train(list)
	h.buildLexicon(b)
	h.relateFacts(b)
	h.buildReplies(b)
	h.buildOrders(b)
	h.buildSums(b)
	h.buildNouns()
	h.buildSolids()
	h.buildMaterials()
	h.buildAlarms(b)
	h.texts = nil
	return h
}

// train learns the sayings: which class they are of, whether they speak of an
// emergency, and whether of any trouble at all.
func (h *Hearing) train(list []sample) {
	var docs []counts
	h.bayes, docs = learn(list, len(h.classes))
	h.said = make(map[string]class, 2048)
	for _, s := range list {
		h.said[stemKey(s.words)] = h.classes[s.class]
	}
	kindOf := func(doc int) kind { return h.classes[list[doc].class].kind }
	var both sync.WaitGroup
	alarming := slices.Clip(docs)
	calmly := slices.Clone(h.book.Harmless)
	for _, c := range h.book.Commands {
		if c.ID != sayTrouble && !manners[c.ID] { // "something is wrong" is no calm word, and "quiet" no word of the craft
			calmly = append(calmly, c.Says...)
		}
	}
	for _, s := range calmly {
		alarming = append(alarming, h.bayes.document(h.read(s)))
	}
	both.Go(func() {
		h.hurtful = fitLinear(len(h.bayes.idf), alarming, func(d int) bool { return d < len(list) && kindOf(d) == isEmergency }, 1.5)
	})
	both.Go(func() {
		var calm []counts
		var talk []bool
		for d := range docs {
			if kindOf(d) != isEmergency {
				calm, talk = append(calm, docs[d]), append(talk, kindOf(d) == isTalk)
			}
		}
		h.idle = fitLinear(len(h.bayes.idf), calm, func(d int) bool { return talk[d] }, 3)
	})
	both.Wait()
}

// read cuts a text of the book into tokens; while the book is learnt each
// text is cut once.
func (h *Hearing) read(text string) []token {
	if tokens, ok := h.texts[text]; ok {
		return tokens
	}
	if h.texts == nil {
		return tokenise(fold(text), h.stem)
	}
	tokens := tokenise(fold(text), h.stemAndKeep)
	h.texts[text] = tokens
	return tokens
}

// stemAndKeep stems a word of the book and remembers it; for New only.
func (h *Hearing) stemAndKeep(word string) string {
	if s, ok := h.stems[word]; ok {
		return s
	}
	s := stemOf(word)
	h.stems[word] = s
	return s
}

func (h *Hearing) stem(word string) string {
	if s, ok := h.stems[word]; ok {
		return s
	}
	return stemOf(word)
}

// relateFacts notes which facts each problem reasons with, and which only
// sums use.
func (h *Hearing) relateFacts(b *book.Book) {
	h.factsOf = make(map[string]map[factID]bool, len(b.Problems))
	h.summedBy = make(map[string]map[factID]bool, len(b.Problems))
	h.shared, h.forSums = make(map[factID]bool), make(map[factID]bool)
	used := make(map[factID]int)
	for _, p := range b.Problems {
		h.factsOf[p.ID] = factsOf(b, p)
		for id := range h.factsOf[p.ID] {
			used[id]++
		}
		h.summedBy[p.ID] = summedBy(b, p)
	}
	for _, a := range b.Amounts {
		for _, id := range b.Reach(a) {
			h.forSums[id] = used[id] == 0 && b.Facts[id].Kind == logic.Number
		}
	}
	for i := range b.Facts {
		id := b.Facts[i].ID
		h.shared[id] = b.Facts[i].Stage == benchStage || used[id] > 1
		h.lower = append(h.lower, lowerFacts(b, id))
	}
}

// factsOf gives the facts that the causes and remedies of a problem mention,
// and those that these are derived from.
func factsOf(b *book.Book, p *book.Problem) map[factID]bool {
	facts := make(map[factID]bool)
	add := func(c logic.Cond) {
		for _, id := range b.Base.Mentions(c) {
			addFact(b, facts, id)
		}
	}
	for _, c := range p.Causes {
		for _, s := range c.Signs {
			add(s.When)
		}
		for _, r := range c.Remedies {
			if r.HasOnlyIf {
				add(r.OnlyIf)
			}
		}
	}
	return facts
}

// summedBy gives the facts that the sums of a problem's remedies can use.
func summedBy(b *book.Book, p *book.Problem) map[factID]bool {
	facts := make(map[factID]bool)
	for _, c := range p.Causes {
		for _, r := range c.Remedies {
			for _, a := range r.Amounts {
				for _, id := range b.Reach(a) {
					facts[id] = true
				}
			}
		}
	}
	return facts
}

// lowerFacts gives the facts that sums may get a fact from.
func lowerFacts(b *book.Book, id factID) map[factID]bool {
	seen := make(map[factID]bool)
	var visit func(factID)
	visit = func(id factID) {
		for _, way := range b.Facts[id].Ways {
			for _, from := range way.Facts() {
				if !seen[from] {
					seen[from] = true
					visit(from)
				}
			}
		}
	}
	visit(id)
	return seen
}

func addFact(b *book.Book, facts map[factID]bool, id factID) {
	if facts[id] || int(id) < 0 || int(id) >= len(b.Facts) {
		return
	}
	facts[id] = true
	for _, f := range b.Facts[id].Follows {
		for _, from := range b.Base.Mentions(f.When) {
			addFact(b, facts, from)
		}
	}
}

// Rank gives every class of sayings that the words may belong to with its
// share, best first: problems, troubles treated elsewhere, emergencies, and
// ShopTalk.
func (h *Hearing) Rank(text string) []Candidate {
	l := h.listen(text)
	return h.rank(l)
}

func (h *Hearing) rank(l *line) []Candidate {
	doc := h.bayes.document(l.tokens)
	list := make([]Candidate, len(h.classes))
	for i, share := range shares(h.bayes.weigh(doc), sharpness) {
		list[i] = Candidate{h.classes[i].id, share}
	}
	l.hurtful, l.idle = h.hurtful.share(doc), h.idle.share(doc)
	return ordered(list)
}

// listen makes words ready: folded, cut into tokens, slips mended.
func (h *Hearing) listen(text string) *line {
	folded := fold(text)
	raw := withoutIdioms(tokenise(folded, h.stem))
	l := newLine(folded, h.repair(raw))
	if slices.ContainsFunc(l.tokens, func(t token) bool { return t.slip }) {
		l.asSaid = newLine(folded, raw)
	}
	return l
}

// stemKey joins the stems of words.
func stemKey(words []token) string {
	stems := make([]string, len(words))
	for i, t := range words {
		stems[i] = t.stem
	}
	return strings.Join(stems, " ")
}
