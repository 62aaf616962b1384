package voice

import (
	"math"
	"slices"
	"strings"
)

// nats is what one unit of the library's scores is worth: its logarithms have
// the base 1.0001, and its scores are shifted right by ten bits.
var nats = 1024 * math.Log(1.0001)

// Weights of the chance that words are right, as a logistic regression on the
// trial's tuning voices gives them, with unrelated speech and noises as wrong:
// see the package voicetrial. What is measured is in nats a frame that sounds.
const (
	weighBase   = -2.85
	weighAbove  = 1.0  // how far they stand out from any sounds at all
	weighSpeech = 0.85 // how far any sounds do from a noise
	weighLength = 1.35 // how many phones they have: of a knock a short word is made
	leastAbove  = -5.0
	mostAbove   = 2.0
	mostSpeech  = 8.0
	mostPhones  = 10

	freeBase  = 2.0 // for descriptions
	freeAbove = 1.8 // in nats a frame
)

// worthFree is how far words have to stand out, in nats a frame, to be taken
// without looking whether it is rather a description: less where an answer is
// waited for.
const (
	worthFree      = -1.5
	worthFreeAsked = -2.3
)

// freeAhead is how far a description has to fit better than what is expected, in
// nats a frame: it has thousands of words to fit with.
const freeAhead = 0.4

// Words that are hardly ahead of others are never sure, however well they fit:
// seventeen is as near to seventy as that.
const (
	hardlyAhead = 0.1 // nats a frame
	teenAhead   = 0.8 // for -teen where it may be -ty: that is heard for it far more often than it for that
	hardlySure  = 0.5
)

// leastFree is how many words a description has: of a cough a word is made, too.
const leastFree = 3

// above is how far the words stand out from any sounds at all, in nats a frame.
func (f *finding) above() float64 {
	return float64(f.Sound-f.Loop) * nats / float64(max(1, f.Frames))
}

// judge makes of the scores what was heard, and how surely.
func judge(e Expected, look finding, d *Dictionary) Heard {
	a := nats / float64(max(1, look.Sounding)) // to nats a frame that sounds
	h := Heard{Words: look.Best, Free: look.Free, Above: float64(look.Sound-look.Loop) * a, Speech: float64(look.Loop-look.Noise) * a}
	if h.Words == "" {
		return Heard{}
	}
	alarm := alarmLike(look.Loose, e.Alarms, d)
	if alarm != "" {
		h.Others = []string{alarm}
	}
	if h.Free {
		h.Sure = chance(freeBase + freeAbove*look.above())
		return cautiously(e, h)
	}
	h.Phones = len(d.sound(h.Words))
	h.Sure = chance(weighBase + weighAbove*max(leastAbove, min(h.Above, mostAbove)) + weighSpeech*max(0, min(h.Speech, mostSpeech)) +
		weighLength*float64(min(h.Phones, mostPhones))/mostPhones)
	if look.Rival != "" {
		h.Others = append(h.Others, look.Rival)
		h.Lead = float64(look.Sound-look.Against) * nats / float64(max(1, look.Frames))
		if h.Lead < hardlyAhead || h.Lead < teenAhead && teenForTy(h.Words, look.Rival) {
			h.Sure = min(h.Sure, hardlySure)
		}
	}
	if alarm != "" && alarm != h.Words {
		h.Sure = min(h.Sure, hardlySure) // an alarm is never passed over for what is sure
	}
	return cautiously(e, h)
}

// teenForTy reports whether words are others with -teen in place of -ty.
func teenForTy(words, others string) bool { return words != others && tyOf(words) == others }

// tyOf gives words with -ty in place of -teen.
func tyOf(words string) string {
	return strings.ReplaceAll(strings.ReplaceAll(words, "teen", "ty"), "fourty", "forty")
}

// cautious is how sure words have to be that were said while a reply was
// being spoken: it may be the reply itself that is heard. An alarm is let
// through, to be asked about.
const cautious = 0.85

func cautiously(e Expected, h Heard) Heard {
	alarm := func(words string) bool { return slices.Contains(e.Alarms, words) }
	if e.Cautious && h.Sure < cautious && !alarm(h.Words) && !slices.ContainsFunc(h.Others, alarm) {
		return Heard{}
	}
	return h
}

func chance(x float64) float64 { return 1 / (1 + math.Exp(-x)) }
