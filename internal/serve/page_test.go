package serve

import (
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/gorilla/websocket"
)

func (p *place) do(t *testing.T, method, path string, change func(*http.Request)) *http.Response {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, p.http.URL+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(r)
	}
	response, err := p.http.Client().Do(r)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { response.Body.Close() })
	return response
}

func (p *place) get(t *testing.T, path string) *http.Response { return p.do(t, "GET", path, nil) }

func TestPage(t *testing.T) {
	p := serving(t)
	for path, want := range map[string]struct {
		status int
		media  string
		file   string
	}{
		"/":               {200, "text/html; charset=utf-8", "index.html"},
		"/css/bench.css":  {200, "text/css; charset=utf-8", "css/bench.css"},
		"/js/bench.js":    {200, "text/javascript; charset=utf-8", "js/bench.js"}, // RFC 9239, section 6
		"/icon.svg":       {200, "image/svg+xml", "icon.svg"},
		"/health":         {200, "text/plain; charset=utf-8", ""},
		"/js/":            {404, "text/plain; charset=utf-8", ""},
		"/js":             {404, "text/plain; charset=utf-8", ""},
		"/embed.go":       {404, "text/plain; charset=utf-8", ""},
		"/js/.hidden":     {404, "text/plain; charset=utf-8", ""},
		"/js/notes.draft": {404, "text/plain; charset=utf-8", ""},
		"/%2e%2e/go.mod":  {404, "text/plain; charset=utf-8", ""},
	} {
		got := p.get(t, path)
		if got.StatusCode != want.status || got.Header.Get("Content-Type") != want.media {
			t.Errorf("%s: %s, %q; want %d, %q", path, got.Status, got.Header.Get("Content-Type"), want.status, want.media)
		}
		checkHeaders(t, path, got.Header)
		body, err := io.ReadAll(got.Body)
		if err != nil {
			t.Error(err)
		}
		if want.file != "" && string(body) != string(testPage[want.file].Data) {
			t.Errorf("%s has %q", path, body)
		}
	}
}

// The directives are those of Content Security Policy Level 3; default-src
// does not cover form-action, base-uri and frame-ancestors, so they stand by
// themselves (from memory).
func checkHeaders(t *testing.T, path string, h http.Header) {
	t.Helper()
	policy := map[string]string{}
	for directive := range strings.SplitSeq(h.Get("Content-Security-Policy"), ";") {
		name, sources, _ := strings.Cut(strings.TrimSpace(directive), " ")
		policy[name] = sources
	}
	for name, want := range map[string]string{
		"default-src": "'none'", "script-src": "'self' 'wasm-unsafe-eval'", "style-src": "'self'", "img-src": "'self' data:",
		"connect-src": "'self'", "form-action": "'none'", "base-uri": "'none'", "frame-ancestors": "'none'",
	} {
		if policy[name] != want {
			t.Errorf("%s: %s is %q, want %q", path, name, policy[name], want)
		}
	}
	if h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Referrer-Policy") != "no-referrer" {
		t.Errorf("%s: headers %v", path, h)
	}
}

// RFC 9110, section 13.1.2: a GET whose If-None-Match names the entity tag is
// answered by 304 without content.
func TestPageIsRevalidated(t *testing.T) {
	p := serving(t)
	tag := p.get(t, "/js/bench.js").Header.Get("ETag")
	if other := p.get(t, "/css/bench.css").Header.Get("ETag"); tag == "" || tag == other {
		t.Fatalf("tags are %q and %q", tag, other)
	}
	ask := func(tag string) *http.Response {
		return p.do(t, "GET", "/js/bench.js", func(r *http.Request) { r.Header.Set("If-None-Match", tag) })
	}
	if got := ask(tag); got.StatusCode != http.StatusNotModified {
		t.Errorf("same tag: %s", got.Status)
	}
	if got := ask(`"older"`); got.StatusCode != http.StatusOK {
		t.Errorf("other tag: %s", got.Status)
	}
	changed := newAsset([]byte("export {} // changed"), "")
	if same := newAsset([]byte("export {}"), ""); same.tag != tag || changed.tag == tag {
		t.Errorf("tags %q, %q and %q do not go by content", tag, same.tag, changed.tag)
	}
}

func TestMethods(t *testing.T) {
	p := serving(t)
	if got := p.do(t, "HEAD", "/", nil); got.StatusCode != 200 || got.ContentLength != int64(len(testPage["index.html"].Data)) {
		t.Errorf("HEAD: %s, %d bytes", got.Status, got.ContentLength)
	}
	for _, path := range []string{"/", "/health", "/ws", "/js/bench.js"} {
		if got := p.do(t, "POST", path, nil); got.StatusCode != http.StatusMethodNotAllowed {
			t.Errorf("POST %s: %s", path, got.Status)
		}
	}
	if got := p.get(t, "/ws"); got.StatusCode != http.StatusBadRequest {
		t.Errorf("GET /ws without an upgrade: %s", got.Status)
	}
}

func TestHosts(t *testing.T) {
	p := serving(t, func(c *Config) { c.Hosts = []string{"Bench.example", "192.0.2.7:8080", ""} })
	for host, known := range map[string]bool{
		"localhost":          true,
		"LOCALHOST:8080":     true,
		"localhost.":         true,
		"bench.localhost:80": true, // RFC 6761, section 6.3
		"127.0.0.1:8080":     true,
		"127.8.9.10":         true, // RFC 1122, section 3.2.1.3: 127/8 is loopback
		"[::1]:8080":         true,
		"[::1]":              true,
		"bench.example:8080": true,
		"192.0.2.7":          true,
		"":                   false,
		"192.0.2.8":          false,
		"evil.example":       false,
		"evil.example:8080":  false,
		"127.0.0.1.example":  false,
		"localhost.example":  false,
		"notlocalhost":       false,
		"0.0.0.0":            false,
		"[::]:8080":          false,
	} {
		if p.knownHost(host) != known {
			t.Errorf("%q is known: %v, want %v", host, !known, known)
		}
		if host == "" {
			continue // the client would fill it in
		}
		got := p.do(t, "GET", "/", func(r *http.Request) { r.Host = host })
		if want := map[bool]int{true: 200, false: 421}[known]; got.StatusCode != want {
			t.Errorf("%q: %s, want %d", host, got.Status, want)
		}
	}
}

// RFC 6455, section 10.2: the origin tells pages of ours from foreign ones.
func TestOrigins(t *testing.T) {
	p := serving(t)
	own := strings.TrimPrefix(p.http.URL, "http://")
	for name, test := range map[string]struct {
		host    string
		origins []string
		status  int
	}{
		"own page":               {"", []string{"http://" + own}, 101},
		"own page over TLS":      {"", []string{"https://" + own}, 101},
		"program":                {"", nil, 101},
		"foreign page":           {"", []string{"http://evil.example"}, 403},
		"another port":           {"", []string{"http://127.0.0.1:1"}, 403},
		"another loopback name":  {"", []string{"http://localhost:" + own[strings.LastIndex(own, ":")+1:]}, 403},
		"hidden origin":          {"", []string{"null"}, 403},
		"file":                   {"", []string{"file://"}, 403},
		"not an address":         {"", []string{"http://[" + own}, 403},
		"two origins":            {"", []string{"http://" + own, "http://evil.example"}, 403},
		"rebound name":           {"evil.example", []string{"http://evil.example"}, 421},
		"rebound name, no proof": {"evil.example", nil, 421},
	} {
		t.Run(name, func(t *testing.T) {
			h := http.Header{}
			if test.host != "" {
				h.Set("Host", test.host)
			}
			for _, o := range test.origins {
				h.Add("Origin", o)
			}
			ws, response, err := websocket.DefaultDialer.Dial(p.address(), h)
			if err == nil {
				ws.Close()
			}
			if response == nil || response.StatusCode != test.status {
				t.Errorf("got %v, %v; want %d", response, err, test.status)
			}
		})
	}
}
