package browsertest

import (
	"strings"
	"testing"
)

// With the call near and no cure that fits, the sheet says what is left to do,
// and keeps the cures for another day; with hours it shows the cure.
func TestNoTimeLeft(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), phone, "light")
	s.next(func() { s.keys("my cast is shrinking and the call is in 20 minutes\r") })
	s.keys("\x1b")
	s.untilAdvised()
	if s.phase() != "advising" {
		t.Fatalf("no advice after fourteen answers\n%s", s.state())
	}
	if got := s.text("#sheet-title"); !strings.Contains(got, "No cure fits") {
		t.Errorf("the sheet is headed %q", got)
	}
	if left := s.texts("#paper .hurry dd"); len(left) == 0 {
		t.Errorf("it does not say what is left to do\n%s", s.state())
	}
	s.keys("/")
	s.next(func() { s.keys("the call is in 20 hours\r") })
	s.keys("\x1b")
	s.untilAdvised() // with hours left it goes on asking
	if steps := s.texts("#paper .steps li"); len(steps) == 0 {
		t.Errorf("with hours left there are no steps\n%s", s.state())
	}
	if got := s.text("#sheet-title"); strings.Contains(got, "No cure fits") {
		t.Errorf("with hours left it is headed %q", got)
	}
	if dir := shotsDir(t); dir != "" {
		s.keys("/")
		s.next(func() { s.keys("no wait, the call is in 15 minutes\r") })
		s.shoot(dir, "no-time-phone")
	}
}

// untilAdvised gives the first answer, or a number, until there is advice.
func (s *sheet) untilAdvised() {
	for range 14 {
		if s.phase() == "advising" {
			return
		}
		s.answer("1", "30")
	}
}
