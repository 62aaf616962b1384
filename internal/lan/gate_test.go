package lan

import (
	"bytes"
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"
)

// gated is a gate before a server of one page, over http and https. Callers
// come from addresses of loopback: 127.0.0.1 is this machine, the others stand
// for devices.
type gated struct {
	t             *testing.T
	gate          *Gate
	plain, secure string
	log           *lockedBuffer
	mu            sync.Mutex
	now           time.Time
}

type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

const testCode = Code("7KQ2M4XD")

func openGate(t *testing.T, dir string) *gated {
	t.Helper()
	if runtime.GOOS != "linux" {
		t.Skip("only on Linux is all of 127.0.0.0/8 this machine")
	}
	g := &gated{t: t, log: &lockedBuffer{}, now: today}
	clock := func() time.Time {
		g.mu.Lock()
		defer g.mu.Unlock()
		return g.now
	}
	a, _, err := OpenAuthority(dir, bench, today)
	if err != nil {
		t.Fatal(err)
	}
	devices, err := OpenDevices(dir)
	if err != nil {
		t.Fatal(err)
	}
	certificates, err := a.Certificates(func() (Place, error) { return bench, nil }, clock)
	if err != nil {
		t.Fatal(err)
	}
	g.gate = NewGate(GateConfig{
		Authority: a, Devices: devices, Code: testCode, SecurePort: 8443, Now: clock,
		Own:    func(from netip.Addr) bool { return from == netip.MustParseAddr("127.0.0.1") },
		Logger: slog.New(slog.NewTextHandler(g.log, &slog.HandlerOptions{Level: slog.LevelDebug})),
	})
	inside := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { fmt.Fprint(w, "inside") })
	server := httptest.NewServer(g.gate.Before(inside))
	t.Cleanup(server.Close)
	secure := httptest.NewUnstartedServer(g.gate.Before(inside))
	secure.Listener = tls.NewListener(secure.Listener, &tls.Config{GetCertificate: certificates.Get})
	secure.Start()
	t.Cleanup(secure.Close)
	g.plain, g.secure = server.URL, "https://"+secure.Listener.Addr().String()
	return g
}

func (g *gated) later(d time.Duration) {
	g.mu.Lock()
	g.now = g.now.Add(d)
	g.mu.Unlock()
}

// from calls as a device at an address, with its cookies.
func (g *gated) from(address string, method, target string, body url.Values, cookies []*http.Cookie, header ...string) *http.Response {
	g.t.Helper()
	roots := x509.NewCertPool()
	roots.AddCert(g.gate.config.Authority.cert)
	transport := &http.Transport{
		DialContext:     (&net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(address)}}).DialContext,
		TLSClientConfig: &tls.Config{RootCAs: roots, Time: func() time.Time { return today }},
	}
	defer transport.CloseIdleConnections()
	client := &http.Client{Transport: transport, Timeout: 10 * time.Second, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	request, err := http.NewRequestWithContext(g.t.Context(), method, target, strings.NewReader(body.Encode()))
	if err != nil {
		g.t.Fatal(err)
	}
	if body != nil {
		request.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for i := 0; i < len(header); i += 2 {
		request.Header.Set(header[i], header[i+1])
	}
	for _, c := range cookies {
		request.AddCookie(c)
	}
	answer, err := client.Do(request)
	if err != nil {
		g.t.Fatal(err)
	}
	defer answer.Body.Close()
	all, err := io.ReadAll(answer.Body)
	if err != nil {
		g.t.Fatal(err)
	}
	answer.Body = io.NopCloser(bytes.NewReader(all))
	return answer
}

func text(answer *http.Response) string {
	all, _ := io.ReadAll(answer.Body) // it is in memory
	return string(all)
}

func code(typed string) url.Values { return url.Values{"code": {typed}} }

func (g *gated) joins(address, target string) []*http.Cookie {
	g.t.Helper()
	answer := g.from(address, "POST", target+"/join", code("7kq2-m4xd"), nil)
	if answer.StatusCode != http.StatusSeeOther || answer.Header.Get("Location") != "/" || len(answer.Cookies()) != 1 {
		g.t.Fatalf("joining: %s, %v", answer.Status, answer.Cookies())
	}
	return answer.Cookies()
}

func TestGate(t *testing.T) {
	g := openGate(t, t.TempDir())
	plain, secure := g.joins("127.0.0.3", g.plain), g.joins("127.0.0.4", g.secure)
	forged := []*http.Cookie{{Name: "sparehand", Value: "guess"}, {Name: "__Host-sparehand", Value: "guess"}}
	swapped := []*http.Cookie{{Name: "__Host-sparehand", Value: plain[0].Value}}
	socket := []string{"Connection", "Upgrade", "Upgrade", "websocket", "Sec-WebSocket-Version", "13", "Sec-WebSocket-Key", "dGhlIHNhbXBsZSBub25jZQ=="} // RFC 6455, section 1.3
	for _, c := range []struct {
		name, from, method, target string
		cookies                    []*http.Cookie
		header                     []string
		status                     int
	}{
		{"this machine", "127.0.0.1", "GET", g.plain + "/", nil, nil, 200},
		{"this machine's websocket", "127.0.0.1", "GET", g.plain + "/ws", nil, socket, 200},
		{"this machine by https", "127.0.0.1", "GET", g.secure + "/", nil, nil, 200},
		{"a new device", "127.0.0.2", "GET", g.plain + "/", nil, nil, 303},
		{"a new device by https", "127.0.0.2", "GET", g.secure + "/", nil, nil, 303},
		{"its websocket", "127.0.0.2", "GET", g.plain + "/ws", nil, socket, 403},
		{"its script", "127.0.0.2", "GET", g.plain + "/js/main.js", nil, nil, 403},
		{"its speech", "127.0.0.2", "POST", g.plain + "/aloud", nil, nil, 403},
		{"a path that climbs", "127.0.0.2", "GET", g.plain + "/join/../ws", nil, nil, 307},
		{"a path below an open one", "127.0.0.2", "GET", g.plain + "/health/ws", nil, nil, 403},
		{"another method on an open path", "127.0.0.2", "PUT", g.plain + "/trust", nil, nil, 403},
		{"a device that joined", "127.0.0.3", "GET", g.plain + "/", plain, nil, 200},
		{"its websocket", "127.0.0.3", "GET", g.plain + "/ws", plain, socket, 200},
		{"the same after a new lease", "127.0.0.9", "GET", g.plain + "/", plain, nil, 200},
		{"a device that joined by https", "127.0.0.4", "GET", g.secure + "/ws", secure, socket, 200},
		{"a forged cookie", "127.0.0.2", "GET", g.plain + "/ws", forged, socket, 403},
		{"a cookie that was sent by http", "127.0.0.3", "GET", g.secure + "/ws", swapped, socket, 403},
		{"the page that asks", "127.0.0.2", "GET", g.plain + "/join", nil, nil, 200},
		{"its style", "127.0.0.2", "GET", g.plain + "/lan.css", nil, nil, 200},
		{"its script", "127.0.0.2", "GET", g.plain + "/join.js", nil, nil, 200},
		{"how to trust", "127.0.0.2", "GET", g.plain + "/trust", nil, nil, 200},
		{"the authority", "127.0.0.2", "GET", g.plain + "/authority.crt", nil, nil, 200},
		{"health", "127.0.0.2", "GET", g.plain + "/health", nil, nil, 200},
	} {
		answer := g.from(c.from, c.method, c.target, nil, c.cookies, c.header...)
		if answer.StatusCode != c.status {
			t.Errorf("%s: %s, want %d", c.name, answer.Status, c.status)
		}
		if got := text(answer); c.status != 200 && strings.Contains(got, "inside") {
			t.Errorf("%s: was let in", c.name)
		}
	}
}

// TestCookie: HttpOnly, SameSite and the __Host- prefix as
// draft-ietf-httpbis-rfc6265bis has them; 256 bits are 43 signs of base 64.
func TestCookie(t *testing.T) {
	g := openGate(t, t.TempDir())
	for target, want := range map[string]string{g.plain: "sparehand", g.secure: "__Host-sparehand"} {
		c := g.joins("127.0.0.2", target)[0]
		if c.Name != want || !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Path != "/" || c.Domain != "" ||
			c.Secure != (target == g.secure) || len(c.Value) != 43 || c.MaxAge != 400*24*3600 {
			t.Errorf("%s", c.Raw)
		}
	}
}

func TestWrongCodes(t *testing.T) {
	g := openGate(t, t.TempDir())
	try := func(from, typed string, want int) {
		t.Helper()
		answer := g.from(from, "POST", g.plain+"/join", code(typed), nil)
		if answer.StatusCode != want || want == http.StatusTooManyRequests && answer.Header.Get("Retry-After") == "" {
			t.Errorf("%s from %s: %s, want %d", typed, from, answer.Status, want)
		}
		if want != http.StatusSeeOther && len(answer.Cookies()) > 0 {
			t.Errorf("%s from %s is given a cookie", typed, from)
		}
	}
	for range 5 {
		try("127.0.0.2", "7KQ2-M4XE", 403)
	}
	try("127.0.0.2", "7KQ2-M4XE", 429)
	try("127.0.0.2", "7KQ2-M4XD", 429) // right, but too late
	try("127.0.0.3", "7KQ2-M4XD", 303)
	g.later(61 * time.Second)
	try("127.0.0.2", "7KQ2-M4XD", 303)
	for i := range 4 {
		for range 5 {
			try(fmt.Sprintf("127.0.0.%d", 10+i), "", 403)
		}
	}
	try("127.0.0.20", "7KQ2-M4XD", 429) // for all
	if log := g.log.String(); !strings.Contains(log, "wrong join code") || strings.Contains(log, "M4X") || strings.Contains(log, "M4x") {
		t.Errorf("the log says too little or too much:\n%s", log)
	}
}

// TestForeignPageCannotUseUpTries: by the origin that browsers send (Fetch,
// "append a request Origin header").
func TestForeignPageCannotUseUpTries(t *testing.T) {
	g := openGate(t, t.TempDir())
	for range 8 {
		if answer := g.from("127.0.0.2", "POST", g.plain+"/join", code("x"), nil, "Origin", "http://elsewhere.example"); answer.StatusCode != 403 {
			t.Fatal(answer.Status)
		}
	}
	if answer := g.from("127.0.0.2", "POST", g.plain+"/join", code("x"), nil, "Origin", g.plain); !strings.Contains(text(answer), "not the code") {
		t.Errorf("the device's own try: %s", answer.Status)
	}
}

func TestJoinedAfterARestart(t *testing.T) {
	dir := t.TempDir()
	before := openGate(t, dir)
	cookies := before.joins("127.0.0.2", before.plain)
	after := openGate(t, dir)
	if answer := after.from("127.0.0.2", "GET", after.plain+"/", nil, cookies); answer.StatusCode != http.StatusOK {
		t.Errorf("after a restart: %s", answer.Status)
	}
	if err := ForgetDevices(dir); err != nil {
		t.Fatal(err)
	}
	forgotten := openGate(t, dir)
	if answer := forgotten.from("127.0.0.2", "GET", forgotten.plain+"/", nil, cookies); answer.StatusCode != http.StatusSeeOther {
		t.Errorf("forgotten: %s", answer.Status)
	}
}

func TestPagesOfTheGate(t *testing.T) {
	g := openGate(t, t.TempDir())
	for path, wants := range map[string][]string{
		"/join":  {`action="/join"`, `href="/trust"`, "plain http"},
		"/trust": {g.gate.config.Authority.Fingerprint()[:23], g.gate.config.Authority.Fingerprint()[72:], "192.168.0.0/16", "203.0.113.9", "https://127.0.0.1:8443/", "28 November 2036"},
	} {
		answer := g.from("127.0.0.2", "GET", g.plain+path, nil, nil)
		page := text(answer)
		for _, want := range wants {
			if !strings.Contains(page, want) {
				t.Errorf("%s lacks %q", path, want)
			}
		}
		policy := answer.Header.Get("Content-Security-Policy")
		if !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") || strings.Contains(page, "style=") || strings.Contains(page, "onclick") {
			t.Errorf("%s and its policy %q do not fit", path, policy)
		}
		if strings.Contains(page, string(testCode)) || strings.Contains(page, testCode.String()) {
			t.Errorf("%s gives the code away", path)
		}
	}
	answer := g.from("127.0.0.2", "GET", g.plain+"/authority.crt", nil, nil)
	got, err := x509.ParseCertificate([]byte(text(answer)))
	if err != nil || !got.Equal(g.gate.config.Authority.cert) || answer.Header.Get("Content-Type") != "application/x-x509-ca-cert" {
		t.Errorf("the authority comes as %s: %v", answer.Header.Get("Content-Type"), err)
	}
}
