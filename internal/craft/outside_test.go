package craft

import (
	"bytes"
	"context"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
)

// outsideProgram finds a program that a check leans on. Without it the test
// is skipped, or fails where everything has to run.
func outsideProgram(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
		t.Fatalf("%s is not installed and SPAREHAND_TEST_ALL=1", name)
	}
	t.Skipf("%s is not installed: the check against it is skipped", name)
	return ""
}

// askUnits puts each pair of expressions to GNU units and reads the factors.
func askUnits(t *testing.T, pairs [][2]string) []float64 {
	t.Helper()
	program := outsideProgram(t, "units")
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	var asked bytes.Buffer
	for _, p := range pairs {
		asked.WriteString(p[0] + "\n" + p[1] + "\n")
	}
	cmd := exec.CommandContext(ctx, program, "-t", "-o", "%.15g")
	cmd.Env = []string{"LC_ALL=C", "UNITS_ENGLISH=US", "HOME=" + t.TempDir()}
	cmd.Stdin = &asked
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("units: %v", err)
	}
	lines := strings.Fields(string(out))
	if len(lines) != len(pairs) {
		t.Fatalf("asked units %d things, got %d answers: %q", len(pairs), len(lines), out)
	}
	answers := make([]float64, len(lines))
	for i, line := range lines {
		if answers[i], err = strconv.ParseFloat(line, 64); err != nil {
			t.Fatalf("units on %v: %v", pairs[i], err)
		}
	}
	return answers
}

// near fails unless got is within tol of want.
func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s: got %.6g, want %.6g within %.2g", what, got, want, tol)
	}
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// tellsMaker fails unless the error is one plain sentence.
func tellsMaker(t *testing.T, err error) {
	t.Helper()
	text := err.Error()
	bad := text == "" || strings.HasSuffix(text, ".") || strings.ContainsAny(text, "\n") ||
		strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, "e+")
	if bad || strings.ToLower(text[:1]) != text[:1] {
		t.Errorf("error is no plain sentence: %q", text)
	}
}
