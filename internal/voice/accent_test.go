package voice

import "testing"

// The ways without r are those of British dictionaries as near as the phones
// come, from memory.
func TestWithoutR(t *testing.T) {
	for way, want := range map[string]string{
		"P L AE S T ER":         "P L AE S T AH",
		"W AO R T":              "W AO T",
		"HH IY R":               "HH IY AH",
		"R AH N IH NG":          "R AH N IH NG",
		"V EH R IY":             "V EH R IY",
		"W AO T ER IH NG":       "W AO T ER IH NG",
		"P UH R D":              "P UH AH D",
		"AA R":                  "AA",
		"K AH L ER Z":           "K AH L AH Z",
		"M IH L AH M IY T ER Z": "M IH L AH M IY T AH Z",
	} {
		if got := withoutR(way); got != want {
			t.Errorf("%s: %s, want %s", way, got, want)
		}
	}
	if got := accents([]string{"W AO R T", "W AO T"}); len(got) != 2 {
		t.Errorf("a way is there twice: %q", got)
	}
}
