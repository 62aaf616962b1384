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
	return strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		switch {
		case r == '\'' || r == '’':
			return -1
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return ' '
	}, phrase)), " ")
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

// sharedAnswers warns about answers of one fact that can't be told apart, once
// for each two options. The hearing takes the longest phrase, so "not dry"
// beside "dry" is clear. Unclear is the same phrase for two options, and one in
// the other where the rest of it says nothing: "the edge" beside "edge".
func (l *lint) sharedAnswers() {
	for i := range l.book.Facts {
		f := &l.book.Facts[i]
		means := map[string]int{} // by what a phrase says
		told := map[[2]int]bool{}
		for n, o := range f.Options {
			for _, phrase := range o.phrases() {
				core := gistOf(plain(phrase))
				before, ok := means[core]
				if !ok {
					means[core] = n
				}
				if pair := [2]int{before, n}; ok && before != n && core != "" && !told[pair] {
					told[pair] = true
					l.warn(f.Place, "fact %s: %q means %s, and but for words that say nothing it means %s as well",
						f.Name, phrase, o.Value, f.Options[before].Value)
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
