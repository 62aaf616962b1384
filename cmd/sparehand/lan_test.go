package main

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"encoding/hex"
	"encoding/pem"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/journal"
	"sparehand/internal/lan"
	"sparehand/internal/serve"
	"sparehand/internal/talk"
)

// readyAssistant is made once: that takes longer than all else here.
var readyAssistant = func() func(*book.Book) serve.Assistant {
	var once sync.Once
	var ready serve.Assistant
	return func(b *book.Book) serve.Assistant {
		once.Do(func() { ready = serve.Talks(talk.New(b)) })
		return ready
	}
}()

// served runs serve until the test ends, and gives what it prints and logs.
func served(t *testing.T, cmd serveCmd) (out, log *syncBuffer) {
	t.Helper()
	cmd.Ears = "none"
	usual := assistantOf
	assistantOf = func(b *book.Book, _ *journal.Journal) serve.Assistant { return readyAssistant(b) }
	t.Cleanup(func() { assistantOf = usual })
	first, err := cmd.loadStamped()
	if err != nil {
		t.Fatal(err)
	}
	listener, err := cmd.listen()
	if err != nil {
		t.Fatal(err)
	}
	out, log = &syncBuffer{}, &syncBuffer{}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- cmd.serve(ctx, listener, first, nil, streams{strings.NewReader(""), out, log}) }()
	t.Cleanup(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Errorf("serving: %v", err)
		}
	})
	last := "what is said is kept"
	if cmd.Lan {
		last = "fingerprint of the authority"
	}
	for range 1000 {
		if strings.Contains(out.String(), last) {
			return out, log
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("it printed only %q, and logged %q", out.String(), log.String())
	return nil, nil
}

func (b *syncBuffer) String() string { return strings.Join(b.lines(), "") }

// listening lists the addresses at which this process listens, as Linux has
// them: proc(5), /proc/net/tcp.
func listening(t *testing.T) []netip.AddrPort {
	t.Helper()
	if runtime.GOOS != "linux" {
		t.Skip("only Linux lists the sockets of a process in /proc")
	}
	mine := map[string]bool{}
	fds, err := filepath.Glob("/proc/self/fd/*")
	if err != nil {
		t.Fatal(err)
	}
	for _, fd := range fds {
		if to, err := os.Readlink(fd); err == nil && strings.HasPrefix(to, "socket:[") {
			mine[strings.Trim(to, "socket:[]")] = true
		}
	}
	var all []netip.AddrPort
	for _, table := range []string{"/proc/self/net/tcp", "/proc/self/net/tcp6"} {
		data, err := os.ReadFile(table)
		if os.IsNotExist(err) { // a kernel without IPv6
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			if f := strings.Fields(line); len(f) > 9 && f[3] == "0A" && mine[f[9]] {
				all = append(all, kernelAddress(t, f[1]))
			}
		}
	}
	return all
}

// kernelAddress reads an address as the kernel prints it: words of four bytes in
// the order of the machine, which is taken to be little-endian, and a port.
func kernelAddress(t *testing.T, s string) netip.AddrPort {
	t.Helper()
	host, port, _ := strings.Cut(s, ":")
	b, err := hex.DecodeString(host)
	p, err2 := hex.DecodeString(port)
	if err != nil || err2 != nil || len(b)%4 != 0 || len(p) != 2 {
		t.Fatalf("the kernel lists the address %q", s)
	}
	for word := range slices.Chunk(b, 4) {
		slices.Reverse(word)
	}
	addr, _ := netip.AddrFromSlice(b)
	return netip.AddrPortFrom(addr.Unmap(), uint16(p[0])<<8|uint16(p[1]))
}

func beyond(all []netip.AddrPort) (out []netip.AddrPort) {
	for _, a := range all {
		if !a.Addr().IsLoopback() {
			out = append(out, a)
		}
	}
	return out
}

func TestNothingListensBeyondThisMachineWithoutLan(t *testing.T) {
	for _, address := range []string{"127.0.0.1:0", "localhost:0"} {
		t.Run(address, func(t *testing.T) {
			before := listening(t)
			served(t, serveCmd{Address: address})
			if all := listening(t); len(all) != len(before)+1 || len(beyond(all)) != 0 {
				t.Errorf("it listens at %v, before at %v", all, before)
			}
		})
	}
	for _, address := range []string{"0.0.0.0:0", "[::]:0", ":0", "192.0.2.2:0"} {
		var out, errs bytes.Buffer
		code := run([]string{"serve", "--address", address}, streams{strings.NewReader(""), &out, &errs})
		if code != exitFault || !strings.Contains(errs.String(), "--lan") {
			t.Errorf("%s: exit %d: %s", address, code, errs.String())
		}
	}
}

var (
	codePrinted = regexp.MustCompile(`join code: (\w{4}-\w{4})`)
	urlPrinted  = regexp.MustCompile(`open (https://\S+/)`)
	homePrinted = regexp.MustCompile(`is at (http://127\.0\.0\.1:\d+/)`)
)

func printed(t *testing.T, out *syncBuffer, what *regexp.Regexp) string {
	t.Helper()
	found := what.FindStringSubmatch(out.String())
	if found == nil {
		t.Fatalf("%s is not in\n%s", what, out.String())
	}
	return found[1]
}

// onNetwork skips where this machine has no address but loopback.
func onNetwork(t *testing.T) {
	t.Helper()
	here, err := lan.Here()
	if err != nil {
		t.Fatal(err)
	}
	if len(here.Addresses) > 0 {
		return
	}
	if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
		t.Fatal("this machine has no address but loopback, and SPAREHAND_TEST_ALL=1 wants one")
	}
	t.Skip("this machine has no address but loopback: this test did not run")
}

// TestLan: by this machine's own address on the network, which counts as
// another device.
func TestLan(t *testing.T) {
	onNetwork(t)
	dir := filepath.Join(t.TempDir(), "lan")
	out, log := served(t, serveCmd{Address: "127.0.0.1:0", lanFlag: lanFlag{Lan: true, LanFolder: dir}})
	if all := beyond(listening(t)); len(all) != 2 {
		t.Errorf("beyond this machine it listens at %v", all)
	}
	secure, code := printed(t, out, urlPrinted), printed(t, out, codePrinted)
	client := trusting(t, dir)
	get := func(at, want string, status int) {
		t.Helper()
		answer, err := client.Get(at)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		body, err := io.ReadAll(answer.Body)
		if err != nil || answer.StatusCode != status || !strings.Contains(string(body), want) {
			t.Errorf("%s: %s (%v), want %d with %q", at, answer.Status, err, status, want)
		}
	}
	get(printed(t, out, homePrinted), "<title>sparehand", http.StatusOK)
	get(secure, "Join the workshop", http.StatusOK) // after a redirect
	get(secure+"js/main.js", "has not joined", http.StatusForbidden)
	answer, err := client.PostForm(secure+"join", url.Values{"code": {strings.ToLower(code)}})
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	get(secure, "<title>sparehand", http.StatusOK)
	get(secure+"js/main.js", "import", http.StatusOK)
	get(strings.Replace(secure, "https:", "http:", 1), "HTTPS server", http.StatusBadRequest) // what net/http says
	for _, secret := range []string{code, strings.ReplaceAll(code, "-", "")} {
		if strings.Contains(log.String(), secret) {
			t.Errorf("the log gives the join code away:\n%s", log.String())
		}
	}
}

// trusting is a client that trusts the authority of a folder, and keeps cookies.
func trusting(t *testing.T, dir string) *http.Client {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "authority.pem"))
	if err != nil {
		t.Fatal(err)
	}
	_, rest := pem.Decode(data) // the key
	block, _ := pem.Decode(rest)
	authority, err := x509.ParseCertificate(block.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	roots := x509.NewCertPool()
	roots.AddCert(authority)
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	transport := &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}, DialContext: (&net.Dialer{Timeout: 5 * time.Second}).DialContext}
	t.Cleanup(transport.CloseIdleConnections)
	return &http.Client{Transport: transport, Jar: jar, Timeout: 10 * time.Second}
}

// TestLanExplainsOnce: how to trust it at length the first time only.
func TestLanExplainsOnce(t *testing.T) {
	onNetwork(t)
	dir := filepath.Join(t.TempDir(), "lan")
	for run := range 2 {
		t.Run("", func(t *testing.T) {
			out, _ := served(t, serveCmd{Address: "127.0.0.1:0", lanFlag: lanFlag{Lan: true, LanFolder: dir}})
			text := out.String()
			if first := strings.Contains(text, "Compare the"); first != (run == 0) || !strings.Contains(text, "/trust") {
				t.Errorf("start %d prints\n%s", run+1, text)
			}
			if strings.Contains(text, "\x1b") {
				t.Error("colours are set where there is no terminal")
			}
		})
	}
}

func TestLanFaults(t *testing.T) {
	onNetwork(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "authority.pem")
	if err := os.WriteFile(path, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	taken, err := net.Listen("tcp", ":0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	_, port, err := net.SplitHostPort(taken.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--lan", "--lan-folder", dir}, path},
		{[]string{"--lan", "--lan-folder", t.TempDir(), "--https-port", port}, "--https-port"},
		{[]string{"--lan", "--lan-folder", t.TempDir(), "--host", "http://bench"}, "leave out the scheme"},
		{[]string{"--forget-devices"}, "--lan"},
	} {
		var out, errs bytes.Buffer
		code := run(append([]string{"serve", "--address", "127.0.0.1:0"}, c.args...), streams{strings.NewReader(""), &out, &errs})
		if code != exitFault || !strings.Contains(errs.String(), c.says) || strings.Count(errs.String(), "\n") != 1 {
			t.Errorf("%v: exit %d: %s", c.args, code, errs.String())
		}
	}
	if now, err := os.ReadFile(path); err != nil || string(now) != "half" {
		t.Errorf("the damaged file was changed to %q (%v)", now, err)
	}
}

// TestCalledByItsAddress: an address that this machine was given meanwhile is
// known by the connections that reach it, and a name never is.
func TestCalledByItsAddress(t *testing.T) {
	server := serve.New(serve.Config{Assistant: readyAssistant(loaded(t)), Hosts: []string{"bench.local"}})
	t.Cleanup(func() {
		if err := server.Shutdown(context.Background()); err != nil {
			t.Error(err)
		}
	})
	guarded := server.Guard(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {}))
	for host, status := range map[string]int{
		"192.168.7.30:8417": http.StatusOK,
		"bench.local:8417":  http.StatusOK,
		"192.168.7.31:8417": http.StatusMisdirectedRequest,
		"evil.example:8417": http.StatusMisdirectedRequest,
	} {
		at := context.WithValue(t.Context(), http.LocalAddrContextKey, net.Addr(&net.TCPAddr{IP: net.ParseIP("192.168.7.30"), Port: 8417}))
		request := httptest.NewRequestWithContext(at, "GET", "http://"+host+"/", nil)
		answer := httptest.NewRecorder()
		guarded.ServeHTTP(answer, request)
		if answer.Code != status {
			t.Errorf("%s: %d, want %d", host, answer.Code, status)
		}
		if opener := answer.Header().Get("Cross-Origin-Opener-Policy"); opener != "" {
			t.Errorf("%s: a header that counts only where a page is secure", host)
		}
	}
}

func loaded(t *testing.T) *book.Book {
	t.Helper()
	b, err := rulesFlag{}.load()
	if err != nil {
		t.Fatal(err)
	}
	return b
}
