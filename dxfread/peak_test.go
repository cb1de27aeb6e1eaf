package dxfread

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// peakOf is set for the process that BenchmarkPeak starts.
const peakOf = "BURRSIDE_PEAK_OF"

// TestPeakHelper is no test: it reads and places the file that BenchmarkPeak
// names, in a process of its own, and prints how much memory that took.
func TestPeakHelper(t *testing.T) {
	path := os.Getenv(peakOf)
	if path == "" {
		t.Skip("only for BenchmarkPeak")
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	before := peakKiB(t)
	d, err := Read(context.Background(), f, Limits{})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for p := range d.Place(d.Model, Limits{}).All(context.Background()) {
		n++
		if line, ok := p.Entity.(*Polyline); ok {
			n += len(line.Vertices) - 1
		}
	}
	fmt.Println("peak", peakKiB(t)-before, n)
}

// peakKiB is the greatest resident memory of this process so far.
func peakKiB(t testing.TB) (kib int) {
	f, err := os.Open("/proc/self/status")
	if err != nil {
		t.Skip(err)
	}
	defer f.Close()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		if rest, ok := strings.CutPrefix(lines.Text(), "VmHWM:"); ok {
			if _, err := fmt.Sscan(rest, &kib); err != nil {
				t.Fatal(err)
			}
		}
	}
	return kib
}

// BenchmarkPeak reports the resident memory at its peak while a file of 100 MB
// is read and placed, as a multiple of the file and less that, in bytes for
// each placed edge.
func BenchmarkPeak(b *testing.B) {
	path := filepath.Join(b.TempDir(), "peak.dxf")
	data := benchFile(100_000_000, habits()[0])
	if err := os.WriteFile(path, data, 0o600); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		run := exec.Command(os.Args[0], "-test.run=^TestPeakHelper$")
		run.Env = append(os.Environ(), peakOf+"="+path)
		out, err := run.Output()
		if err != nil {
			b.Fatalf("%v %s", err, out)
		}
		kib, edges := 0, 0
		_, rest, _ := strings.Cut(string(out), "peak ")
		if _, err := fmt.Sscan(rest, &kib, &edges); err != nil {
			b.Skipf("%v in %q", err, out)
		}
		b.ReportMetric(float64(kib)/1024, "peak-MiB")
		b.ReportMetric(float64(kib)*1024/float64(len(data)), "x-file")
		b.ReportMetric((float64(kib)*1024-float64(len(data)))/float64(edges), "B/edge-beyond-file")
		b.ReportMetric(float64(edges), "edges")
		b.ReportMetric(float64(kib)*1024/(3*float64(len(data))+120*float64(edges)), "of-allowed")
	}
}
