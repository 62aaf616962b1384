package browsertest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// state is a sheet that is looked at, and how it is reached from the opening
// words.
type state struct {
	name  string
	reach func(s *sheet)
}

// open opens a page and brings it there.
func (to state) open(t *testing.T, w *wire, l look) *sheet {
	t.Helper()
	s := openSheetIn(t, sharedBrowser(t), w.url(), l, "light", standIn+";"+pretendMic)
	to.reach(s)
	return s
}

var states = []state{
	{"listening", func(*sheet) {}},
	{"choosing", func(s *sheet) { s.untilPhase("choosing", vague) }},
	{"asking", func(s *sheet) { s.say(leak) }},
	{"number", func(s *sheet) { s.say("how much plaster do I need"); s.toNumber() }},
	{"advising", func(s *sheet) { s.say(leak); s.toAdvice() }},
	{"amounts", func(s *sheet) {
		s.say("how much plaster do I need")
		s.do(chromedp.Focus(chromedp.CSS("#sheet")))
		s.toAmounts()
	}},
	{"section", func(s *sheet) {
		s.say("how much plaster do I need")
		s.say("110 by 80 by 18 mm")
		s.toPicture("section")
	}},
	{"humidity", func(s *sheet) {
		s.say("will it keep its size")
		s.say("45 percent")
		s.toPicture("climate")
	}},
	{"emergency", func(s *sheet) { s.say("I burnt my hand with hot gelatin") }},
	{"building", func(s *sheet) { s.atPlaster(); s.say("tell me in an hour to eat") }},
	{"checking", func(s *sheet) { s.atPlaster(); s.say("started"); s.say("is the plaster ready") }},
	{"waiting", func(s *sheet) {
		s.atPlaster()
		for _, words := range []string{"started", "done", "with sorbitol syrup", "1", "done"} {
			s.say(words)
		}
		s.until("the bar", `document.querySelector("#paper progress") !== null`)
	}},
	{"rung", func(s *sheet) {
		s.say("tell me in one second to stir the barnacles")
		s.until("the ring", `!document.getElementById("ring").hidden`)
	}},
	{"paper", func(s *sheet) {
		s.say("guide me")
		s.say("go to the sculpting")
		s.say("oil")
		s.say("the call is tomorrow at noon")
		s.eval(`[...document.querySelectorAll("#plan button")].find(b => b.textContent.includes("print")).click()`, nil)
		s.until("the plan", `document.getElementById("preview").open`)
	}},
	{"hearing", func(s *sheet) {
		s.listenUp()
		s.utter()
		s.eval(`ear.tell({kind: "hearing", said: "plaster is running out"})`, nil)
	}},
	{"heard", func(s *sheet) {
		s.listenUp()
		s.utter()
		s.untilQuiet()
		s.next(func() { s.eval(`ear.heard("plaster is running out under the wall")`, nil) })
	}},
	{"emergency-heard", func(s *sheet) {
		s.listenUp()
		s.utter()
		s.untilQuiet()
		s.next(func() { s.eval(`ear.heard("I burnt my hand with hot gelatin")`, nil) })
	}},
	{"help-listening", func(s *sheet) {
		s.listenUp()
		s.do(chromedp.Click(chromedp.CSS("#help-open")))
		s.eval(`(document.getElementById("away").hidden = false, document.getElementById("voice-title").scrollIntoView(), true)`, nil)
	}},
	{"scanning", func(s *sheet) { s.say(leak); s.oneSwitch() }},
	{"scanning-number", func(s *sheet) { s.say("how much plaster do I need"); s.toNumber(); s.oneSwitch() }},
	{"scanning-emergency", func(s *sheet) { s.say("I burnt my hand with hot gelatin"); s.oneSwitch() }},
	{"help", func(s *sheet) { s.do(chromedp.Click(chromedp.CSS("#help-open"))) }},
	{"told", func(s *sheet) {
		s.say(leak)
		s.do(chromedp.Click(chromedp.CSS("[data-told=leak_place] button")))
		s.until("the field", `document.activeElement.id === "told-field"`)
	}},
	{"log", func(s *sheet) { s.say(leak); s.do(chromedp.Click(chromedp.CSS("#book summary"))) }},
}

// vague are words that fit more than one trouble, or should: the first that
// makes the assistant ask which is used.
var vague = []string{"it has cracks and bubbles", "bubbles", "there are bubbles in it", "the edges", "it tears and curls", "lumps and bubbles"}

func (s *sheet) untilPhase(phase string, words []string) {
	s.t.Helper()
	for _, w := range words {
		s.say(w)
		if s.phase() == phase {
			return
		}
		s.say("start again")
	}
	s.t.Fatalf("none of %q leads to %s\n%s", words, phase, s.state())
}

// toPicture brings a picture that should be there into view.
func (s *sheet) toPicture(id string) {
	s.t.Helper()
	s.until("the picture", fmt.Sprintf(`document.querySelector('[data-picture="%s"] svg') !== null`, id))
	s.eval(`(document.querySelector("#pictures").scrollIntoView(), true)`, nil)
}

// toNumber answers until a number is asked.
func (s *sheet) toNumber() {
	s.t.Helper()
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	for range 8 {
		var there bool
		s.eval(`document.getElementById("number") !== null`, &there)
		if there {
			return
		}
		s.next(func() { s.keys("1") })
	}
	s.t.Fatalf("no number is asked\n%s", s.state())
}

// Every state of the page, at every size and in light and dark: what is pressed
// is large enough, nothing has to be scrolled sideways in a narrow window,
// axe-core's rules for WCAG 2.2 A and AA and its good practices find nothing; and
// pictures, for people to look at. All of it is of one page, since to bring it
// into its state takes longest.
func TestEveryState(t *testing.T) {
	t.Parallel()
	w, dir := startServer(t), shotsDir(t)
	for _, state := range states {
		for _, l := range []look{laptop, phone} {
			t.Run(state.name+"/"+l.name, func(t *testing.T) {
				t.Parallel()
				s := state.open(t, w, l)
				s.wantLargeTargets()
				for _, scheme := range []string{"light", "dark"} {
					s.scheme(scheme)
					s.shoot(dir, fmt.Sprintf("%s-%s-%s", state.name, l.name, scheme))
				}
				if l == phone {
					s.wantNarrow()
					s.resize(l)
				}
				t.Run("axe", func(t *testing.T) {
					in := *s
					in.t = t
					in.eval(`(() => {`+axeSource(t)+`})(), true`, nil)
					for _, scheme := range []string{"light", "dark"} {
						in.scheme(scheme)
						in.runAxe(scheme, l)
					}
				})
			})
		}
	}
}

// runAxe looks at the whole page at once: in a window of its full height,
// where the words field at the foot covers nothing.
func (s *sheet) runAxe(scheme string, l look) {
	s.t.Helper()
	var height int64
	s.eval(`document.documentElement.scrollHeight + 200`, &height)
	s.resize(look{width: l.width, height: height, touch: l.touch})
	var found struct {
		Passes     int
		Violations []string
	}
	s.eval(`axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
		.then(r => ({passes: r.passes.length, violations: r.violations.flatMap(v => v.nodes.map(n => v.id + ": " + n.target.join(" ") + ": " + n.failureSummary))}))`, &found)
	if found.Passes < 10 {
		s.t.Errorf("%s: only %d rules applied; did axe run?", scheme, found.Passes)
	}
	for _, v := range found.Violations {
		s.t.Errorf("%s: %s", scheme, v)
	}
	s.resize(l)
}

// wantLargeTargets: answers are at least 64 pixels tall, everything else that is
// pressed 44. Single lines of text that fold something out count by their height
// alone.
func (s *sheet) wantLargeTargets() {
	s.t.Helper()
	var small []string
	s.eval(`[...document.querySelectorAll("button, select, summary, input:not([type=checkbox]), .choice")].filter(e => e.offsetParent).flatMap(e => {
		const box = e.getBoundingClientRect();
		const least = e.classList.contains("answer-key") ? 64 : 44;
		return box.height < least || box.width < 44 ? [(e.id || e.className || e.tagName) + " " + e.textContent.slice(0, 20) + ": " + box.width + " by " + box.height] : [];
	})`, &small)
	if len(small) > 0 {
		s.t.Errorf("too small: %q", small)
	}
}

// wantNarrow is success criterion 1.4.10: nothing has to be scrolled sideways in
// a window 320 pixels wide.
func (s *sheet) wantNarrow() {
	s.t.Helper()
	s.resize(look{name: "narrow", width: 320, height: 640, touch: true})
	var width int
	if s.eval(`document.documentElement.scrollWidth`, &width); width > 320 {
		s.t.Errorf("the page is %d pixels wide", width)
	}
}

// Success criterion 2.4.11: what has the focus is not hidden by the words
// field at the foot of the window.
func TestFocusIsNotObscured(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	for _, l := range []look{laptop, phone} {
		t.Run(l.name, func(t *testing.T) {
			t.Parallel()
			s := openSheet(t, w.url(), l, "light")
			s.say(leak)
			s.toAdvice()
			s.do(chromedp.Focus(chromedp.CSS("#sheet")))
			visited := s.tabThrough()
			if visited < 12 {
				t.Errorf("only %d places were visited", visited)
			}
		})
	}
}

// tabThrough goes from one focusable place to the next until the words field.
func (s *sheet) tabThrough() int {
	s.t.Helper()
	for n := 1; n < 80; n++ {
		s.keys(kb.Tab)
		var at struct {
			What   string
			Hidden float64
		}
		s.eval(`(() => {
			const e = document.activeElement, box = e.getBoundingClientRect(), foot = document.getElementById("front").getBoundingClientRect();
			const seen = Math.min(box.bottom, foot.top) - Math.max(box.top, 0);
			return {what: e.id || e.textContent.slice(0, 40), hidden: e.closest("#front") ? 0 : 1 - seen / Math.min(box.height, foot.top)};
		})()`, &at)
		if at.What == "words" {
			return n
		}
		if at.Hidden > 0.01 {
			s.t.Errorf("%q has the focus and is hidden by %.0f %%", at.What, 100*at.Hidden)
		}
	}
	s.t.Fatal("eighty steps never reached the words field")
	return 0
}

// Each reply is announced once, and every cause, caution and amount has its
// meaning as text.
func TestMeaningDoesNotHangOnColour(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.nothingTwice(1)
	for _, level := range s.texts(".cautions li b") {
		if level != "Stop" && level != "Take care" && level != "Note" {
			t.Errorf("a caution is headed %q", level)
		}
	}
	shares := s.texts("#causes .share")
	if len(shares) == 0 {
		t.Error("no shares are shown")
	}
	for _, share := range shares {
		if !strings.HasSuffix(share, " %") {
			t.Errorf("a share reads %q", share)
		}
	}
}

// The log is not live while history goes in, and never a second voice beside
// the live region.
func TestLogIsALogAndSilent(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	var role, live string
	s.eval(`document.getElementById("pages").getAttribute("role")`, &role)
	s.eval(`document.getElementById("pages").getAttribute("aria-live")`, &live)
	if role != "log" || live != "off" {
		t.Errorf("the log has the role %q and aria-live %q", role, live)
	}
}

// Somebody who scrolled back in the log stays there when a turn comes.
func TestLogFollowsOnlyAtItsEnd(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.do(chromedp.Click(chromedp.CSS("#book summary")))
	for i := range 8 {
		s.say(fmt.Sprintf("hello there number %d", i))
	}
	atEnd := `(() => { const p = document.getElementById("pages"); return p.scrollHeight > p.clientHeight + 20 && p.scrollHeight - p.scrollTop - p.clientHeight < 8; })()`
	s.until("the log to be long and at its end", atEnd)
	s.eval(`document.getElementById("pages").scrollTop = 0`, nil)
	s.say("and another")
	var top float64
	s.eval(`document.getElementById("pages").scrollTop`, &top)
	if top != 0 {
		t.Errorf("the log moved to %g under somebody reading it", top)
	}
}

func (s *sheet) scheme(scheme string) {
	s.t.Helper()
	s.media("", "prefers-color-scheme", scheme)
}
