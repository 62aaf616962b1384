package hear

import (
	"slices"
	"strings"

	"sparehand/internal/book"
)

// response is what the words say to a question, its content aside.
type response uint8

const (
	silent response = iota
	agrees
	refuses
	unsure
	passes
)

// The phrases by which people agree, refuse, doubt and pass, to which the book
// adds its own. All are looked for in tokens with contractions spread.
var (
	unsurePhrases = phraseList(`not sure|not certain|not really sure|unsure|uncertain|do not know|do not really know|
dont know|no idea|no clue|not a clue|have not a clue|not the foggiest|hard to say|hard to tell|difficult to say|can not tell|
can not say|could not say|could not tell you|can not really tell|who knows|beats me|idk|i forget|can not remember|
do not remember|have not checked|have not looked|have not measured|did not check|did not look|did not measure|not checked|
could be either|could be anything|tough to say|i wonder|your guess is as good as mine|can not see|not been able to check`)
	passPhrases = phraseList(`skip it|skip this|skip this one|skip that|skip the question|skip|pass|next question|
rather not say|leave that one|leave it out|ask me something else`)
	agreePhrases = phraseList(`yes|yeah|yep|yup|yea|yah|aye|sure|sure is|sure did|of course|definitely|absolutely|certainly|indeed|
correct|right|that is right|that is it|affirmative|exactly|true|it is|it does|it did|it has|i did|i have|i do|we did|we have|
they are|they do|they did|there is|there are|he is|she is|he did|she did|think so|believe so|i think so|i believe so|
afraid so|uh huh|mm hmm|mhm|totally|very much|a bit|a little|ok|okay|y|you bet|too right|it was|they were|i am|we are|it will`)
	refusePhrases = phraseList(`no|nope|nah|naw|not really|not at all|not yet|not quite|never|negative|it is not|it does not|
it did not|it has not|i did not|i have not|i do not|we did not|we have not|they are not|they do not|there is not|there are not|
he is not|she is not|he did not|she did not|do not think so|do not believe so|false|afraid not|think not|n|none|not a bit|
no way|nothing|it was not|they were not|not one bit|hardly|nothing like that|not that i know of|not that i know|
not that i can see|i am not|we are not|it will not|incorrect|wrong`)
	hedges = wordSet(`maybe perhaps possibly probably might could`)
)

func phraseList(list string) [][]string {
	var out [][]string
	for _, p := range strings.Split(list, "|") {
		out = append(out, strings.Fields(p))
	}
	return out
}

// replies are the phrases of a Hearing: ours and the book's.
type replies struct{ agree, refuse, unsure, pass [][]string }

// The commands of a book that are answers.
const (
	sayYes     = "yes"
	sayNo      = "no"
	sayNotSure = "not-sure"
	saySkip    = "skip"
)

func (h *Hearing) buildReplies(b *book.Book) {
	r := &h.replies
	*r = replies{slices.Clip(agreePhrases), slices.Clip(refusePhrases), slices.Clip(unsurePhrases), slices.Clip(passPhrases)}
	lists := map[string]*[][]string{sayYes: &r.agree, sayNo: &r.refuse, sayNotSure: &r.unsure, saySkip: &r.pass}
	for _, c := range b.Commands {
		list := lists[c.ID]
		if list == nil {
			continue
		}
		for _, s := range c.Says {
			if words := plainWords(h.read(s)); len(words) > 0 {
				*list = append(*list, words)
			}
		}
	}
}

// wordsAt reports how many tokens from i on are the phrase, or 0.
func wordsAt(tokens []token, i int, phrase []string) int {
	if i+len(phrase) > len(tokens) {
		return 0
	}
	for k, w := range phrase {
		if tokens[i+k].word != w {
			return 0
		}
	}
	return len(phrase)
}

// find gives the first place of the longest phrase of the list.
func find(tokens []token, list [][]string) (from, to int) {
	for i := range tokens {
		if n := longestAt(tokens, i, list); n > 0 {
			return i, i + n
		}
	}
	return -1, -1
}

func longestAt(tokens []token, i int, list [][]string) int {
	best := 0
	for _, p := range list {
		best = max(best, wordsAt(tokens, i, p))
	}
	return best
}

// opening skips the sounds people make before they answer.
func opening(tokens []token) int {
	i := 0
	for i < len(tokens) && startsTurn[tokens[i].word] && !isOneOf(tokens[i].word, "no", "yes", "ok", "okay") {
		i++
	}
	return i
}

// answersWith reads a yes or no, and gives the tokens that said it. It must
// open the line, or be all of its last clause.
func (h *Hearing) answersWith(l *line) (response, int, int) {
	i := opening(l.tokens)
	yes, no := longestAt(l.tokens, i, h.replies.agree), longestAt(l.tokens, i, h.replies.refuse)
	switch {
	case no > 0 && no >= yes:
		return refuses, i, i + no
	case yes > 0 && isOneOf(wordAt(l.tokens, i+yes), "not"):
		return refuses, i, i + yes + 1
	case yes > 0:
		return agrees, i, i + yes
	}
	return silent, 0, 0
}

// doubts finds "not sure" and its kin, or a bare "maybe".
func (h *Hearing) doubts(l *line) (from, to int) {
	if from, to = find(l.tokens, h.replies.unsure); from >= 0 {
		return from, to
	}
	for i, t := range l.tokens {
		if !hedges[t.word] && !light[t.word] && !startsTurn[t.word] || isNegator(t.word) || isOneOf(t.word, "probably", "yes") {
			return -1, -1
		}
		if hedges[t.word] {
			from, to = i, i+1
		}
	}
	return from, to
}
