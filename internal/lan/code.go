package lan

import (
	"crypto/rand"
	"crypto/subtle"
	"strings"
)

// Crockford's base 32 has no letter that looks like a figure, and no U.
const (
	codeSigns  = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
	codeLength = 8
)

// Code lets a new device in. It has 40 random bits, which the QR code carries
// at no cost: who guesses without rest, at the 20 wrong tries a minute that a
// gate bears, has it after 38 million days. Six figures would fall in five
// weeks.
type Code string

// NewCode gives a code at random.
func NewCode() Code {
	var b [codeLength]byte
	_, _ = rand.Read(b[:]) // never fails, says its documentation
	for i := range b {
		b[i] = codeSigns[b[i]%32] // 256 is a multiple of 32, so each is as likely
	}
	return Code(b[:])
}

// String gives the code as people read it, in two groups of four.
func (c Code) String() string { return string(c[:codeLength/2]) + "-" + string(c[codeLength/2:]) }

// alike reads what people type as Crockford has it: I and L are 1, O is 0, and
// hyphens are for the eye.
var alike = strings.NewReplacer("I", "1", "L", "1", "O", "0", "-", "", " ", "")

// is compares in a time that says nothing of how much was right.
func (c Code) is(typed string) bool {
	return subtle.ConstantTimeCompare([]byte(c), []byte(alike.Replace(strings.ToUpper(typed)))) == 1
}
