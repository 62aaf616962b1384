package voice

import "testing"

// scored makes a finding of a second of sound, in nats a frame.
func scored(words string, above, speech float64) finding {
	score := func(nat float64) int { return int(nat * 100 / nats) }
	return finding{Samples: Rate, Frames: 100, Sounding: 100, Best: words, Sound: score(above), Loop: 0, Noise: -score(speech)}
}

// What fits ill, what may as well be a noise and what is very short is less sure.
func TestJudgeIsLessSure(t *testing.T) {
	d := smallDictionary(t)
	sure := func(f finding) float64 { return judge(Expected{}, f, d).Sure }
	well := sure(scored("smooth powder step", 0, 4))
	if well < 0.7 {
		t.Errorf("what fits well is sure to %.2f", well)
	}
	for name, f := range map[string]finding{
		"fits ill":        scored("smooth powder step", -2, 4),
		"may be a noise":  scored("smooth powder step", 0, 1),
		"fits not at all": scored("smooth powder step", -100000, 4),
	} {
		if got := sure(f); got >= well-0.2 {
			t.Errorf("what %s is sure to %.2f, else to %.2f", name, got, well)
		}
	}
	if h := judge(Expected{}, scored("", 0, 4), d); h.Words != "" || h.Sure != 0 {
		t.Errorf("of no words it made %+v", h)
	}
}

// -teen is asked about where it may be -ty, unless it is far ahead.
func TestTeenForTy(t *testing.T) {
	d := smallDictionary(t)
	for _, c := range []struct {
		words, others string
		lead          float64
		hardly        bool
	}{
		{"fourteen grams", "forty grams", 0.5, true},
		{"fourteen grams", "forty grams", 0.9, false},
		{"forty grams", "fourteen grams", 0.5, false},
		{"forty grams", "fourteen grams", 0.05, true},
		{"two hundred and fifteen", "two hundred and fifty", 0.5, true},
		{"eighteen", "eighty", 0.5, true},
		{"thirteen", "thirty", 0.5, true},
		{"seventeen millimetres", "fourteen millimetres", 0.5, false},
	} {
		f := scored(c.words, 0.5, 4)
		f.Rival, f.Against = c.others, scored(c.others, 0.5-c.lead, 4).Sound
		h := judge(Expected{}, f, d)
		if (h.Sure <= hardlySure) != c.hardly || len(h.Others) != 1 || h.Others[0] != c.others {
			t.Errorf("%s, %g ahead of %s: %+v", c.words, c.lead, c.others, h)
		}
	}
}

// An alarm that was half heard is told beside the words.
func TestAlarmLike(t *testing.T) {
	d := smallDictionary(t)
	alarms := []string{"melt a smooth film", "smooth powder step", "cup"}
	for words, want := range map[string]string{
		"melt a smooth wall":                  "melt a smooth film",
		"smooth powder":                       "smooth powder step",
		"wall wall cup step":                  "",
		"":                                    "",
		"cling crack sponge powder step wall": "",
	} {
		if got := alarmLike(words, alarms, d); got != want {
			t.Errorf("%q sounds like %q, want %q", words, got, want)
		}
	}
	look := scored("wall step cup", 0, 4)
	look.Free, look.Loose = true, "melt a smooth wall"
	if h := judge(Expected{Alarms: alarms}, look, d); len(h.Others) != 1 || h.Others[0] != alarms[0] {
		t.Errorf("a description that may be an alarm: %+v", h)
	}
	look = scored("smooth powder step", 0, 4)
	if h := judge(Expected{Alarms: alarms[:1]}, look, d); h.Sure <= hardlySure {
		t.Fatalf("without any alarm it is sure to %.2f only", h.Sure)
	}
	look.Loose = "melt a smooth wall"
	if h := judge(Expected{Alarms: alarms[:1]}, look, d); h.Sure > hardlySure || len(h.Others) == 0 || h.Others[0] != alarms[0] {
		t.Errorf("what is expected, but may be an alarm, is passed over: %+v", h)
	}
}
