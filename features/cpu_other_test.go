//go:build !unix

package features_test

func cpuSeconds() float64 { return 0 }
