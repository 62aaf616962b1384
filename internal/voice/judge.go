package voice

import (
	"math"
	"slices"
)

// nats is what one unit of the library's scores is worth: its logarithms have
// the base 1.0001, and its scores are shifted right by ten bits.
var nats = 1024 * math.Log(1.0001)

// Weights of the chance that words are right, as a logistic regression on the
// trial's tuning voices gives them, clean and at 20 dB, with unrelated speech
// and noises as wrong: see the package voicetrial.
const (
	weighBase  = 0.9
	weighAbove = 1.8
	weighLead  = 2.6
	mostLead   = 1.0 // nats a frame, either way; more says no more
	weighFree  = 2.0 // in place of base and lead, for descriptions
)

// worthFree is how far words have to stand out, in nats a frame, to be taken
// without looking whether it is rather a description.
const worthFree = -1.0

// freeAhead is how far a description has to fit better than what is expected, in
// nats a frame: it has thousands of words to fit with.
const freeAhead = 0.4

// Words that are hardly ahead of others are never sure, however well they fit:
// seventeen is as near to seventy as that.
const (
	hardlyAhead = 0.1 // nats a frame
	hardlySure  = 0.7
)

// leastFree is how many words a description has: of a cough a word is made, too.
const leastFree = 3

// above is how far the words stand out from any sounds at all, in nats a frame.
func (f *finding) above() float64 {
	return float64(f.Sound-f.Loop) * nats / float64(max(1, f.Frames))
}

// judge makes of the scores what was heard, and how surely.
func judge(e Expected, look, rival finding) Heard {
	h := Heard{Words: look.Best.Words, Above: look.above(), Free: look.Free}
	switch {
	case h.Words == "":
		return Heard{}
	case h.Free:
		h.Sure = chance(weighFree + weighAbove*h.Above)
		return h
	}
	h.Lead = mostLead
	if other := rival.Best; other.Words != "" {
		h.Lead = float64(look.Best.Score-other.Score) * nats / float64(max(1, look.Frames))
		h.Others = []string{other.Words}
	}
	h.Sure = chance(weighBase + weighAbove*h.Above + weighLead*max(-mostLead, min(h.Lead, mostLead)))
	if h.Lead < hardlyAhead {
		h.Sure = min(h.Sure, hardlySure)
	}
	if e.Cautious && h.Sure < cautiously && !slices.Contains(e.Alarms, h.Words) {
		return Heard{}
	}
	return h
}

// cautiously is how sure words have to be that were said while a reply was
// being spoken: it may be the reply itself that is heard. An alarm is let
// through, to be asked about.
const cautiously = 0.85

func chance(x float64) float64 { return 1 / (1 + math.Exp(-x)) }
