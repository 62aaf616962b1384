package talk

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/hear"
	"sparehand/internal/logic"
	"sparehand/internal/phrase"
	"sparehand/internal/sums"
)

// Asking is what a sheet of sums is made from, without a talk.
type Asking struct {
	Words string            // as a maker says it: "5 barnacles, 30 by 20 by 8 mm"
	Set   map[string]string // facts by name: an option's value, or a number in words
	Sums  []string          // ids of the amounts wanted; none for the mix itself
}

// Sheet works out sums at once. It is an error, in one sentence, for words
// not to be understood, for a sum to lack something, and for it to be refused.
func (a *Assistant) Sheet(ask Asking) (Reply, error) {
	wanted, err := a.asked(ask.Sums)
	if err != nil {
		return Reply{}, err
	}
	s := &Session{a: a, state: a.newState()}
	acts, err := a.wordActs(ask.Words, wanted)
	if err != nil {
		return Reply{}, err
	}
	for _, name := range sortedNames(ask.Set) {
		f := a.book.FactByName(name)
		if f == nil {
			return Reply{}, fmt.Errorf("no fact is called %q", name)
		}
		more, err := a.correction(f, ask.Set[name])
		if err != nil {
			return Reply{}, err
		}
		acts = append(acts, more...)
	}
	told := func(f *book.Fact) bool {
		return f != nil && slices.ContainsFunc(acts, func(act Act) bool { return act.Do == doTell && act.Fact == f.Name })
	}
	if len(ask.Sums) == 0 {
		for _, am := range a.book.Amounts {
			if h := am.Holds; h != nil && (told(h.Made) || told(h.Carried) || told(h.Worn)) {
				wanted = append(wanted, am)
			}
		}
	}
	ids := make([]string, len(wanted))
	for i, am := range wanted {
		ids[i] = am.ID
	}
	r := s.take(Event{At: time.Time{}, Kind: "say", Text: ask.Words, Acts: append(acts, Act{Do: doSums, IDs: ids})})
	return r, s.state.unworked()
}

// asked finds the amounts by id; the mix where there are none.
func (a *Assistant) asked(ids []string) ([]*book.Amount, error) {
	var list []*book.Amount
	for _, am := range a.book.Amounts {
		if slices.Contains(ids, am.ID) || len(ids) == 0 && am.Mix != nil {
			list = append(list, am)
		}
	}
	for _, id := range ids {
		if !slices.ContainsFunc(list, func(am *book.Amount) bool { return am.ID == id }) {
			return nil, fmt.Errorf("no sum is called %q: --list names them all", id)
		}
	}
	return list, nil
}

// wordActs hears words that tell sizes and the like.
func (a *Assistant) wordActs(words string, wanted []*book.Amount) ([]Act, error) {
	if strings.TrimSpace(words) == "" {
		return nil, nil
	}
	m := a.hearing.Hear(hear.Context{Sums: wanted}, words)
	switch {
	case m.Elsewhere != "":
		if e := a.elsewhereByID(m.Elsewhere); e != nil && e.Say != "" {
			return nil, errors.New(strings.TrimSuffix(phrase.Lower(e.Say), "."))
		}
		return nil, fmt.Errorf("%q is a trouble: ask it in the talk", words)
	case m.Complaint != "":
		return nil, errors.New(strings.TrimSuffix(phrase.Lower(m.Complaint), "."))
	case len(m.Readings) > 0:
		labels := make([]string, len(m.Readings))
		for i, r := range m.Readings {
			labels[i] = r.Label
		}
		return nil, fmt.Errorf("%q could be %s: say which", words, phrase.Or(labels))
	case len(m.Facts) == 0:
		return nil, fmt.Errorf("nothing in %q is a size or another thing to work with: say it as \"110 by 80 by 18 mm, 2 copies\"", words)
	}
	var acts []Act
	for _, h := range m.Facts {
		acts = append(acts, a.tellAct(h))
	}
	return acts, nil
}

// unworked gives why a wanted sum could not be worked out, or nil.
func (s *state) unworked() error {
	for _, am := range s.sums {
		w := s.work(am)
		if w.Refused != "" {
			return errors.New(strings.TrimSuffix(phrase.Lower(w.Refused), "."))
		}
		if len(w.Lacks) > 0 {
			f := w.Lacks[0]
			return fmt.Errorf("%s lacks the %s: tell it in words, or with --set %s=VALUE", phrase.Lower(am.Title), sums.Subject(f), f.Name)
		}
	}
	return nil
}

func sortedNames(set map[string]string) []string {
	names := make([]string, 0, len(set))
	for name := range set {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// SumShown is one entry of the list of sums.
type SumShown struct {
	ID, Title string
	Facts     []string // what it can be worked out from, by name and unit
}

// Sums lists the sums of the book.
func (a *Assistant) Sums() []SumShown {
	out := make([]SumShown, 0, len(a.book.Amounts))
	for _, am := range a.book.Amounts {
		shown := SumShown{ID: am.ID, Title: am.Title}
		for _, id := range a.book.Reach(am) {
			f := &a.book.Facts[id]
			name := f.Name
			if f.Kind == logic.Choice {
				name += "=" + strings.Join(optionValues(f), "|")
			}
			shown.Facts = append(shown.Facts, name)
		}
		out = append(out, shown)
	}
	return out
}

func optionValues(f *book.Fact) []string {
	values := make([]string, len(f.Options))
	for i, o := range f.Options {
		values[i] = o.Value
	}
	return values
}
