package browsertest

import (
	"fmt"
	"slices"
	"testing"

	"github.com/chromedp/chromedp"
)

// voices puts stand-ins for the browser's voices in place, and notes what is
// spoken.
const voices = `(() => {
	window.spoken = [];
	window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
	const voices = %s;
	Object.defineProperty(window, "speechSynthesis", {value: {
		getVoices: () => voices, cancel() {}, addEventListener() {},
		speak: (speech) => spoken.push(speech.voice.name + ": " + speech.text),
	}, configurable: true});
})()`

func (s *sheet) spoken() []string {
	s.t.Helper()
	var spoken []string
	s.eval(`spoken`, &spoken)
	return spoken
}

// Nothing is read aloud unasked; then only by a voice kept on the device.
func TestReadAloud(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.eval(fmt.Sprintf(voices, `[{name: "far", lang: "en-GB", localService: false}, {name: "near", lang: "en-US", localService: true}]`), nil)
	s.say(leak)
	if spoken := s.spoken(); len(spoken) > 0 {
		t.Fatalf("unasked it reads %q", spoken)
	}
	var say string
	s.do(chromedp.Click(chromedp.CSS("#aloud")))
	s.eval(`document.getElementById("polite").textContent`, &say)
	if spoken := s.spoken(); !slices.Equal(spoken, []string{"near: " + say}) {
		t.Errorf("switched on it reads %q, want the reply %q by the near voice", spoken, say)
	}
	s.say("not sure")
	if len(s.spoken()) != 2 {
		t.Errorf("after the next reply it has read %q", s.spoken())
	}
	s.do(chromedp.Click(chromedp.CSS("#aloud")))
	s.say("not sure")
	if len(s.spoken()) != 2 {
		t.Errorf("switched off it goes on: %q", s.spoken())
	}
}

func TestNothingIsReadByAVoiceFromElsewhere(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.eval(fmt.Sprintf(voices, `[{name: "far", lang: "en-GB", localService: false}]`), nil)
	s.do(chromedp.Click(chromedp.CSS("#aloud")))
	s.say(leak)
	if spoken := s.spoken(); len(spoken) > 0 {
		t.Errorf("a voice from elsewhere reads %q", spoken)
	}
	if label := s.text("#aloud"); label != "No voice here" {
		t.Errorf("the switch says %q", label)
	}
}
