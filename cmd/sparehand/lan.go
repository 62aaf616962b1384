package main

import (
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"

	"sparehand/internal/lan"
)

// lanFlag says whether other devices of the network are let in.
type lanFlag struct {
	Lan           bool   `help:"Let phones on the same network in: https for the microphone, with a certificate authority of this machine's own, and a join code for each new device."`
	HTTPSPort     int    `name:"https-port" help:"With --lan: the port for https." default:"8443"`
	LanFolder     string `help:"With --lan: where the authority and the devices that have joined are kept, if not beside the usual notebook." placeholder:"DIR"`
	ForgetDevices bool   `help:"With --lan: let all devices go that have joined."`
}

// lanSide is what serve has more with --lan.
type lanSide struct {
	gate   *lan.Gate
	secure net.Listener
	place  lan.Place
	told   lanTold
}

// lanTold is what the terminal says.
type lanTold struct {
	authority *lan.Authority
	made      bool // the authority, just now
	code      lan.Code
	hosts     []string // that https vouches for, likeliest first
	plain     int      // port
	secure    int      // port
}

// usualLan is beside the usual notebook.
func usualLan() (string, error) {
	notebook, err := usualStore()
	if err != nil {
		return "", fmt.Errorf("%w: choose a folder with --lan-folder", err)
	}
	return filepath.Join(filepath.Dir(notebook), "lan"), nil
}

// openLan begins to listen for https on the host of the plain listener.
func (f lanFlag) openLan(plain net.Listener, more []string, log *slog.Logger) (*lanSide, error) {
	dir, err := f.LanFolder, error(nil)
	if dir == "" {
		if dir, err = usualLan(); err != nil {
			return nil, err
		}
	}
	look := func() (lan.Place, error) {
		here, err := lan.Here()
		if err != nil {
			return here, err
		}
		return here.And(more...)
	}
	place, err := look()
	if err != nil {
		return nil, err
	}
	if f.ForgetDevices {
		if err := lan.ForgetDevices(dir); err != nil {
			return nil, err
		}
	}
	devices, err := lan.OpenDevices(dir)
	if err != nil {
		return nil, err
	}
	authority, made, err := lan.OpenAuthority(dir, place, time.Now())
	if err != nil {
		return nil, err
	}
	hosts, err := vouched(authority, place, dir)
	if err != nil {
		return nil, err
	}
	certificates, err := authority.Certificates(look, time.Now)
	if err != nil {
		return nil, err
	}
	at := plain.Addr().(*net.TCPAddr)
	secure, err := listenSecure(at.IP, f.HTTPSPort, certificates)
	if err != nil {
		return nil, err
	}
	port, code := secure.Addr().(*net.TCPAddr).Port, lan.NewCode()
	return &lanSide{
		gate:   lan.NewGate(lan.GateConfig{Authority: authority, Devices: devices, Code: code, SecurePort: port, Logger: log}),
		secure: secure,
		place:  place,
		told:   lanTold{authority, made, code, hosts, at.Port, port},
	}, nil
}

// vouched lists the addresses, and then the names, that the authority may vouch
// for.
func vouched(a *lan.Authority, place lan.Place, dir string) ([]string, error) {
	var addresses, names []string
	for _, addr := range place.Addresses {
		if a.Covers(addr.String()) {
			addresses = append(addresses, addr.String())
		}
	}
	for _, name := range place.Names {
		if a.Covers(name) {
			names = append(names, name)
		}
	}
	switch {
	case len(place.Addresses) == 0:
		return nil, errors.New("this machine has no address on a network: join one and start again, or leave out --lan")
	case len(addresses) == 0:
		return nil, fmt.Errorf("the certificate authority in %s may not vouch for this machine's addresses (%s), which it did not have before: move it away to make another, which every device has to trust anew", dir, strings.Join(place.Hosts(), ", "))
	}
	return append(addresses, names...), nil
}

func listenSecure(ip net.IP, port int, certificates *lan.Certificates) (net.Listener, error) {
	listener, err := net.ListenTCP("tcp", &net.TCPAddr{IP: ip, Port: port})
	if errors.Is(err, syscall.EADDRINUSE) {
		return nil, fmt.Errorf("port %d is taken by another program: choose another with --https-port, such as --https-port %d", port, port+1)
	}
	if err != nil {
		return nil, fmt.Errorf("can't listen for https on port %d: %w", port, err)
	}
	return tls.NewListener(listener, &tls.Config{GetCertificate: certificates.Get}), nil
}

// tell says how a device gets in. The code is printed here and nowhere else.
func (t lanTold) tell(out io.Writer) error {
	best := t.url("https", t.hosts[0], t.secure)
	drawn, err := lan.QR(best+"join#"+string(t.code), isTerminal(out))
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "\nfor a phone on the same network: scan this, or open %s\njoin code: %s\n\n%s\n", best, t.code, drawn)
	if len(t.hosts) > 1 {
		var others []string
		for _, host := range t.hosts[1:min(len(t.hosts), 5)] {
			others = append(others, t.url("https", host, t.secure))
		}
		fmt.Fprintf(out, "or: %s\n", strings.Join(others, " "))
	}
	plain := t.url("http", t.hosts[0], t.plain)
	if t.made {
		fmt.Fprintf(out, `
A phone gives the microphone only to a page that it trusts. This machine has
just made a certificate authority of its own, which can vouch for private
addresses and this machine and for nothing else. Let each phone trust it once:
open %strust on the phone and do as it says. Compare the
fingerprint there with this one; if a digit differs, stop.
Without that the page works at %s, but has no microphone,
and others on the network could read what is said.

`, plain, plain)
	} else {
		fmt.Fprintf(out, "without a microphone: %s; how a new phone comes to trust this machine: %strust\n", plain, plain)
	}
	sum := t.authority.Fingerprint()
	_, err = fmt.Fprintf(out, "SHA-256 fingerprint of the authority:\n  %s\n  %s\n\n", sum[:48], sum[48:])
	return err
}

func (t lanTold) url(scheme, host string, port int) string {
	return scheme + "://" + net.JoinHostPort(host, strconv.Itoa(port)) + "/"
}

func isTerminal(out io.Writer) bool {
	f, ok := out.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
