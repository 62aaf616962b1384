package lan

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"
)

const (
	devicesFile = "devices.json"
	devicesMost = 64                   // the one that joined first makes room
	deviceTime  = 400 * 24 * time.Hour // browsers keep no cookie for longer: draft-ietf-httpbis-rfc6265bis
)

// Devices are those that have joined. They outlive a restart; of their tokens
// only a hash is kept.
type Devices struct {
	path string

	mu   sync.Mutex
	list []device // in the order in which they joined
}

type device struct {
	Hash   []byte    `json:"hash"`   // SHA-256 of the token, which is random, so it needs no salt
	Secure bool      `json:"secure"` // whether the token has only been sent over https
	Joined time.Time `json:"joined"`
}

type devicesKept struct {
	Devices []device `json:"devices"`
}

// OpenDevices reads who has joined, from a folder that need not be there yet. A
// damaged file stays as it is.
func OpenDevices(dir string) (*Devices, error) {
	d := &Devices{path: filepath.Join(dir, devicesFile)}
	data, err := readPrivate(d.path)
	if missing(err) {
		return d, nil
	}
	if err != nil {
		return nil, fmt.Errorf("the devices that have joined can't be read: %w", err)
	}
	if d.list, err = parseDevices(data); err != nil {
		return nil, fmt.Errorf("the devices that have joined can't be read from %s (%w): put a copy in its place, or forget them with --forget-devices", d.path, err)
	}
	return d, nil
}

func parseDevices(data []byte) ([]device, error) {
	var kept devicesKept
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&kept); err != nil {
		return nil, errors.New("it is not the JSON that was written")
	}
	if decoder.More() || slices.ContainsFunc(kept.Devices, func(d device) bool { return len(d.Hash) != sha256.Size }) {
		return nil, errors.New("it holds more or less than was written")
	}
	return kept.Devices, nil
}

// ForgetDevices lets all devices go that have joined, whatever their file
// holds.
func ForgetDevices(dir string) error {
	if err := os.Remove(filepath.Join(dir, devicesFile)); err != nil && !missing(err) {
		return fmt.Errorf("can't forget the devices that have joined: %w", err)
	}
	return nil
}

// admit lets a device in and gives its token, of 256 random bits. With an error
// it is let in until the server ends.
func (d *Devices) admit(secure bool, now time.Time) (token string, err error) {
	var b [32]byte
	_, _ = rand.Read(b[:]) // never fails, says its documentation
	token = base64.RawURLEncoding.EncodeToString(b[:])
	hash := sha256.Sum256([]byte(token))
	d.mu.Lock()
	defer d.mu.Unlock()
	d.list = slices.DeleteFunc(d.list, func(old device) bool { return old.over(now) })
	d.list = append(d.list, device{hash[:], secure, now.UTC()})
	if len(d.list) > devicesMost {
		d.list = d.list[len(d.list)-devicesMost:]
	}
	data, err := json.MarshalIndent(devicesKept{d.list}, "", "  ")
	if err != nil {
		return token, err
	}
	return token, writePrivate(d.path, append(data, '\n'))
}

// knows reports whether a device has joined with this token. A token that was
// given over plain http, where others may have read it, is good for nothing
// better.
func (d *Devices) knows(token string, secure bool, now time.Time) bool {
	hash := sha256.Sum256([]byte(token))
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.ContainsFunc(d.list, func(have device) bool {
		return subtle.ConstantTimeCompare(have.Hash, hash[:]) == 1 && have.Secure == secure && !have.over(now)
	})
}

func (d device) over(now time.Time) bool { return now.Sub(d.Joined) >= deviceTime }
