package browsertest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// What cannot listen says what is missing and what to do, in one sentence, and
// the rest of the page works on.
func TestNoMicrophoneSaysWhy(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	refuse := func(name string) string {
		return fmt.Sprintf(`;navigator.mediaDevices.getUserMedia = async () => { throw new DOMException("no", %q); }`, name)
	}
	for _, c := range []struct{ name, script, want string }{
		{"no recogniser", standIn + `;ear.voice = {ears: "", missing: "Install the ears."}`, "Install the ears."},
		{"a server without ears", ``, "no speech recogniser"},
		{"refused", standIn + refuse("NotAllowedError"), "allow it"},
		{"no device", standIn + refuse("NotFoundError"), "plug one in"},
		{"plain http", standIn + `;Object.defineProperty(window, "isSecureContext", {value: false})`, "/trust"},
	} {
		s := openSheetIn(t, sharedBrowser(t), w.url(), laptop, "light", c.script)
		s.do(chromedp.Click(chromedp.CSS("#mic")))
		s.until(c.name+": the reason", fmt.Sprintf(`!document.getElementById("fault").hidden && document.getElementById("fault").textContent.includes(%q)`, c.want))
		if s.shown("#strip") {
			t.Errorf("%s: the strip is shown", c.name)
		}
		s.say(leak)
	}
}

// What is missing is told in the help on a second visit, too.
func TestMissingEarsAfterReload(t *testing.T) {
	t.Parallel()
	s := openSheetIn(t, sharedBrowser(t), startServer(t).url(), laptop, "light", standIn+`;ear.voice = {ears: "", missing: "Install the ears."}`)
	s.say(leak)
	s.do(chromedp.Reload())
	s.until("the talk to be back", `document.body.dataset.turn === "1"`)
	s.until("what is missing", `document.getElementById("service").textContent.includes("Install the ears.")`)
}

// The keys of the microphone: a full stop where nobody types, and F8 anywhere.
// Leaving the page, or ten minutes without a word, ends the track.
func TestMicrophoneIsSwitchedOff(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	for _, c := range []struct {
		name, script string
		off          func(s *sheet)
		says         string
	}{
		{"full stop", "", func(s *sheet) { s.do(chromedp.Focus(chromedp.CSS("#sheet"))); s.keys(".") }, ""},
		{"F8", "", func(s *sheet) { s.do(chromedp.Focus(chromedp.CSS("#words"))); s.keys("1." + kb.F8) }, ""},
		{"F8 in the help", "", func(s *sheet) { s.do(chromedp.Click(chromedp.CSS("#help-open"))); s.keys(kb.F8) }, ""},
		{"leaving", "", func(s *sheet) { s.eval(`dispatchEvent(new PageTransitionEvent("pagehide"))`, nil) }, ""},
		{"the device is pulled out", "", func(s *sheet) { s.eval(`mic.tracks[0].onended(new Event("ended"))`, nil) }, "The microphone is gone"},
		// ten minutes of the page's clock are half a second of the test's
		{"ten minutes", `;const wait = setTimeout; window.setTimeout = (does, ms, ...more) => wait(does, ms === 600000 ? 2500 : ms, ...more)`, func(*sheet) {}, "Nothing was heard for ten minutes"},
	} {
		s := openSheetIn(t, sharedBrowser(t), w.url(), laptop, "light", standIn+";"+pretendMic+c.script)
		s.listenUp()
		c.off(s)
		s.until(c.name+": the end of the track", `mic.tracks[0].readyState === "ended" && document.getElementById("strip").hidden`)
		if fault := s.text("#fault"); !strings.HasPrefix(fault, c.says) || c.says == "" && fault != "" {
			t.Errorf("%s: the page says %q, want %q", c.name, fault, c.says)
		}
	}
}

// Switching off in the middle of an utterance drops it; so does a cut link, and
// the microphone goes on after that.
func TestUtteranceIsDropped(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	s := openSheetIn(t, sharedBrowser(t), w.url(), laptop, "light", standIn+";"+pretendMic)
	s.listenUp()
	s.utter()
	w.cut(false)
	s.until("the link", `document.getElementById("link").dataset.state === "linked" && document.getElementById("doing").textContent === "Listening"`)
	s.utter()
	s.do(chromedp.Click(chromedp.CSS("#mic-stop")))
	var kinds []string
	s.eval(`ear.sent.map(m => m.kind + " " + ("text" in m))`, &kinds)
	if got := strings.Join(kinds, ", "); got != "listen false, listen false, hush false" {
		t.Errorf("the page sent %q", got)
	}
}

// What could not be made out takes no turn, and the next one is heard.
func TestUnheardTakesNoTurn(t *testing.T) {
	t.Parallel()
	s := openSheetIn(t, sharedBrowser(t), startServer(t).url(), phone, "dark", standIn+";"+pretendMic)
	s.listenUp()
	s.utter()
	s.eval(`ear.tell({kind: "unheard", fault: "Come nearer and say it again."})`, nil)
	s.until("the sentence", `document.getElementById("fault").textContent === "Come nearer and say it again."`)
	if s.turn() != 0 || s.shown("#heard") {
		t.Errorf("what was not heard took turn %d, or stands as heard: %t", s.turn(), s.shown("#heard"))
	}
	s.utter()
	s.next(func() { s.eval(`ear.heard("bubbles", {voice: {words: "bubbles", sure: 0.3}})`, nil) })
	if got := s.text("#heard p"); got != "I think I heard: bubbles" {
		t.Errorf("of words heard badly the page shows %q", got)
	}
	s.say("no")
	if s.shown("#heard") {
		t.Error("what was heard stays after words that were typed")
	}
}

// While the page listens the strip is seen whole, wherever it is scrolled and
// whatever is open.
func TestStripIsAlwaysSeen(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	for _, l := range []look{phone, laptop, {name: "low", width: 568, height: 320, touch: true}} {
		s := openSheetIn(t, sharedBrowser(t), w.url(), l, "light", standIn+";"+pretendMic)
		s.listenUp()
		s.say(leak)
		for place, script := range map[string]string{
			"at the end":  `(scrollTo(0, 99999), true)`,
			"at the top":  `(scrollTo(0, 0), true)`,
			"in the help": `(document.getElementById("help").showModal(), true)`,
		} {
			s.eval(script, nil)
			var seen bool
			s.eval(`(() => {
				const strip = document.getElementById("strip").getBoundingClientRect(), open = document.querySelector("dialog[open]");
				return strip.top === 0 && strip.width === innerWidth && strip.height > 60 && (!open || open.getBoundingClientRect().top >= strip.bottom);
			})()`, &seen)
			if !seen {
				t.Errorf("%s, %s: the strip is not seen whole", l.name, place)
			}
			s.eval(`(document.getElementById("help").close(), true)`, nil)
		}
	}
}
