package hear

import (
	"cmp"
	"math"
	"slices"
)

// bayes is naive Bayes of a class against its complement over tf-idf of word
// 1-2-grams and of the letter 2-5-grams within words, each block scaled to
// length 1.
//
// The weight of a feature for a class is the logarithm of its share in that
// class less the logarithm of its share in all others. The second half alone
// is complement naive Bayes (Rennie, Shih, Teevan and Karger, "Tackling the
// poor assumptions of naive Bayes text classifiers", ICML 2003); measured on
// the sayings, both halves together are right more often and better
// calibrated.
//
// Most features never occur in a class, and then its weight differs from the
// shared one only by the totals of the class; so only the differences are
// kept, feature by feature.
type bayes struct {
	features map[uint64]int32
	idf      []float32
	base     []float32 // by class: what each unit of feature weight adds
	starts   []int32   // by feature: its part of classes and extra
	classes  []int16
	extra    []float32
	letters  map[string][]int32 // known words: their letter features
	seen     []int32            // by feature, while learning
}

// The counts given to every feature in advance: in every complement, and in
// every class.
const (
	smoothing    = 1.0
	ownSmoothing = 0.2
)

// sample is one saying to learn from.
type sample struct {
	class int
	words []token
}

// train learns from samples of classes 0 to n-1. Equal input gives an equal
// result, bit for bit.
func train(samples []sample, n int) *bayes {
	b, _ := learn(samples, n)
	return b
}

// learn is train that also gives the features of each sample, scaled.
func learn(samples []sample, n int) (*bayes, []counts) {
	b := &bayes{features: make(map[uint64]int32, 32*len(samples)), letters: make(map[string][]int32, 2*len(samples))}
	docs := make([]counts, len(samples))
	for i, s := range samples {
		docs[i] = b.count(s.words, true)
	}
	b.weighIdf(docs)
	sums := make([][]entry, n)
	acc := newAccumulator(len(b.idf))
	for _, class := range byClass(samples, n) {
		for _, i := range class.samples {
			b.scale(&docs[i])
			acc.addAll(docs[i].words)
			acc.addAll(docs[i].letters)
		}
		sums[class.id] = acc.take(evened(len(class.samples)))
	}
	b.fill(sums)
	b.seen = nil
	return b, docs
}

// evenSize is how many samples a class may have before they count for less: a
// class with many sayings, such as shop talk, must not win by its size.
const evenSize = 400

func evened(samples int) float32 {
	return float32(min(1, evenSize/float64(max(1, samples))))
}

type classSamples struct {
	id      int
	samples []int
}

func byClass(samples []sample, n int) []classSamples {
	groups := make([]classSamples, n)
	for c := range groups {
		groups[c].id = c
	}
	for i, s := range samples {
		groups[s.class].samples = append(groups[s.class].samples, i)
	}
	return groups
}

// fill computes the weights from the summed feature values of each class.
func (b *bayes) fill(sums [][]entry) {
	total := make([]float64, len(b.idf))
	own := make([]float64, len(sums))
	all := 0.0
	b.starts = make([]int32, len(b.idf)+1)
	for c, list := range sums {
		for _, e := range list {
			total[e.feature] += float64(e.value)
			own[c] += float64(e.value)
			b.starts[e.feature+1]++
		}
		all += own[c]
	}
	b.base = make([]float32, len(sums))
	for c := range sums {
		v := float64(len(b.idf))
		b.base[c] = float32(math.Log(all-own[c]+smoothing*v) - math.Log(own[c]+ownSmoothing*v))
	}
	for i := range b.idf {
		b.starts[i+1] += b.starts[i]
	}
	b.place(sums, total)
}

// place lays the differences out feature by feature, classes in order.
func (b *bayes) place(sums [][]entry, total []float64) {
	n := b.starts[len(b.idf)]
	b.classes, b.extra = make([]int16, n), make([]float32, n)
	next := slices.Clone(b.starts)
	for c, list := range sums {
		for _, e := range list {
			t, n := total[e.feature], float64(e.value)
			at := next[e.feature]
			next[e.feature]++
			b.classes[at] = int16(c)
			b.extra[at] = float32(math.Log((t + smoothing) / (t - n + smoothing) * (n + ownSmoothing) / ownSmoothing))
		}
	}
}

// scores gives the weight of the words for each class: greater is likelier.
// Differences between classes are what counts.
func (b *bayes) scores(words []token) []float64 { return b.weigh(b.document(words)) }

// document gives the features of words, scaled.
func (b *bayes) document(words []token) counts {
	doc := b.count(words, false)
	b.scale(&doc)
	return doc
}

func (b *bayes) weigh(doc counts) []float64 {
	scores := make([]float64, len(b.base))
	mass := 0.0
	for _, block := range [][]entry{doc.words, doc.letters} {
		for _, e := range block {
			mass += float64(e.value)
			for i := b.starts[e.feature]; i < b.starts[e.feature+1]; i++ {
				scores[b.classes[i]] += float64(e.value) * float64(b.extra[i])
			}
		}
	}
	for c := range scores {
		scores[c] += mass * float64(b.base[c])
	}
	return scores
}

// shares turns scores into probabilities; sharp is the inverse temperature.
func shares(scores []float64, sharp float64) []float64 {
	if len(scores) == 0 {
		return nil
	}
	top := slices.Max(scores)
	sum := 0.0
	out := make([]float64, len(scores))
	for c, s := range scores {
		out[c] = math.Exp(sharp * (s - top))
		sum += out[c]
	}
	for c := range out {
		out[c] /= sum
	}
	return out
}

// weighIdf sets each feature's weight by how few samples hold it.
func (b *bayes) weighIdf(docs []counts) {
	b.idf = make([]float32, len(b.features))
	for _, d := range docs {
		for _, e := range d.words {
			b.idf[e.feature]++
		}
		for _, e := range d.letters {
			b.idf[e.feature]++
		}
	}
	for i, df := range b.idf {
		b.idf[i] = float32(math.Log(float64(1+len(docs))/(1+float64(df))) + 1)
	}
}

// scale turns counts into tf-idf of length 1, block by block.
func (b *bayes) scale(d *counts) {
	for _, block := range [][]entry{d.words, d.letters} {
		square := 0.0
		for i, e := range block {
			weight := b.idf[e.feature]
			if e.value > 1 {
				weight *= float32(1 + math.Log(float64(e.value)))
			}
			block[i].value = weight
			square += float64(block[i].value) * float64(block[i].value)
		}
		if square == 0 {
			continue
		}
		norm := float32(1 / math.Sqrt(square))
		for i := range block {
			block[i].value *= norm
		}
	}
}

// entry is a feature with its count or weight.
type entry struct {
	feature int32
	value   float32
}

// counts holds the features of one text.
type counts struct{ words, letters []entry }

// tally turns a list of features into entries, sorted.
func tally(features []int32) []entry {
	slices.Sort(features)
	entries := make([]entry, 0, len(features))
	for _, f := range features {
		if n := len(entries); n > 0 && entries[n-1].feature == f {
			entries[n-1].value++
			continue
		}
		entries = append(entries, entry{f, 1})
	}
	return entries
}

// tallied is tally without sorting, for the learner alone: entries come in the
// order in which the features are first met.
func (b *bayes) tallied(features []int32) []entry {
	if n := len(b.features); n > len(b.seen) {
		b.seen = append(b.seen, make([]int32, n)...)
	}
	entries := make([]entry, 0, len(features))
	for _, f := range features {
		if b.seen[f] == 0 {
			entries = append(entries, entry{f, 0})
		}
		b.seen[f]++
	}
	for i := range entries {
		f := entries[i].feature
		entries[i].value, b.seen[f] = float32(b.seen[f]), 0
	}
	return entries
}

// accumulator sums entries of many texts.
type accumulator struct {
	sum     []float32
	touched []int32
}

func newAccumulator(n int) *accumulator { return &accumulator{sum: make([]float32, n)} }

func (a *accumulator) addAll(entries []entry) {
	for _, e := range entries {
		if a.sum[e.feature] == 0 {
			a.touched = append(a.touched, e.feature)
		}
		a.sum[e.feature] += e.value
	}
}

// take gives the sums times a factor, and begins anew.
func (a *accumulator) take(factor float32) []entry {
	list := make([]entry, len(a.touched))
	for i, f := range a.touched {
		list[i] = entry{f, a.sum[f] * factor}
		a.sum[f] = 0
	}
	a.touched = a.touched[:0]
	return list
}

// ordered sorts candidates best first, equal ones by id.
func ordered(list []Candidate) []Candidate {
	slices.SortStableFunc(list, func(a, b Candidate) int {
		if a.Share != b.Share {
			return cmp.Compare(b.Share, a.Share)
		}
		return cmp.Compare(a.ID, b.ID)
	})
	return list
}
