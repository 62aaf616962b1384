package browsertest

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"sparehand/internal/lan"
)

// lanServer is the program itself, as a person starts it.
type lanServer struct {
	folder, plain, secure, code string
}

var lanLine = regexp.MustCompile(`open (https://(\S+):\d+/)\n|join code: (\S+)|(http://\S+:\d+/)trust`)

// startLan starts `serve --lan` and reads from what it prints how a device gets
// in. The address is this machine's own on the network: loopback is a secure
// context even by http (W3C Secure Contexts, section 3.1), so it would prove
// nothing.
func startLan(t *testing.T) lanServer {
	t.Helper()
	here, err := lan.Here()
	if err != nil {
		t.Fatal(err)
	}
	if len(here.Addresses) == 0 {
		needed(t, "an address other than loopback")
	}
	s := lanServer{folder: filepath.Join(t.TempDir(), "lan")}
	var log *growing
	t.Cleanup(func() { // after the program has ended
		if log != nil && (strings.Contains(log.String(), strings.ReplaceAll(s.code, "-", "")) || strings.Contains(log.String(), s.code)) {
			t.Error("the log gives the join code away")
		}
	})
	var lines *bufio.Scanner
	lines, log = startProgram(t, "serve", "--lan", "--lan-folder", s.folder, "--address", "127.0.0.1:0", "--https-port", "0", "--store", "none", "--ears", "none")
	for s.plain == "" && lines.Scan() {
		if found := lanLine.FindStringSubmatch(lines.Text() + "\n"); found != nil {
			s.secure, s.code, s.plain = s.secure+found[1], s.code+found[3], s.plain+found[4]
		}
	}
	if s.secure == "" || s.code == "" || s.plain == "" {
		t.Fatalf("it printed too little: %+v", s)
	}
	return s
}

// household is a home folder, and so a profile, of its own; a browser on Linux
// looks there for authorities that a person trusts. With an authority it is
// put in as the page /trust says.
func household(t *testing.T, authority string) string {
	t.Helper()
	home := t.TempDir()
	if authority == "" {
		return home
	}
	tool, err := exec.LookPath("certutil")
	if err != nil {
		needed(t, "certutil (libnss3-tools)")
	}
	store := filepath.Join(home, ".pki", "nssdb")
	if err := os.MkdirAll(store, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"-d", "sql:" + store, "-N", "--empty-password"},
		{"-d", "sql:" + store, "-A", "-t", "C,,", "-n", "sparehand", "-i", authority},
	} {
		if out, err := exec.CommandContext(t.Context(), tool, args...).CombinedOutput(); err != nil {
			t.Fatalf("certutil %v: %v\n%s", args, err, out)
		}
	}
	return home
}

// lanBrowser is a browser of a household, with a microphone that hums.
func lanBrowser(t *testing.T, home string, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	path := chromium()
	if path == "" {
		needed(t, "chromium")
	}
	return newBrowser(t, path, append(more,
		chromedp.Env("HOME="+home, "XDG_DATA_HOME="+filepath.Join(home, ".local", "share"), "XDG_CONFIG_HOME="+filepath.Join(home, ".config")),
		chromedp.Flag("use-fake-device-for-media-stream", true),
		chromedp.Flag("use-fake-ui-for-media-stream", true),
	)...)
}

// download takes the authority's certificate from the page.
func download(t *testing.T, s lanServer) string {
	t.Helper()
	client := http.Client{Timeout: 5 * time.Second}
	answer, err := client.Get(s.plain + "authority.crt")
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	der, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "authority.crt")
	if err := os.WriteFile(path, der, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
