package lan

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"fmt"
	"net"
	"net/netip"
	"slices"
	"sync"
	"time"
)

// leafAge keeps to the 398 days of the CA/Browser Forum's Baseline Requirements
// (section 6.3.2, from 2020 on; shorter limits since bind public authorities
// only). Apple refuses what lasts more than 825 days, by any authority
// (support.apple.com/103769).
const (
	leafAge   = 397 * 24 * time.Hour
	leafRenew = 30 * 24 * time.Hour
)

// Certificates hands out this machine's certificate. It is made anew at each
// start, is never written down, and is changed while in use when it nears its
// end or the machine has another address.
type Certificates struct {
	authority *Authority
	look      func() (Place, error)
	now       func() time.Time

	mu   sync.Mutex
	leaf *tls.Certificate
}

// Certificates makes the first certificate, for where look says that the
// machine is.
func (a *Authority) Certificates(look func() (Place, error), now func() time.Time) (*Certificates, error) {
	c := &Certificates{authority: a, look: look, now: now}
	return c, c.renew(netip.Addr{})
}

// Get is for tls.Config.GetCertificate.
func (c *Certificates) Get(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
	at := netip.Addr{}
	if tcp, ok := hello.Conn.LocalAddr().(*net.TCPAddr); ok {
		at = tcp.AddrPort().Addr().Unmap().WithZone("")
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if !c.due(at) {
		return c.leaf, nil
	}
	if err := c.renew(at); err != nil {
		return nil, err
	}
	return c.leaf, nil
}

// due reports whether the certificate is near its end, or leaves out an address
// that it could have.
func (c *Certificates) due(at netip.Addr) bool {
	leaf := c.leaf.Leaf
	if c.now().Add(leafRenew).After(leaf.NotAfter) {
		return leaf.NotAfter.Before(c.authority.cert.NotAfter) // else it can't be made any longer
	}
	has := func(ip net.IP) bool { return ip.Equal(at.AsSlice()) }
	return at.IsValid() && c.authority.Covers(at.String()) && !slices.ContainsFunc(leaf.IPAddresses, has)
}

// renew makes a certificate that also has the address at which it was needed.
func (c *Certificates) renew(at netip.Addr) error {
	here, err := c.look()
	if err != nil {
		return err
	}
	if at.IsValid() {
		here.Addresses = append(slices.Clone(here.Addresses), at)
	}
	leaf, err := c.authority.leaf(here, c.now())
	if err != nil {
		return fmt.Errorf("can't make a certificate for this machine: %w", err)
	}
	c.leaf = leaf
	return nil
}

// leaf makes a certificate for all of a place that the authority may vouch for,
// and for this machine as it calls itself.
func (a *Authority) leaf(here Place, now time.Time) (*tls.Certificate, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	from := now.Add(-clockSlack)
	template := &x509.Certificate{
		SerialNumber:          serial(),
		Subject:               pkix.Name{CommonName: "sparehand"},
		NotBefore:             from,
		NotAfter:              from.Add(leafAge - time.Second), // both ends count: RFC 5280, section 4.1.2.5
		KeyUsage:              x509.KeyUsageDigitalSignature,
		ExtKeyUsage:           []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true,
		DNSNames:              []string{"localhost"},
		IPAddresses:           []net.IP{net.IPv4(127, 0, 0, 1), net.IPv6loopback},
	}
	if end := a.cert.NotAfter; template.NotAfter.After(end) {
		template.NotAfter = end
	}
	for _, n := range here.Names {
		if a.Covers(n) {
			template.DNSNames = append(template.DNSNames, n)
		}
	}
	for _, addr := range here.Addresses {
		if a.Covers(addr.String()) {
			template.IPAddresses = append(template.IPAddresses, addr.AsSlice())
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, template, a.cert, key.Public(), a.key)
	if err != nil {
		return nil, err
	}
	parsed, err := x509.ParseCertificate(der)
	return &tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key, Leaf: parsed}, err
}
