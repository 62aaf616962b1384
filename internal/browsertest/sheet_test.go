package browsertest

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// patience is how long a test waits for the page before it fails.
const patience = 15 * time.Second

// look is how the page is seen.
type look struct {
	name          string
	width, height int64
	touch         bool
}

var (
	laptop = look{name: "laptop", width: 1366, height: 768}
	phone  = look{name: "phone", width: 390, height: 844, touch: true}
)

// sheet is a page open in the browser.
type sheet struct {
	t        *testing.T
	ctx      context.Context
	messages chan string // errors that the page wrote to the console
}

// openSheet opens the page in a profile of its own and waits for the opening
// words.
func openSheet(t *testing.T, url string, l look, scheme string) *sheet {
	t.Helper()
	return openSheetIn(t, sharedBrowser(t), url, l, scheme, "")
}

// openSheetIn does so in a browser, and first runs a script.
func openSheetIn(t *testing.T, in context.Context, url string, l look, scheme, script string) *sheet {
	t.Helper()
	ctx, cancel := chromedp.NewContext(in, chromedp.WithNewBrowserContext())
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	s := &sheet{t: t, ctx: ctx, messages: make(chan string, 100)}
	s.watchConsole()
	s.resize(l)
	// several pages are open at once, and each acts as the one in front
	if _, err := chromedp.Call(ctx, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true}); err != nil {
		t.Fatal(err)
	}
	_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{
			{Name: "prefers-color-scheme", Value: scheme},
			{Name: "prefers-reduced-motion", Value: "reduce"},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	if script != "" {
		if _, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script}); err != nil {
			t.Fatal(err)
		}
	}
	s.do(chromedp.Navigate(url))
	s.until("the opening words", `document.body.dataset.turn === "0"`)
	s.eval(listenIn, nil)
	return s
}

// listenIn collects what the live regions announce.
const listenIn = `(() => {
	window.announced = [];
	for (const id of ["polite", "urgent"]) {
		const region = document.getElementById(id);
		new MutationObserver(() => { if (region.textContent) announced.push(region.textContent); })
			.observe(region, {childList: true, characterData: true, subtree: true});
	}
})()`

// watchConsole gathers the errors of the page: exceptions, and what the
// browser refuses under the content policy. A dead connection is no error of
// the page.
func (s *sheet) watchConsole() {
	messages := chromedp.Console(s.ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			if m.IsException() || m.Type == chromedp.ConsoleError && m.Source != "network" && !strings.Contains(m.Text, "WebSocket connection") {
				select {
				case s.messages <- m.String():
				default:
				}
			}
		}
	}()
	s.t.Cleanup(func() {
		for {
			select {
			case m := <-s.messages:
				s.t.Errorf("the page wrote to the console: %s", m)
			default:
				return
			}
		}
	})
}

func (s *sheet) resize(l look) {
	s.t.Helper()
	s.do(chromedp.EmulateViewport(l.width, l.height, func(m *emulation.SetDeviceMetricsOverrideParams, touch *emulation.SetTouchEmulationEnabledParams) {
		touch.Enabled = l.touch
	}))
}

func (s *sheet) do(steps ...chromedp.Action[chromedp.Void]) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		s.t.Fatalf("%v\n%s", err, s.state())
	}
}

// eval runs a script, waits for its promise, and decodes what it gives.
func (s *sheet) eval(script string, into any) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	wrapped := fmt.Sprintf(`(async () => JSON.stringify((await (%s)) ?? null))()`, script)
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](wrapped, chromedp.EvalAwaitPromise))
	if err != nil {
		s.t.Fatalf("%s: %v", script, err)
	}
	if into == nil {
		return
	}
	if err := json.Unmarshal([]byte(text), into); err != nil {
		s.t.Fatalf("%s gave %s: %v", script, text, err)
	}
}

// until waits for a condition.
func (s *sheet) until(what, condition string) {
	s.t.Helper()
	deadline := time.Now().Add(patience)
	for {
		var ok bool
		s.eval(condition, &ok)
		if ok {
			return
		}
		if time.Now().After(deadline) {
			s.t.Fatalf("waited in vain for %s\n%s", what, s.state())
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// state tells where the page stands, for a failed test.
func (s *sheet) state() string {
	ctx, cancel := context.WithTimeout(s.ctx, 2*time.Second)
	defer cancel()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.body.dataset.phase + " " + document.body.dataset.turn + "\n" + document.getElementById("link").textContent + "\n" + document.getElementById("paper").innerText`))
	if err != nil {
		return err.Error()
	}
	return "the page shows: " + text
}

// text is the visible text of the first element that matches.
func (s *sheet) text(selector string) string {
	s.t.Helper()
	var text string
	s.eval(fmt.Sprintf(`document.querySelector(%q)?.innerText ?? ""`, selector), &text)
	return text
}

// shown reports whether an element takes up room on the page.
func (s *sheet) shown(selector string) bool {
	s.t.Helper()
	var shown bool
	s.eval(fmt.Sprintf(`(e => e !== null && e.getClientRects().length > 0)(document.querySelector(%q))`, selector), &shown)
	return shown
}

// texts are the texts of all that match, as the page holds them.
func (s *sheet) texts(selector string) []string {
	s.t.Helper()
	var texts []string
	s.eval(fmt.Sprintf(`[...document.querySelectorAll(%q)].map(e => e.textContent)`, selector), &texts)
	return texts
}

func (s *sheet) turn() int {
	s.t.Helper()
	var n int
	s.eval(`Number(document.body.dataset.turn)`, &n)
	return n
}

func (s *sheet) phase() string {
	s.t.Helper()
	var phase string
	s.eval(`document.body.dataset.phase`, &phase)
	return phase
}

// keys presses keys one after the other, wherever the focus is.
func (s *sheet) keys(keys string) {
	s.t.Helper()
	s.do(chromedp.KeyEvent(keys))
}

// next does something that takes a turn, and waits for the turn.
func (s *sheet) next(act func()) {
	s.t.Helper()
	want := s.turn() + 1
	act()
	s.until(fmt.Sprintf("turn %d", want), fmt.Sprintf(`Number(document.body.dataset.turn) >= %d`, want))
	s.settle()
}

// settle waits until the page takes digits: one pressed at once after a new
// sheet counts as a bounce. The page's own clock counts, since that is what
// the page goes by.
func (s *sheet) settle() {
	s.t.Helper()
	s.eval(`new Promise(done => setTimeout(done, 300))`, nil)
}

// say types words and sends them.
func (s *sheet) say(words string) {
	s.t.Helper()
	s.next(func() {
		s.do(chromedp.Focus(chromedp.CSS("#words")))
		s.keys(words + kb.Enter)
	})
}

// answer answers the question on the sheet by the keyboard: the number where
// one is asked, else the answer with that digit.
func (s *sheet) answer(digit, number string) {
	s.t.Helper()
	var asksNumber bool
	s.eval(`document.getElementById("number") !== null`, &asksNumber)
	if asksNumber {
		s.next(func() { s.keys(number + kb.Enter) })
		return
	}
	s.next(func() { s.keys(digit) })
}

// toAdvice answers questions until there is advice.
func (s *sheet) toAdvice() {
	s.t.Helper()
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	for range 12 {
		if s.phase() == "advising" {
			return
		}
		s.answer("1", "30")
	}
	s.t.Fatalf("no advice after twelve answers\n%s", s.state())
}
