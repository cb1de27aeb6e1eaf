//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

func makePipe(path string) error { return syscall.Mkfifo(path, 0o600) }

// peakMB is the most memory that a process that has ended held; 0 unknown.
func peakMB(p *os.ProcessState) float64 {
	u, ok := p.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" {
		return float64(u.Maxrss) / (1 << 20) // in bytes there
	}
	return float64(u.Maxrss) / (1 << 10)
}
