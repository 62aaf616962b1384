package lan

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"math/big"
	"net"
	"net/netip"
	"path/filepath"
	"strings"
	"time"
)

const (
	authorityFile  = "authority.pem" // key and certificate, so that neither is ever without the other
	authorityYears = 10
	clockSlack     = 24 * time.Hour // by how much a device's clock may be slow
)

// privateRanges are the addresses that networks may use without asking:
// RFC 1918, RFC 4193, RFC 3927, and loopback (RFC 6890).
var privateRanges = []netip.Prefix{
	netip.MustParsePrefix("10.0.0.0/8"), netip.MustParsePrefix("172.16.0.0/12"), netip.MustParsePrefix("192.168.0.0/16"),
	netip.MustParsePrefix("fc00::/7"), netip.MustParsePrefix("169.254.0.0/16"),
	netip.MustParsePrefix("127.0.0.0/8"), netip.MustParsePrefix("::1/128"),
}

// Authority vouches for this machine to the devices that trust it, and for
// nothing on the public internet: its name constraints (RFC 5280, section
// 4.2.1.10) allow private addresses, .local names, and what this machine was
// called when it was made. Chromium holds an authority that a person has added
// to its constraints since version 112 (its policy
// EnforceLocalAnchorConstraintsEnabled says so).
type Authority struct {
	cert *x509.Certificate
	key  *ecdsa.PrivateKey
}

// OpenAuthority reads the authority that is kept in a folder, and makes one
// where there is none, for ten years. A file that can't be used stays as it is,
// and the error says what to do.
func OpenAuthority(dir string, here Place, now time.Time) (a *Authority, made bool, err error) {
	path := filepath.Join(dir, authorityFile)
	data, err := readPrivate(path)
	if missing(err) {
		a, err := makeAuthority(path, here, now)
		return a, err == nil, err
	}
	if err != nil {
		return nil, false, fmt.Errorf("the certificate authority can't be used: %w", err)
	}
	if a, err = parseAuthority(data); err != nil {
		return nil, false, fmt.Errorf("the certificate authority in %s is damaged (%w): put a copy in its place, or move it away to make another, which every device has to trust anew", path, err)
	}
	if now.After(a.cert.NotAfter) {
		return nil, false, fmt.Errorf("the certificate authority in %s ended on %s: move it away to make another, which every device has to trust anew", path, a.cert.NotAfter.Format(time.DateOnly))
	}
	return a, false, nil
}

func makeAuthority(path string, here Place, now time.Time) (*Authority, error) {
	a, err := newAuthority(here, now)
	if err != nil {
		return nil, fmt.Errorf("can't make a certificate authority: %w", err)
	}
	der, err := x509.MarshalPKCS8PrivateKey(a.key)
	if err != nil {
		return nil, fmt.Errorf("can't write down the authority's key: %w", err)
	}
	var both bytes.Buffer // writing to it never fails
	_ = pem.Encode(&both, &pem.Block{Type: "PRIVATE KEY", Bytes: der})
	_ = pem.Encode(&both, &pem.Block{Type: "CERTIFICATE", Bytes: a.cert.Raw})
	return a, writePrivate(path, both.Bytes())
}

func newAuthority(here Place, now time.Time) (*Authority, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	name := "sparehand"
	if len(here.Names) > 0 {
		name += " on " + here.Names[0]
	}
	template := &x509.Certificate{
		SerialNumber:                serial(),
		Subject:                     pkix.Name{CommonName: name + ", " + now.Format(time.DateOnly), Organization: []string{"sparehand, a certificate authority of your own"}},
		NotBefore:                   now.Add(-clockSlack),
		NotAfter:                    now.AddDate(authorityYears, 0, 0),
		KeyUsage:                    x509.KeyUsageCertSign,
		BasicConstraintsValid:       true,
		IsCA:                        true,
		MaxPathLenZero:              true,
		PermittedDNSDomainsCritical: true, // of all name constraints, says its documentation
		PermittedDNSDomains:         permittedNames(here),
		PermittedIPRanges:           permittedRanges(here),
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		return nil, err
	}
	cert, err := x509.ParseCertificate(der)
	return &Authority{cert, key}, err
}

// serial gives a number of 127 random bits; it has to be above nothing and
// below 20 octets: RFC 5280, section 4.1.2.2.
func serial() *big.Int {
	var b [16]byte
	_, _ = rand.Read(b[:]) // never fails, says its documentation
	b[0] = b[0]&0x7f | 0x40
	return new(big.Int).SetBytes(b[:])
}

func permittedNames(here Place) []string {
	names := []string{"localhost", "local"}
	for _, n := range here.Names {
		if !strings.HasSuffix(n, ".local") {
			names = append(names, n)
		}
	}
	return names
}

func permittedRanges(here Place) []*net.IPNet {
	var ranges []*net.IPNet
	for _, p := range privateRanges {
		ranges = append(ranges, &net.IPNet{IP: p.Addr().AsSlice(), Mask: net.CIDRMask(p.Bits(), p.Addr().BitLen())})
	}
	for _, a := range here.Addresses {
		if !within(ranges, a) {
			ranges = append(ranges, &net.IPNet{IP: a.AsSlice(), Mask: net.CIDRMask(a.BitLen(), a.BitLen())})
		}
	}
	return ranges
}

func within(ranges []*net.IPNet, a netip.Addr) bool {
	for _, r := range ranges {
		if r.Contains(a.AsSlice()) {
			return true
		}
	}
	return false
}

func parseAuthority(data []byte) (*Authority, error) {
	first, rest := pem.Decode(data)
	if first == nil || first.Type != "PRIVATE KEY" {
		return nil, errors.New("it does not begin with a key")
	}
	second, rest := pem.Decode(rest)
	if second == nil || second.Type != "CERTIFICATE" || len(bytes.TrimSpace(rest)) > 0 {
		return nil, errors.New("there is no certificate, and nothing else, after the key")
	}
	parsed, err := x509.ParsePKCS8PrivateKey(first.Bytes)
	if err != nil {
		return nil, errors.New("its key can't be read")
	}
	cert, err := x509.ParseCertificate(second.Bytes)
	if err != nil {
		return nil, errors.New("its certificate can't be read")
	}
	key, ok := parsed.(*ecdsa.PrivateKey)
	if !ok || !key.PublicKey.Equal(cert.PublicKey) {
		return nil, errors.New("its key and its certificate do not belong together")
	}
	if err := cert.CheckSignatureFrom(cert); err != nil || !cert.IsCA {
		return nil, errors.New("its certificate is not an authority's")
	}
	return &Authority{cert, key}, nil
}

// Certificate gives the authority's certificate in DER (RFC 5280), as devices
// take it. A checksum of this file is the fingerprint.
func (a *Authority) Certificate() []byte { return a.cert.Raw }

// Name is how devices list the authority.
func (a *Authority) Name() string { return a.cert.Subject.CommonName }

// Fingerprint is the SHA-256 of the certificate: 32 pairs of hexadecimal digits
// with colons between.
func (a *Authority) Fingerprint() string {
	sum := sha256.Sum256(a.cert.Raw)
	return strings.ReplaceAll(fmt.Sprintf("% X", sum), " ", ":")
}

// Covers reports whether the authority may vouch for an address or a name,
// written as Place has them.
func (a *Authority) Covers(host string) bool {
	if addr, err := netip.ParseAddr(host); err == nil {
		return within(a.cert.PermittedIPRanges, addr)
	}
	for _, domain := range a.cert.PermittedDNSDomains {
		if host == domain || strings.HasSuffix(host, "."+domain) {
			return true
		}
	}
	return false
}
