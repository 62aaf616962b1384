package lan

import (
	"bytes"
	"embed"
	"html/template"
	"net"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"
)

//go:embed pages
var files embed.FS

var pages = template.Must(template.ParseFS(files, "pages/*.html"))

// pagesPolicy lets the gate's own pages load its style and script and send its
// form, and nothing else.
const pagesPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

func (g *Gate) ask(w http.ResponseWriter, r *http.Request, status int, fault string) {
	g.show(w, "join.html", status, struct {
		Fault  string
		Secure bool
	}{fault, r.TLS != nil})
}

func (g *Gate) trust(w http.ResponseWriter, r *http.Request) {
	var rows []string // that fit a phone
	for row := range slices.Chunk(strings.Split(g.config.Authority.Fingerprint(), ":"), 8) {
		rows = append(rows, strings.Join(row, ":"))
	}
	g.show(w, "trust.html", http.StatusOK, struct {
		Name, Ends string
		Print      []string
		May        []string
		Secure     bool
		SecureURL  string
	}{
		g.config.Authority.Name(), g.config.Authority.cert.NotAfter.Format("2 January 2006"),
		rows, g.config.Authority.may(),
		r.TLS != nil, g.secureURL(r),
	})
}

// secureURL is this server's https address under the name by which it was
// called.
func (g *Gate) secureURL(r *http.Request) string {
	host := r.Host
	if h, _, err := net.SplitHostPort(host); err == nil {
		host = h
	}
	return "https://" + net.JoinHostPort(strings.Trim(host, "[]"), strconv.Itoa(g.config.SecurePort)) + "/"
}

// may lists what the authority may vouch for.
func (a *Authority) may() []string {
	var may []string
	for _, r := range a.cert.PermittedIPRanges {
		if ones, bits := r.Mask.Size(); ones == bits {
			may = append(may, r.IP.String())
		} else {
			may = append(may, r.String())
		}
	}
	return append(may, a.cert.PermittedDNSDomains...)
}

func (g *Gate) show(w http.ResponseWriter, page string, status int, data any) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, page, data); err != nil {
		g.config.Logger.Error("a page can't be made", "page", page, "why", err)
		http.Error(w, "this page can't be shown", http.StatusInternalServerError)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Content-Security-Policy", pagesPolicy)
	h.Set("Referrer-Policy", "same-origin") // with no-referrer a form has no origin (Fetch, "append a request Origin header")
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(b.Bytes())
}

// certificate gives the authority's certificate, in the type by which phones
// offer to install it, which they may not do with an attachment.
func (g *Gate) certificate(w http.ResponseWriter, _ *http.Request) {
	h := w.Header()
	h.Set("Content-Type", "application/x-x509-ca-cert")
	h.Set("Cache-Control", "no-store")
	_, _ = w.Write(g.config.Authority.Certificate())
}

func file(name, media string) http.HandlerFunc {
	data, err := files.ReadFile("pages/" + name)
	return func(w http.ResponseWriter, r *http.Request) {
		if err != nil {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", media)
		w.Header().Set("Cache-Control", "no-cache")
		http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(data))
	}
}
