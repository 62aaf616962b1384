package browsertest

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"sparehand/internal/journal"
	"sparehand/internal/serve"
	"sparehand/web"
)

// keptServer is a server with a store that can be started again, at the same
// address.
type keptServer struct {
	t     *testing.T
	store string
	at    string
	stop  func()
}

func startKept(t *testing.T) *keptServer {
	t.Helper()
	k := &keptServer{t: t, store: filepath.Join(t.TempDir(), "notebook.db"), at: "127.0.0.1:0"}
	k.start()
	t.Cleanup(func() { k.stop() })
	return k
}

func (k *keptServer) url() string { return "http://" + k.at + "/" }

func (k *keptServer) start() {
	k.t.Helper()
	j, err := journal.Open(context.Background(), k.store)
	if err != nil {
		k.t.Fatal(err)
	}
	listener, err := net.Listen("tcp", k.at)
	if err != nil {
		k.t.Fatal(err)
	}
	k.at = listener.Addr().String()
	server := serve.New(serve.Config{Assistant: serve.Talks(assistant(k.t).At(j.Desk(time.Second))), Assets: web.Files, Store: j})
	front := &http.Server{Handler: server.Handler(), ReadHeaderTimeout: 5 * time.Second}
	served := make(chan error, 1)
	go func() { served <- front.Serve(listener) }()
	k.stop = func() {
		ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		if err := errors.Join(front.Close(), server.Shutdown(ctx), j.Close()); err != nil {
			k.t.Errorf("stopping: %v", err)
		}
		<-served
	}
}

func (k *keptServer) restart() {
	k.t.Helper()
	k.stop()
	k.start()
}

// atPlaster takes a build to the plaster with few words.
func (s *sheet) atPlaster() {
	s.t.Helper()
	s.say("guide me through a barnacle cheek")
	s.say("go to the plaster")
	s.say("70")
	if got := s.text("#sheet-title"); !strings.Contains(got, "Mix the plaster") {
		s.t.Fatalf("the build is at %q\n%s", got, s.state())
	}
}

// ferryman answers what a build asks for his barnacle cheek, by what stands on
// the sheet: words of the question, and of the answer or the number.
var ferryman = [][2]string{
	{"How often have you made", "never"}, {"minutes are left", "5000"}, {"Where on the body", "cheek"},
	{"How long is the piece", "60"}, {"How wide", "45"}, {"How high", "12"}, {"Which clay", "oil"},
	{"any allergy known", "no allergy"}, {"agree to wear", "yes"}, {"under sixteen", "no"}, {"without trouble", "worn before"},
	{"wall made of", "clay strips"}, {"grams of water", "70"}, {"What is in the mix", "sorbitol"}, {"How many copies", "1"},
	{"How is the foot of the wall", "just stood"}, {"How did it go", "held"}, {"How long was it worn", "180"},
	{"Did that do it", "yes"}, {"come off at the end", "held"},
}

// byKeys answers the question on the sheet with keys: the digit of the answer
// that is meant, a number, or not sure.
func (s *sheet) byKeys() {
	s.t.Helper()
	asked, want := s.text("#sheet-title")+" "+s.text(".part.closing"), ""
	for _, a := range ferryman {
		if strings.Contains(asked, a[0]) {
			want = a[1]
		}
	}
	var number bool
	s.eval(`document.getElementById("number") !== null`, &number)
	switch {
	case number && want != "":
		s.eval(`(document.getElementById("number").focus(), true)`, nil) // where the focus is on a laptop anyway
		s.next(func() { s.keys(want + kb.Enter) })
	case number:
		s.next(func() { s.keys(kb.PageDown + kb.Enter) })
	default:
		s.next(func() { s.keys(s.digitOf(want)) })
	}
}

// digitOf gives the key of the answer that holds words; "0" where there is none.
func (s *sheet) digitOf(words string) string {
	s.t.Helper()
	digit := "0"
	if words != "" {
		s.eval(fmt.Sprintf(`[...document.querySelectorAll("#answers [data-n]")].find(b => b.textContent.toLowerCase().includes(%q))?.dataset.n ?? "0"`, words), &digit)
	}
	return digit
}

// begin starts a build by the key for it.
func (s *sheet) begin() {
	s.t.Helper()
	s.keys(kb.Escape)
	s.do(chromedp.Focus(chromedp.CSS("#sheet")))
	s.settle()
	s.next(func() { s.keys("1") })
}

// onward answers, starts clocks and says done until a step is at hand.
func (s *sheet) onward(heading string) {
	s.t.Helper()
	for range 90 {
		if strings.Contains(s.text("#sheet-title"), heading) {
			return
		}
		s.once()
	}
	s.t.Fatalf("the step %q never came\n%s", heading, s.state())
}

// once gives the one answer that takes the build on.
func (s *sheet) once() {
	s.t.Helper()
	for _, word := range []string{"started just now", "done, what is next", "is it ready"} {
		if digit := s.digitOf(word); digit != "0" {
			s.next(func() { s.keys(digit) })
			return
		}
	}
	if s.shown("#answers") {
		if ready := s.readyAnswer(); ready != "" {
			s.next(func() { s.keys(ready) })
			return
		}
	}
	s.byKeys()
}

// readyAnswer is the key of the answer that means ready, where a step that
// waits is asked about; "" where nothing is.
func (s *sheet) readyAnswer() string {
	s.t.Helper()
	asked := s.text("#sheet-title")
	for _, a := range [][2]string{
		{"Press a fingernail", "gone cool"}, {"Pinch a grain", "swollen"}, {"arm", "like the other"}, {"cheek", "dry"}, {"Press the middle", "firm"},
	} {
		if strings.Contains(asked, a[0]) {
			if digit := s.digitOf(a[1]); digit != "0" {
				return digit
			}
		}
	}
	return ""
}

// The ferryman's barnacle cheek from the first key to the piece written down,
// with a leaking wall, a reload and a new server in between.
func TestWholeBuildByKeysAlone(t *testing.T) {
	t.Parallel()
	k := startKept(t)
	s := openSheet(t, k.url(), laptop, "light")
	s.begin()
	s.onward("Mix the plaster")
	if got := s.texts("#paper .never li"); len(got) == 0 || !strings.Contains(strings.Join(got, " "), "Never pour") {
		t.Errorf("the card of the plaster bars %q", got)
	}
	if rows := s.texts("#amounts tbody th"); !strings.Contains(strings.Join(rows, " "), "plaster") {
		t.Errorf("beside the plaster stand the amounts %q", rows)
	}

	s.next(func() { s.keys(s.digitOf("started")) })
	if got := s.texts("#timers .name"); len(got) == 0 {
		t.Error("no timer runs once the plaster is begun")
	}
	s.next(func() { s.keys(s.digitOf("something is wrong")) })
	s.next(func() { s.keys(s.digitOf("leaks")) })
	for range 12 {
		if s.phase() == "building" {
			break
		}
		s.byKeys()
	}
	if got := s.text("#sheet-title"); !strings.Contains(got, "Mix the plaster") {
		t.Fatalf("after the leak the build is at %q\n%s", got, s.state())
	}

	turn := s.turn()
	s.do(chromedp.Reload())
	s.until("the same sheet", fmt.Sprintf(`Number(document.body.dataset.turn) >= %d && document.getElementById("sheet-title").textContent.includes("Mix the plaster")`, turn))
	k.restart()
	s.until("the link", `document.getElementById("link").dataset.state === "linked"`)
	s.settle()
	s.onward("Write down what happened")
	s.next(func() { s.keys(s.digitOf("done")) })
	if s.shown("#next") || !strings.Contains(s.text("#sheet-title"), "All steps are done") {
		t.Fatalf("at the end stands %q\n%s", s.text("#sheet-title"), s.state())
	}
	s.keys("1")
	s.until("the result", `document.getElementById("preview").open`)
	if got := s.text("#preview-body"); !strings.Contains(got, "What was made") || !strings.Contains(got, "M1") || !strings.Contains(got, "what helped") {
		t.Errorf("the result page reads %.300q", got)
	}
}

// outlineOnPaper prints the page and gives the headings of the PDF, which Chromium
// writes as plain strings (ISO 32000-1, 12.3.3: /Title of an outline item).
func (s *sheet) outlineOnPaper() []string {
	s.t.Helper()
	yes := true
	pdf, err := chromedp.Call(s.ctx, page.PrintToPDF, page.PrintToPDFParams{GenerateTaggedPDF: &yes, GenerateDocumentOutline: &yes})
	if err != nil {
		s.t.Fatal(err)
	}
	var titles []string
	for _, m := range regexp.MustCompile(`/Title \(([^)]*)\)`).FindAllSubmatch(pdf.Data, -1) {
		titles = append(titles, string(m[1]))
	}
	return titles
}

// The plan is shown to print, with the shopping list and the safety sheet, and
// given as a calendar.
func TestPlanOnPaper(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	s.begin()
	s.onward("Build the form in clay")
	s.eval(`[...document.querySelectorAll("#plan button")].find(b => b.textContent.includes("print")).click()`, nil)
	s.until("the plan", `document.getElementById("preview").open`)
	got := s.text("#preview-body")
	for _, want := range []string{"Timetable", "Shopping list", "Safety sheet", "To have at hand"} {
		if !strings.Contains(got, want) {
			t.Errorf("the plan lacks %q", want)
		}
	}
	if strings.Contains(got, "undefined") {
		t.Error("the plan has holes: undefined")
	}
	var hatched bool // by a pattern of its own: that of the drawing on the bench is hidden
	s.eval(`(svg => svg.querySelector(svg.querySelector("[fill^=url]").getAttribute("fill").slice(4, -1)) !== null)(document.querySelector("#preview svg"))`, &hatched)
	if !hatched {
		t.Error("the time chart of the plan is not hatched by itself")
	}
	outline := s.outlineOnPaper()
	for _, heading := range []string{"Timetable", "Shopping list", "Safety sheet"} {
		if !slices.Contains(outline, heading) {
			t.Errorf("%q is no heading on paper: %q", heading, outline)
		}
	}
	s.media("print", "prefers-color-scheme", "light")
	if s.shown("#sheet") || !s.shown("#preview table") || s.shown("#print-do") {
		t.Error("the paper holds more or less than the plan")
	}
	s.media("", "prefers-color-scheme", "light")
	s.keys(kb.Escape)
	var calendar string
	s.eval(`new Promise(done => {
		const make = URL.createObjectURL;
		URL.createObjectURL = blob => { blob.text().then(done); return make.call(URL, blob); };
		[...document.querySelectorAll("#plan button")].find(b => b.textContent.includes("calendar")).click();
	})`, &calendar)
	if !strings.HasPrefix(calendar, "BEGIN:VCALENDAR") {
		t.Errorf("the calendar begins %.60q", calendar)
	}
}
