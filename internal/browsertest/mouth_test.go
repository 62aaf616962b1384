package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

const near = `[{name: "near", lang: "en-GB", localService: true}]`

// manners notes how each reply is spoken, by a voice that goes on until it is
// stopped.
const manners = `(() => {
	window.spoken = [];
	window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
	Object.defineProperty(window, "speechSynthesis", {value: {
		getVoices: () => %s, addEventListener() {},
		cancel() { if (spoken.length > 0) spoken.at(-1).cut = true; },
		speak: (speech) => spoken.push(speech),
	}});
})()`

// Where the browser has no voice of its own the server's is played; a key, a
// touch or another reply stops it.
func TestServerSpeaks(t *testing.T) {
	t.Parallel()
	w, spoken := startVoiceServer(t)
	silent := fmt.Sprintf(manners, `[]`)
	s := openSheetIn(t, sharedBrowser(t), w.url(), laptop, "light", standIn+";ear.voice.mouth = \"stand-in\";"+silent+`;
		window.played = [];
		const start = AudioScheduledSourceNode.prototype.start, real = AudioBufferSourceNode.prototype.start;
		AudioBufferSourceNode.prototype.start = function (...when) { played.push(this); this.addEventListener("ended", () => { this.over = true; }); return real.apply(this, when); }`)
	s.do(chromedp.Click(chromedp.CSS("#aloud")))
	s.until("the opening words", `played.length === 1`)
	s.keys("x")
	s.until("silence", `played[0].over === true`)
	s.say(leak)
	s.until("the reply", `played.length === 2`)
	s.do(chromedp.Click(chromedp.CSS(".stamp")))
	s.until("silence", `played[1].over === true`)
	if n := spoken.n.Load(); n != 2 {
		t.Errorf("the server spoke %d times", n)
	}
	var rate float64
	s.eval(`played[1].buffer.duration`, &rate)
	if rate < 2.9 || rate > 3.1 {
		t.Errorf("the sound lasts %g s", rate)
	}
}

// The spoken form of a reply is what is spoken; manners change how, and hush
// says nothing more.
func TestManners(t *testing.T) {
	t.Parallel()
	s := openSheetIn(t, sharedBrowser(t), startServer(t).url(), laptop, "light", standIn+";"+pretendMic+";"+fmt.Sprintf(manners, near))
	s.listenUp() // switches reading aloud on
	say := func(words, more string) {
		t.Helper()
		s.utter()
		s.untilQuiet() // else the end of the words would pass for the sound of the reply
		s.next(func() { s.eval(fmt.Sprintf(`ear.heard(%q, %s)`, words, more), nil) })
	}
	say(leak, `{aloud: "in words"}`)
	say("slower", `{manner: "slower", aloud: "Slower."}`)
	say("quieter", `{manner: "quieter", aloud: "Quieter."}`)
	say("stop talking", `{manner: "hush", aloud: "Hush."}`)
	var got []string
	s.eval(`spoken.map(s => [s.text, s.rate, s.volume].join(" "))`, &got)
	want := []string{"in words 1 0.75", "Slower. 0.8 0.75", "Quieter. 0.8 0.5"}
	if !slices.Equal(got, want) {
		t.Errorf("spoken were %q, want %q", got, want)
	}
	if s.number(`spoken.filter(s => !s.cut).length`) != 0 {
		t.Error("the last reply goes on after hush")
	}
	s.do(chromedp.Click(chromedp.CSS("#help-open")), chromedp.Click(chromedp.CSS("[data-manner=louder]")))
	if text := s.text("#manner"); text != "Pace: slow. Loudness: 3 of 4." {
		t.Errorf("the help says %q", text)
	}
	s.do(chromedp.Reload())
	s.until("the page", `document.body.dataset.turn === "4"`)
	if text := s.texts("#manner"); text[0] != "Pace: slow. Loudness: 3 of 4." {
		t.Errorf("after a reload the help says %q", text)
	}
	var checked string
	s.eval(`document.getElementById("aloud").ariaChecked`, &checked)
	if checked != "true" {
		t.Error("after a reload reading aloud is forgotten")
	}
}

// Somebody who speaks cuts a reply off; what an emergency says is cut off only
// by words that were made out.
func TestBargeIn(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, words string
		goesOn      bool
	}{{"a question", leak, false}, {"an emergency", "I burnt my hand with hot gelatin", true}} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			w, _ := startVoiceServer(t)
			ctx := micBrowser(t, spokenWords(t, 7*time.Second, 30*time.Second, "stop, I know all that already, please tell me something else"))
			s := openSheetIn(t, ctx, w.url(), laptop, "light", standIn+";"+fmt.Sprintf(manners, near))
			s.do(chromedp.Click(chromedp.CSS("#mic")))
			s.say(c.words)
			s.until("the reply", `document.getElementById("doing").textContent === "Speaking"`)
			s.until("the utterance", `ear.sent.length > 0`)
			s.eval(`new Promise(done => setTimeout(done, 100))`, nil)
			var sent struct{ During bool }
			var cut bool
			s.eval(`ear.sent[0]`, &sent)
			s.eval(`spoken.at(-1).cut === true`, &cut)
			if !sent.During || cut == c.goesOn {
				t.Errorf("the utterance is marked as during a reply: %t; the reply was cut off: %t, want %t", sent.During, cut, !c.goesOn)
			}
			s.eval(`ear.tell({kind: "hearing", said: "stop"})`, nil)
			s.until("silence", `spoken.at(-1).cut === true`)
		})
	}
}

// A timer that rings waits until what an emergency says is over.
func TestEmergencyIsSpokenFirst(t *testing.T) {
	t.Parallel()
	s := openSheetIn(t, sharedBrowser(t), startServer(t).url(), laptop, "light", standIn+";"+fmt.Sprintf(manners, near))
	s.do(chromedp.Click(chromedp.CSS("#aloud")))
	s.say("tell me in three seconds to stir the barnacles")
	s.say("I burnt my hand with hot gelatin")
	s.until("the ring", `!document.getElementById("ring").hidden`)
	var last string
	s.eval(`spoken.at(-1).text`, &last)
	if strings.Contains(last, "barnacles") {
		t.Fatalf("the timer cut off the emergency: %q", last)
	}
	s.eval(`spoken.at(-1).onend()`, nil)
	s.until("the timer's words", `spoken.at(-1).text.includes("barnacles")`)
}
