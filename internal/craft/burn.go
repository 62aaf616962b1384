package craft

import "math"

// Bounds of the burn times in seconds. The equations were fitted to contacts
// of seconds to hours; past these ends only the bound is given.
const (
	ShortestBurn = 0.1
	LongestBurn  = 8 * 3600.0
)

// Burns holds how long skin may touch a hot solid before it is hurt, in
// seconds. ShortestBurn means that or less, LongestBurn that or more.
type Burns struct {
	Reversible   float64 // pain and redness that heal
	Irreversible float64 // lasting harm
}

// BurnTimes gives the contact times for a solid surface of celsius degrees C.
// Gelatin clings and goes on heating, so for hot gelatin the true times are
// shorter.
// Source: ASTM C1055, equations for the two thresholds (from memory, checked
// against the table of Moritz and Henriques 1947), inverted by halving.
func BurnTimes(celsius float64) (Burns, error) {
	if err := hotSound(celsius); err != nil {
		return Burns{}, err
	}
	return Burns{
		Reversible:   secondsUntil(celsius, reversibleAt),
		Irreversible: secondsUntil(celsius, irreversibleAt),
	}, nil
}

// reversibleAt gives the temperature that reddens skin after so many seconds.
func reversibleAt(seconds float64) float64 {
	u := math.Log(1000 * seconds)
	return 39.468 - 0.41352*u + 190.60/u
}

// irreversibleAt gives the temperature that harms skin for good.
func irreversibleAt(seconds float64) float64 {
	u := math.Log(1000 * seconds)
	return 15.005 + 0.51907*u + 352.97/u
}

// secondsUntil inverts a threshold, which falls over the whole of the bounds.
func secondsUntil(celsius float64, threshold func(float64) float64) float64 {
	low, high := math.Log(ShortestBurn), math.Log(LongestBurn)
	switch {
	case celsius >= threshold(ShortestBurn):
		return ShortestBurn
	case celsius <= threshold(LongestBurn):
		return LongestBurn
	}
	for range 60 {
		middle := (low + high) / 2
		if threshold(math.Exp(middle)) > celsius {
			low = middle
		} else {
			high = middle
		}
	}
	return math.Exp(low) // the shorter side, to be safe
}

// Level is how a contact is to be taken.
type Level uint8

// The levels, from harmless up.
const (
	NoHarm Level = iota
	Care
	Stop
)

// String gives "none", "care" or "stop".
func (l Level) String() string {
	switch l {
	case NoHarm:
		return "none"
	case Care:
		return "care"
	}
	return "stop"
}

// careAbove, in degrees C, is the warmest that may be put on skin: under every
// burn limit with room to spare (ISO 13732-1 gives 43 for eight hours).
const careAbove = 40.0

// Contact says how to take skin touching something of celsius degrees C for
// so many seconds: stop when it can redden the skin, care above 40.
func Contact(celsius, seconds float64) (Level, error) {
	err := firstOf(hotSound(celsius), notNegative("time of contact", seconds, 7*24*3600, "seconds"))
	if err != nil {
		return Stop, err
	}
	switch {
	case celsius <= careAbove:
		return NoHarm, nil
	case celsius >= reversibleAt(math.Max(seconds, ShortestBurn)):
		return Stop, nil
	}
	return Care, nil
}

func hotSound(celsius float64) error {
	return within("temperature of what touches the skin", celsius, 0, 2000, "degrees C")
}
