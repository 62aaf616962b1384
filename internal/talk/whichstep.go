package talk

import (
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/hear"
)

// stageNames say the stages of the job as a maker picks one.
var stageNames = map[string]string{
	"sculpt":  "sculpting the clay",
	"mould":   "the wall, the plaster or the mould",
	"gelatin": "cooking the gelatin",
	"cast":    "the cast",
	"apply":   "on the skin",
}

// mostLikely is how many troubles of a stage are offered.
const mostLikely = 4

// askStep asks where in the job the trouble is, for words that tell of some
// trouble without telling which.
func (s *state) askStep() *openQuestion {
	q := &openQuestion{shown: Question{Fact: askStep, Text: "Which step are you at?", Kind: "choice",
		HowToCheck: "Think of what is in your hands now.", Why: "Your words could be about several troubles."}}
	for _, p := range s.a.book.Problems {
		if !slices.Contains(q.stages, p.Stage) {
			q.stages = append(q.stages, p.Stage)
		}
	}
	slices.SortStableFunc(q.stages, func(a, b string) int { return s.a.firstStep(a) - s.a.firstStep(b) })
	for i, stage := range q.stages {
		label := stageNames[stage]
		if label == "" {
			label = stage
		}
		q.shown.Options = append(q.shown.Options, OptionShown{i + 1, stage, label})
	}
	return q
}

// firstStep gives the place in the job of a stage's earliest trouble.
func (a *Assistant) firstStep(stage string) int {
	first := len(a.book.Steps)
	for _, p := range a.book.Problems {
		if p.Stage == stage && p.Step != nil {
			first = min(first, p.Step.Index)
		}
	}
	return first
}

// chooseAt offers the troubles of a stage that the words fit best, but for those
// that it was said not to be.
func (s *state) chooseAt(stage, words string, not []string) Act {
	act := Act{Do: doChoose, ID: words, Step: stage, Not: not}
	for _, c := range s.a.hearing.Rank(words) {
		p := s.a.book.ProblemByID(c.ID)
		if p != nil && p.Stage == stage && len(act.IDs) < mostLikely && !slices.Contains(not, p.ID) {
			act.IDs = append(act.IDs, p.ID)
		}
	}
	return act
}

// noneOfThese goes on to the next likely troubles of the stage, and where that is
// not told or has no more, asks at which step the trouble is.
func (s *state) noneOfThese(offered []*book.Problem) Act {
	not := slices.Clone(s.denied)
	for _, p := range offered {
		not = append(not, p.ID)
	}
	if s.stage != "" {
		if next := s.chooseAt(s.stage, s.words, not); len(next.IDs) > 0 {
			return next
		}
	}
	return Act{Do: doWhichStep, ID: s.words, Not: not}
}

// goOn adds the trouble that was told behind an answer, in place of any other
// that the answer would lead to.
func (s *state) goOn(acts []Act, m hear.Meaning) []Act {
	if m.Problem == "" || s.problem != nil && m.Problem == s.problem.ID {
		return acts
	}
	acts = slices.DeleteFunc(acts, func(a Act) bool { return a.Do == doOpen || a.Do == doWhichStep || a.Do == doChoose })
	return append(acts, Act{Do: doOpen, ID: m.Problem})
}

// later keeps a trouble that was told along for afterwards.
func later(m hear.Meaning) []Act {
	if m.Also == "" {
		return nil
	}
	return []Act{{Do: doLater, ID: m.Also}}
}

// thenLater gives the act that closes a trouble, and opens the next one that
// was told along with it.
func (s *state) thenLater(closing Act) []Act {
	acts := []Act{closing}
	if len(s.later) > 0 {
		acts = append(acts, Act{Do: doOpen, ID: s.later[0].ID})
	}
	return acts
}

// justClosed gives the remedy that an event says has helped, where another
// trouble was opened after it; else nil.
func (s *state) justClosed(e Event) *book.Remedy {
	if s.closed || len(e.Acts) < 2 || e.Acts[0].Do != doHelped {
		return nil
	}
	return s.a.index.remedies[e.Acts[0].ID]
}
