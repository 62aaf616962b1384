package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// oneSwitch turns the scanning on in the help, at its quickest.
func (s *sheet) oneSwitch() {
	s.t.Helper()
	s.do(chromedp.Click(chromedp.CSS("#help-open")))
	s.eval(`(() => {
		const dwell = document.getElementById("scan-dwell");
		dwell.value = "0.8";
		dwell.dispatchEvent(new Event("change"));
		document.getElementById("scan-on").click();
	})()`, nil)
	s.do(chromedp.Click(chromedp.CSS("#help-close")))
	s.until("the scanning", `!document.getElementById("scan").hidden`)
}

const marked = `document.querySelector("#scan-list [data-marked]")?.textContent ?? ""`

// take waits until something is marked, and presses the switch.
func (s *sheet) take(label, press string) {
	s.t.Helper()
	s.until(label+" to be marked", fmt.Sprintf(`(%s) === %q`, marked, label))
	s.eval(`new Promise(done => setTimeout(done, 350))`, nil) // a press right after another is a bounce
	if press == "touch" {
		s.do(chromedp.MouseClickXY(200, 30))
		return
	}
	s.keys(press)
}

// One key answers a question, gives a number, and takes it back.
func TestOneSwitchAnswers(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), phone, "light")
	s.say(leak)
	s.oneSwitch()
	if first := s.texts("#scan-list li"); first[0] != "Emergency" {
		t.Errorf("the first of %q is not the emergency", first)
	}
	if text := s.text("#scan-text"); !strings.Contains(text, "How is the foot of the wall fixed to the plate?") {
		t.Errorf("the text of the sheet is %q", text)
	}
	s.next(func() { s.take("pressed down only", " ") })
	if said := s.texts("#lines .said"); said[len(said)-1] != "“pressed down only”" {
		t.Errorf("the switch was taken as %q", said[len(said)-1])
	}
	s.next(func() { s.take("Take back", kb.PageDown) })
	s.next(func() { s.take("Not sure", "touch") })
	if s.turn() != 4 {
		t.Errorf("three presses led to turn %d", s.turn())
	}
}

func TestOneSwitchGivesANumber(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), phone, "light")
	s.say("how much plaster do I need")
	s.toNumber()
	s.oneSwitch()
	s.take("1", kb.Enter)
	s.take("2", kb.Enter)
	s.until("the digits", `document.getElementById("scan-number").textContent === "12"`)
	var enter string
	s.eval(`document.querySelector("#scan-list li:nth-child(2)").textContent`, &enter)
	if !strings.HasPrefix(enter, "Enter 12 ") && enter != "Read on" {
		t.Errorf("after the digits comes %q", enter)
	}
	s.next(func() {
		s.until("the number to be marked", fmt.Sprintf(`(%s).startsWith("Enter 12")`, marked))
		s.eval(`new Promise(done => setTimeout(done, 350))`, nil)
		s.keys(" ")
	})
	if said := s.texts("#lines .said"); !strings.HasPrefix(said[len(said)-1], "“12") {
		t.Errorf("the number was taken as %q", said[len(said)-1])
	}
}

// Two rounds are made, then it rests until the switch is pressed, which takes
// nothing. An emergency is two presses away, and its end is on the list.
func TestOneSwitchRestAndEmergency(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), phone, "light")
	s.oneSwitch()
	list := s.texts("#scan-list li")
	deadline := time.Now().Add(patience + time.Duration(2*len(list))*800*time.Millisecond)
	for s.text("#scan-rest") == "" && time.Now().Before(deadline) {
		time.Sleep(200 * time.Millisecond)
	}
	if rest := s.text("#scan-rest"); rest != "Press the switch to go on." {
		t.Fatalf("after two rounds it says %q", rest)
	}
	s.keys(" ")
	s.until("it to go on", fmt.Sprintf(`(%s) === "Emergency"`, marked))
	if again := s.texts("#scan-list li"); s.turn() != 0 || !slices.Equal(again, list) {
		t.Errorf("the press that wakes it took turn %d and left %q", s.turn(), again)
	}
	s.take("Emergency", " ")
	s.next(func() { s.take("A burn", " ") })
	if s.phase() != "emergency" {
		t.Fatalf("A burn leads to %s\n%s", s.phase(), s.state())
	}
	if list := s.texts("#scan-list li"); !slices.Contains(list[:2], "We are safe now") {
		t.Errorf("the list of an emergency is %q", list)
	}
	s.keys(kb.Escape)
	s.until("the end of scanning", `document.getElementById("scan").hidden && !document.querySelector(".bench").inert`)
}

// Each emergency on the list is one to the assistant. A cut that bleeds has its
// first aid said, and the talk goes on.
func TestOneSwitchEmergenciesAreKnown(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), phone, "light")
	var list [][2]string
	s.eval(`import("/js/scan.js").then(scan => scan.EMERGENCIES)`, &list)
	if len(list) < 5 {
		t.Fatalf("only %d emergencies", len(list))
	}
	for _, e := range list {
		reply := assistant(t).Open().Hear(e[1], time.Now())
		if reply.Phase != "emergency" && !strings.Contains(reply.Say, "Press a clean cloth") {
			t.Errorf("%s (%q) leads to %s: %q", e[0], e[1], reply.Phase, reply.Say)
		}
	}
}
