//go:build !unix

package logic_test

import "testing"

// reportCPU reports nothing where processor time is not to be had.
func reportCPU(*testing.B) (done func()) { return func() {} }
