// Package voice turns sound into words, on this machine: recognisers behind
// one small interface. It knows which words may be said, and nothing of what
// they mean.
package voice

import (
	"context"
	"errors"
	"time"
)

// Rate is the samples a second of all sound here: 16-bit, one channel.
const Rate = 16000

// LongestUtterance bounds one utterance. What is said after it is not heard.
const LongestUtterance = 15 * time.Second

// Expected is what may be said now. All texts are lower case words without
// digits; a word that no dictionary knows takes its phrase out.
type Expected struct {
	Answers  []string // to the question in force, in full
	Number   bool     // a number is asked for
	Units    []string // in which it may be told, plural; none for a count
	Clock    bool     // a time of day will do as well
	High     float64  // the highest number that is believable, in the first unit; 0 is open
	Commands []string
	Timers   []string // what a timer may be for
	Alarms   []string // that somebody is hurt, or about to be
	Steps    []string // steps that may be gone to
	Openings []string // troubles in the makers' own words: a description may be like them
	Cautious bool     // it began while a reply was being spoken: take less for words

	// Means gives the same word for phrases that mean the same, "" where it
	// can't tell; nil where it never can. It is called from any goroutine.
	Means func(phrase string) string
}

// same reports whether two phrases are known to mean the same.
func (e Expected) same(a, b string) bool {
	if a == b {
		return true
	}
	if e.Means == nil {
		return false
	}
	means := e.Means(a)
	return means != "" && means == e.Means(b)
}

// Heard is what was made of one utterance.
type Heard struct {
	Words  string   // "" where nothing could be made out
	Sure   float64  // 0..1, as near to the chance of being right as was found
	Free   bool     // a description, not one of the phrases expected
	Others []string // other readings, likelier first, at most 3

	// What Sure was made of, for the trial: how far the words stand out from any
	// sounds at all, and those from mere noise, in nats a frame of 10 ms that
	// sounds; how far the words are ahead of the next reading, in nats a frame; and
	// how many phones they have.
	Above, Speech, Lead float64
	Phones              int
}

// Recogniser makes words of sound. It is safe for concurrent use.
type Recogniser interface {
	// Name says what recognises, for the page: "PocketSphinx on this machine".
	Name() string
	// Listen begins an utterance. The error is ErrBusy where too many are
	// being listened to, and for the maker in any case.
	Listen(ctx context.Context, e Expected) (Utterance, error)
	// Close ends what runs.
	Close() error
}

// Utterance is one being listened to. It is used by one goroutine.
type Utterance interface {
	// Write takes sound, and whether it was taken for speech. It does not
	// wait, and reports whether the utterance is over.
	Write(pcm []int16, speech bool) (over bool, err error)
	// SoFar gives what was made out at the last pause, or "".
	SoFar() string
	// End ends it and waits for the words.
	End() (Heard, error)
	// Drop ends it without.
	Drop()
}

// Errors of recognisers, for the maker.
var (
	ErrClosed = errors.New("listening is over: the server is going down")
	ErrBusy   = errors.New("too many people are being listened to at once: type it, or say it again in a moment")
	ErrStuck  = errors.New("the recogniser got stuck and was ended: say it again")
)
