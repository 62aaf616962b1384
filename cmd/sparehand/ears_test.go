package main

import (
	"bytes"
	"strings"
	"testing"
)

// What listens is named to the page, and where what is said goes; what can't be
// used says what to do.
func TestEars(t *testing.T) {
	for ears, want := range map[string]struct{ ears, missing, warned string }{
		"none":                {"", "--ears none", ""},
		"ws://127.0.0.1:2700": {"the speech server at 127.0.0.1:2700", "", ""},
		"ws://ears.example":   {"leaves this machine", "", "leaves this machine"},
	} {
		var warned bytes.Buffer
		_, _, told, err := earsFlag{Ears: ears}.open(&warned)
		if err != nil || !strings.Contains(told.Ears, want.ears) || (told.Ears == "") != (want.ears == "") || !strings.Contains(told.Missing, want.missing) {
			t.Errorf("%s: %+v (%v)", ears, told, err)
		}
		if !strings.Contains(warned.String(), want.warned) || want.warned == "" && warned.Len() > 0 {
			t.Errorf("%s warns %q", ears, warned.String())
		}
	}
	var out, errs bytes.Buffer
	code := run([]string{"serve", "--address", "127.0.0.1:0", "--store", "none", "--ears", "there"}, streams{strings.NewReader(""), &out, &errs})
	if code != exitFault || !strings.Contains(errs.String(), "ws://") || strings.Count(errs.String(), "\n") != 1 {
		t.Errorf("exit %d: %s", code, errs.String())
	}
}
