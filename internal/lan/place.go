// Package lan lets other devices of the same network reach a server on this
// machine: its addresses, a certificate authority of its own, a QR code, and a
// gate that asks each new device for a join code. It knows nothing of what is
// served behind the gate.
package lan

import (
	"cmp"
	"fmt"
	"net"
	"net/netip"
	"os"
	"slices"
	"strings"
)

// Place is where a machine can be reached.
type Place struct {
	Addresses []netip.Addr // likeliest first
	Names     []string     // lower case, without a last dot
}

// Here looks up where this machine can be reached: by the addresses of the
// interfaces that are up, other than loopback and link-local IPv6 (which needs
// a zone, and no URL may hold one), and by its name and NAME.local (RFC 6762).
// The address that traffic to elsewhere leaves from comes first, for a phone is
// likeliest to share that network; then private ones, IPv4 before IPv6.
func Here() (Place, error) {
	interfaces, err := net.Interfaces()
	if err != nil {
		return Place{}, fmt.Errorf("can't list the network interfaces: %w", err)
	}
	var place Place
	for _, i := range interfaces {
		if i.Flags&net.FlagUp == 0 || i.Flags&net.FlagLoopback != 0 {
			continue
		}
		nets, err := i.Addrs()
		if err != nil {
			continue // it has gone since it was listed
		}
		for _, n := range nets {
			if prefix, err := netip.ParsePrefix(n.String()); err == nil && reachable(prefix.Addr()) {
				place.Addresses = append(place.Addresses, prefix.Addr())
			}
		}
	}
	place.sort(leaving())
	if name, err := os.Hostname(); err == nil {
		place.Names = namesOf(name)
	}
	return place, nil
}

func reachable(a netip.Addr) bool {
	return a.IsGlobalUnicast() || a.Is4() && a.IsLinkLocalUnicast()
}

// leaving is the address that traffic to elsewhere leaves from, if any. No
// packet is sent: connecting UDP only looks up the route.
func leaving() netip.Addr {
	conn, err := net.Dial("udp4", "192.0.2.1:9") // an address for documentation, RFC 5737
	if err != nil {
		return netip.Addr{}
	}
	defer conn.Close()
	return conn.LocalAddr().(*net.UDPAddr).AddrPort().Addr().Unmap()
}

func (p *Place) sort(first netip.Addr) {
	rank := func(a netip.Addr) int {
		switch {
		case a == first:
			return 0
		case a.Is4() && a.IsPrivate():
			return 1
		case a.Is4():
			return 2
		case a.IsPrivate():
			return 3
		}
		return 4
	}
	slices.SortStableFunc(p.Addresses, func(a, b netip.Addr) int { return cmp.Compare(rank(a), rank(b)) })
	p.Addresses = slices.Compact(p.Addresses)
}

// namesOf gives what a host of this name is called, or nothing where that is no
// name for others.
func namesOf(host string) []string {
	host = strings.ToLower(strings.TrimSuffix(host, "."))
	short, _, _ := strings.Cut(host, ".")
	if short == "localhost" || !isName(host) {
		return nil
	}
	names := []string{host, short, short + ".local"}
	slices.Sort(names)
	return slices.Compact(names)
}

// isName reports whether a lower-case text is a host name: RFC 1123, section
// 2.1.
func isName(s string) bool {
	if len(s) > 253 {
		return false
	}
	for label := range strings.SplitSeq(s, ".") {
		if label == "" || len(label) > 63 || strings.Trim(label, "-") != label || strings.ContainsFunc(label, odd) {
			return false
		}
	}
	return true
}

func odd(r rune) bool {
	return r != '-' && (r < '0' || r > '9') && (r < 'a' || r > 'z')
}

// And gives the place with further names and addresses, as told by a person.
func (p Place) And(hosts ...string) (Place, error) {
	more := Place{slices.Clone(p.Addresses), slices.Clone(p.Names)}
	for _, h := range hosts {
		host := strings.ToLower(strings.TrimSuffix(h, "."))
		if a, err := netip.ParseAddr(strings.Trim(host, "[]")); err == nil && a.Zone() == "" {
			more.Addresses = append(more.Addresses, a.Unmap())
		} else if isName(host) {
			more.Names = append(more.Names, host)
		} else {
			return Place{}, fmt.Errorf("%q is not a name or an address of a machine: leave out the scheme and the port", h)
		}
	}
	return more, nil
}

// Hosts gives all addresses and names as text.
func (p Place) Hosts() []string {
	all := slices.Clone(p.Names)
	for _, a := range p.Addresses {
		all = append(all, a.String())
	}
	return all
}
