package talk

import (
	"slices"
	"strings"

	"sparehand/internal/book"
)

// sayable is what may be said by voice whatever the state, in words. It is made
// once, so that its lists are the same slices each time.
type sayable struct {
	always, building, hurt []string // commands
	alarms, openings       []string
	timers, steps          []string
	unsure, yes, no        []string
	helped, failed         []string // answers to whether a remedy did it
	facts                  map[*book.Fact][]string
	means                  map[string]string // what commands, yes and no say alike
	options                map[*book.Fact]map[string]string
}

// Commands that make sense by voice.
var (
	alwaysSaid = strings.Fields(`repeat back why others advise next fixed start-again help amounts skip timers
slower faster louder quieter hush`)
	saidInBuilds = strings.Fields("started step-done is-it-ready plan shorter how upcoming stop-build resume-build trouble")
	// What no command of the book is: wishes, and what puts an answer right.
	alsoSaid = []string{"guide me", "stop the timer", "stop all timers", "wrong", "that's wrong"}
)

// mostWords is how many words a command has. What is longer is not said in one
// breath with plaster on both hands.
const mostWords = 6

func newSayable(b *book.Book) *sayable {
	y := &sayable{facts: make(map[*book.Fact][]string, len(b.Facts)), options: make(map[*book.Fact]map[string]string, len(b.Facts)), means: meaningsOf(b)}
	y.always = append(saysOf(b, alwaysSaid), alsoSaid...)
	y.building = append(saysOf(b, saidInBuilds), y.always...)
	y.hurt = saysOf(b, []string{"safe", "repeat"})
	y.unsure = slices.DeleteFunc(saysOf(b, []string{"not-sure"}), func(say string) bool {
		return strings.Contains(say, "both") // which may as well be both answers
	})
	y.yes = thatOpen(saysOf(b, []string{"yes"}), "yes", "yeah", "yep")
	y.no = thatOpen(saysOf(b, []string{"no"}), "no", "nope", "nah")
	y.helped, y.failed = saysOf(b, []string{"fixed", "yes"}), saysOf(b, []string{"no"})
	y.failed = slices.DeleteFunc(y.failed, func(say string) bool { return slices.Contains(alsoSaid, say) }) // "wrong" takes the answer back
	y.alarms, y.openings = alarmsOf(b), openingsOf(b)
	y.timers, y.steps = timersOf(b), stepsOf(b)
	for i := range b.Facts {
		y.facts[&b.Facts[i]] = y.answersTo(&b.Facts[i])
		y.options[&b.Facts[i]] = saidOptions(&b.Facts[i])
	}
	return y
}

// meaningsOf gives the command that each way of saying one is of, and the
// emergency that each of its sayings is of.
func meaningsOf(b *book.Book) map[string]string {
	means := map[string]string{}
	for _, c := range b.Commands {
		for _, say := range c.Says {
			means[inWords(say)] = c.ID
		}
	}
	for _, e := range b.Emergencies {
		for _, say := range e.Sayings {
			means[inWords(say)] = e.ID
		}
	}
	return means
}

// saidOptions gives the option that each way of answering is of.
func saidOptions(f *book.Fact) map[string]string {
	means := map[string]string{}
	for i, o := range f.Options {
		for _, say := range append([]string{o.Label}, o.Says...) {
			means[inWords(say)] = o.Value
		}
		if kindWord(f.Kind) == "choice" {
			n := numberInWords(i + 1)
			means[n], means["number "+n] = o.Value, o.Value
			if i < len(ordinals) {
				means["the "+ordinals[i]+" one"] = o.Value
			}
		}
	}
	return means
}

func alarmsOf(b *book.Book) []string {
	var says []string
	for _, e := range b.Emergencies {
		says = append(says, e.Sayings...)
	}
	for _, e := range b.Elsewhere {
		if e.Say != "" {
			says = append(says, e.Sayings...)
		}
	}
	return addInWords(nil, says...)
}

func openingsOf(b *book.Book) []string {
	var says []string
	for _, p := range b.Problems {
		says = append(says, p.Sayings...)
	}
	return addInWords(nil, says...)
}

// timersOf gives what a timer may be for: what is worked with, and the steps that
// go by one word.
func timersOf(b *book.Book) []string {
	var says []string
	for _, m := range b.Materials {
		says = append(says, m.Says...)
	}
	for i := range b.Steps {
		if name := strings.TrimPrefix(b.Steps[i].Title, "the "); !strings.Contains(name, " ") {
			says = append(says, name)
		}
	}
	return addInWords(nil, says...)
}

func stepsOf(b *book.Book) []string {
	var says []string
	for i := range b.Steps {
		if s := &b.Steps[i]; s.Guide != nil {
			says = append(says, s.Title, "go to "+s.Title)
		}
	}
	return addInWords(nil, says...)
}

// answersTo gives what may be answered to the question about a fact: what its
// options are called, by their numbers, and that it can't be told.
func (y *sayable) answersTo(f *book.Fact) []string {
	var list []string
	for _, o := range f.Options {
		list = addInWords(list, append([]string{o.Label}, o.Says...)...)
	}
	switch kindWord(f.Kind) {
	case "yesno":
		list = addInWords(addInWords(list, y.yes...), y.no...)
	case "choice":
		list = addInWords(list, numbersOf(len(f.Options))...)
	}
	return addInWords(list, y.unsure...)
}

var ordinals = strings.Fields("first second third fourth fifth sixth")

// numbersOf gives the ways to pick one of n answers by its number.
func numbersOf(n int) []string {
	var list []string
	for i := 1; i <= n; i++ {
		list = append(list, numberInWords(i), "number "+numberInWords(i))
		if i <= len(ordinals) {
			list = append(list, "the "+ordinals[i-1]+" one")
		}
	}
	return list
}

// saysOf gives the short ways of saying some commands, the book's first ones
// first.
func saysOf(b *book.Book, ids []string) []string {
	var list []string
	for _, c := range b.Commands {
		if !slices.Contains(ids, c.ID) {
			continue
		}
		for _, say := range c.Says {
			if len(strings.Fields(say)) <= mostWords && !slices.Contains(grunts, say) {
				list = addInWords(list, say)
			}
		}
	}
	return list
}

// grunts are written well enough, but as sounds they are anything.
var grunts = []string{"huh", "uh huh", "uh uh", "mm", "mm hm", "mhm", "hm", "nah", "naw", "eh", "ok", "k"}

// thatOpen keeps what begins with one of the words.
func thatOpen(list []string, words ...string) []string {
	return slices.DeleteFunc(list, func(s string) bool {
		first, _, _ := strings.Cut(s, " ")
		return !slices.Contains(words, first)
	})
}

// addInWords adds texts as they are spoken, each once.
func addInWords(list []string, texts ...string) []string {
	seen := make(map[string]bool, len(list)+len(texts))
	for _, t := range list {
		seen[t] = true
	}
	for _, t := range texts {
		if t = inWords(t); t != "" && !seen[t] {
			seen[t] = true
			list = append(list, t)
		}
	}
	return list
}
