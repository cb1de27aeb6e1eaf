package dxfread

import (
	"syscall"
	"testing"
	"time"
)

// cpuTime is what this process has used of all processors. On a machine that
// is shared it says more than the clock.
func cpuTime(b *testing.B) time.Duration {
	b.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// reportCPU adds the rate by CPU time to a benchmark over size bytes that
// began when the process had used start.
func reportCPU(b *testing.B, start time.Duration, size int) {
	b.Helper()
	used := cpuTime(b) - start
	b.ReportMetric(float64(size)*float64(b.N)/1e6/used.Seconds(), "cpuMB/s")
}
