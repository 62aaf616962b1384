package lan

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestDevicesOutliveARestart(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "lan")
	open := func() *Devices {
		t.Helper()
		d, err := OpenDevices(dir)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	secure, err := open().admit(true, today)
	if err != nil {
		t.Fatal(err)
	}
	plain, err := open().admit(false, today)
	if err != nil {
		t.Fatal(err)
	}
	d := open()
	if !d.knows(secure, true, today) || !d.knows(plain, false, today) {
		t.Error("a device is forgotten")
	}
	if d.knows(plain, true, today) || d.knows(secure, false, today) || d.knows("", true, today) || d.knows(secure+"x", true, today) {
		t.Error("a token is good for what it was not given for")
	}
	if d.knows(secure, true, today.Add(400*24*time.Hour)) {
		t.Error("a device is known after 400 days")
	}
	data, err := os.ReadFile(filepath.Join(dir, devicesFile))
	if err != nil || bytes.Contains(data, []byte(secure)) || bytes.Contains(data, []byte(plain)) {
		t.Errorf("the file holds a token (%v)", err)
	}
	if err := ForgetDevices(dir); err != nil {
		t.Fatal(err)
	}
	if d := open(); d.knows(secure, true, today) {
		t.Error("a device is not forgotten")
	}
	if err := ForgetDevices(dir); err != nil {
		t.Errorf("nothing to forget: %v", err)
	}
}

func TestDevicesMakeRoom(t *testing.T) {
	d, err := OpenDevices(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	var tokens []string
	for range devicesMost + 1 {
		token, err := d.admit(true, today)
		if err != nil {
			t.Fatal(err)
		}
		tokens = append(tokens, token)
	}
	if d.knows(tokens[0], true, today) || !d.knows(tokens[1], true, today) || !d.knows(tokens[devicesMost], true, today) {
		t.Error("another than the first device has made room")
	}
}

func TestDamagedDevices(t *testing.T) {
	dir := t.TempDir()
	d, err := OpenDevices(dir)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.admit(true, today); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, devicesFile)
	good, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"empty":    nil,
		"half":     good[:len(good)/2],
		"twice":    append(bytes.Clone(good), good...),
		"no hash":  []byte(`{"devices": [{"hash": "AAAA", "secure": true, "joined": "2026-11-28T12:00:00Z"}]}`),
		"of other": []byte(`{"phones": []}`),
	} {
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := OpenDevices(dir); err == nil || !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), "--forget-devices") {
			t.Errorf("%s: %v", name, err)
		}
		if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, data) {
			t.Errorf("%s: the file was changed (%v)", name, err)
		}
	}
}
