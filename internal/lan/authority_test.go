package lan

import (
	"bytes"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"net"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var (
	today = time.Date(2026, 11, 28, 12, 0, 0, 0, time.UTC)
	bench = Place{
		Addresses: []netip.Addr{netip.MustParseAddr("192.168.7.20"), netip.MustParseAddr("203.0.113.9"), netip.MustParseAddr("fd00::2")},
		Names:     []string{"bench", "bench.local"},
	}
)

func authority(t testing.TB, here Place) *Authority {
	t.Helper()
	a, err := newAuthority(here, today)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// verify holds a certificate to what RFC 5280, section 6 asks, as the standard
// library has it.
func verify(a *Authority, leaf *x509.Certificate, host string, at time.Time) error {
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	if ip := net.ParseIP(host); ip != nil && ip.To4() == nil {
		host = "[" + host + "]"
	}
	_, err := leaf.Verify(x509.VerifyOptions{Roots: roots, DNSName: host, CurrentTime: at})
	return err
}

// TestAuthority: RFC 5280, sections 4.2.1.3, 4.2.1.9 and 4.2.1.10.
func TestAuthority(t *testing.T) {
	c := authority(t, bench).cert
	if !c.IsCA || !c.MaxPathLenZero || c.MaxPathLen != 0 || c.KeyUsage != x509.KeyUsageCertSign {
		t.Errorf("CA %t, path length %d, key usage %b", c.IsCA, c.MaxPathLen, c.KeyUsage)
	}
	if !c.PermittedDNSDomainsCritical || len(c.PermittedIPRanges) == 0 || len(c.PermittedDNSDomains) == 0 {
		t.Error("the name constraints are missing, or not critical")
	}
	if want := today.AddDate(10, 0, 0); !c.NotAfter.Equal(want) {
		t.Errorf("it ends %s, want %s", c.NotAfter, want)
	}
	if n := c.SerialNumber; n.Sign() <= 0 || n.BitLen() > 20*8-1 || n.BitLen() < 64 {
		t.Errorf("serial number %x", n)
	}
}

func TestLeaf(t *testing.T) {
	a := authority(t, bench)
	made, err := a.leaf(bench, today)
	if err != nil {
		t.Fatal(err)
	}
	leaf := made.Leaf
	for _, host := range []string{"192.168.7.20", "203.0.113.9", "fd00::2", "bench", "bench.local", "localhost", "127.0.0.1", "::1"} {
		if err := verify(a, leaf, host, today); err != nil {
			t.Errorf("%s: %v", host, err)
		}
	}
	for _, host := range []string{"192.168.7.21", "other.local", "example.org", "fd00::3"} {
		if verify(a, leaf, host, today) == nil {
			t.Errorf("it is taken for %s", host)
		}
	}
	if age := leaf.NotAfter.Sub(leaf.NotBefore) + time.Second; age > 398*24*time.Hour { // CA/Browser Forum, Baseline Requirements, 6.3.2
		t.Errorf("it lasts %s", age)
	}
	if len(leaf.ExtKeyUsage) != 1 || leaf.ExtKeyUsage[0] != x509.ExtKeyUsageServerAuth || leaf.IsCA { // support.apple.com/103769
		t.Errorf("extended key usage %v, CA %t", leaf.ExtKeyUsage, leaf.IsCA)
	}
	if verify(authority(t, bench), leaf, "bench", today) == nil {
		t.Error("another authority vouches for it")
	}
}

// rogue is a certificate that the key of an authority signs for anything, as a
// thief would.
func rogue(t testing.TB, a *Authority, here Place) *x509.Certificate {
	t.Helper()
	thief := &Authority{&x509.Certificate{}, a.key}
	*thief.cert = *a.cert
	thief.cert.PermittedDNSDomains = here.Names
	thief.cert.PermittedIPRanges = permittedRanges(here)
	made, err := thief.leaf(here, today)
	if err != nil {
		t.Fatal(err)
	}
	return made.Leaf
}

func TestStolenKeyPassesForNoPublicServer(t *testing.T) {
	a := authority(t, bench)
	for _, here := range []Place{
		{Names: []string{"example.org"}},
		{Names: []string{"www.example.org"}},
		{Names: []string{"notlocal"}},
		{Addresses: []netip.Addr{netip.MustParseAddr("198.51.100.7")}},
		{Addresses: []netip.Addr{netip.MustParseAddr("2001:db8::7")}},
		{Addresses: []netip.Addr{netip.MustParseAddr("203.0.113.8")}}, // beside one that is allowed
	} {
		host := here.Hosts()[0]
		leaf := rogue(t, a, here)
		var invalid x509.CertificateInvalidError
		if err := verify(a, leaf, host, today); !errors.As(err, &invalid) || invalid.Reason != x509.CANotAuthorizedForThisName {
			t.Errorf("%s: %v", host, err)
		}
	}
}

// TestCoversIsWhatIsVerified: what the authority says that it may vouch for is
// what the standard library lets it vouch for.
func TestCoversIsWhatIsVerified(t *testing.T) {
	a := authority(t, bench)
	rapid.Check(t, func(r *rapid.T) {
		var here Place
		if rapid.Bool().Draw(r, "named") {
			here.Names = []string{rapid.StringMatching(`(bench|local|localhost|[a-z]{1,5})(\.(local|localhost|bench|org))?`).Draw(r, "name")}
		} else {
			b := rapid.SliceOfN(rapid.Byte(), 4, 4).Draw(r, "address")
			b[0] = rapid.SampledFrom([]byte{b[0], 10, 127, 169, 172, 192, 203}).Draw(r, "first")
			addr, _ := netip.AddrFromSlice(b)
			here.Addresses = []netip.Addr{addr}
		}
		host := here.Hosts()[0]
		if err := verify(a, rogue(t, a, here), host, today); (err == nil) != a.Covers(host) {
			r.Fatalf("%s: covered %t, verified %v", host, a.Covers(host), err)
		}
	})
}

// TestOpenSSLAgrees: the same by another implementation.
func TestOpenSSLAgrees(t *testing.T) {
	openssl, err := exec.LookPath("openssl")
	if err != nil {
		if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
			t.Fatal("openssl is missing, and SPAREHAND_TEST_ALL=1 wants it")
		}
		t.Skip("openssl is missing: this test did not run")
	}
	a, dir := authority(t, bench), t.TempDir()
	write := func(name string, der []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	root := write("root.pem", a.Certificate())
	made, err := a.leaf(bench, today)
	if err != nil {
		t.Fatal(err)
	}
	good := write("leaf.pem", made.Leaf.Raw)
	bad := write("rogue.pem", rogue(t, a, Place{Names: []string{"example.org"}}).Raw)
	at := []string{"-attime", strconv.FormatInt(today.Unix(), 10), "-x509_strict", "-purpose", "sslserver", "-CAfile", root}
	for _, c := range []struct {
		args []string
		ok   bool
		says string
	}{
		{[]string{"-verify_ip", "192.168.7.20", good}, true, "OK"},
		{[]string{"-verify_ip", "fd00::2", good}, true, "OK"},
		{[]string{"-verify_hostname", "bench.local", good}, true, "OK"},
		{[]string{"-verify_ip", "192.168.7.21", good}, false, "IP address mismatch"},
		{[]string{"-verify_hostname", "example.org", bad}, false, "permitted subtree violation"},
	} {
		out, err := exec.CommandContext(t.Context(), openssl, append(append([]string{"verify"}, at...), c.args...)...).CombinedOutput()
		if (err == nil) != c.ok || !strings.Contains(string(out), c.says) {
			t.Errorf("openssl verify %v: %v\n%s", c.args, err, out)
		}
	}
	out, err := exec.CommandContext(t.Context(), openssl, "x509", "-in", root, "-noout", "-fingerprint", "-sha256").Output()
	if err != nil || !strings.Contains(string(out), "="+a.Fingerprint()+"\n") {
		t.Errorf("openssl has the fingerprint %s (%v), we have %s", out, err, a.Fingerprint())
	}
}

func TestAuthorityIsKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "lan")
	first, made, err := OpenAuthority(dir, bench, today)
	if err != nil || !made {
		t.Fatalf("made %t: %v", made, err)
	}
	again, made, err := OpenAuthority(dir, Place{}, today.AddDate(9, 0, 0))
	if err != nil || made || !bytes.Equal(first.Certificate(), again.Certificate()) || !first.key.Equal(again.key) {
		t.Errorf("made %t, another authority: %t (%v)", made, !bytes.Equal(first.Certificate(), again.Certificate()), err)
	}
	if _, _, err := OpenAuthority(dir, bench, today.AddDate(10, 0, 1)); err == nil || !strings.Contains(err.Error(), "ended on 2036-11-28") {
		t.Errorf("after its end: %v", err)
	}
	if runtime.GOOS == "windows" {
		return
	}
	for path, want := range map[string]os.FileMode{dir: 0o700, filepath.Join(dir, authorityFile): 0o600} {
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s has mode %v (%v), want %v", path, info.Mode().Perm(), err, want)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "*.part")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// TestBadAuthority: a clear sentence, and the file is as it was.
func TestBadAuthority(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, authorityFile)
	if _, _, err := OpenAuthority(dir, bench, today); err != nil {
		t.Fatal(err)
	}
	good, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	other := t.TempDir()
	if _, _, err := OpenAuthority(other, bench, today); err != nil {
		t.Fatal(err)
	}
	foreign, err := os.ReadFile(filepath.Join(other, authorityFile))
	if err != nil {
		t.Fatal(err)
	}
	cut := bytes.Index(good, []byte("-----BEGIN CERTIFICATE"))
	for name, c := range map[string]struct {
		data []byte
		mode os.FileMode
		says string
	}{
		"empty":           {nil, 0o600, "does not begin with a key"},
		"half":            {good[:len(good)/2], 0o600, "no certificate"},
		"key alone":       {good[:cut], 0o600, "no certificate"},
		"more":            {append(bytes.Clone(good), "more"...), 0o600, "nothing else"},
		"another's":       {append(bytes.Clone(good[:cut]), foreign[bytes.Index(foreign, []byte("-----BEGIN CERTIFICATE")):]...), 0o600, "do not belong together"},
		"readable to all": {good, 0o644, "mode 0644"},
	} {
		t.Run(name, func(t *testing.T) {
			if c.mode != 0o600 && runtime.GOOS == "windows" {
				t.Skip("Windows has no such modes")
			}
			if err := os.WriteFile(path, c.data, 0o600); err != nil {
				t.Fatal(err)
			}
			if err := os.Chmod(path, c.mode); err != nil {
				t.Fatal(err)
			}
			_, _, err := OpenAuthority(dir, bench, today)
			if err == nil || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), path) || strings.Contains(err.Error(), "\n") {
				t.Errorf("it says %v, want %q and the path", err, c.says)
			}
			if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, c.data) {
				t.Errorf("the file was changed (%v)", err)
			}
		})
	}
}
