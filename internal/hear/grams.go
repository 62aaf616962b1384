package hear

// The two kinds of feature, kept apart in the hash.
const (
	wordGram   = 'w'
	letterGram = 'l'
)

// The lengths of letter grams within a word, its two ends marked.
const (
	shortGram = 2
	longGram  = 5
)

// FNV-1a, 64 bits (Fowler, Noll and Vo): IETF draft-eastlake-fnv.
const (
	fnvOffset = 14695981039346656037
	fnvPrime  = 1099511628211
)

func hash(h uint64, text string) uint64 {
	for i := range len(text) {
		h = (h ^ uint64(text[i])) * fnvPrime
	}
	return h
}

// count lists the features of a text. New ones are added when learning, and
// left out otherwise.
func (b *bayes) count(words []token, learn bool) counts {
	grams := make([]int32, 0, 2*len(words))
	letters := make([]int32, 0, 20*len(words))
	before := uint64(0)
	for _, w := range words {
		own := hash(hash(fnvOffset, string(wordGram)), w.stem)
		grams = b.append(grams, own, learn)
		if before != 0 {
			grams = b.append(grams, hash(hash(before, " "), w.stem), learn)
		}
		before = own
		letters = b.appendLetters(letters, w.word, learn)
	}
	if learn {
		return counts{b.tallied(grams), b.tallied(letters)}
	}
	return counts{tally(grams), tally(letters)}
}

func (b *bayes) append(list []int32, key uint64, learn bool) []int32 {
	id, known := b.features[key]
	if !known {
		if !learn {
			return list
		}
		id = int32(len(b.features))
		b.features[key] = id
	}
	return append(list, id)
}

func (b *bayes) appendLetters(list []int32, word string, learn bool) []int32 {
	if known, ok := b.letters[word]; ok {
		return append(list, known...)
	}
	from := len(list)
	list = b.grams(list, word, learn)
	if learn {
		b.letters[word] = append([]int32(nil), list[from:]...)
	}
	return list
}

// grams cuts a word into letter grams by bytes, which for folded English is
// by letters.
func (b *bayes) grams(list []int32, word string, learn bool) []int32 {
	if len(word) > 40 {
		word = word[:40]
	}
	marked := " " + word + " "
	start := hash(fnvOffset, string(letterGram))
	for i := range len(marked) {
		h := start
		for n := 1; n <= longGram && i+n <= len(marked); n++ {
			h = (h ^ uint64(marked[i+n-1])) * fnvPrime
			if n >= shortGram {
				list = b.append(list, h, learn)
			}
		}
	}
	return list
}
