package browsertest

import "testing"

// The page's own sounds differ in their rhythm, so that pitch is not needed to
// tell them apart.
func TestSoundsDifferInRhythm(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	var rhythms map[string][][2]int // per sound: tenths of a second from the start, and of length
	s.eval(`import("/js/sound.js").then(({SOUNDS}) => Object.fromEntries(Object.entries(SOUNDS).map(([name, tones]) =>
		[name, tones.map(([from, , long]) => [from, long].map(x => Math.round(10 * x)))])))`, &rhythms)
	if len(rhythms) < 5 {
		t.Fatalf("only %d sounds", len(rhythms))
	}
	for a, one := range rhythms {
		for b, other := range rhythms {
			if a < b && len(one) == len(other) && one[0][1] == other[0][1] {
				t.Errorf("%s and %s have one rhythm: %v", a, b, one)
			}
		}
	}
}
