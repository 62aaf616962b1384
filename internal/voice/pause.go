package voice

import "time"

// Pauses in an utterance. A phrase that is whole and can't go on needs little
// silence to be over; one that is not yet whole is waited for.
const (
	firstLook   = 100 * time.Millisecond // then what there is is decoded
	shortPause  = 240 * time.Millisecond // ends a whole phrase
	middlePause = 450 * time.Millisecond // ends one that could go on
	longPause   = 750 * time.Millisecond // ends anything
)

// pause follows speech and silence in an utterance, in samples.
type pause struct {
	total  int
	spoken int // where speech was last
	looked int // what the last look was of
}

func (p *pause) add(samples int, speech bool) {
	p.total += samples
	if speech {
		p.spoken = p.total
	}
}

func samples(d time.Duration) int { return int(d * Rate / time.Second) }

// worthALook reports, once for each pause, that it is time to decode.
func (p *pause) worthALook() bool {
	if p.spoken <= p.looked || p.total-p.spoken < samples(firstLook) {
		return false
	}
	p.looked = p.total
	return true
}

// over reports whether the utterance has ended, when heard is what was made
// of all its speech, or nothing if that is not known yet.
func (p *pause) over(g *graph, heard Heard) bool {
	silence := p.total - p.spoken
	if p.total >= samples(LongestUtterance) || silence >= samples(longPause) {
		return true
	}
	if heard.Words == "" || heard.Free || heard.Sure < 0.5 {
		return false
	}
	whole, more := g.stands(heard.Words)
	return whole && (silence >= samples(middlePause) || !more && silence >= samples(shortPause))
}
