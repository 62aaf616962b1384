package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

// TestReadmeTalk: the talk in the README is what the program prints. Mend the
// README when it is not.
func TestReadmeTalk(t *testing.T) {
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, after, ok := strings.Cut(string(data), "## A talk\n")
	if !ok {
		t.Fatal("the README has no talk")
	}
	var shown, said []string
	for line := range strings.Lines(after) {
		line = strings.TrimRight(line, "\n")
		text, indented := strings.CutPrefix(line, "    ")
		if line != "" && !indented {
			break
		}
		if input, isInput := strings.CutPrefix(text, "> "); isInput {
			said = append(said, input)
		}
		if strings.TrimSpace(text) != "" {
			shown = append(shown, strings.TrimSpace(text))
		}
	}
	var out, errs bytes.Buffer
	if code := run([]string{"talk"}, streams{strings.NewReader(strings.Join(said, "\n") + "\n"), &out, &errs}); code != 0 {
		t.Fatalf("exit %d: %s", code, errs.String())
	}
	printed := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n> ")
	var want []string
	for i, part := range printed {
		if i > 0 && i <= len(said) {
			want = append(want, "> "+said[i-1])
		}
		for line := range strings.Lines(part) {
			if line = strings.TrimSpace(line); line != "" && line != ">" {
				want = append(want, line)
			}
		}
	}
	if len(said) < 3 || strings.Join(shown, "\n") != strings.Join(want, "\n") {
		t.Errorf("the README shows\n%s\n\nthe program prints\n%s", strings.Join(shown, "\n"), strings.Join(want, "\n"))
	}
}
