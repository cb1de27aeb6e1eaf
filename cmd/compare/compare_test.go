package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"burrside/features/geom"
)

// TestGenerated: the generated drawing is read whole, and equal each time.
func TestGenerated(t *testing.T) {
	dir := t.TempDir()
	var all [2][]byte
	for i := range all {
		path := filepath.Join(dir, "a.dxf")
		if err := writeDrawing(path, 200_000); err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		all[i] = data
		var out bytes.Buffer
		if err := printCounts(context.Background(), &out, path); err != nil {
			t.Fatal(err)
		}
		counts, err := parseCounts(out.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		for kind, entity := range map[string]string{"LINE": "LINE", "ARC": "ARC", "CIRCLE": "CIRCLE", "POLYLINE": "LWPOLYLINE", "TEXT": "TEXT"} {
			if want := bytes.Count(data, []byte("  0\n"+entity+"\n")); want == 0 || counts[kind] != want {
				t.Errorf("%d of %s, the file holds %d", counts[kind], kind, want)
			}
		}
	}
	if !bytes.Equal(all[0], all[1]) {
		t.Error("two files of one size differ")
	}
}

// TestFaces: every polygon is a face, and one more where a line crosses it, with
// the ends equal and with the ends apart.
func TestFaces(t *testing.T) {
	exact, moved := looseEdges(2051) // room for 50 pairs of 21 and 20 edges
	for _, list := range [][]geom.Edge{exact, moved} {
		got, err := joinedFaces(context.Background(), list)
		if err != nil {
			t.Fatal(err)
		}
		if len(list) != 2050 || got != 150 {
			t.Errorf("%d edges give %d faces, want 2050 and 150", len(list), got)
		}
	}
}

func TestCountsText(t *testing.T) {
	ours := map[string]int{"LINE": 3, "ARC": 1}
	for _, c := range []struct {
		counts map[string]int
		want   string
	}{
		{map[string]int{"LINE": 3, "ARC": 1}, "4, the same of each kind"},
		{map[string]int{"LINE": 2, "TEXT": 1}, "3 (ARC 0, burrside 1; LINE 2, burrside 3; TEXT 1, burrside 0)"},
	} {
		if got := countsText(c.counts, ours); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestFailingReader: a reader that fails has a row that says so, and the others
// are still timed.
func TestFailingReader(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.dxf")
	if err := writeDrawing(path, 20_000); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := compareReading(context.Background(), &out, []reader{{name: "nobody", command: []string{filepath.Join(t.TempDir(), "nothing")}}}, path, 1); err != nil {
		t.Fatal(err)
	}
	if s := out.String(); !strings.Contains(s, "nobody") || !strings.Contains(s, "failed: ") || !strings.Contains(s, "burrside in process") {
		t.Error(s)
	}
}

func TestBestOf(t *testing.T) {
	n := 0
	best, err := bestOf(5, func() (time.Duration, error) { n++; return time.Duration(10 - n), nil })
	if err != nil || best.runs != 5 || best.cpu != 5 {
		t.Errorf("%+v, %v; want 5 runs and the least, 5", best, err)
	}
	if _, err := bestOf(2, func() (time.Duration, error) { return 0, errors.ErrUnsupported }); err == nil {
		t.Error("no error")
	}
}
