package voice

import (
	"math"
	"slices"
)

// A frame is louder than the room where its level is past this share of the way,
// in decibels, from the room's to the loudest frame's. No more than a tenth of
// an utterance is as quiet as the room is taken to be.
const (
	soundingShare = 0.35
	roomShare     = 0.1
)

// sounding counts the frames of 10 ms that are louder than the room, at least
// one. In a short word the silence around it is most of the sound, so what it is
// measured by counts for these frames only.
func sounding(sound []int16) int {
	var levels []float64
	for frame := range slices.Chunk(sound, Rate/100) {
		levels = append(levels, level(frame))
	}
	if len(levels) == 0 {
		return 1
	}
	slices.Sort(levels)
	room, loudest := levels[int(roomShare*float64(len(levels)))], levels[len(levels)-1]
	above, _ := slices.BinarySearch(levels, room+soundingShare*(loudest-room))
	return max(1, len(levels)-above)
}

// level gives the mean power of some samples in decibels.
func level(samples []int16) float64 {
	sum := 1.0 // digital silence has a level too
	for _, s := range samples {
		sum += float64(s) * float64(s)
	}
	return 10 * math.Log10(sum/float64(len(samples)))
}
