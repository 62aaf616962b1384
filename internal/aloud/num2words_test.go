package aloud

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// askNum2words puts expressions to num2words, a general library (Debian's
// package python3-num2words), and gives its answers in our spelling: it says
// zero, and puts commas.
func askNum2words(t *testing.T, asked []string) []string {
	t.Helper()
	const script = `import sys
from num2words import num2words
for line in sys.stdin:
    number, to = line.split()
    print(num2words(number if "." in number else int(number), lang="en", to=to))`
	ctx, cancel := context.WithTimeout(t.Context(), 60*time.Second)
	defer cancel()
	python := exec.CommandContext(ctx, "/usr/bin/python3", "-c", script) // the distribution's: another has other packages
	python.Stdin = strings.NewReader(strings.Join(asked, "\n"))
	out, err := python.Output()
	switch {
	case err != nil && os.Getenv("SPAREHAND_TEST_ALL") == "1":
		t.Fatalf("python3-num2words does not answer and SPAREHAND_TEST_ALL=1: %v", err)
	case err != nil:
		t.Skip("python3-num2words is not installed: the check against it is skipped")
	}
	answers := strings.Split(strings.TrimSpace(strings.NewReplacer(",", "", "zero", "nought").Replace(string(out))), "\n")
	if len(answers) != len(asked) {
		t.Fatalf("asked num2words %d things, got %d answers", len(asked), len(answers))
	}
	return answers
}

func TestAgainstNum2words(t *testing.T) {
	var asked, said []string
	ask := func(number, to, words string) {
		asked, said = append(asked, number+" "+to), append(said, words)
	}
	for n := 0; n < 1_000_000_000_000; {
		ask(fmt.Sprint(n), "cardinal", Cardinal(n))
		if n > 0 {
			ask(fmt.Sprint(n), "ordinal", ordinal(n))
		}
		if n < 2200 {
			n++
		} else {
			n = n*13/11 + 7
		}
	}
	for n := range 2000 {
		if n%5 != 0 { // a last digit of 0 is no decimal of num2words, and quarters are ours
			figure := fmt.Sprintf("%d.%02d", n/100, n%100)
			ask(figure, "cardinal", strings.ToLower(Words(figure)))
		}
	}
	for i, want := range askNum2words(t, asked) {
		if said[i] != want {
			t.Errorf("%s is %q, by num2words %q", asked[i], said[i], want)
		}
	}
}
