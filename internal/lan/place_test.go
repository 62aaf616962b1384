package lan

import (
	"net"
	"net/netip"
	"slices"
	"strings"
	"testing"
)

func TestHere(t *testing.T) {
	here, err := Here()
	if err != nil {
		t.Fatal(err)
	}
	addrs, err := net.InterfaceAddrs()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range here.Addresses {
		if a.IsLoopback() || a.IsUnspecified() || a.Zone() != "" || a.Is4In6() || a.Is6() && a.IsLinkLocalUnicast() {
			t.Errorf("%s is no address for others", a)
		}
		if !slices.ContainsFunc(addrs, func(n net.Addr) bool { return strings.HasPrefix(n.String(), a.String()+"/") }) {
			t.Errorf("%s is not an address of this machine", a)
		}
	}
}

func TestSort(t *testing.T) {
	var p Place
	for _, a := range []string{"2001:db8::5", "fd00::2", "169.254.3.4", "172.17.0.1", "192.168.1.7", "192.168.1.7"} {
		p.Addresses = append(p.Addresses, netip.MustParseAddr(a))
	}
	p.sort(netip.MustParseAddr("192.168.1.7"))
	if got := strings.Join(p.Hosts(), " "); got != "192.168.1.7 172.17.0.1 169.254.3.4 fd00::2 2001:db8::5" {
		t.Error(got)
	}
}

func TestNames(t *testing.T) {
	for host, want := range map[string]string{
		"Bench":             "bench bench.local",
		"bench.local":       "bench bench.local",
		"bench.example.org": "bench bench.example.org bench.local",
		"bench.":            "bench bench.local",
		"localhost":         "",
		"":                  "",
		"under_score":       "", // RFC 1123, section 2.1
		"-bench":            "",
		"two words":         "",
	} {
		if got := strings.Join(namesOf(host), " "); got != want {
			t.Errorf("%q: %q, want %q", host, got, want)
		}
	}
}

func TestAnd(t *testing.T) {
	p, err := bench.And("Ferry.example.", "[fd00::9]", "10.0.0.1")
	if err != nil || !slices.Contains(p.Hosts(), "ferry.example") || !slices.Contains(p.Hosts(), "fd00::9") || !slices.Contains(p.Hosts(), "10.0.0.1") {
		t.Errorf("%v: %v", p.Hosts(), err)
	}
	for _, wrong := range []string{"http://bench", "bench:8417", "a b", "", "fe80::1%eth0"} {
		if _, err := bench.And(wrong); err == nil {
			t.Errorf("%q is taken", wrong)
		}
	}
	if len(bench.Names) != 2 || len(bench.Addresses) != 3 {
		t.Error("the place itself was changed")
	}
}
