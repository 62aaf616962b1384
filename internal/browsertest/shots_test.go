package browsertest

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// media emulates a medium and one feature of it, with motion kept low.
func (s *sheet) media(medium, feature, value string) {
	s.t.Helper()
	_, err := chromedp.Call(s.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Media: medium,
		Features: []*emulation.MediaFeature{
			{Name: feature, Value: value},
			{Name: "prefers-reduced-motion", Value: "reduce"},
		},
	})
	if err != nil {
		s.t.Fatal(err)
	}
}

// shotsDir is where screenshots go: SPAREHAND_SHOTS, or a folder that is gone
// after the test.
func shotsDir(t *testing.T) string {
	t.Helper()
	if dir := os.Getenv("SPAREHAND_SHOTS"); dir != "" {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
		return dir
	}
	return t.TempDir()
}

func (s *sheet) shoot(dir, name string) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(s.ctx, patience)
	defer cancel()
	png, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		s.t.Fatal(err)
	}
	if len(png) < 5000 {
		s.t.Errorf("the picture %s has only %d bytes: is the page blank?", name, len(png))
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644); err != nil {
		s.t.Fatal(err)
	}
}

// With the reader's own colours the answers keep their borders and the bars
// their fill; on paper only the sheet and its amounts are left.
func TestStrongColoursAndPaper(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	dir := shotsDir(t)
	s.say(leak)
	s.media("", "forced-colors", "active")
	var border, fill bool
	s.eval(`getComputedStyle(document.querySelector(".answer-key")).borderTopStyle !== "none"`, &border)
	s.eval(`(() => { const c = e => getComputedStyle(e).backgroundColor; return c(document.querySelector(".bar i")) !== c(document.querySelector(".board")); })()`, &fill)
	if !border || !fill {
		t.Errorf("in forced colours: answers have a border: %t, bars are filled: %t", border, fill)
	}
	s.shoot(dir, "strong-colours")
	s.toAdvice()
	s.media("print", "prefers-color-scheme", "light")
	for selector, want := range map[string]bool{".steps": true, ".cautions": true, "#sheet-title": true, ".rail": false, "#front": false, "#answers": false, "#book": false} {
		if shown := s.shown(selector); shown != want {
			t.Errorf("on paper %s is shown: %t, want %t", selector, shown, want)
		}
	}
	s.shoot(dir, "paper")
}
