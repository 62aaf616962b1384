package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/gorilla/websocket"

	"sparehand/internal/serve"
)

// sayElsewhere takes a turn in a talk from another device.
func sayElsewhere(t *testing.T, w *wire, id, words string) {
	t.Helper()
	address := "ws" + strings.TrimPrefix(w.url(), "http") + "ws"
	conn, _, err := websocket.DefaultDialer.Dial(address, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if err := conn.SetReadDeadline(time.Now().Add(5 * time.Second)); err != nil {
		t.Fatal(err)
	}
	for _, r := range []serve.Request{
		{V: serve.Version, Kind: "open", Talk: id},
		{V: serve.Version, Kind: "say", Ref: "elsewhere", Text: words},
	} {
		if err := conn.WriteJSON(r); err != nil {
			t.Fatal(err)
		}
		var m serve.Message
		if err := conn.ReadJSON(&m); err != nil || m.Fault != "" {
			t.Fatalf("%s from elsewhere: %q, %v", r.Kind, m.Fault, err)
		}
	}
}

// nothingTwice checks that every turn stands once in the log and was
// announced once.
func (s *sheet) nothingTwice(turns int) {
	s.t.Helper()
	var numbers []string
	s.eval(`[...document.querySelectorAll("#lines li")].map(l => l.dataset.turn)`, &numbers)
	var want []string
	for n := 1; n <= turns; n++ {
		want = append(want, fmt.Sprint(n))
	}
	if !slices.Equal(numbers, want) {
		s.t.Errorf("the log holds the turns %v, want %v", numbers, want)
	}
	time.Sleep(150 * time.Millisecond) // an announcement comes a moment after the sheet
	var announced []string
	s.eval(`announced`, &announced)
	seen := map[string]int{}
	for _, a := range announced {
		seen[a]++
	}
	for text, times := range seen {
		if times > 1 {
			s.t.Errorf("announced %d times: %q", times, text)
		}
	}
}

// The connection breaks; an answer given meanwhile is kept, sent when the link
// is back, and taken once.
func TestCutLinkKeepsTheAnswer(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	s := openSheet(t, w.url(), laptop, "light")
	s.say(leak)
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	w.cut(true)
	s.until("the page to notice", `document.getElementById("link").dataset.state === "cut"`)
	if words := s.text("#link"); !strings.Contains(words, "Cut off") {
		t.Errorf("the link is said to be %q", words)
	}
	s.keys("1")
	s.until("the answer to be kept", `document.getElementById("waiting").textContent.startsWith("Kept")`)
	s.keys("2") // held: one answer is on its way already
	w.mend()
	s.eval(`document.getElementById("retry").click()`, nil) // hidden when the page was quicker
	s.until("the answer to be taken", `document.body.dataset.turn === "2"`)
	s.until("the link to be said to be back", `document.getElementById("link").textContent === "Connected"`)
	time.Sleep(300 * time.Millisecond) // time for a second answer to do harm
	s.nothingTwice(2)
}

// The server takes the answer, but its reply is lost with the connection: the
// page asks again with the same ref, and the turn counts once.
func TestLostReplyIsNotActedOnTwice(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	s := openSheet(t, w.url(), laptop, "light")
	s.say(leak)
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	w.deafen()
	s.keys("1")
	s.until("the answer to be sent", `document.querySelector("#answers[data-sent]") !== null || document.getElementById("waiting").textContent !== ""`)
	time.Sleep(300 * time.Millisecond) // the server has taken it by now
	w.cut(false)
	s.until("the turn to come", `document.body.dataset.turn === "2"`)
	s.until("nothing to wait for", `JSON.parse(sessionStorage.getItem("sparehand.unanswered")).length === 0`)
	s.nothingTwice(2)
	var held bool
	s.eval(`document.querySelector("[data-sent]") !== null`, &held)
	if held {
		t.Error("the answers are still held")
	}
}

// A turn taken elsewhere while the link was down is drawn once.
func TestMissedTurnIsCaughtUp(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	s := openSheet(t, w.url(), laptop, "light")
	s.say(leak)
	var id string
	s.eval(`JSON.parse(localStorage.getItem("sparehand.talk")).id`, &id)
	s.setOffline(true)
	s.until("the page to notice", `document.getElementById("link").dataset.state === "offline"`)
	if words := s.text("#link"); !strings.Contains(words, "local number") {
		t.Errorf("without a network the page says %q, and not whom to call", words)
	}
	sayElsewhere(t, w, id, "the air is dry in here")
	s.setOffline(false)
	s.until("the missed turn", `document.body.dataset.turn === "2"`)
	s.nothingTwice(2)
}

func (s *sheet) setOffline(offline bool) {
	s.t.Helper()
	_, err := chromedp.Call(s.ctx, network.Enable, network.EnableParams{})
	if err == nil {
		_, err = chromedp.Call(s.ctx, network.OverrideNetworkState, network.OverrideNetworkStateParams{
			Offline: offline, DownloadThroughput: -1, UploadThroughput: -1,
		})
	}
	if err != nil {
		s.t.Fatal(err)
	}
}

// A talk that the server does not know any more is said to be gone, and its
// unanswered requests are not sent into the new one.
func TestTalkThatIsGone(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.eval(`localStorage.setItem("sparehand.talk", JSON.stringify({id: "AAAAAAAAAAAAAAAAAAAAAA", turn: 4}))`, nil)
	s.eval(`sessionStorage.setItem("sparehand.unanswered", JSON.stringify([{v: 1, ref: "old", kind: "say", text: "the torn edge again"}]))`, nil)
	s.do(chromedp.Reload())
	s.until("the page to say so", `!document.getElementById("fault").hidden`)
	if fault := s.text("#fault"); !strings.Contains(fault, "new one") {
		t.Errorf("the page says %q", fault)
	}
	time.Sleep(200 * time.Millisecond)
	if s.turn() != 0 {
		t.Errorf("the old words made turn %d in the new talk", s.turn())
	}
	if got := s.words(); got != "the torn edge again" {
		t.Errorf("the words that were not taken are not given back: the field holds %q", got)
	}
}

// A hidden page does not try to come back; seen again, it comes back at once.
func TestHiddenPageRests(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	s := openSheet(t, w.url(), laptop, "light")
	s.hide(true)
	if state := s.linkState(); state != "linked" {
		t.Errorf("a hidden page gave up its link: %s", state)
	}
	w.cut(false)
	s.until("the page to rest", `document.getElementById("link").dataset.state === "hidden"`)
	time.Sleep(1200 * time.Millisecond) // longer than the first two pauses
	if state := s.linkState(); state != "hidden" {
		t.Errorf("a hidden page came back by itself: %s", state)
	}
	s.hide(false)
	s.until("the link to be back", `document.getElementById("link").dataset.state === "linked"`)
}

// After a long sleep the link may be dead without a sign, so a new one is made;
// the sheet stays as it was.
func TestLongSleepMakesAFreshLink(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	s := openSheet(t, w.url(), laptop, "light")
	s.say(leak)
	s.eval(`document.getElementById("sheet-title").dataset.mark = "same"`, nil)
	s.hide(true)
	s.hide(false)
	before := w.connections()
	s.hide(true)
	s.eval(`(() => { const real = Date.now; Date.now = () => real() + 60000; })()`, nil)
	s.hide(false)
	s.until("the link to be back", `document.getElementById("link").dataset.state === "linked"`)
	if made := w.connections() - before; made != 1 {
		t.Errorf("after a short and a long sleep %d new links were made, want 1 for the long one", made)
	}
	var mark string
	s.eval(`document.getElementById("sheet-title").dataset.mark`, &mark)
	if mark != "same" {
		t.Error("the sheet was drawn again although nothing had changed")
	}
	s.nothingTwice(1)
}

// hide makes the page believe that it is hidden, or seen again.
func (s *sheet) hide(hidden bool) {
	s.t.Helper()
	s.eval(fmt.Sprintf(`(() => {
		Object.defineProperty(document, "hidden", {value: %t, configurable: true});
		document.dispatchEvent(new Event("visibilitychange"));
	})()`, hidden), nil)
}

func (s *sheet) linkState() string {
	s.t.Helper()
	var state string
	s.eval(`document.getElementById("link").dataset.state`, &state)
	return state
}

// What the server refuses is said in its words, and the talk goes on.
func TestRefusedRequestIsExplained(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say("how much plaster do I need")
	s.say("60 mm")
	s.do(chromedp.Click(chromedp.CSS("[data-told=piece_length_mm] button")))
	s.do(chromedp.SetValue(chromedp.CSS("#told-field"), "9000"), chromedp.Click(chromedp.CSS(".told-edit [type=submit]")))
	s.until("the refusal", `!document.getElementById("fault").hidden`)
	if s.turn() != 2 {
		t.Errorf("a refused correction made turn %d", s.turn())
	}
	s.say("70 mm")
	if s.shown("#fault") {
		t.Errorf("the refusal %q stays after the next turn", s.text("#fault"))
	}
}
