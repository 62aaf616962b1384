package talk

import (
	"cmp"
	"slices"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/hear"
)

// A description is only half understood by a recogniser, so of what it may be
// about the maker picks. From these shares among all problems on, one is asked
// about alone, or it is offered at all. With them 9 in 10 descriptions of the
// trial's tuning voices were led to their problem within two answers; offering the
// four likeliest at once, however unlikely, led 8 in 10.
const (
	soundsAlone   = 0.7  // with twice the share of the next
	soundsOffered = 0.05 // of the four likeliest
	soundsFaint   = 0.45 // where the likeliest has less than this, the step is asked for
)

// soundsHurt is the share of the emergencies among all that a description may be
// of, from which on it is asked whether somebody is hurt.
const soundsHurt = 0.6

// described gives the acts of a description. None of it is acted on, however
// surely it was heard, nor is any fact taken from it.
func (s *Session) described(sp Spoken, at time.Time) (acts []Act, note string, madeOut bool) {
	acts, note = s.understood(sp.Words, at)
	e := Event{Acts: acts}
	switch {
	case len(acts) > 0 && !e.changes():
		return acts, note, true
	case s.answering(acts) != nil:
		return s.doubtful(sp, s.answering(acts), at), "", true
	case len(acts) > 0 && !tellsOfTrouble(acts):
		return s.doubtful(sp, acts, at), "", true
	}
	if acts = s.state.sounds(sp); len(acts) == 0 {
		return nil, "", false
	}
	return acts, "", true
}

// tellsOfTrouble reports whether acts are of a trouble, or of facts told in
// passing.
func tellsOfTrouble(acts []Act) bool {
	return !slices.ContainsFunc(acts, func(a Act) bool {
		return !slices.Contains([]string{doOpen, doLater, doChoose, doWhichStep, doTell, doForget}, a.Do)
	})
}

// answering gives the answer to what is asked without the facts told beside it.
func (s *Session) answering(acts []Act) []Act {
	q := s.state.question()
	if q == nil || q.fact == nil {
		return nil
	}
	for _, act := range acts {
		if act.Fact == q.fact.Name {
			return []Act{act}
		}
	}
	return nil
}

// sounds asks which trouble a description is of, by all its readings; none where
// it is of none.
func (s *state) sounds(sp Spoken) []Act {
	shares, told, weight := map[string]float64{}, false, 1.0
	for i, words := range append([]string{sp.Words}, sp.Others...) {
		m := s.a.hearing.Hear(hear.Context{Last: s.last}, words)
		told = told || m.Problem != "" || len(m.Alternatives) > 0 || m.Puzzling || m.Emergency+m.MaybeEmergency != ""
		weight = 1 / float64(i+1)
		for _, c := range s.a.hearing.Rank(words) {
			if s.a.book.ProblemByID(c.ID) != nil {
				shares[c.ID] += weight * c.Share
			}
		}
	}
	if s.problem != nil && !s.closed {
		delete(shares, s.problem.ID)
	}
	list, sum := []hear.Candidate{}, 0.0
	for _, p := range s.a.book.Problems {
		list = append(list, hear.Candidate{ID: p.ID, Share: shares[p.ID]})
		sum += shares[p.ID]
	}
	slices.SortStableFunc(list, func(a, b hear.Candidate) int { return cmp.Compare(b.Share, a.Share) })
	switch {
	case !told || sum == 0:
		return nil
	case list[0].Share < soundsFaint*sum:
		return s.fromStep(sp.Words)
	case list[0].Share >= soundsAlone*sum && list[0].Share >= 2*list[1].Share:
		next := Act{Do: doChoose, Not: []string{list[0].ID}}
		for _, c := range list[1:min(1+mostLikely, len(list))] {
			next.IDs = append(next.IDs, c.ID)
		}
		return s.soundsLike(list[0].ID, next)
	}
	choose := Act{Do: doChoose}
	for _, c := range list[:min(mostLikely, len(list))] {
		if c.Share >= soundsOffered*sum {
			choose.IDs = append(choose.IDs, c.ID)
		}
	}
	return []Act{choose}
}

// fromStep asks at which step it is, or in a build offers the troubles of the one
// at hand.
func (s *state) fromStep(words string) []Act {
	step := s.atHand()
	i := slices.IndexFunc(s.a.book.Problems, func(p *book.Problem) bool { return step != nil && p.Step == step })
	if i >= 0 {
		if choose := s.chooseAt(s.a.book.Problems[i].Stage, words, nil); len(choose.IDs) > 0 {
			return []Act{choose}
		}
	}
	return []Act{{Do: doWhichStep, ID: words}}
}

// soundsLikeHurt gives the emergency that a description may be of, or "".
func (s *state) soundsLikeHurt(words string) string {
	likeliest, hurt, sum := "", 0.0, 0.0
	for _, c := range s.a.hearing.Rank(words) {
		sum += c.Share
		if s.a.book.EmergencyByID(c.ID) == nil {
			continue
		}
		if hurt += c.Share; likeliest == "" { // they come likelier first
			likeliest = c.ID
		}
	}
	if hurt < soundsHurt*sum {
		return ""
	}
	return likeliest
}
