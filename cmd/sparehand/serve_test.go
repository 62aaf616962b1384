package main

import (
	"bytes"
	"net"
	"strings"
	"testing"
)

// TestTakenPort: a clear message, and the flag to change it.
func TestTakenPort(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	var out, errs bytes.Buffer
	code := run([]string{"--address", taken.Addr().String()}, streams{strings.NewReader(""), &out, &errs})
	if code != exitFault || !strings.Contains(errs.String(), "is taken") || !strings.Contains(errs.String(), "--address") {
		t.Errorf("exit %d: %s", code, errs.String())
	}
}
