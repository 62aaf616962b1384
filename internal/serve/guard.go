package serve

import (
	"net"
	"net/http"
	"net/url"
	"strings"
)

// contentPolicy lets the page load its own files and talk to its own server,
// and nothing else. 'self' covers the websocket of the same origin (Content
// Security Policy Level 3, matching of source expressions; seen in Chromium 156).
const contentPolicy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; " +
	"connect-src 'self'; manifest-src 'self'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'"

// guard sets the headers that every answer carries and refuses requests that
// call the server by a name it does not know. That stops a foreign page whose
// name was made to resolve to this machine (DNS rebinding).
func (s *Server) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", contentPolicy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if r.TLS != nil || loopback(hostName(r.Host)) { // browsers complain where it can't count: HTML Standard, cross-origin opener policies
			h.Set("Cross-Origin-Opener-Policy", "same-origin")
		}
		if !s.knownHost(r.Host) && !calledByAddress(r) {
			http.Error(w, "this server is not called that", http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// Guard puts the guard of Handler before another handler as well, such as a gate
// that stands before it.
func (s *Server) Guard(next http.Handler) http.Handler { return s.guard(next) }

// calledByAddress reports whether a request calls the server by the very
// address that its connection reached. A foreign page's origin is another, so
// that needs no telling beforehand: an address may be new.
func calledByAddress(r *http.Request) bool {
	at, known := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr)
	return known && at.IP.Equal(net.ParseIP(hostName(r.Host)))
}

func (s *Server) knownHost(hostPort string) bool {
	host := hostName(hostPort)
	return loopback(host) || s.hosts[host]
}

func loopback(host string) bool {
	if host == "localhost" || strings.HasSuffix(host, ".localhost") { // RFC 6761, section 6.3
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}

// hostName strips the port, the brackets of an IPv6 address and a last dot.
func hostName(hostPort string) string {
	host := hostPort
	if h, _, err := net.SplitHostPort(hostPort); err == nil {
		host = h
	}
	host = strings.TrimSuffix(strings.TrimPrefix(host, "["), "]")
	return strings.ToLower(strings.TrimSuffix(host, "."))
}

func hostSet(hosts []string) map[string]bool {
	set := make(map[string]bool, len(hosts))
	for _, h := range hosts {
		set[hostName(h)] = true
	}
	delete(set, "")
	return set
}

// sameOrigin refuses websockets of foreign pages. Browsers always send an
// Origin; a program that sends none is not a page.
func sameOrigin(r *http.Request) bool {
	origins := r.Header.Values("Origin")
	if len(origins) == 0 {
		return true
	}
	u, err := url.Parse(origins[0])
	if err != nil || len(origins) > 1 {
		return false
	}
	return (u.Scheme == "http" || u.Scheme == "https") && strings.EqualFold(u.Host, r.Host)
}
