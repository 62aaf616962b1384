package browsertest

import (
	"fmt"
	"slices"
	"testing"

	"github.com/chromedp/chromedp"
)

// A timer rings on the page, is announced, and its strip stays until the next
// turn, over a reload too.
func TestTimerRingsOnThePage(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startKept(t).url(), phone, "dark")
	s.say("tell me in two seconds to stir the barnacles")
	if got := s.texts("#timers .name"); len(got) != 1 || got[0] != "stir the barnacles" {
		t.Errorf("the timers are %q", got)
	}
	s.until("the ring", `!document.getElementById("ring").hidden && document.getElementById("urgent").textContent.includes("stir the barnacles")`)
	if s.turn() != 2 || s.shown("#timers .name") {
		t.Errorf("after the ring: turn %d, timers %q", s.turn(), s.texts("#timers .name"))
	}
	if said := s.texts("#lines .said"); len(said) != 2 || said[1] != "" {
		t.Errorf("in the log the maker's words are %q, want none for the ring", said)
	}
	s.do(chromedp.Reload())
	s.until("the strip again", `document.getElementById("ring").textContent.includes("stir the barnacles")`)
	s.say(leak)
	if s.shown("#ring b") {
		t.Error("the strip stays after the next turn")
	}
}

// A timer that rings takes nobody away from a number half written.
func TestRingLeavesTheSheetAlone(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say("how much plaster do I need")
	s.say("tell me in two seconds to stir the barnacles")
	s.until("the number to be asked", `document.getElementById("number") !== null`)
	s.do(chromedp.Focus(chromedp.CSS("#number")))
	s.keys("12")
	s.until("the ring", `!document.getElementById("ring").hidden`)
	var kept string
	s.eval(`document.activeElement.id === "number" ? document.activeElement.value : ""`, &kept)
	if kept != "12" {
		t.Errorf("after the ring the number reads %q or lost its focus, want 12", kept)
	}
}

// Timers are set by the form, and each is stopped by its own button, those of
// the book too.
func TestTimersAreSetAndStopped(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.atPlaster()
	s.do(chromedp.Click(chromedp.CSS("#timers summary")))
	s.do(chromedp.Click(chromedp.CSS("#timer-form button")))
	if wrong := s.text("#timer-wrong"); wrong == "" {
		t.Error("a timer without minutes is not refused")
	}
	s.do(chromedp.SetValue(chromedp.CSS("#timer-minutes"), "7,5"), chromedp.SetValue(chromedp.CSS("#timer-what"), "feed the ferryman"))
	s.next(func() { s.do(chromedp.Click(chromedp.CSS("#timer-form button"))) })
	s.say("started")
	before := s.texts("#timers .name")
	if !slices.Contains(before, "feed the ferryman") || len(before) < 3 {
		t.Fatalf("the timers are %q", before)
	}
	for _, name := range before {
		s.next(func() {
			s.do(chromedp.Click(chromedp.CSS(fmt.Sprintf(`[aria-label="Stop the timer: %s"]`, name))))
		})
		if after := s.texts("#timers .name"); slices.Contains(after, name) {
			t.Errorf("%q still runs: %q", name, after)
		}
	}
}

// Countdowns go by the server's clock, as it was last told; an old reply shown
// again can't set it back.
func TestCountdownGoesByTheServersClock(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	var left []string
	s.eval(`import("/js/times.js").then(m => {
		const here = Date.now(), at = (minutes) => new Date(here + minutes * 60000).toISOString();
		m.setClock(at(60), true);
		const first = m.left(at(90));
		m.setClock(at(-500), false);
		return [first, m.left(at(90)), m.left(at(150)), m.left(at(55))];
	})`, &left)
	if want := []string{"30:00", "30:00", "1:30:00", "5 min late"}; !slices.Equal(left, want) {
		t.Errorf("with the server an hour ahead there are left %q, want %q", left, want)
	}
}
