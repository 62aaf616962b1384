package diagnose

import (
	"cmp"
	"slices"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

// setUp is the minutes that beginning any remedy costs, however short it is:
// without it a two-minute remedy for an unlikely cause would come before the
// right one that takes an hour.
const setUp = 15

// unlikely is the share below which a cause is not worth a remedy yet.
const unlikely = 0.005

// savesWorth says how much of its worth a remedy has where the piece is lost.
var savesWorth = map[book.Saves]float64{"yes": 1, "partly": 0.85, "no": 0.7}

// Order lists the remedies that can still be tried, by the chance that they
// work over what they cost in minutes, as in Heckerman, Breese and Rommelse,
// "Decision-theoretic troubleshooting" (CACM 38(3), 1995). Remedies of causes
// with hardly any share are left out, unless nothing else is left. Those that
// take longer than the minutes that there are come after all that do not;
// within may be infinite.
func (m *Model) Order(s *logic.State, b Beliefs, tried []*book.Remedy, within float64) []*book.Remedy {
	type scored struct {
		r      *book.Remedy
		chance float64
		worth  float64
	}
	var all []scored
	for _, c := range m.Problem.Causes {
		for _, r := range c.Remedies {
			if slices.Contains(tried, r) || r.HasOnlyIf && s.Truth(r.OnlyIf) == logic.False {
				continue
			}
			chance := m.Chance(r, b)
			all = append(all, scored{r, chance, chance * savesWorth[r.Saves] / (setUp + r.Minutes)})
		}
	}
	slices.SortStableFunc(all, func(a, b scored) int {
		if fits := a.r.Minutes <= within; fits != (b.r.Minutes <= within) {
			return map[bool]int{true: -1, false: 1}[fits]
		}
		return cmp.Compare(b.worth, a.worth)
	})
	var out []*book.Remedy
	for i, x := range all {
		if i == 0 || x.chance >= unlikely || b[x.r.Cause.Index] >= unlikely {
			out = append(out, x.r)
		}
	}
	return out
}

// Chance is the chance that a remedy works, over all causes.
func (m *Model) Chance(r *book.Remedy, b Beliefs) float64 {
	var sum float64
	for c := range m.Problem.Causes {
		sum += b[c] * works(r, c)
	}
	return sum
}

// For gives the cause that a remedy is most likely to be of use for.
func (m *Model) For(r *book.Remedy, b Beliefs) int {
	best := r.Cause.Index
	for c := range m.Problem.Causes {
		if b[c]*works(r, c) > b[best]*works(r, best) {
			best = c
		}
	}
	return best
}

// Together lists the causes that should be named at once: the leading one,
// and a second that stays likely and that the first remedy does not answer.
func (m *Model) Together(s *logic.State, b Beliefs, first *book.Remedy) []int {
	lead := b.Leading()
	if lead == len(b)-1 {
		return nil
	}
	out := []int{lead}
	second := -1
	for c := range m.Problem.Causes {
		if c != lead && !m.ruledOut(s, c) && (second < 0 || b[c] > b[second]) && (b[c] >= 0.25 && b[c]+b[lead] >= 0.75 || b[c] >= unlikely && m.unexplained(s, c, lead)) {
			second = c
		}
	}
	if second < 0 || first != nil && works(first, second) > 0 && works(first, lead) > 0 {
		return out
	}
	return append(out, second)
}

// ruledOut reports whether an answer rules a cause out. It may still lead, as an
// answer can be wrong, but is not named beside another.
func (m *Model) ruledOut(s *logic.State, cause int) bool {
	return slices.ContainsFunc(m.Problem.Causes[cause].Signs, func(sign book.Sign) bool {
		return sign.Points == "rules out" && s.Truth(sign.When) == logic.True
	})
}

// unexplained reports whether a strong sign of a cause is true that the
// leading cause says nothing for: one cause alone would not have shown it.
func (m *Model) unexplained(s *logic.State, cause, lead int) bool {
	var explained []logic.FactID
	for _, sign := range m.Reasons(s, lead) {
		explained = append(explained, m.base.Mentions(sign.When)...)
	}
	for _, sign := range m.Reasons(s, cause) {
		strong := book.PointsDecibans[sign.Points] >= book.PointsDecibans["strongly for"]
		if strong && !slices.ContainsFunc(m.base.Mentions(sign.When), func(f logic.FactID) bool { return slices.Contains(explained, f) }) {
			return true
		}
	}
	return false
}
