package hear

import (
	"fmt"
	"testing"
)

// timed gives what a meaning says of timers, in one form that tests can compare.
func timed(m Meaning) string {
	t := m.Timer
	if t == nil {
		return ""
	}
	out := "set"
	switch {
	case t.All:
		out = "stop all"
	case t.Stop:
		out = "stop"
	case t.More:
		out = "more"
	}
	if t.Minutes > 0 {
		out += fmt.Sprintf(" %g", t.Minutes)
	}
	if c := t.Clock; c != nil {
		out += fmt.Sprintf(" at %d:%02d", c.Minute/60, c.Minute%60)
		if !c.Half {
			out += " sharp"
		}
	}
	if t.Name != "" {
		out += ": " + t.Name
	}
	return out
}

func TestTimers(t *testing.T) {
	h := New(realBook(t))
	for words, want := range map[string]string{
		"tell me in ten minutes to stir":                                   "set 10: stir",
		"tell me in ten minutes to stir the gelatin":                       "set 10: stir the gelatin",
		"set a timer for 20 minutes":                                       "set 20",
		"set a 20 minute timer":                                            "set 20",
		"timer five minutes for the jug":                                   "set 5: the jug",
		"remind me at quarter past eight to check the plaster":             "set at 8:15: check the plaster",
		"remind me to check the plaster at quarter past eight":             "set at 8:15: check the plaster",
		"remind me at 19:30 to glue":                                       "set at 19:30 sharp: glue",
		"give me a shout in an hour and a half":                            "set 90",
		"give me a shout in an hour and a quarter":                         "set 75",
		"wake me when half an hour is up":                                  "set 30",
		"give me a shout when ten minutes are up":                          "set 10",
		"twenty minute timer":                                              "set 20",
		"a twenty minute timer please":                                     "set 20",
		"ping me in 90 seconds":                                            "set 1.5",
		"set a timer, 20 mins pls":                                         "set 20",
		"Can you set a timer 20 minutes? I have wet hands":                 "set 20",
		"set a timer for twenty five minutes will you":                     "set 25",
		"set a timer for ten":                                              "set 10",
		"set an alarm for six":                                             "set at 6:00",
		"remind me at six":                                                 "set at 6:00",
		"remind me tomorrow at seven to soak the gelatin":                  "set at 7:00: soak the gelatin",
		"could you tell me in three quarters of an hour to turn the mould": "set 45: turn the mould",
		"hey, let me know in 5 min":                                        "set 5",
		"ping me in ten minutes so I can stir":                             "set 10: stir",
		"set the jug five minute timer":                                    "set 5: jug",
		"can you time fifteen minutes for me":                              "set 15",
		"let me know when it's been forty minutes":                         "set 40",
		"what timer":                                                         "",
		"time flies":                                                         "",
		"it's been ten minutes":                                              "",
		"set a timer":                                                        "set",
		"start a timer for the soaking":                                      "set: the soaking",
		"set the jug timer for five minutes":                                 "set 5: jug",
		"put ten minutes on the timer":                                       "set 10",
		"I need a timer for the plaster, twelve minutes":                     "set 12: the plaster",
		"set a timer for the jug for five minutes":                           "set 5: the jug",
		"set an hour and twenty minutes timer called oven":                   "set 80: oven",
		"remind me at ten past":                                              "set",
		"it was a false alarm":                                               "",
		"remind me to check the plaster":                                     "set: check the plaster",
		"warn me in a couple of minutes":                                     "set 2",
		"the powder is in the bowl, set a timer for four minutes":            "set 4",
		"stop the timer":                                                     "stop",
		"ok stop the timer please":                                           "stop",
		"cancel the stirring timer":                                          "stop: stirring",
		"cancel the timer for the jug":                                       "stop: the jug",
		"stop all timers":                                                    "stop all",
		"stop all the timers":                                                "stop all",
		"turn off the alarm":                                                 "stop",
		"turn the timer off":                                                 "stop",
		"never mind the plaster timer":                                       "stop: plaster",
		"stop beeping":                                                       "stop",
		"ten more minutes":                                                   "more 10",
		"five more minutes please":                                           "more 5",
		"give it another ten":                                                "more 10",
		"give it another half hour":                                          "more 30",
		"another quarter of an hour":                                         "more 15",
		"add five minutes to the timer":                                      "more 5",
		"I need ten more minutes":                                            "more 10",
		"in ten minutes":                                                     "",
		"it set in ten minutes":                                              "",
		"it sets in ten minutes":                                             "",
		"the plaster set after ten minutes":                                  "",
		"how long until it sets":                                             "",
		"I have ten minutes left":                                            "",
		"I have ten more minutes":                                            "",
		"the call is in an hour":                                             "",
		"keep an eye on the timer":                                           "",
		"The alarm's set for twenty past so I don't miss the unmould":        "",
		"stood it in the fridge, timer on for half an hour":                  "",
		"I set a timer for ten minutes and it is still soft":                 "",
		"the timer rang ten minutes ago and the plaster is still mush":       "",
		"the timer for the plaster went off and it's still soft":             "",
		"we set off the fire alarm test every Friday":                        "",
		"stop the fire alarm":                                                "",
		"remind me what goes in first, the glycerin or the gelatin":          "",
		"tell me how long it takes to set":                                   "",
		"tell me how much it loses in ten minutes":                           "",
		"tell me when it's ready":                                            "",
		"tell me what to do":                                                 "",
		"let it set for ten minutes":                                         "",
		"it went stiff in two minutes":                                       "",
		"stir it for ten minutes":                                            "",
		"it needs 10 more grams":                                             "",
		"another ten grams of gelatin":                                       "",
		"give me another":                                                    "",
		"warn me ten minutes before it sets":                                 "",
		"should I give it ten more minutes":                                  "",
		"how long is left on the timer":                                      "",
		"stop the plaster running out":                                       "",
		"turn off the heat":                                                  "",
		"it started bubbling after five minutes in the microwave":            "",
		"the cast came out of the fridge after twenty minutes and it's soft": "",
		"he told me in ten minutes he goes on":                               "",
	} {
		if got := timed(h.Hear(Context{}, words)); got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}

// An emergency goes before a timer; a trouble is heard beside one.
func TestTimersBesideOthers(t *testing.T) {
	h := New(realBook(t))
	if m := h.Hear(Context{}, "set a timer, my hand is burnt"); m.Emergency == "" || m.Timer != nil {
		t.Errorf("a burn beside a timer meant %+v", m)
	}
	m := h.Hear(Context{}, "plaster is running out under the wall, set a timer for ten minutes")
	if m.Problem != "dam-leaks" || timed(m) != "set 10" {
		t.Errorf("a leak beside a timer meant %q and %q", m.Problem, timed(m))
	}
}
