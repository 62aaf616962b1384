package browsertest

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// wholeRun bounds the life of the browser, so that nothing is left behind.
const wholeRun = 15 * time.Minute

// browser is started by the first test that needs it and shared by all.
var browser struct {
	once sync.Once
	ctx  context.Context
	end  func()
	err  error
}

func TestMain(m *testing.M) {
	code := m.Run()
	if browser.end != nil {
		browser.end()
	}
	os.Exit(code)
}

// needed skips the test, or fails it where everything has to be there.
func needed(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
		t.Fatalf("%s is missing, and SPAREHAND_TEST_ALL=1 wants it", what)
	}
	t.Skipf("%s is missing: this test did not run", what)
}

func chromium() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// sharedBrowser gives a context with a running browser.
func sharedBrowser(t *testing.T) context.Context {
	t.Helper()
	path := chromium()
	if path == "" {
		needed(t, "chromium")
	}
	browser.once.Do(func() { startBrowser(path) })
	if browser.err != nil {
		t.Fatalf("cannot start %s: %v", path, browser.err)
	}
	return browser.ctx
}

func browserOptions(path string) []chromedp.ExecAllocatorOption {
	return append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.NoSandbox, // CI runs as root, where Chromium's sandbox refuses to start
		chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
	)
}

func startBrowser(path string) {
	life, cancel := context.WithTimeout(context.Background(), wholeRun)
	allocated, cancelAllocator := chromedp.NewExecAllocator(life, browserOptions(path)...)
	ctx, cancelBrowser := chromedp.NewContext(allocated)
	browser.ctx, browser.err = ctx, chromedp.Do(ctx)
	browser.end = func() {
		closing, stop := context.WithTimeout(ctx, 10*time.Second)
		_ = chromedp.Cancel(closing)
		stop()
		cancelBrowser()
		cancelAllocator()
		cancel()
	}
}

// axeSource is the text of axe-core.
func axeSource(t *testing.T) string {
	t.Helper()
	path := os.Getenv("SPAREHAND_AXE")
	if path == "" {
		needed(t, "axe-core (SPAREHAND_AXE is not set)")
	}
	source, err := os.ReadFile(path)
	if err != nil {
		needed(t, "axe-core ("+err.Error()+")")
	}
	if !strings.Contains(string(source), "axe.run") {
		t.Fatal("the file that SPAREHAND_AXE names is not axe-core")
	}
	return string(source)
}
