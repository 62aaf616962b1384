package hear

import "testing"

// No answer that the book itself names for a question raises an alarm when it
// is asked: "burnt hair" is what the melt smells of.
func TestAnswersRaiseNoAlarm(t *testing.T) {
	b := realBook(t)
	h := New(b)
	said, alarms := 0, 0
	for i := range b.Facts {
		f := &b.Facts[i]
		for _, o := range f.Options {
			for _, words := range sayings(f, o) {
				said++
				m := h.Hear(Context{Asked: &Asked{Fact: f, Kind: f.Kind, Options: f.Options}}, words)
				if m.Emergency+m.MaybeEmergency != "" {
					alarms++
					t.Logf("%s: %q raises %s%s", f.Name, words, m.Emergency, m.MaybeEmergency)
				}
			}
		}
	}
	if 2000*alarms > said {
		t.Errorf("%d of %d answers raise an alarm", alarms, said)
	}
}

// But a hurt said in place of an answer is heard.
func TestHurtInPlaceOfAnAnswer(t *testing.T) {
	b := realBook(t)
	h := New(b)
	f := b.FactByName("burn_smell")
	c := Context{Asked: &Asked{Fact: f, Kind: f.Kind, Options: f.Options}}
	for _, words := range []string{"my hair is on fire", "I've burnt my hand on it", "there are flames", "it's in my eye", "I can't breathe"} {
		if m := h.Hear(c, words); m.Emergency+m.MaybeEmergency == "" {
			t.Errorf("%q raises no alarm", words)
		}
	}
}
