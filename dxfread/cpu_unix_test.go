//go:build unix

package dxfread

import (
	"syscall"
	"time"
)

// cpuTime is what this process has used of all processors. On a machine that
// is shared it says more than the clock.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
