package lan

import (
	"crypto/tls"
	"net"
	"net/netip"
	"testing"
	"time"
)

// local is a connection that reached an address of this machine.
type local struct {
	net.Conn
	at string
}

func (l local) LocalAddr() net.Addr {
	return net.TCPAddrFromAddrPort(netip.AddrPortFrom(netip.MustParseAddr(l.at), 8443))
}

func TestCertificateIsRenewed(t *testing.T) {
	a, here, now := authority(t, bench), bench, today
	c, err := a.Certificates(func() (Place, error) { return here, nil }, func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	last, err := c.Get(&tls.ClientHelloInfo{Conn: local{at: "192.168.7.20"}})
	if err != nil {
		t.Fatal(err)
	}
	first := last.Leaf
	for _, step := range []struct {
		name  string
		after time.Duration
		at    string
		fresh bool
	}{
		{"again", 0, "192.168.7.20", false},
		{"loopback", 0, "127.0.0.1", false},
		{"IPv4 by an IPv6 socket", 0, "::ffff:192.168.7.20", false},
		{"a new address", time.Hour, "192.168.7.99", true},
		{"the new address again", 0, "192.168.7.99", false},
		{"an address that it may not have", 0, "198.51.100.7", false},
		{"31 days before the end", 0, "192.168.7.20", false},
		{"29 days before the end", 0, "192.168.7.20", true},
	} {
		now = now.Add(step.after)
		switch step.name {
		case "31 days before the end":
			now = last.Leaf.NotAfter.Add(-31 * 24 * time.Hour)
		case "29 days before the end":
			now = last.Leaf.NotAfter.Add(-29 * 24 * time.Hour)
		}
		got, err := c.Get(&tls.ClientHelloInfo{Conn: local{at: step.at}})
		if err != nil {
			t.Fatal(err)
		}
		if fresh := got.Leaf.SerialNumber.Cmp(last.Leaf.SerialNumber) != 0; fresh != step.fresh {
			t.Errorf("%s: renewed %t, want %t", step.name, fresh, step.fresh)
		}
		if addr := netip.MustParseAddr(step.at).Unmap().String(); a.Covers(addr) && step.name != "29 days before the end" {
			if err := verify(a, got.Leaf, addr, now); err != nil {
				t.Errorf("%s: %v", step.name, err)
			}
		}
		last = got
	}
	if !last.Leaf.NotAfter.After(first.NotAfter) {
		t.Error("the last certificate does not last longer than the first")
	}
}

// TestLeafEndsWithItsAuthority: and it is not made again and again for that.
func TestLeafEndsWithItsAuthority(t *testing.T) {
	a := authority(t, bench)
	now := a.cert.NotAfter.Add(-time.Hour)
	c, err := a.Certificates(func() (Place, error) { return bench, nil }, func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	if !c.leaf.Leaf.NotAfter.Equal(a.cert.NotAfter) || c.due(netip.Addr{}) {
		t.Errorf("it ends %s, its authority %s; due: %t", c.leaf.Leaf.NotAfter, a.cert.NotAfter, c.due(netip.Addr{}))
	}
}
