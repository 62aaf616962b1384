package browsertest

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
)

// ownEar stands for the browser's recogniser; %s is what it says of its
// availability. Source: the Web Speech API, draft of the W3C's Web Audio group:
// available(), processLocally, and results with their alternatives.
const ownEar = `;window.recognisers = [];
	window.SpeechRecognition = class {
		static async available(how) { window.how = how; return %q; }
		start() { this.runs = true; recognisers.push(this); }
		abort() { this.runs = false; this.onend?.(); }
	};
	window.hear = (words, isFinal) => {
		const result = Object.assign(words.map((transcript) => ({transcript, confidence: 0.8})), {isFinal});
		recognisers.at(-1).onresult({resultIndex: 0, results: [result]});
	}`

func TestBrowserRecognisesHere(t *testing.T) {
	t.Parallel()
	s := openSheetIn(t, sharedBrowser(t), startServer(t).url(), laptop, "light", standIn+fmt.Sprintf(ownEar, "available"))
	s.do(chromedp.Click(chromedp.CSS("#help-open")), chromedp.Click(chromedp.CSS("#browser-ear")))
	s.until("the choice", `document.getElementById("service").textContent.startsWith("Ears: this browser.")`)
	s.keys("\x1b")
	s.do(chromedp.Click(chromedp.CSS("#mic")))
	s.until("the recogniser", `recognisers.length === 1 && recognisers[0].runs`)
	var settings struct {
		Lang           string
		ProcessLocally bool
	}
	s.eval(`recognisers[0]`, &settings)
	if settings.Lang != "en-GB" || !settings.ProcessLocally {
		t.Errorf("the recogniser is set to %+v", settings)
	}
	s.eval(`hear(["plaster is running"], false)`, nil)
	if got := s.text("#heard p"); got != "I hear: plaster is running" {
		t.Errorf("of words not final the page shows %q", got)
	}
	s.next(func() { s.eval(`hear(["plaster is running out", "a", "b", "c", "d"], true)`, nil) })
	var sent struct {
		Kind, Text string
		Sure       float64
		Others     []string
	}
	s.eval(`ear.sent[0]`, &sent)
	if sent.Kind != "spoken" || sent.Text != "plaster is running out" || sent.Sure != 0.8 || len(sent.Others) != 3 {
		t.Errorf("the page sent %+v", sent)
	}
	s.do(chromedp.Click(chromedp.CSS("#mic-stop")))
	s.until("the end", `!recognisers.at(-1).runs`)
}

// Without the promise it stays off until both sentences are confirmed.
func TestBrowserThatSendsSoundAwayStaysOff(t *testing.T) {
	t.Parallel()
	s := openSheetIn(t, sharedBrowser(t), startServer(t).url(), laptop, "light", standIn+fmt.Sprintf(ownEar, "unavailable"))
	s.do(chromedp.Click(chromedp.CSS("#help-open")), chromedp.Click(chromedp.CSS("#browser-ear")))
	s.until("the warning", `!document.getElementById("away").hidden`)
	state := func() (on, can bool) {
		s.eval(`document.getElementById("browser-ear").checked`, &on)
		s.eval(`!document.getElementById("away-on").disabled`, &can)
		return on, can
	}
	if on, can := state(); on || can {
		t.Errorf("unconfirmed it is on: %t, can be turned on: %t", on, can)
	}
	s.do(chromedp.Click(chromedp.CSS("#away-sound")))
	if on, can := state(); on || can {
		t.Errorf("half confirmed it is on: %t, can be turned on: %t", on, can)
	}
	s.do(chromedp.Click(chromedp.CSS("#away-others")), chromedp.Click(chromedp.CSS("#away-on")))
	s.until("the choice", `document.getElementById("browser-ear").checked`)
	s.keys("\x1b")
	s.do(chromedp.Click(chromedp.CSS("#mic")))
	s.until("the recogniser", `recognisers.length === 1`)
	var local bool
	s.eval(`recognisers[0].processLocally === true`, &local)
	if local {
		t.Error("it asks for what it cannot have")
	}
}

func TestBrowserWithoutRecogniserOffersNone(t *testing.T) {
	t.Parallel()
	s := openSheetIn(t, sharedBrowser(t), startServer(t).url(), laptop, "light", `delete window.SpeechRecognition; delete window.webkitSpeechRecognition;`)
	s.do(chromedp.Click(chromedp.CSS("#help-open")))
	if s.shown("#browser-ear-choice") {
		t.Error("the help offers what is not there")
	}
}
