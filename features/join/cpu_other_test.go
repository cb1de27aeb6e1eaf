//go:build !unix

package join

func cpuSeconds() float64 { return 0 }
