package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"sparehand/internal/talk"
)

const leak = "plaster is running out under the wall"

// From the first words to the remedy, its amounts and its cautions, with
// nothing but keys.
func TestLeakByKeysAlone(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.next(func() { s.keys(leak + "\r") }) // the words field has the focus from the start
	if got := s.text(".job"); got != "Plaster leaks from the wall" {
		t.Fatalf("the sheet is headed %q", got)
	}
	s.keys("\x1b") // leave the words field
	for range 12 {
		if s.phase() == "advising" {
			break
		}
		s.answer("1", "30")
	}
	if s.phase() != "advising" {
		t.Fatalf("no advice after twelve answers\n%s", s.state())
	}
	if steps := s.texts("#paper .steps li"); len(steps) == 0 {
		t.Error("the advice has no steps")
	}
	if cautions := s.texts(`#paper [data-caution="plaster-on-skin"]`); len(cautions) != 1 {
		t.Errorf("the caution about plaster on skin stands %d times on the sheet of advice", len(cautions))
	}
	var cautionsFirst bool
	s.eval(`document.querySelector(".cautions").compareDocumentPosition(document.querySelector(".steps")) === Node.DOCUMENT_POSITION_FOLLOWING`, &cautionsFirst)
	if !cautionsFirst {
		t.Error("the steps come before the cautions")
	}
	s.wantAmountsByKeys()
}

// wantAmountsByKeys asks how much, and answers what is asked for it.
func (s *sheet) wantAmountsByKeys() {
	s.t.Helper()
	s.keys("/")
	s.next(func() { s.keys("how much plaster do I need\r") })
	s.keys("\x1b")
	s.toAmounts()
	rows := s.texts("#amounts tbody th")
	if !slices.ContainsFunc(rows, func(r string) bool { return strings.Contains(r, "plaster") }) ||
		!slices.ContainsFunc(rows, func(r string) bool { return strings.Contains(r, "water") }) {
		s.t.Errorf("the table of amounts names %q, want plaster and water\n%s", rows, s.state())
	}
	if caption := s.texts("#amounts caption"); len(caption) == 0 || caption[0] == "" {
		s.t.Error("the table of amounts has no caption")
	}
}

// toAmounts answers until there is a table of amounts.
func (s *sheet) toAmounts() {
	s.t.Helper()
	for range 8 {
		if s.shown("#amounts tbody tr") {
			return
		}
		s.answer("2", "60")
	}
	s.t.Fatalf("no table of amounts after eight answers\n%s", s.state())
}

// What the page shows is what the assistant says, cause by cause.
func TestCausesAreTheAssistants(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	session := assistant(t).Open()
	reply := session.Hear(leak, time.Now())
	s.compareCauses(reply)
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	if reply.Question == nil || reply.Question.Kind == "number" {
		t.Fatal("the book asks no choice here any more: pick other words")
	}
	s.next(func() { s.keys("2") })
	reply, err := session.Pick(2, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	s.compareCauses(reply)
}

func (s *sheet) compareCauses(reply talk.Reply) {
	s.t.Helper()
	var want []string
	for _, c := range reply.Causes {
		want = append(want, c.Title)
	}
	if got := s.texts("#causes .name"); len(want) == 0 || !slices.Equal(got, want) {
		s.t.Errorf("the page shows the causes %q, want %q", got, want)
	}
	var widths []float64
	s.eval(`[...document.querySelectorAll("#causes .bar")].map(b => b.offsetParent ? b.firstChild.getBoundingClientRect().width / b.clientWidth : -1)`, &widths)
	for i, width := range widths {
		if width >= 0 && reply.Causes[i].Share > 0.02 && (width < reply.Causes[i].Share-0.02 || width > reply.Causes[i].Share+0.02) {
			s.t.Errorf("the bar of %q fills %.2f of its length, want %.2f", want[i], width, reply.Causes[i].Share)
		}
	}
}

// A page loaded again in the middle of a talk goes on where it was, with the
// whole log and without announcing anything a second time.
func TestReloadGoesOn(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	s.answer("1", "30")
	before, heading, log := s.turn(), s.text("#sheet-title"), s.texts("#lines li")
	s.do(chromedp.Reload())
	s.until("the talk to be back", fmt.Sprintf(`document.body.dataset.turn === "%d"`, before))
	s.eval(listenIn, nil)
	if got := s.text("#sheet-title"); got != heading {
		t.Errorf("after the reload the sheet asks %q, want %q", got, heading)
	}
	if got := s.texts("#lines li"); !slices.Equal(got, log) || len(log) != before {
		t.Errorf("after the reload the log holds %q, want %q", got, log)
	}
	s.settle()
	if said := s.texts("#polite, #urgent"); strings.Join(said, "") != "" {
		t.Errorf("after the reload %q is announced again", said)
	}
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	s.answer("1", "30")
	if s.turn() != before+1 {
		t.Errorf("the answer after the reload made turn %d, want %d", s.turn(), before+1)
	}
}

// An earlier answer put right in its place changes the ranking, and the page
// says what that did.
func TestCorrectingAnAnswerChangesTheRanking(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	before := s.texts("#causes .name")
	if said := s.texts("#told [data-told=leak_place] .value"); len(said) != 1 || said[0] != "under the wall" {
		t.Fatalf("the slate holds %q for where it leaks", said)
	}
	s.do(chromedp.Click(chromedp.CSS("[data-told=leak_place] button")))
	s.until("the field to have the focus", `document.activeElement.id === "told-field"`)
	s.do(chromedp.SetValue(chromedp.CSS("#told-field"), "over"))
	s.next(func() { s.do(chromedp.Click(chromedp.CSS(".told-edit [type=submit]"))) })
	after := s.texts("#causes .name")
	if slices.Equal(before, after) || len(after) == 0 || after[0] == before[0] {
		t.Errorf("leaking over the top instead of under the wall leaves %q first", after)
	}
	if changed := s.text(".change"); !strings.Contains(strings.ToLower(changed), "likeliest now") {
		t.Errorf("the page says %q about the change", changed)
	}
	s.until("the focus to be back on the line", `document.activeElement.closest("[data-told=leak_place]") !== null`)
	s.forgetTold()
}

// forgetTold forgets where it leaks: the line goes, and the ranking with it.
func (s *sheet) forgetTold() {
	s.t.Helper()
	s.do(chromedp.Click(chromedp.CSS("[data-told=leak_place] button")))
	s.next(func() { s.do(chromedp.Click(chromedp.CSS(".told-edit button:nth-of-type(2)"))) })
	if left := s.texts("#told [data-told=leak_place]"); len(left) != 0 {
		s.t.Errorf("after forgetting it the slate still holds %q", left)
	}
}

// A line that is being changed keeps its field, its words and its focus when
// another device takes a turn in the same talk.
func TestOpenLineOutlivesATurnFromElsewhere(t *testing.T) {
	t.Parallel()
	w := startServer(t)
	s := openSheet(t, w.url(), laptop, "light")
	s.say(leak)
	s.do(chromedp.Click(chromedp.CSS("[data-told=leak_place] button")))
	s.do(chromedp.SetValue(chromedp.CSS("#told-field"), "over"))
	var id string
	s.eval(`JSON.parse(localStorage.getItem("sparehand.talk")).id`, &id)
	turn := s.turn()
	sayElsewhere(t, w, id, "the air is dry in here")
	s.until("the turn from elsewhere", fmt.Sprintf(`Number(document.body.dataset.turn) === %d`, turn+1))
	var value string
	s.eval(`document.activeElement.id === "told-field" ? document.activeElement.value : ""`, &value)
	if value != "over" {
		t.Errorf("the open field holds %q or lost its focus, want over", value)
	}
}

// An emergency takes the whole bench, is announced at once, and ends with one
// button.
func TestEmergencyTakesTheWholeBench(t *testing.T) {
	t.Parallel()
	for _, l := range []look{laptop, phone} {
		t.Run(l.name, func(t *testing.T) {
			t.Parallel()
			s := openSheet(t, startServer(t).url(), l, "light")
			s.say(leak)
			s.say("I burnt my hand with hot gelatin")
			if s.phase() != "emergency" {
				t.Fatalf("no emergency\n%s", s.state())
			}
			if alarm := s.text(".alarm"); !strings.Contains(alarm, "Emergency") {
				t.Errorf("the alarm says %q", alarm)
			}
			for _, gone := range []string{"#side", "#book"} {
				if s.shown(gone) {
					t.Errorf("%s is still on the bench", gone)
				}
			}
			if first := s.text("#sheet-title"); !strings.Contains(first, "water") {
				t.Errorf("the first thing to do is %q", first)
			}
			if steps := s.texts("#paper .steps li"); len(steps) == 0 {
				t.Error("there are no steps")
			}
			if said := s.texts("#urgent"); said[0] == "" || s.texts("#polite")[0] == said[0] {
				t.Errorf("announced urgently: %q, politely: %q", said, s.texts("#polite"))
			}
			s.next(func() { s.do(chromedp.Click(chromedp.CSS("#answers button"))) })
			if s.phase() == "emergency" || !s.shown("#side") {
				t.Errorf("safe again, and the bench is not back\n%s", s.state())
			}
		})
	}
}

// Clearing the bench asks first, and then begins with nothing told.
func TestClearingTheBench(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.say(leak)
	s.do(chromedp.Click(chromedp.CSS("#book summary")), chromedp.Click(chromedp.CSS("#clear-open")))
	s.do(chromedp.Click(chromedp.CSS("#clear-keep")))
	if s.turn() != 1 {
		t.Fatalf("keeping the talk leads to turn %d", s.turn())
	}
	s.do(chromedp.Click(chromedp.CSS("#clear-open")), chromedp.Click(chromedp.CSS("#clear-do")))
	s.until("a new talk", `document.body.dataset.turn === "0"`)
	if lines, told := s.texts("#lines li"), s.texts("[data-told]"); len(lines)+len(told) > 0 {
		t.Errorf("the new talk begins with %q and %q", lines, told)
	}
}
