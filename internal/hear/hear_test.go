package hear

import (
	"strings"
	"testing"

	"sparehand/internal/book"
	"sparehand/internal/logic"
)

func TestFactsToldWithAProblem(t *testing.T) {
	check(t, Context{}, map[string]string{
		"my edges curl and it's really dry here":                "problem:edges-curl room_air=dry",
		"plaster is running out under the wall":                 "leak_place=under problem:dam-leaks",
		"my edges curl, humidity is 30 percent":                 "problem:edges-curl room_humidity=30",
		"the edges of the cast are curling but it's not sticky": "problem:edges-curl sticky=no",
	})
}

func TestFactsAlone(t *testing.T) {
	check(t, Context{}, map[string]string{
		"6 by 4 inches and an inch high":                     "piece_height_mm=25.4 piece_length_mm=152.4 piece_width_mm=101.6",
		"six by four inch tray an inch and a half deep":      "piece_height_mm=38.1 piece_length_mm=152.4 piece_width_mm=101.6",
		"15 x 10 x 2 cm":                                     "piece_height_mm=20 piece_length_mm=150 piece_width_mm=100",
		`6"x4"x1"`:                                           "piece_height_mm=25.4 piece_length_mm=152.4 piece_width_mm=101.6",
		"make 3 copies":                                      "copies=3",
		"humidity is 30 percent":                             "room_humidity=30",
		"three caps fill a tablespoon":                       "measure=own own_measure_per_tablespoon=3",
		"the piece is 15 cm long and 10 cm wide":             "piece_length_mm=150 piece_width_mm=100",
		"6 by 4 by 1":                                        "?6 by 4 by 1 centimetres ?6 by 4 by 1 inches",
		"humidity is 400 percent":                            "complaint",
		"how much plaster do I need for 15 x 10 x 2 cm then": "amount:fill command:amounts piece_height_mm=20 piece_length_mm=150 piece_width_mm=100",
	})
}

func TestCommands(t *testing.T) {
	check(t, Context{}, map[string]string{
		"why":                      "command:why",
		"why do you ask":           "command:why",
		"ok next":                  "command:next",
		"start again please":       "command:start-again",
		"go back":                  "command:back",
		"could you say that again": "command:repeat",
		"strat again":              "command:start-again",
	})
	h, _ := smallHearing(t)
	m := h.Hear(Context{}, "why does my clay crack")
	if m.Command != "" || m.Elsewhere != "clay-cracks" {
		t.Errorf("a question about a trouble gave command %q, elsewhere %q", m.Command, m.Elsewhere)
	}
}

func TestProblemsWithSlips(t *testing.T) {
	h, _ := smallHearing(t)
	for words, want := range map[string]string{
		"the damn is leaking":           "dam-leaks",
		"dam leeking at the corner":     "dam-leaks",
		"plaster his pooring out":       "dam-leaks",
		"edjes are curlign up":          "edges-curl",
		"the rim of my jelly tin rolls": "edges-curl",
	} {
		m := h.Hear(Context{}, words)
		if m.Problem != want && (len(m.Alternatives) == 0 || m.Alternatives[0].ID != want) {
			t.Errorf("%q: problem %q, alternatives %v, want %s", words, m.Problem, m.Alternatives, want)
		}
	}
}

func TestNothingMeant(t *testing.T) {
	h, _ := smallHearing(t)
	for _, words := range []string{"", "   ", "hmm", "????", "the", "xyzzy plugh", "who has the van keys"} {
		m := h.Hear(Context{}, words)
		if m.Problem != "" || m.Emergency != "" || m.MaybeEmergency != "" || len(m.Facts) > 0 || m.Command != "" {
			t.Errorf("%q meant %+v", words, m)
		}
	}
}

func TestAnotherProblemWhileOneIsOpen(t *testing.T) {
	h, b := smallHearing(t)
	c := asks(t, b, "room_air", "edges-curl")
	if m := h.Hear(c, "my edges curl"); m.Problem != "" {
		t.Errorf("its own words opened it again: %+v", m)
	}
	if m := h.Hear(c, "now plaster is running out under the wall"); m.Problem != "dam-leaks" {
		t.Errorf("a clear other problem was not heard: %+v", m)
	}
	if m := h.Hear(c, "dry"); m.Problem != "" || said(b, m) != "room_air=dry" {
		t.Errorf("an answer was taken for something else: %s", said(b, m))
	}
}

func TestEmergencies(t *testing.T) {
	_, b := smallHearing(t)
	for _, c := range []Context{{}, asks(t, b, "leak_place", "dam-leaks"), asks(t, b, "sticky", "edges-curl")} {
		check(t, c, map[string]string{
			"I burnt my hand with the gelatin":    "emergency:hot-gel-burn",
			"hot gel she burned her face with it": "emergency:hot-gel-burn",
			"help I can't breathe":                "emergency:breathing-trouble",
			"cant breath":                         "emergency:breathing-trouble",
			"he's not breathing":                  "emergency:breathing-trouble",
			"my finger is bleeding":               "emergency:bleeding",
			"it won't stop bleeding":              "emergency:bleeding",
			"his hand is bleedin badly":           "emergency:bleeding",
			"I got scalded":                       "maybe:hot-gel-burn",
		})
	}
	check(t, asks(t, b, "leak_place", "dam-leaks"), map[string]string{
		"under the wall, and my hand is burnt": "leak_place=under maybe:hot-gel-burn",
	})
	h, _ := smallHearing(t)
	for _, words := range []string{"I could murder a tea", "the hot glue gun is dead", "he got fired", "nobody is burnt",
		"no one got burnt", "I'm not burnt", "blending the edge on his hand", "the burner is off", "the breeding of horses",
		"the clay can't breathe under plastic", "there was no bleeding"} {
		if m := h.Hear(Context{}, words); m.Emergency != "" || m.MaybeEmergency != "" {
			t.Errorf("%q raised an alarm: %q %q", words, m.Emergency, m.MaybeEmergency)
		}
	}
}

func TestSpecialQuestions(t *testing.T) {
	which := Context{Asked: &Asked{Special: AskProblem, Kind: logic.Choice, Options: []book.Option{
		{Value: "dam-leaks", Label: "Plaster leaks from the wall"}, {Value: "edges-curl", Label: "Edges of the cast curl"}}}}
	check(t, which, map[string]string{
		"the second one": "pick 2", "1": "pick 1", "the edges": "pick 2", "it leaks from the wall": "pick 1",
		"neither": "not-sure", "not sure": "not-sure",
	})
	work := Context{Asked: &Asked{Special: AskDidItWork, Kind: logic.YesNo, Options: []book.Option{
		{Value: "yes", Label: "yes"}, {Value: "no", Label: "no", Says: []string{"still leaking"}}}}}
	check(t, work, map[string]string{
		"yes": "pick 1", "no": "pick 2", "still leaking": "pick 2", "it worked": "command:fixed pick 1",
		"that didn't work": "command:next pick 2", "not really": "pick 2", "not sure": "not-sure",
	})
	hurt := Context{Asked: &Asked{Special: AskEmergency, Kind: logic.YesNo, Options: []book.Option{{Value: "yes", Label: "yes"}, {Value: "no", Label: "no"}}}}
	check(t, hurt, map[string]string{"yes": "pick 1", "no": "pick 2", "nobody is hurt": "command:safe pick 2", "no I am fine": "pick 2"})
}

func TestLongTextIsCut(t *testing.T) {
	h, _ := smallHearing(t)
	m := h.Hear(Context{}, "my edges curl "+strings.Repeat("and so on ", 5000))
	if len(m.Spare) > maxText {
		t.Errorf("spare words of %d bytes", len(m.Spare))
	}
}

func TestAnEmptyBookHearsNothing(t *testing.T) {
	for _, b := range []*book.Book{nil, {}} {
		if m := New(b).Hear(Context{}, "my edges curl at 30 percent"); m.Problem != "" || len(m.Facts) > 0 {
			t.Errorf("an empty book heard %+v", m)
		}
		if got := New(b).Rank("anything"); len(got) > 0 {
			t.Errorf("an empty book ranks %v", got)
		}
	}
}
