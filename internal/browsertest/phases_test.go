package browsertest

import (
	"slices"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// In every phase the pedal's two keys reach an answer and give it, and a digit
// does so at once.
func TestKeysInEveryPhase(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	for _, name := range []string{"choosing", "asking", "advising", "emergency", "building", "checking", "waiting"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			to := states[slices.IndexFunc(states, func(s state) bool { return s.name == name })]
			s := to.open(t, w, laptop)
			s.do(chromedp.Focus(chromedp.CSS("#sheet")))
			s.settle()
			s.pedalToAnswer("1")
			s.next(func() { s.keys(kb.Enter) })
			s.next(func() { s.keys("u") })
			s.do(chromedp.Focus(chromedp.CSS("#sheet")))
			s.next(func() { s.keys("1") })
		})
	}
}

// The screen is kept on while a step or a timer is at hand, and let go after.
func TestScreenStaysOn(t *testing.T) {
	t.Parallel()
	s := openSheetIn(t, sharedBrowser(t), startServer(t).url(), phone, "light", voiceNotes)
	held := func(want float64, when string) {
		t.Helper()
		if got := s.number(`locks.length`); got != want {
			t.Errorf("%s: %g locks of the screen, want %g", when, got, want)
		}
	}
	held(0, "at first")
	s.say("tell me in twenty minutes to stir the barnacles")
	held(1, "with a timer")
	// a browser releases the lock of a page that is hidden (Screen Wake Lock, W3C)
	s.eval(`(() => {
		const hide = (value) => {
			Object.defineProperty(document, "hidden", {value, configurable: true});
			if (value) lastLock.release();
			document.dispatchEvent(new Event("visibilitychange"));
		};
		hide(true);
		hide(false);
	})()`, nil)
	held(1, "with a timer, seen again")
	s.say("stop the timer")
	held(0, "without the timer")
	s.atPlaster()
	held(1, "with a step")
}
