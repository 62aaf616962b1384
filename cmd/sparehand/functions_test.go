package main

import (
	"os"
	"strings"
	"testing"
)

// TestFunctionsAreDocumented: DEVELOPERS.md lists just the functions there
// are. Take the output of `sparehand check --functions` when it does not.
func TestFunctionsAreDocumented(t *testing.T) {
	data, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, after, found := strings.Cut(string(data), "## The functions\n")
	section, _, ended := strings.Cut(after, "\n## ")
	if !found || !ended {
		t.Fatal("DEVELOPERS.md has no section on the functions")
	}
	if !strings.Contains(section, functions()) {
		t.Errorf("DEVELOPERS.md lists other functions than these:\n%s", functions())
	}
}
