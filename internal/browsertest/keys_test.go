package browsertest

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

func (s *sheet) focused() string {
	s.t.Helper()
	var id string
	s.eval(`(() => { const e = document.activeElement; return e.id || (e.dataset.n ? "answer " + e.dataset.n : e.tagName); })()`, &id)
	return id
}

func (s *sheet) wantFocus(want string) {
	s.t.Helper()
	if got := s.focused(); got != want {
		s.t.Errorf("the focus is on %q, want %q", got, want)
	}
}

func (s *sheet) words() string {
	s.t.Helper()
	var words string
	s.eval(`document.getElementById("words").value`, &words)
	return words
}

func TestNothingIsTakenFromWhoeverTypes(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.wantFocus("words")
	typed := "1 u w ? / 2"
	s.keys(typed)
	if got := s.words(); got != typed {
		t.Errorf("typed %q, the field holds %q", typed, got)
	}
	s.keys(kb.PageDown)
	s.wantFocus("words")
	if s.turn() != 1 {
		t.Errorf("typing took turn %d", s.turn())
	}
}

func TestModifiersAreLeftAlone(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	s.settle()
	for _, m := range []chromedp.Modifier{chromedp.ModifierCtrl, chromedp.ModifierAlt, chromedp.ModifierMeta} {
		s.do(chromedp.KeyEvent("1", chromedp.KeyModifiers(m)))
	}
	time.Sleep(200 * time.Millisecond)
	if s.turn() != 1 {
		t.Errorf("a digit with a modifier took turn %d", s.turn())
	}
}

func TestLettersGoToTheWordsField(t *testing.T) {
	t.Parallel()
	for _, word := range []string{"plaster", "water", "under"} { // w and u are also keys of their own
		s := openSheet(t, startServer(t).url(), laptop, "light")
		s.do(chromedp.Focus(chromedp.CSS("#sheet")))
		s.keys(word)
		s.wantFocus("words")
		if got := s.words(); got != word {
			t.Errorf("typed %q, the field holds %q", word, got)
		}
	}
}

func TestSingleKeys(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.keys(kb.Escape)
	s.wantFocus("answers")
	s.keys("/")
	s.wantFocus("words")
	s.keys(kb.Escape + "?")
	s.until("the help", `document.getElementById("help").open`)
	s.keys("1" + kb.Escape)
	s.until("the help to close", `!document.getElementById("help").open`)
	if s.turn() != 1 {
		t.Fatalf("a digit in the help took turn %d", s.turn())
	}
	s.keys("w")
	s.until("the reason", `document.querySelector("[data-why]").open`)
	s.next(func() { s.keys("0") })
	if said := s.texts("#lines .said"); !strings.Contains(said[len(said)-1], "not sure") {
		t.Errorf("0 was taken as %q", said[len(said)-1])
	}
	s.next(func() { s.keys("u") })
	if changed := s.text(".change"); !strings.Contains(changed, "Taken back") {
		t.Errorf("after u the page says %q", changed)
	}
}

// Success criterion 2.1.4: keys of one character can be turned off.
func TestSingleKeysCanBeTurnedOff(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.do(chromedp.Click(chromedp.CSS("#help-open")), chromedp.Click(chromedp.CSS("#keys-on")), chromedp.Click(chromedp.CSS("#help-close")))
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	s.settle()
	s.keys("1u?p")
	time.Sleep(500 * time.Millisecond)
	if s.turn() != 1 || s.words() != "" {
		t.Errorf("single keys are off, and led to turn %d and words %q", s.turn(), s.words())
	}
	s.keys(kb.ArrowDown)
	s.wantFocus("answer 1")
}

// A pedal with two switches reads all of the advice and answers it.
func TestPedalAlone(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.wantFocus("words") // empty, so the pedal may have it
	for range 20 {
		if s.phase() == "advising" {
			break
		}
		s.pedalToAnswer("1")
		s.next(func() { s.keys(kb.Enter) })
	}
	if s.phase() != "advising" {
		t.Fatalf("no advice by pedal\n%s", s.state())
	}
	s.until("the sheet to be at its top", `scrollY < 40`)
	presses := s.pedalToAnswer("1")
	if presses < 2 {
		t.Error("the advice is longer than the window, and one press went past all of it")
	}
	var low float64
	s.eval(`scrollY`, &low)
	s.keys(kb.PageUp)
	s.until("the pedal to scroll back", fmt.Sprintf(`scrollY < %g`, low))
}

// pedalToAnswer presses Page Down until an answer has the focus, at most
// twenty times, and checks that no part of the sheet is jumped over.
func (s *sheet) pedalToAnswer(n string) int {
	s.t.Helper()
	for press := 1; press <= 20; press++ {
		var before, after float64
		s.eval(`scrollY`, &before)
		s.keys(kb.PageDown)
		s.eval(`scrollY`, &after)
		if after-before > 768 {
			s.t.Errorf("one press moved the sheet by %g pixels, more than is seen at once", after-before)
		}
		focus := s.focused()
		if focus == "answer "+n || focus == "answer unsure" {
			return press
		}
	}
	s.t.Fatalf("twenty presses never reached an answer\n%s", s.state())
	return 0
}

// After a pick the focus is where the next answer is given, by touch too.
func TestFocusAfterAPick(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.next(func() { s.do(chromedp.Click(chromedp.CSS("#answers .answer-key"))) })
	if got := s.focused(); got != "answers" && got != "number" {
		t.Errorf("after a pick by touch the focus is on %q", got)
	}
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	s.answer("1", "30")
	if got := s.focused(); got != "answers" && got != "number" {
		t.Errorf("after a pick by key the focus is on %q", got)
	}
}

// A key that bounces answers one question and not the next: neither while the
// answer is on its way nor in the moment after the new sheet.
func TestBouncingKeyAnswersOnce(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	s.eval(`(() => {
		const press = () => document.body.dispatchEvent(new KeyboardEvent("keydown", {key: "1", bubbles: true}));
		new MutationObserver(press).observe(document.body, {attributeFilter: ["data-turn"]});
		press();
		press();
	})()`, nil)
	s.until("the turn", `Number(document.body.dataset.turn) >= 2`)
	time.Sleep(500 * time.Millisecond)
	if s.turn() != 2 {
		t.Errorf("a bouncing key made turn %d, want 2", s.turn())
	}
}

// W under advice asks the assistant why.
func TestWhyUnderAdvice(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.toAdvice()
	s.next(func() { s.keys("w") })
	if said := s.texts("#lines .said"); said[len(said)-1] != "“why”" {
		t.Errorf("w was taken as %s", said[len(said)-1])
	}
}
