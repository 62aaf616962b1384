package hear

import "slices"

// How the notebook is asked, by what is asked of it.
var recalls = []struct {
	about  string
	opens  [][]string
	anyway bool // of any thing of the trade, too, and not of the last alone
}{
	{"when", phraseList(`when did i make|when did we make|when did i pour|when did i cast|when did i mix|when did i sculpt|when did i last|when did we last|when was it that i made|
when did i do|what was the date|what date|what day did|which day did|what day was|when did i use|when did i wear|when did i glue|when did he wear|when did she wear|when was`), true},
	{"label", phraseList(`what did i call|what did we call|what did i label|how did i label|what is the label of|what is the label on|what was the label of|what label|
which mould did i use|which mould did we use|what mould did i use|which mould was|which batch did i use|which batch was|what number was|which number was`), true},
	{"recipe", phraseList(`what did i use|what did we use|what i used|which recipe|what recipe|what was the recipe|what was the mix|which mix|what mix|what was in|
what did i put in|what did we put in|what ratio|what was the ratio|how much gelatin did i use|how much glycerin did i use|
how much sorbitol did i use|how much did i use|how much gelatin went|how much glycerin went|how much plaster did i use|how did i make|how did we make|how did i mix|
how did we mix|what is the recipe of|what is the recipe for|what were the amounts|what were the numbers|what went into`), true},
	{"wear", phraseList(`how long did|how long was|how long had|how many shows did|how many nights did|how many hours did|how many evenings did`), true},
	{"cause", phraseList(`what did i do wrong|what did we do wrong|what went wrong|why did|what was wrong|what was the cause|what was the matter|what was the trouble|
what was the problem|how did i fix|how did i mend|what helped|how did i put it right`), false},
	{"outcome", phraseList(`how did|how was|how were|how well did|did|what happened|what became of|what came of|how good was`), true},
	{"", phraseList(`what do i know about|what do my notes say about|what do my notes say of|what does the notebook say about|what does the notebook say of|
what did i write|what did i write about|what did i write down|what did i note|what was|what is|look up|find|show me|tell me about|tell me of|tell me what i did|
what did i do|what did we do|what did i change|what glue did i use|which glue did i use|what adhesive did i use|what colour did i use|
what colours did i use|which colours did i use|what oil did i use|what release did i use|how did i|how did we|how had i|what do you remember of|
do you remember|what humidity was it|what temperature was it|how damp was it|how dry was it|
how hot was it|how warm was it|how cold was it|read me|read out|who wore`), false},
}

// reminding stands before a question to the notebook.
var reminding = phraseList(`remind me|tell me|do you know|do you remember|can you tell me|look up|check|find out|look in the notebook for`)

// worked are the verbs for how a piece did. Any other, as "tear" and "dry", may
// be the telling of a trouble.
var worked = wordSet(`hold held last lasted stay stayed survive stand work worked turn come go went fail do wear`)

// ofTheTalk are things of the talk, which may be the last one too.
var ofTheTalk = wordSet(`you step steps question questions thing answer remedy remedies coat coats layer layers word sentence drop drops bit part`)

// mostAsked is how many tokens a question to the notebook has.
const mostAsked = 18

// hearRecall: "what did I use for the last cheek piece", "how long did the last
// barnacle hold".
func hearRecall(_ Context, r reader) *Past {
	l := r.l
	if at := r.at; r.takes(reminding) && !askingWords[r.word()] && r.word() != "how" {
		r.at = at
	}
	told := slices.ContainsFunc(l.tokens[r.at:max(r.at, r.end-1)], func(t token) bool { return t.ends && !polite[t.word] })
	told = told || slices.ContainsFunc(l.tokens[r.at:], func(t token) bool { return ofTheTalk[t.word] })
	if told || r.end > r.at+mostAsked || l.saysAny(r.at, r.end, "now", "but", "because", "keeps", "still", "should", "will", "if") {
		return nil
	}
	for _, ask := range recalls {
		of := r
		if !of.takes(ask.opens) {
			continue
		}
		thing := ask.anyway && l.namesThing(r.at, r.end) && l.saysAny(r.at, r.end, "did", "was", "were", "used", "went")
		if !thing && !l.namesIt(r.at, r.end) {
			continue
		}
		if wordAt(l.tokens, of.at-1) == "did" && !of.endsInDoing() {
			return nil
		}
		p := &Past{Do: PastRecall, About: ask.about}
		if ask.about == "label" {
			of.at = r.at // "which mould did I use"
		}
		p.named(l, of.at, r.end)
		some := ask.about != "" || p.Kind != "" || len(p.Words) > 0 || l.saysAny(r.at, r.end, "time", "one", "notebook", "night")
		if !some || len(p.Words) > mostNames {
			return nil
		}
		if ask.about == "cause" && p.Kind == "" {
			p.Kind = "diagnosis"
		}
		return p
	}
	return nil
}

// endsInDoing reports whether the rest of a question ends with how a piece did,
// and no trouble: "did the last brow hold up".
func (r *reader) endsInDoing() bool {
	for i := r.end - 1; i >= r.at; i-- {
		switch word := r.l.tokens[i].word; {
		case word == "last" && isOneOf(wordAt(r.l.tokens, i+1), "night", "time", "week", "month", "year", "one"):
		case worked[word]:
			return true
		case !pastWords[word] && !light[word] && !polite[word] && word != "off":
			return false
		}
	}
	return false
}
