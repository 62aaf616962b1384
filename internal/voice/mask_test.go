package voice

import (
	"math"
	"testing"
)

// The hiss lies as far under the speech as it says, and comes out the same each
// time.
func TestMasked(t *testing.T) {
	sound := make([]int16, 2*Rate)
	for i := range sound[:Rate] { // a tone, then silence
		sound[i] = int16(8000 * math.Sin(float64(i)*2*math.Pi*440/Rate))
	}
	once, twice := masked(sound), masked(sound)
	hiss := make([]int16, len(sound))
	for i := range sound {
		if once[i] != twice[i] {
			t.Fatal("it is another hiss each time")
		}
		hiss[i] = once[i] - sound[i]
	}
	if under := level(sound[:Rate]) - level(hiss); math.Abs(under-hissUnder) > 0.5 {
		t.Errorf("the hiss lies %.1f dB under the tone, want %d", under, hissUnder)
	}
	if n := len(masked(nil)); n != 0 {
		t.Errorf("of nothing it made %d samples", n)
	}
}

// What is louder than the room counts, however loud the room is.
func TestSounding(t *testing.T) {
	for name, room := range map[string]float64{"silence": 0, "a quiet room": 20, "a loud room": 1500} {
		sound := make([]int16, Rate)
		for i := range sound {
			loud := room
			if i >= Rate/4 && i < Rate/2 {
				loud += 8000
			}
			sound[i] = int16(loud * math.Sin(float64(i)*2*math.Pi*440/Rate))
		}
		if n := sounding(sound); n < 24 || n > 27 {
			t.Errorf("%s: %d frames of 25 sound", name, n)
		}
	}
	if n := sounding(nil); n != 1 {
		t.Errorf("of nothing %d frames sound", n)
	}
}
