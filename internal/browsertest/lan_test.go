package browsertest

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

func openIn(t *testing.T, ctx context.Context, url string) *sheet {
	t.Helper()
	s := &sheet{t: t, ctx: ctx, messages: make(chan string, 100)}
	s.watchConsole()
	s.resize(phone)
	s.do(chromedp.Navigate(url))
	return s
}

// arrives waits for a page, whatever is open meanwhile.
func (s *sheet) arrives(path string) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	for {
		at, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.readyState === "complete" ? location.href : ""`))
		if err == nil && strings.HasSuffix(at, path) {
			return
		}
		if ctx.Err() != nil {
			s.t.Fatalf("the page is %q (%v), want %s", at, err, path)
		}
		time.Sleep(20 * time.Millisecond)
	}
}

func (s *sheet) asksLeak() {
	s.t.Helper()
	s.until("the opening words", `document.body.dataset.turn === "0"`)
	s.say(leak)
	if got := s.text(".job"); got != "Plaster leaks from the wall" {
		s.t.Errorf("the sheet is headed %q", got)
	}
}

const secureThere = `isSecureContext + " " + (navigator.mediaDevices !== undefined)`

// A device that trusts the authority has the microphone after one scan of the
// QR code; one that does not has the page by plain http, without.
func TestPhoneOnTheNetwork(t *testing.T) {
	server := startLan(t)
	trusts := household(t, download(t, server))

	t.Run("trusts", func(t *testing.T) {
		ctx := lanBrowser(t, trusts)
		s := openIn(t, ctx, server.secure+"join#"+strings.ReplaceAll(server.code, "-", ""))
		s.arrives(strings.TrimPrefix(server.secure, "https:")) // without the code
		var got string
		if s.eval(secureThere, &got); got != "true true" {
			t.Errorf("secure context, media devices: %s", got)
		}
		var tracks int
		if s.eval(`navigator.mediaDevices.getUserMedia({audio: true}).then(m => m.getAudioTracks().length)`, &tracks); tracks != 1 {
			t.Errorf("the microphone has %d tracks", tracks)
		}
		s.asksLeak()
		var cookies string
		if s.eval(`document.cookie`, &cookies); cookies != "" {
			t.Errorf("scripts see the cookie %q", cookies)
		}
	})

	t.Run("does not trust", func(t *testing.T) {
		ctx := lanBrowser(t, household(t, ""))
		opening, cancel := context.WithTimeout(ctx, patience)
		defer cancel()
		if err := chromedp.Do(opening, chromedp.Navigate(server.secure)); err == nil || !strings.Contains(err.Error(), "ERR_CERT_AUTHORITY_INVALID") {
			t.Errorf("by https: %v", err)
		}
		s := openIn(t, ctx, server.plain)
		s.arrives("/join")
		s.eval(`document.getElementById("code").focus()`, nil)
		s.keys("wrong\r")
		s.until("the fault", `document.readyState === "complete" && document.getElementById("fault") !== null`)
		s.eval(`document.getElementById("code").focus()`, nil)
		s.keys(strings.ToLower(server.code) + "\r")
		s.arrives(strings.TrimPrefix(server.plain, "http:"))
		var got string
		if s.eval(secureThere, &got); got != "false false" {
			t.Errorf("secure context, media devices: %s", got)
		}
		s.asksLeak()
	})

	t.Run("pages", func(t *testing.T) {
		axe := axeSource(t)
		ctx := lanBrowser(t, household(t, ""))
		for _, page := range []string{"join", "trust"} {
			s := openIn(t, ctx, server.plain+page)
			s.eval(`(() => {`+axe+`})(), true`, nil)
			s.eval(`document.querySelectorAll("details").forEach(d => d.open = true)`, nil)
			for _, scheme := range []string{"light", "dark"} {
				s.scheme(scheme)
				s.runAxe(page+", "+scheme, phone)
			}
			var over int
			if s.eval(`document.documentElement.scrollWidth - document.documentElement.clientWidth`, &over); over > 0 {
				t.Errorf("%s is %d pixels too wide for a phone", page, over)
			}
		}
	})
}
