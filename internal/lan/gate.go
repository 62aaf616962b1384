package lan

import (
	"log/slog"
	"math"
	"net/http"
	"net/netip"
	"strconv"
	"time"
)

// GateConfig is what a gate is made of.
type GateConfig struct {
	Authority  *Authority
	Devices    *Devices
	Code       Code
	SecurePort int                   // where https is
	Own        func(netip.Addr) bool // which remote addresses are this machine; nil for loopback
	Now        func() time.Time      // nil for time.Now
	Logger     *slog.Logger          // nil for silence; codes and tokens are never logged
}

// Gate lets this machine and the devices that have joined through to a server,
// and asks others for the join code. Open to all are the page that asks (/join),
// how to trust the authority (/trust, /authority.crt), and /health.
type Gate struct {
	config GateConfig
	tries  tries
	cross  *http.CrossOriginProtection
}

// NewGate makes a gate.
func NewGate(c GateConfig) *Gate {
	if c.Own == nil {
		c.Own = netip.Addr.IsLoopback
	}
	if c.Now == nil {
		c.Now = time.Now
	}
	if c.Logger == nil {
		c.Logger = slog.New(slog.DiscardHandler)
	}
	return &Gate{config: c, cross: http.NewCrossOriginProtection()}
}

// Before puts the gate before a server.
func (g *Gate) Before(next http.Handler) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /join", func(w http.ResponseWriter, r *http.Request) { g.ask(w, r, http.StatusOK, "") })
	mux.HandleFunc("POST /join", g.join)
	mux.HandleFunc("GET /trust", g.trust)
	mux.HandleFunc("GET /authority.crt", g.certificate)
	mux.HandleFunc("GET /join.js", file("join.js", "text/javascript; charset=utf-8"))
	mux.HandleFunc("GET /lan.css", file("lan.css", "text/css; charset=utf-8"))
	mux.Handle("GET /health", next)
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		switch {
		case g.config.Own(remote(r)) || g.joined(r):
			next.ServeHTTP(w, r)
		case r.URL.Path == "/" && r.Method == http.MethodGet:
			http.Redirect(w, r, "/join", http.StatusSeeOther)
		default:
			http.Error(w, "this device has not joined: open / and give the join code", http.StatusForbidden)
		}
	})
	return mux
}

// remote is the zero address where it is not known.
func remote(r *http.Request) netip.Addr {
	at, _ := netip.ParseAddrPort(r.RemoteAddr)
	return at.Addr().Unmap().WithZone("")
}

// cookieName keeps the cookies of https and http apart, which a browser does
// not: ports share them. The prefix makes browsers take it from https alone
// (draft-ietf-httpbis-rfc6265bis).
func cookieName(secure bool) string {
	if secure {
		return "__Host-sparehand"
	}
	return "sparehand"
}

func (g *Gate) joined(r *http.Request) bool {
	secure := r.TLS != nil
	c, err := r.Cookie(cookieName(secure))
	return err == nil && g.config.Devices.knows(c.Value, secure, g.config.Now())
}

// join takes the code. Pages of other origins are not listened to, so that they
// can't use up the tries.
func (g *Gate) join(w http.ResponseWriter, r *http.Request) {
	if g.joined(r) {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	if err := g.cross.Check(r); err != nil {
		http.Error(w, "this comes from a page of another server", http.StatusForbidden)
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, 1024)
	typed := r.PostFormValue("code")
	right, wait := g.tries.try(remote(r), g.config.Now(), func() bool { return g.config.Code.is(typed) })
	switch {
	case right:
		g.admit(w, r)
	case wait > 0:
		seconds := int(math.Ceil(wait.Seconds()))
		w.Header().Set("Retry-After", strconv.Itoa(seconds))
		g.ask(w, r, http.StatusTooManyRequests, "Too many wrong codes: wait "+strconv.Itoa(seconds)+" seconds, then try again.")
	default:
		g.config.Logger.Warn("a device gave a wrong join code", "remote", remote(r))
		g.ask(w, r, http.StatusForbidden, "That is not the code. Look at the terminal again: it changes each time sparehand starts.")
	}
}

func (g *Gate) admit(w http.ResponseWriter, r *http.Request) {
	secure := r.TLS != nil
	token, err := g.config.Devices.admit(secure, g.config.Now())
	if err != nil {
		g.config.Logger.Error("a device has to join again after a restart", "why", err)
	}
	g.config.Logger.Info("a device has joined", "remote", remote(r), "https", secure)
	http.SetCookie(w, &http.Cookie{
		Name: cookieName(secure), Value: token, Path: "/", MaxAge: int(deviceTime.Seconds()),
		HttpOnly: true, Secure: secure, SameSite: http.SameSiteStrictMode,
	})
	http.Redirect(w, r, "/", http.StatusSeeOther)
}
