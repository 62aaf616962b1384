//go:build unix

package logic_test

import (
	"syscall"
	"testing"
)

// reportCPU reports the processor time of the whole process for each
// operation, garbage collection included: on a shared machine it is steadier
// than time on the wall.
func reportCPU(b *testing.B) (done func()) {
	start := cpuTime()
	return func() {
		b.ReportMetric(float64(cpuTime()-start)/float64(b.N), "cpu-ns/op")
	}
}

func cpuTime() int64 {
	var use syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &use) != nil {
		return 0
	}
	return use.Utime.Nano() + use.Stime.Nano()
}
