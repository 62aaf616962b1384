package browsertest

import (
	"context"
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"io"
	"log"
	"math/big"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// A stolen key of the authority is no use for a public name: Chromium holds the
// authority to its name constraints (RFC 5280, section 4.2.1.10).
func TestChromiumKeepsToTheNameConstraints(t *testing.T) {
	server := startLan(t)
	const private, public = "other.local", "example.org"
	ctx := lanBrowser(t, household(t, download(t, server)),
		chromedp.Flag("host-resolver-rules", "MAP "+private+" 127.0.0.1, MAP "+public+" 127.0.0.1"))
	for _, c := range []struct{ name, fault string }{{private, ""}, {public, "ERR_CERT"}} {
		port := takenIn(t, steal(t, server, c.name))
		opening, cancel := context.WithTimeout(ctx, patience)
		err := chromedp.Do(opening, chromedp.Navigate("https://"+c.name+":"+port+"/"))
		cancel()
		if (err == nil) != (c.fault == "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s: %v, want %q", c.name, err, c.fault)
		}
	}
}

// takenIn serves with a stolen certificate, and gives the port.
func takenIn(t *testing.T, stolen *tls.Certificate) string {
	t.Helper()
	thief := httptest.NewUnstartedServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, "taken in") }))
	thief.Config.ErrorLog = log.New(io.Discard, "", 0)
	thief.Listener = tls.NewListener(thief.Listener, &tls.Config{Certificates: []tls.Certificate{*stolen}})
	thief.Start()
	t.Cleanup(thief.Close)
	_, port, err := net.SplitHostPort(thief.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	return port
}

// steal signs a certificate for any name with the authority's key.
func steal(t *testing.T, s lanServer, name string) *tls.Certificate {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(s.folder, "authority.pem"))
	if err != nil {
		t.Fatal(err)
	}
	first, rest := pem.Decode(data)
	second, _ := pem.Decode(rest)
	signer, err := x509.ParsePKCS8PrivateKey(first.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	authority, err := x509.ParseCertificate(second.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	der, err := x509.CreateCertificate(rand.Reader, &x509.Certificate{
		SerialNumber: big.NewInt(7), DNSNames: []string{name},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(24 * time.Hour),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}, authority, key.Public(), signer.(crypto.Signer))
	if err != nil {
		t.Fatal(err)
	}
	return &tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key}
}
