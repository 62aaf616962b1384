package lan

import (
	"net/netip"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestCode: the alphabet and what is read for what are Crockford's
// (crockford.com/base32.html).
func TestCode(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c := NewCode()
		if len(c) != 8 || strings.ContainsAny(string(c), "ILOU") {
			r.Fatalf("the code is %q", string(c))
		}
		typed := strings.Map(func(x rune) rune {
			switch {
			case x == '1':
				return rapid.SampledFrom([]rune("1iIlL")).Draw(r, "one")
			case x == '0':
				return rapid.SampledFrom([]rune("0oO")).Draw(r, "nought")
			}
			return x
		}, c.String())
		if rapid.Bool().Draw(r, "low") {
			typed = strings.ToLower(typed)
		}
		if !c.is(typed) || !c.is(" "+strings.ReplaceAll(typed, "-", " ")+" ") || !c.is(string(c)) {
			r.Fatalf("%q is not taken for %s", typed, c)
		}
		i := rapid.IntRange(0, 7).Draw(r, "place")
		wrong := []byte(c)
		wrong[i] = codeSigns[(strings.IndexByte(codeSigns, wrong[i])+rapid.IntRange(1, 31).Draw(r, "by"))%32]
		if c.is(string(wrong)) || c.is(string(c[:7])) || c.is(string(c)+"0") || c.is("") {
			r.Fatalf("a wrong code is taken for %s", c)
		}
	})
	if one, other := NewCode(), NewCode(); one == other {
		t.Error("the same code twice")
	}
}

// TestTries: whatever comes when from where, no minute has more wrong tries
// than the limits, and nobody who has not tried waits for longer than a minute.
func TestTries(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var limit tries
		type wrong struct {
			from int
			at   time.Time
		}
		var seen []wrong
		now := today
		for range rapid.IntRange(1, 120).Draw(r, "tries") {
			now = now.Add(time.Duration(rapid.IntRange(0, 6000).Draw(r, "ms")) * time.Millisecond)
			from := rapid.IntRange(1, 9).Draw(r, "from")
			checked := false
			_, wait := limit.try(netip.AddrFrom4([4]byte{10, 0, 0, byte(from)}), now, func() bool { checked = true; return false })
			if checked != (wait == 0) || wait < 0 || wait > time.Minute {
				r.Fatalf("checked %t, to wait %s", checked, wait)
			}
			if checked {
				seen = append(seen, wrong{from, now})
			}
			all, each := 0, 0
			for _, s := range seen {
				if now.Sub(s.at) < time.Minute {
					all++
					if s.from == from {
						each++
					}
				}
			}
			if all > 20 || each > 5 {
				r.Fatalf("%d wrong tries in a minute, %d from one address", all, each)
			}
			if !checked && all < 20 && each < 5 {
				r.Fatal("refused with tries left")
			}
		}
	})
}

// TestOneNetwork: a device may have any address of its 64 bits (RFC 4291,
// section 2.5.1), and gets no more tries by it.
func TestOneNetwork(t *testing.T) {
	var limit tries
	for i := range 6 {
		from := netip.AddrFrom16([16]byte{0xfd, 15: byte(i)})
		if _, wait := limit.try(from, today, func() bool { return false }); (wait > 0) != (i >= 5) {
			t.Errorf("try %d: to wait %s", i+1, wait)
		}
	}
	if _, wait := limit.try(netip.MustParseAddr("fd00:0:0:1::1"), today, func() bool { return true }); wait > 0 {
		t.Error("another network has to wait")
	}
}
