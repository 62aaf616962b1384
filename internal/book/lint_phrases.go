package book

import (
	"strings"
	"unicode"
)

// heardKeys hold what people say of a trouble, an emergency or of nothing.
var heardKeys = map[string]bool{
	"problem.sayings": true, "add.sayings": true, "emergency.sayings": true, "elsewhere.sayings": true, "file.shop_talk": true,
}

// plain leaves the words of a phrase only: small letters, no punctuation.
func plain(phrase string) string {
	phrase = strings.Map(func(r rune) rune {
		switch {
		case r == '\'' || r == '’':
			return -1
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return ' '
	}, phrase)
	return strings.Join(strings.Fields(phrase), " ")
}

// sharedSayings warns about a saying that stands for two things: two troubles,
// or a trouble and talk about none. It could only be heard as one of them.
func (l *lint) sharedSayings() {
	first := map[string]*written{}
	for i := range l.book.written {
		w := &l.book.written[i]
		if !heardKeys[w.key] {
			continue
		}
		said := plain(w.text)
		before := first[said]
		switch {
		case before == nil:
			first[said] = w
		case before.owner != w.owner:
			l.warn(w.at, "%s", w.of("the saying "+quote(w.text)+" stands for "+before.whose()+" too, at "+before.at.String()))
		}
	}
}

func (w *written) whose() string {
	if w.owner == "" {
		return "shop talk"
	}
	return w.owner
}

// saysNothing are words that leave an answer what it is.
var saysNothing = setOf("a an the it its is was are were i my this that there here they them we")

func setOf(words string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(words) {
		set[w] = true
	}
	return set
}

// sharedAnswers warns about answers of one fact that can't be told apart. The
// hearing takes the longest phrase, so "not dry" beside "dry" is clear. Unclear
// is the same phrase for two options, and one in the other where the rest of it
// says nothing: "the edge" beside "edge".
func (l *lint) sharedAnswers() {
	for i := range l.book.Facts {
		f := &l.book.Facts[i]
		first, gist := map[string]int{}, map[string]int{}
		for n, o := range f.Options {
			for _, phrase := range o.phrases() {
				said := plain(phrase)
				core := gistOf(said)
				if before, ok := first[said]; ok && before != n {
					l.warn(f.Place, "fact %s: %q means both %s and %s", f.Name, phrase, f.Options[before].Value, o.Value)
				} else if before, ok := gist[core]; ok && before != n {
					l.warn(f.Place, "fact %s: %q for %s is what means %s, but for words that say nothing", f.Name, phrase, o.Value, f.Options[before].Value)
				}
				if _, ok := first[said]; !ok {
					first[said] = n
				}
				if _, ok := gist[core]; !ok && core != "" {
					gist[core] = n
				}
			}
		}
	}
}

// phrases are all that an option is called.
func (o *Option) phrases() []string {
	return append([]string{strings.ReplaceAll(o.Value, "_", " "), o.Label}, o.Says...)
}

// gistOf leaves out the words that say nothing.
func gistOf(said string) string {
	var kept []string
	for _, w := range strings.Fields(said) {
		if !saysNothing[w] {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}
