package main

import (
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"burrside/dxfread/dxftest"
)

// commandVariable makes the test binary be the command, for tests that look at a
// whole process.
const commandVariable = "BURRSIDE_TEST_IS_COMMAND"

func beCommand() {
	if os.Getenv(commandVariable) != "" {
		os.Exit(run(context.Background(), os.Args[1:], streams{in: os.Stdin, out: os.Stdout, err: os.Stderr}))
	}
}

// variedDrawing is one of the small drawings of an ordinary day: a plate, a
// strap, a clip or a nest of two, with holes, slots, notches and words, drawn in
// different ways.
func variedDrawing(rng *rand.Rand) []byte {
	unit, scale := dxftest.MM, 1.0
	if rng.IntN(5) == 0 {
		unit, scale = dxftest.Inch, 1/25.4
	}
	b := dxftest.New(unit).Layer([]string{"0", "CUT", "OUTLINE"}[rng.IntN(3)])
	whole := func(from, to int) float64 { return float64(5*(from/5+rng.IntN((to-from)/5+1))) * scale }
	w, h := whole(80, 600), whole(50, 300)
	var shape []dxftest.V
	switch rng.IntN(4) {
	case 0: // corners clipped
		c := whole(10, 20)
		shape = []dxftest.V{{X: c, Y: 0}, {X: w, Y: 0}, {X: w, Y: h - c}, {X: w - c, Y: h}, {X: 0, Y: h}, {X: 0, Y: c}}
	case 1: // a corner notch and a vee
		c := whole(10, 20)
		shape = []dxftest.V{{X: 0, Y: 0}, {X: w / 2, Y: 0}, {X: w/2 + c/2, Y: c / 2}, {X: w/2 + c, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: c, Y: h}, {X: c, Y: h - c}, {X: 0, Y: h - c}}
	case 2: // rounded ends
		shape = dxftest.Slot(w/2, h/2, h, w+h)
	default:
		shape = dxftest.Rect(0, 0, w, h)
	}
	if rng.IntN(2) == 0 {
		b.Polyline(true, shape...)
	} else {
		for i, v := range shape {
			n := shape[(i+1)%len(shape)]
			if v.Bulge != 0 {
				b.Polyline(false, v, n)
				continue
			}
			b.Line(v.X, v.Y, n.X, n.Y)
		}
	}
	d := []float64{9, 11, 13.5, 17.5, 22}[rng.IntN(5)] * scale
	across, up := 1+rng.IntN(5), 1+rng.IntN(3)
	for i := range across {
		for k := range up {
			b.Circle(w*float64(i+1)/float64(across+1), h*float64(k+1)/float64(up+1), d/2)
		}
	}
	if rng.IntN(3) == 0 {
		b.Polyline(true, dxftest.Slot(w/2, h*0.3/float64(up+1), 9*scale, 22*scale)...)
	}
	if rng.IntN(4) > 0 {
		b.Text(0, -20*scale, 5*scale, fmt.Sprintf("PL %d %s", []int{5, 6, 8, 10, 12}[rng.IntN(5)], []string{"S275", "S355", ""}[rng.IntN(3)]))
	}
	if rng.IntN(3) == 0 {
		b.Text(0, -35*scale, 5*scale, fmt.Sprintf("%d HOLES %%%%c%g", across*up, d))
	}
	forms := dxftest.Forms()
	return b.As(forms[rng.IntN(len(forms))])
}

// variedFolder writes n drawings into folders of 500.
func variedFolder(b *testing.B, n int) string {
	dir := b.TempDir()
	rng := rand.New(rand.NewPCG(10, 10))
	for i := range n {
		sub := filepath.Join(dir, fmt.Sprintf("batch-%03d", i/500))
		if err := os.MkdirAll(sub, 0o755); err != nil {
			b.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(sub, fmt.Sprintf("part-%05d.dxf", i)), variedDrawing(rng), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	return dir
}

// BenchmarkFolder is the whole command as a process over a folder of small
// drawings: how many a second, and the most memory that it held.
func BenchmarkFolder(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		dir := variedFolder(b, n)
		for _, form := range []string{"--brief", "--json"} {
			b.Run(fmt.Sprintf("%d%s", n, form), func(b *testing.B) {
				peak, cpu := 0.0, 0.0
				for b.Loop() {
					cmd := exec.Command(os.Args[0], "check", dir, form)
					cmd.Env = append(os.Environ(), commandVariable+"=1")
					cmd.Stdout, cmd.Stderr = io.Discard, io.Discard
					cmd.Run() // what does not fit gives a status
					if c := cmd.ProcessState.ExitCode(); c != exitFits && c != exitDoesNot {
						b.Fatalf("exit %d", c)
					}
					peak = max(peak, peakMB(cmd.ProcessState))
					cpu += (cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds()
				}
				b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "drawings/s")
				b.ReportMetric(cpu/float64(b.N), "cpu-s/op")
				b.ReportMetric(peak, "peak-MB")
			})
		}
	}
}
